"""The page of one offer: what runs, what is short, what is met, and what to settle before signing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from firstfurrow.advice.offers.asked import COMFORT
from firstfurrow.advice.offers.checked import CheckedOffer
from firstfurrow.advice.offers.compare import NEVER
from firstfurrow.advice.offers.items import ItemVerdict, mendable
from firstfurrow.advice.offers.seller import DRIVER, Question
from firstfurrow.advice.offers.verdicts import LIFTS, Verdict
from firstfurrow.quantities import format_number
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph
from firstfurrow.report.offer_words import OPEN, Words

MOST_ASKED = 5  # questions before signing that anybody asks
WHOLE = 3  # of what is short, said with what can be done about it
OWN_CAUTION = (DRIVER, "driven_wheels")  # where the first caution is for a tractor that has it


def offer_blocks(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """The page of one offer."""
    yield Heading(one.offer.name)
    if one.items:
        yield Heading(words.say("offers_items"), 3)
        yield Bullets(tuple(item_line(item, words) for item in one.items))
        yield from _on_two(one, words)
    later = {q.verdict.requirement.id for q in one.questions[:MOST_ASKED] if q.why == "fit"}  # said before signing
    short = [
        _short(one, v, words, whole=n < WHOLE and v.requirement.id not in later)
        for n, v in enumerate(lacking(one))
    ]
    if short:
        yield Heading(words.say("offers_short"), 3)
        yield Bullets(tuple(short))
    yield from _met(one, words)
    if one.traps:
        yield Heading(words.say("offers_traps"), 3)
        yield Bullets(tuple(words.say(f"trap.{trap.id}") for trap in one.traps), "caution")
    yield Heading(words.say("offers_sign"), 3)
    yield from _before_signing(one, words)
    yours = [v.requirement.title for v in one.judged.verdicts.values() if v.status == "unknown" and v.need is None]
    yours += [item.hookup.name for item in one.items if item.hookup.size_open and not item.any_size]
    if yours:
        yield Paragraph(words.say("offers_yours", titles="; ".join(yours)))


def item_line(item: ItemVerdict, words: Words) -> str:
    """Whether one implement runs, in one sentence or two."""
    name = item.hookup.name
    if item.hookup.refused is not None:
        return words.say("offers_refused_item", name=name, title=item.hookup.refused)
    ask = "; ".join(words.open(v) for v in once(still_open(item)))
    lacks = "; ".join(_lacks(v, words) for v in once(item.never))
    put_right = "; ".join(_lacks(v, words) for v in once(item.if_))
    if item.size_open:
        line = words.say("offers_size_open", name=name, what=lacks)
        more = [words.say("offers_size_open_if", what=put_right)] if put_right else []
        return " ".join([line, *more, *([words.say("offers_size_open_ask", what=ask)] if ask else [])])
    if item.runs == "does_not":
        return words.say("offers_no_size" if item.any_size else "offers_does_not", name=name, what=lacks)
    if item.runs == "runs_if":
        line = words.say("offers_runs_if_ask" if ask else "offers_runs_if", name=name, what=put_right, ask=ask)
    elif item.runs == "unknown":
        line = words.say("offers_unknown", name=name, ask=ask)
    else:
        line = words.say("offers_runs_later" if item.hookup.later else "offers_runs", name=name)
    return " ".join([line, *([words.say("offers_usual_size")] if item.hookup.size_open else [])])


def _on_two(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """Two driven wheels where four are advised: what that asks of the driver stands beside what runs."""
    names = [item.hookup.name for item in one.items if any(v.how == "two_enough" for v in item.ask)]
    if names:
        about = words.say("offers_two_names", names="; ".join(names))
        parts = (words.say("offers_two_enough"), about, words.say("offers_two_caution"))
        yield Paragraph(" ".join(parts), "caution")


def lacking(one: CheckedOffer) -> list[Verdict]:
    """What is short: the driver's bar first, then what keeps most from running."""
    short = tuple(v for v in one.judged.verdicts.values() if v.status == "short")
    stops: Counter[str] = Counter()
    for item in one.items:
        stops.update({"lift" if v.requirement.id in LIFTS else v.requirement.id for v in (*item.never, *item.if_)})

    def order(verdict: Verdict) -> tuple[bool, int]:
        id_ = verdict.requirement.id
        return id_ != DRIVER, -stops["lift" if id_ in LIFTS else id_]

    return sorted(once(short), key=order)


def still_open(item: ItemVerdict) -> tuple[Verdict, ...]:
    """What nobody knows yet; no pull where the weight is judged, for nobody can tell it before it has pulled."""
    pull = "drawbar_pull" if "mass" in item.hookup.needs else ""
    return tuple(v for v in item.ask if v.requirement.id != pull) or item.ask


def once(verdicts: tuple[Verdict, ...]) -> list[Verdict]:
    """The three lifts are one thing: the one that says how much is missing stands for them.

    So are the balance and the weights in front: the weights where so many are enough, else the balance.
    """
    lifts = sorted((v for v in verdicts if v.requirement.id in LIFTS), key=lambda v: v.gap is None)
    short = {v.requirement.id: v for v in verdicts if v.status == "short"}
    said_already = set(LIFTS)
    if "mass_balance" in short and "front_ballast" in short:
        said_already.add("front_ballast" if short["front_ballast"].need == NEVER else "mass_balance")
    return [v for v in verdicts if v.requirement.id not in said_already] + lifts[:1]


