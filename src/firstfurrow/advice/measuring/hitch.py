"""The three arms: the category from pins or holes and the span; worn, narrow and imported small ones too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from firstfurrow.advice.measuring.matching import Candidate, Probe, Way, column, match
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.slips import slips
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, length, limit, measuring_of
from firstfurrow.book.model import Book, Figure, Grade, Row
from firstfurrow.mechanics.measuring import span_of_balls

TABLE = "hitch_categories"
SMALL = ("0", "type_0")  # which of them depends on the country where it was first sold
OLDER = ("2", "3")  # in the United States these once had a lower mast
NEEDED = ("lower", "span")


def find(book: Book, readings: Readings) -> Finding:
    """The category."""
    tell = Teller(book)
    rows = tuple(row for row in book.tables[TABLE].rows.values() if "span_implement" in row.figures)
    probes = tuple(_probes(book, readings))
    named = Named(tell, "hitch", rows, probes, NEEDED, measuring_of(book).stations["hitch"].usual)
    found = Finding(named.what(), named.other(), named.next(), ())
    return _more(book, readings, named, found)


# ---------------------------------------------------------------------- probes


def _probes(book: Book, readings: Readings) -> Iterator[Probe]:
    for part, pin, hole in (("lower", "lower_stud", "lower_ball_hole"), ("upper", "upper_pin", "upper_hole")):
        as_pin, as_hole = _pin(book, pin), _hole(book, hole)
        ways = {"pin": (as_pin,), "hole": (as_hole,), "any": (as_pin, as_hole)}
        for step, read in ways.items():
            value = readings.get(f"{part}_{step}")
            if isinstance(value, float):
                yield Probe(part, f"{part}_{step}", value, read)
    span = readings.get("span")
    if isinstance(span, float):
        yield Probe("span", "span", span, _span_ways(book, readings.get("span_between")))


def _pin(book: Book, name: str) -> Way:
    """A pin only gets thinner."""
    tape = limit(book, "tape")
    return Way(column(name), tape, limit(book, "wear_pin"), tape)


def _hole(book: Book, name: str) -> Way:
    """A hole only gets wider."""
    tape = limit(book, "tape")
    return Way(column(name), tape, tape, limit(book, "wear_hole"))


def _span_ways(book: Book, between: object) -> tuple[Way, ...]:
    play = limit(book, "span_play")
    shoulders, centres = Way(column("span_implement"), play, play, play), Way(_centres, play, play, play)
    return {"shoulders": (shoulders,), "centres": (centres,)}.get(str(between), (shoulders, centres))


def _centres(row: Row) -> Figure | None:
    """The span between ball centres: the book's own, else by the rule of one ball width.

    Where no ball width is known, the book does not say between which points its span is; it counts for both.
    """
    own, span, ball = (row.figures.get(c) for c in ("span_tractor", "span_implement", "lower_ball_width"))
    if own is not None or span is None or ball is None:
        return own or span
    value = span_of_balls(span=span.planning, ball=ball.planning)
    grade: Grade = "memory" if "memory" in (span.grade, ball.grade) else "derived"
    return replace(span, low=value, planning=value, high=value, grade=grade)


# ------------------------------------------------------------------ remarks


def _more(book: Book, readings: Readings, named: Named, found: Finding) -> Finding:
    tell, one = named.tell, named.one
    what, other, next_, care = [*found.what], [*found.other], [*found.next], []
    if not named.best and named.probes:
        turned = (*_other_points(book, readings, named), *slips(named))
        what += () if turned else _clash(tell, named)
        other = [*turned, *other]
    what += _mast(book, readings, named)
    if one is not None and one.row.id.endswith("N"):
        what.append(tell("hitch_narrow"))
    at_tractor = readings.get("side") != "implement"
    if at_tractor:
        other += [tell("else_same_pins", name=row.name) for row in _same_pins(book, named.best)]
    if readings.get("state") == "sleeve":
        what.append(tell("hitch_sleeve_find"))
        care.append(tell("hitch_sleeve"))
    if readings.get("state") == "worn" or named.worn:
        care.append(tell("hitch_worn_pin"))
        next_.append(tell("next_worn"))
    if any(c.row.id in SMALL for c in named.best):
        next_.append(tell("next_origin"))
    if one is not None and "upper" not in {p.part for p in named.probes}:
        next_.append(tell("next_upper"))
    if one is not None:
        next_.append(tell("next_other_side"))
    if named.best and not other:
        other.append(tell("else_none"))
    care.append(tell("hitch_care"))
    return Finding(tuple(what), tuple(other), tuple(next_), tuple(care))


def _clash(tell: Teller, named: Named) -> Iterator[str]:
    """Why nothing fits: an upper pin taken for a lower one, or pins of one category on the span of another."""
    by_part = {probe.part: probe for probe in named.probes}
    lower, span = by_part.get("lower"), by_part.get("span")
    if lower is None:
        return
    as_lower = _names(named.rows, lower)
    if not as_lower:
        upper_ways = tuple(
            replace(way, figure=column(name), below=way.near, above=way.near)
            for way in lower.ways
            for name in ("upper_pin", "upper_hole")
        )
        as_upper = _names(named.rows, Probe("upper", "upper_any", lower.value, upper_ways))
        if as_upper:
            yield tell("hitch_top_pin", measured=length(lower.value), name=as_upper)
    elif span is not None and (as_span := _names(named.rows, span)):
        yield tell("hitch_bushed", lower=as_lower, span=as_span)


def _names(rows: Sequence[Row], probe: Probe) -> str:
    return ", ".join(c.row.name for c in match(rows, (probe,)) if c.possible)


def _other_points(book: Book, readings: Readings, named: Named) -> Iterator[str]:
    """What it is if the span was taken between the other points."""
    said = readings.get("span_between")
    if said not in ("shoulders", "centres"):
        return
    points = "centres" if said == "shoulders" else "shoulders"
    ways = _span_ways(book, points)
    turned = [replace(p, ways=ways) if p.part == "span" else p for p in named.probes]
    for candidate in match(named.rows, turned):
        if candidate.possible:
            yield named.tell("else_other_points", name=candidate.row.name, points=named.tell(f"points_{points}"))


def _same_pins(book: Book, best: Sequence[Candidate]) -> Iterator[Row]:
    """Rows without a span that go with a best candidate and have its pins: a tape cannot tell them."""
    for row in book.tables[TABLE].rows.values():
        pins = row["lower_stud"].planning
        fitting = any(c.row.id in row.words["fits"] and c.row["lower_stud"].planning == pins for c in best)
        if "span_implement" not in row.figures and fitting:
            yield row


def _mast(book: Book, readings: Readings, named: Named) -> Iterator[str]:
    value, one = readings.get("mast"), named.one
    figure = one.row.figures.get("mast_height") if one is not None else None
    if not isinstance(value, float) or one is None or figure is None:
        return
    play, less = limit(book, "mast_play"), measuring_of(book).figures["old_mast"].planning
    slots = {"measured": length(value), "name": one.row.name, "figure": length(figure.planning)}
    if abs(value - figure.planning) <= play:
        yield named.tell("hitch_mast_fits", **slots)
    elif one.row.id.rstrip("N") in OLDER and abs(value - (figure.planning - less)) <= play:
        yield named.tell("hitch_mast_old", less=length(less), **slots)
    else:
        yield named.tell("hitch_mast_odd", **slots)
