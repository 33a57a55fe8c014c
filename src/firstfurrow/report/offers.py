"""Offers held against a profile, as content blocks: the list, side by side, and one page for each offer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from firstfurrow.advice.offers.asked import COMFORT, SELDOM_DECIDES
from firstfurrow.advice.offers.checked import Checked, CheckedOffer
from firstfurrow.advice.offers.compare import NEVER
from firstfurrow.advice.offers.items import ItemVerdict, mendable
from firstfurrow.advice.offers.verdicts import LIFTS, Verdict
from firstfurrow.quantities import format_number
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph, Table
from firstfurrow.report.offer_words import Words

SIDE_BY_SIDE = 3  # more columns than this cannot be read
MOST_ASKED = 5  # questions before signing that anybody asks
MOST_IN_SHORT = 3  # reasons in a line of the summary
IN_FULL = 3  # of a long list
SAID_ELSEWHERE = ("by_610", "by_ball_ends")  # it rests on another verdict that is said
SHOWN_BESIDE = ("short", "unknown", "meets")


def offers_document(checked: Checked) -> Document:
    """The whole page."""
    return tuple(_blocks(checked, Words(checked.profile)))


def _blocks(checked: Checked, words: Words) -> Iterator[Block]:
    profile = checked.profile
    yield Heading(words.say("offers_title"), 1)
    if profile.scenario is not None:
        yield Paragraph(words.say("offers_scenario", name=profile.scenario), "strong")
        for note in profile.plan.notes:
            yield Paragraph(note)
    if not any(o.status == "determined" for o in profile.outcomes.values()) and not checked.refused:
        yield Paragraph(words.say("offers_none"))
        return
    for one in checked.best_first[: IN_FULL if len(checked.offers) > SIDE_BY_SIDE else None]:
        yield Paragraph(one.offer.name, "strong")
        yield Bullets(tuple(_in_short(one, words)))
    yield Paragraph(words.say("offers_intro"))
    for refusal in profile.refusals:
        sentence = "offers_advised" if refusal.kind in SELDOM_DECIDES else "offers_refused"
        yield Paragraph(words.say(sentence, title=refusal.title, reason=refusal.reason), "caution")
        if refusal.caution:
            yield Paragraph(refusal.caution, "caution")
    if len(checked.offers) > 1:
        yield from _list(checked, words)
    if 1 < len(checked.offers) <= SIDE_BY_SIDE:
        yield from _side_by_side(checked, words)
    for one in checked.best_first[: IN_FULL if len(checked.offers) > SIDE_BY_SIDE else None]:
        yield from _offer(one, words)
    yield Paragraph(words.say("not_covered"), "caution")
    yield Paragraph(words.say("manuals"), "caution")


# --------------------------------------------------------------------- several offers


def _list(checked: Checked, words: Words) -> Iterator[Block]:
    yield Heading(words.say("offers_list"))
    headers = ("offer", "runs", "not", "short", "unknown")
    rows = []
    for one in checked.best_first:
        standing = one.standing
        counted = words.say("offers_runs_summary", count=standing.runs, all=standing.items)
        numbers = (standing.does_not, standing.short, standing.unknown)
        rows.append((one.offer.name, counted, *map(str, numbers)))
    yield Table(tuple(words.say(f"offers_column_{h}") for h in headers), tuple(rows))
    if len(checked.offers) > SIDE_BY_SIDE:
        yield Paragraph(words.say("offers_first", count=IN_FULL))


def _side_by_side(checked: Checked, words: Words) -> Iterator[Block]:
    """The requirements in which the offers differ, the best offer first."""
    yield Heading(words.say("offers_side"))
    offers = checked.best_first
    rows, same = [], []
    for id_, requirement in checked.profile.book.requirements.items():
        verdicts = [one.judged.verdicts.get(id_) for one in offers]
        if not any(v is not None and v.status in SHOWN_BESIDE for v in verdicts):
            continue
        cells = tuple(_cell(words, v) for v in verdicts)
        if len(set(cells)) > 1:
            rows.append((requirement.title, *cells))
        else:
            same.append(words.say("offers_same_cell", title=requirement.title, cell=cells[0]))
    if rows:
        yield Table((words.say("column_what"), *(one.offer.name for one in offers)), tuple(rows))
    if same:
        yield Paragraph(words.say("offers_same", listed="; ".join(same)))


def _cell(words: Words, verdict: Verdict | None) -> str:
    if verdict is None:
        return words.say("offers_cell.not_needed")
    gap = words.gap(verdict)
    if verdict.status == "short" and gap is not None:
        return words.say("offers_cell_gap", gap=gap)
    return words.say(f"offers_cell.{verdict.status}")


# --------------------------------------------------------------------------- one offer


def _offer(one: CheckedOffer, words: Words) -> Iterator[Block]:
    yield Heading(one.offer.name)
    if one.items:
        yield Heading(words.say("offers_items"), 3)
        yield Bullets(tuple(_item(item, words) for item in one.items))
    verdicts = one.judged.verdicts
    weights = verdicts.get("front_ballast")
    mended = weights is not None and weights.status == "short" and weights.need != NEVER
    lacking = tuple(
        v for id_, v in verdicts.items() if v.status == "short" and not (mended and id_ == "mass_balance")
    )  # the weights that mend it are said instead
    short = [_short(one, v, words, whole=n < IN_FULL) for n, v in enumerate(_once(lacking))]
    if short:
        yield Heading(words.say("offers_short"), 3)
        yield Bullets(tuple(short))
    asked_about = {q.verdict.requirement.id for q in one.questions} | {"drawbar_pull"}
    asked_about |= set(LIFTS) if asked_about & set(LIFTS) else set()  # one question about lift, and none about a pull
    unknown = [
        _unknown(v, words) for id_, v in verdicts.items()
        if v.status == "unknown" and v.how not in SAID_ELSEWHERE and id_ not in asked_about and v.need is not None
    ]  # fmt: skip
    if unknown and one.questions:
        yield Heading(words.say("offers_unknown_head"), 3)
        yield Bullets(tuple(unknown))
    yield from _met(one, words)
    if one.traps:
        yield Heading(words.say("offers_traps"), 3)
        yield Bullets(tuple(words.say(f"trap.{trap.id}") for trap in one.traps), "caution")
    yield Heading(words.say("offers_sign"), 3)
    yield from _before_signing(one, words)
    yours = [v.requirement.title for v in verdicts.values() if v.status == "unknown" and v.need is None]
    yours += [item.hookup.name for item in one.items if item.size_open]
    if yours:
        yield Paragraph(words.say("offers_yours", titles="; ".join(yours)))


def _before_signing(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """The five that matter most in full, the rest by name."""
    if one.items and all(item.runs == "does_not" for item in one.items):
        yield Paragraph(words.say("offers_leave"))
        return
    asked = tuple(_question(question, words) for question in one.questions[:MOST_ASKED])
    yield Bullets(asked) if asked else Paragraph(words.say("offers_nothing_open"))
    rest = [words.brief(question.verdict) for question in one.questions[MOST_ASKED:]]
    if rest:
        yield Paragraph(words.say("offers_ask_rest", listed="; ".join(rest)))


def _in_short(one: CheckedOffer, words: Words) -> Iterator[str]:
    """What runs, what would, what does not: a line each with the names, so that the first screen is the answer."""
    for runs in ("runs", "runs_if", "unknown", "does_not"):
        mine = [item for item in one.items if item.runs == runs]
        if not mine:
            continue
        names = "; ".join(item.hookup.name for item in mine)
        wanted = {"runs_if": "if_", "unknown": "ask", "does_not": "never"}.get(runs)
        count: Counter[str] = Counter()
        for item in mine:
            count.update(words.brief(v) for v in _once(getattr(item, wanted) if wanted else ()))
        most = "; ".join(name for name, _ in count.most_common(MOST_IN_SHORT))
        yield words.say(f"offers_short_{runs}", names=names, what=most) if most else words.say(
            "offers_short_plain", names=names, what=words.say(f"offers_plain.{runs}")
        )


def _item(item: ItemVerdict, words: Words) -> str:
    name = item.hookup.name
    if item.hookup.refused is not None:
        return words.say("offers_refused_item", name=name, title=item.hookup.refused)
    ask = "; ".join(words.brief(v) for v in _once(item.ask))
    if item.size_open:
        return words.say("offers_size_open", name=name, what="; ".join(_lacks(v, words) for v in _once(item.never)))
    if item.runs == "does_not":
        what = "; ".join(_lacks(v, words) for v in _once(item.never))
        return words.say("offers_does_not", name=name, what=what)
    if item.runs == "runs_if":
        what = "; ".join(_lacks(v, words) for v in _once(item.if_))
        if ask:
            return words.say("offers_runs_if_ask", name=name, what=what, ask=ask)
        return words.say("offers_runs_if", name=name, what=what)
    if item.runs == "unknown":
        return words.say("offers_unknown", name=name, ask=ask)
    return words.say("offers_runs_later" if item.hookup.later else "offers_runs", name=name)


def _once(verdicts: tuple[Verdict, ...]) -> list[Verdict]:
    """The three lifts are one thing: the one that says how much is missing stands for them."""
    lifts = sorted((v for v in verdicts if v.requirement.id in LIFTS), key=lambda v: v.gap is None)
    return [v for v in verdicts if v.requirement.id not in LIFTS] + lifts[:1]


def _lacks(verdict: Verdict, words: Words) -> str:
    gap = words.gap(verdict)
    brief = words.brief(verdict)
    return brief if gap is None else words.say("offers_short_of_gap", what=brief, gap=gap)


def _short(one: CheckedOffer, verdict: Verdict, words: Words, *, whole: bool) -> str:
    """One thing that is short; what can be done about it, and the caution, only where there is room for it."""
    requirement = verdict.requirement
    slots: dict[str, Any] = {"title": requirement.title, "has": words.has(verdict)}
    gap = words.gap(verdict)
    never = verdict.need == NEVER
    way = [] if never or not whole else [requirement.later_what]
    if not never and requirement.later != "no" and not mendable(one.book, verdict):
        way.insert(0, words.say("offers_not_mendable"))
    if verdict.later_only:
        way.append(words.say("offers_only_later"))
    if requirement.id == COMFORT:
        way.append(words.say("offers_comfort"))
    if requirement.cautions and whole:
        way.append(words.say("offers_caution", text=requirement.cautions[0]))
    joined = " ".join(way)
    if never or _absurd(verdict):
        return words.say("offers_short_never", way=joined, **slots).strip()
    if gap is not None:
        return words.say("offers_short_line", way=joined, gap=gap, need=words.need(verdict), **slots).strip()
    return words.say("offers_short_word", way=joined, need=words.need(verdict), **slots).strip()


def _absurd(verdict: Verdict) -> bool:
    """More than twice the weight of the tractor is no ballast, it is another tractor."""
    heavy = verdict.requirement.id in ("mass", "mass_towing", "mass_balance") and verdict.has is not None
    return heavy and verdict.need > 2 * verdict.has[0] > 0


def _unknown(verdict: Verdict, words: Words) -> str:
    title = verdict.requirement.title
    need = words.need(verdict)
    if verdict.how == "likely":
        return words.say("offers_unknown_likely", title=title, need=need, has=words.has(verdict))
    if verdict.how == "two_wheels":
        return words.say("offers_unknown_wheels", title=title, need=need)
    if verdict.how == "tread":
        return words.say("offers_unknown_tread", title=title, need=need)
    if verdict.has is not None:
        return words.say("offers_unknown_bound", title=title, need=need, has=words.has(verdict))
    return words.say("offers_unknown_line", title=title, need=need)


def _met(one: CheckedOffer, words: Words) -> Iterator[Block]:
    verdicts = one.judged.verdicts.values()
    met = [v for v in verdicts if v.status == "meets"]
    if met:
        yield Paragraph(words.say("offers_meets", titles="; ".join(map(words.brief, met))))
    if any(v.how == "by_weight" for v in met):
        yield Paragraph(words.say("offers_by_weight"))
    again = [v for v in verdicts if v.how in ("exact", "two_lifts")]
    if again:
        yield Paragraph(words.say("offers_exact", titles="; ".join(map(words.brief, again))), "quiet")
    yield from _tyres(one, words)
    yield from _loader(one, words)
    by_drive = ("two_wheels", "by_tyres")
    two = [v for v in verdicts if v.how in by_drive and one.offer.get("driven_wheels") == "two"]
    if two:
        yield Paragraph(words.say("offers_two_wheels", titles="; ".join(map(words.brief, two))), "caution")


def _tyres(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """What the grip rests on where the offer says something of its tyres."""
    mass = one.judged.verdicts.get("mass")
    if mass is None:
        return
    why = one.judged.tyres_not_worked
    if why is not None:
        yield Paragraph(words.say(f"offers_tyres_not.{why}"), "quiet")
    elif mass.grip is not None:
        grip = mass.grip
        ends = [("rear", grip.rear)] if grip.front is None else [("front", grip.front), ("rear", grip.rear)]
        wheels = words.say("offers_tyres_and").join(
            words.say(
                f"offers_tyres_{end}", width=words.of(wheel.tyre.width * 1000, "mm"),
                height=words.of(wheel.tyre.diameter * 1000, "mm"), net=format_number(wheel.net, 3),
            )
            for end, wheel in ends
        )  # fmt: skip
        yield Paragraph(
            words.say(
                "offers_tyres", surface=grip.soil.name, slip=words.of(grip.soil.slip * 100, "%"),
                weight=words.of(grip.weight, "kg"), wheels=wheels, ratio=format_number(grip.ratio, 3),
            )
        )  # fmt: skip
        if grip.capped:
            yield Paragraph(words.say("offers_tyres_capped", ratio=format_number(grip.ratio, 3)))
        yield Paragraph(words.say("offers_tyres_caution"), "caution")
    elif mass.how == "by_tyres":
        yield Paragraph(words.say("offers_tyres_never", surface=one.judge.exact.soil.name), "caution")


def _loader(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """With or without its loader: in which state the front wheels stay down."""
    state = one.judged.loader
    if state is None or "mass_balance" not in one.judged.verdicts:
        return
    said = one.offer.said
    slots = {key: said[key].text for key in ("loader_mass", "loader_ahead") if key in said}
    if state != "on":
        yield Paragraph(words.say(f"offers_loader.{state}"))
        return
    usual = "loader_ahead" not in said
    yield Paragraph(words.say("offers_loader.usual" if usual else "offers_loader.on", **slots))
    yield Paragraph(words.say("offers_loader_caution"), "caution")


def _question(question: Any, words: Words) -> str:
    verdict: Verdict = question.verdict
    requirement = verdict.requirement
    if question.why == "fit":
        need, way = words.need(verdict), requirement.later_what
        return words.say("offers_ask_fit", title=requirement.title, need=need, way=way)
    if question.why == "close":
        return words.say(
            "offers_ask_close", title=requirement.title, has=words.has(verdict), need=words.need(verdict),
            check=requirement.check,
        )  # fmt: skip
    keys = ", ".join(words.book.offer_keys[key].name for key in question.keys)
    if len(question.keys) < 2 and verdict.how != "tread":
        return words.say("offers_ask_plain", title=requirement.title, check=requirement.check)
    return words.say("offers_ask", title=requirement.title, keys=keys, check=requirement.check)


def item_lines(checked: Checked) -> dict[str, str]:
    """Whether each implement runs behind the first offer, in one sentence each, by the id of the implement."""
    words = Words(checked.profile)
    return {item.hookup.id: _item(item, words) for item in checked.offers[0].items}
