"""Offers held against a profile, as content blocks: in short, the list, side by side, and a page for each offer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from firstfurrow.advice.offers.asked import SELDOM_DECIDES
from firstfurrow.advice.offers.checked import Checked, CheckedOffer
from firstfurrow.advice.offers.items import ItemVerdict
from firstfurrow.advice.offers.verdicts import LIFTS, Verdict
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph, Table
from firstfurrow.report.offer_words import Words
from firstfurrow.report.one_offer import item_line, lacking, offer_blocks, once, still_open

SIDE_BY_SIDE = 3  # more columns than this cannot be read
MOST_IN_SHORT = 3  # reasons in a line of the summary
IN_FULL = 3  # of a long list
IN_SHORT = ("runs", "runs_usual", "runs_if", "unknown", "measure", "does_not", "refused")  # the sorts of the summary
_REASONS = {"runs_if": "if_", "unknown": "ask", "measure": "never", "does_not": "never"}
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
    refused = [refusal.title for refusal in profile.refusals if refusal.kind not in SELDOM_DECIDES]
    if refused:
        yield Paragraph(words.say("offers_short_land", titles="; ".join(refused)), "caution")
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
        yield from offer_blocks(one, words)
    yield Paragraph(words.say("not_covered"), "caution")
    yield Paragraph(words.say("manuals"), "caution")


# --------------------------------------------------------------------- several offers


def _list(checked: Checked, words: Words) -> Iterator[Block]:
    """How many implements run, and how many may, the best offer first."""
    yield Heading(words.say("offers_list"))
    rows = []
    for one in checked.best_first:
        standing = one.standing
        open_ = standing.items - standing.runs - standing.runs_if - standing.does_not
        counts = (standing.runs, standing.runs_if, open_, standing.does_not)
        rows.append((one.offer.name, *map(str, counts)))
    headers = ("offer", "runs", "runs_if", "unknown", "not")
    yield Table(tuple(words.say(f"offers_column_{h}") for h in headers), tuple(rows))
    if len(checked.offers) > SIDE_BY_SIDE:
        yield Paragraph(words.say("offers_first", count=IN_FULL))


def _side_by_side(checked: Checked, words: Words) -> Iterator[Block]:
    """The requirements in which the offers differ, the best offer first."""
    yield Heading(words.say("offers_side"))
    offers = checked.best_first
    rows: list[tuple[str, ...]] = []
    same: dict[str, list[str]] = {}
    for id_, requirement in checked.profile.book.requirements.items():
        verdicts = [one.judged.verdicts.get(id_) for one in offers]
        if not any(v is not None and v.status in SHOWN_BESIDE for v in verdicts):
            continue
        if id_ == "drawbar_pull" and "mass" in offers[0].judged.verdicts and not any(v and v.has for v in verdicts):
            continue  # nobody measured it, and nobody is asked: its weight says most of it
        cells = tuple(_cell(words, v) for v in verdicts)
        if len(set(cells)) > 1:
            rows.append((requirement.title, *cells))
        else:
            same.setdefault(cells[0], []).append(words.short_name(requirement))
    if rows:
        yield Table((words.say("column_what"), *(one.offer.name for one in offers)), tuple(rows))
    for cell, titles in same.items():
        yield Paragraph(words.say("offers_same", cell=cell, listed="; ".join(titles)))


def _cell(words: Words, verdict: Verdict | None) -> str:
    if verdict is None:
        return words.say("offers_cell.not_needed")
    gap = words.gap(verdict)
    if verdict.status == "short" and gap is not None:
        return words.say("offers_cell_gap", gap=gap)
    if verdict.status == "unknown" and verdict.need is None:
        return words.say("offers_cell_measure")
    return words.say(f"offers_cell.{verdict.status}")


# ------------------------------------------------------------------------- in short


def _in_short(one: CheckedOffer, words: Words) -> Iterator[str]:
    """What runs, what would, what does not: a line each with the names, so that the first screen is the answer."""
    sorts: dict[str, list[ItemVerdict]] = {sort: [] for sort in IN_SHORT}
    for item in one.items:
        sorts[_sort(item)].append(item)
    for sort, mine in sorts.items():
        if mine:
            names = "; ".join(item.hookup.name for item in mine)
            line = words.say(f"offers_short_{sort}", names=names, what=_most(one, mine, _REASONS.get(sort, ""), words))
            still = _most(one, mine, "ask", words) if sort == "runs_if" else ""
            yield " ".join([line, *([words.say("offers_short_still", what=still)] if still else [])])
    of_items = {id_ for item in one.items for id_ in item.hookup.needs}
    of_items |= {v.requirement.id for item in one.items for v in item.if_}
    besides = [words.brief(v) for v in lacking(one) if v.requirement.id not in of_items]
    if besides:
        yield words.say("offers_short_besides", what="; ".join(besides))


def _sort(item: ItemVerdict) -> str:
    if item.hookup.refused is not None:
        return "refused"
    if item.size_open:
        return "measure"
    return "runs_usual" if item.runs == "runs" and item.hookup.size_open else item.runs


def _most(one: CheckedOffer, items: list[ItemVerdict], which: str, words: Words) -> str:
    """The reasons that come most often; of equals, what is asked before signing comes first."""
    place = {question.verdict.requirement.id: number for number, question in enumerate(one.questions)}
    count: Counter[str] = Counter()
    first: dict[str, int] = {}
    for item in items:
        for verdict in once(still_open(item) if which == "ask" else getattr(item, which, ())):
            id_ = "lift_610" if verdict.requirement.id in LIFTS else verdict.requirement.id
            count[words.open(verdict)] += 1
            first.setdefault(words.open(verdict), place.get(id_, len(place)))
    return "; ".join(sorted(count, key=lambda name: (-count[name], first[name]))[:MOST_IN_SHORT])


def item_lines(checked: Checked) -> dict[str, str]:
    """Whether each implement runs behind the first offer, in one sentence each, by the id of the implement."""
    words = Words(checked.profile)
    return {item.hookup.id: item_line(item, words) for item in checked.offers[0].items}