def _lacks(verdict: Verdict, words: Words) -> str:
    gap = words.gap(verdict)
    brief = words.brief(verdict)
    return brief if gap is None else words.say("offers_short_of_gap", what=brief, gap=gap)


def _short(one: CheckedOffer, verdict: Verdict, words: Words, *, whole: bool) -> str:
    """One thing that is short, with its caution; what can be done about it only where there is room for it."""
    requirement = verdict.requirement
    slots: dict[str, Any] = {"title": requirement.title, "has": words.has(verdict)}
    gap = words.gap(verdict)
    never = verdict.need == NEVER or _absurd(verdict)
    way = [requirement.later_what] if whole and verdict.need != NEVER else []
    if not never and requirement.later != "no" and not mendable(one.book, verdict):
        way.insert(0, words.say("offers_not_mendable"))
    if verdict.later_only:
        way.append(words.say("offers_only_later"))
    if requirement.id == COMFORT:
        way.append(words.say("offers_comfort"))
    way.append(_guessed(one, verdict, words))
    if requirement.id in OWN_CAUTION:
        way.append(words.say("offers_caution", text=words.say(f"offers_lacking.{requirement.id}")))
    elif requirement.cautions:
        way.append(words.say("offers_caution", text=requirement.cautions[0]))
    joined = " ".join(filter(None, way))
    if never:
        return words.say("offers_short_never", way=joined, **slots).strip()
    if gap is not None:
        return words.say("offers_short_line", way=joined, gap=gap, need=words.need(verdict), **slots).strip()
    return words.say("offers_short_word", way=joined, need=words.need(verdict), **slots).strip()


def _guessed(one: CheckedOffer, verdict: Verdict, words: Words) -> str:
    """Said where only tools of the buyer ask for it, in sizes which nobody has measured; else nothing."""
    requirement = verdict.requirement
    if not requirement.unit and requirement.id != "hitch_category":
        return ""  # no tape changes that
    same = LIFTS if requirement.id in LIFTS else (requirement.id,)
    mine = [i for i in one.items if any(v.requirement.id in same for v in (*i.never, *i.if_, *i.ask))]
    if not mine or not all(item.hookup.size_open and not item.any_size for item in mine):
        return ""
    return words.say("offers_guessed", names="; ".join(item.hookup.name for item in mine))


def _absurd(verdict: Verdict) -> bool:
    """More than twice the weight of the tractor is no ballast, it is another tractor."""
    heavy = verdict.requirement.id in ("mass", "mass_towing", "mass_balance") and verdict.has is not None
    return heavy and verdict.need > 2 * verdict.has[0] > 0


def _unknown(verdict: Verdict, words: Words) -> str:
    """What is asked for, and what is known of it."""
    slots = {"title": verdict.requirement.title, "need": words.need(verdict)}
    sentence = {
        "likely": "offers_unknown_likely", "two_wheels": "offers_unknown_wheels", "tread": "offers_unknown_tread",
        "band": "offers_unknown_band", "limited": "offers_unknown_limited",
    }.get(verdict.how, "offers_unknown_line" if verdict.has is None else "offers_unknown_bound")  # fmt: skip
    return words.say(sentence, has=words.has(verdict), **slots)


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


def _before_signing(one: CheckedOffer, words: Words) -> Iterator[Block]:
    """The five that matter most in full, the rest by name."""
    if one.items and all(item.hookup.refused is not None for item in one.items):
        yield Paragraph(words.say("offers_leave_work"))
        return
    if one.items and all(item.runs == "does_not" for item in one.items):
        yield Paragraph(words.say("offers_leave"))
        return
    asked = tuple(_question(question, one, words) for question in one.questions[:MOST_ASKED])
    yield Bullets(asked) if asked else Paragraph(words.say("offers_nothing_open"))
    rest = [words.brief(question.verdict) for question in one.questions[MOST_ASKED:]]
    if rest:
        yield Paragraph(words.say("offers_ask_rest", listed="; ".join(rest)))


def _question(question: Question, one: CheckedOffer, words: Words) -> str:
    said = _plain_question(question, one, words)
    of_one_size = "" if question.why == "close" else _guessed(one, question.verdict, words)
    return f"{said} {of_one_size}".strip()


def _plain_question(question: Question, one: CheckedOffer, words: Words) -> str:
    verdict = question.verdict
    requirement = verdict.requirement
    if question.why == "fit":
        need, has, way = words.need(verdict), words.has(verdict), requirement.later_what
        return words.say("offers_ask_fit", title=requirement.title, need=need, has=has, way=way)
    if question.why == "close":
        return words.say(
            "offers_ask_close", title=requirement.title, has=words.has(verdict), need=words.need(verdict),
            check=requirement.check,
        )  # fmt: skip
    if verdict.how == "two_enough":
        return words.say("offers_ask_two", title=requirement.title)
    if requirement.id == "lift_610":
        likely = [v for item in one.items if item.runs != "does_not" for v in item.ask if v.how == "likely"]
        verdict = max(likely, key=lambda v: float(v.need), default=verdict)
    parts = [_unknown(verdict, words)]
    if len(question.keys) > 1:
        keys = ", ".join(words.book.offer_keys[key].name for key in question.keys)
        parts.append(words.say("offers_ask_keys", keys=keys))
    parts.append(requirement.check)
    if verdict.how in OPEN:
        parts.append(words.say("offers_caution", text=requirement.cautions[0]))
    return " ".join(parts)
