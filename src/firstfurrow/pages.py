"""From answers to the page that is shown: the one place where advice and report meet. No input or output."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import Profile, advise, advise_plan
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.asking.complete import complete
from firstfurrow.book.model import Book, Kind

if TYPE_CHECKING:  # what makes pages is loaded when a page is wanted, not before
    from firstfurrow.advice.offers.checked import Checked
    from firstfurrow.advice.offers.sizes import Sizes
    from firstfurrow.advice.study import Study
    from firstfurrow.asking.tried import Tried
    from firstfurrow.report.blocks import Part
    from firstfurrow.report.page import Said


def profile_of(book: Book, answers: Answers) -> Profile:
    """The profile of an answers file: what was never asked counts as not sure."""
    return advise(book, complete(book, answers))


def said_of(book: Book, answers: Answers) -> Said:
    """The answers in words, and what stands out: unusual ones that were kept, and contradictions that stand."""
    from firstfurrow.asking.contradictions import contradictions
    from firstfurrow.asking.said import said
    from firstfurrow.asking.usual import unusual
    from firstfurrow.report.page import Said

    return Said(
        tuple(one.sentence for one in unusual(book, answers)),
        tuple(one.sentence for one in contradictions(book, answers)),
        said(book, answers),
    )


def short_page(book: Book, answers: Answers, width: int) -> str:
    """The profile of the answers so far, as a short page of text, with what came of running the road again."""
    from firstfurrow.report.document import document
    from firstfurrow.report.text import render

    return render(document(advise(book, answers), full=False, said=said_of(book, answers)), width)


def whole_page(book: Book, answers: Answers, width: int) -> str:
    """The whole report of an answers file as text."""
    return written(book, parts_of(book, answers), "text", width)


def page_data(book: Book, answers: Answers, what_if: Sequence[Tried] = ()) -> dict[str, Any]:
    """The profile of an answers file as data, with the blocks of the report, for `json.dumps`."""
    from firstfurrow.advice.study import study
    from firstfurrow.report.json_blocks import blocks_data
    from firstfurrow.report.json_profile import profile_data

    profile, said = profile_of(book, answers), said_of(book, answers)
    studied = study(profile)
    parts = _parts(profile, said, studied, what_if=what_if)
    return profile_data(profile, studied, said) | {"blocks": blocks_data(parts)}


def lean_profile(book: Book, answers: Answers) -> Profile:
    """The profile of the answers so far, without what only a page shows."""
    return advise_plan(book, make_plan(book, answers), lean=True)


def html_report(book: Book, answers: Answers) -> str:
    """The whole report as one HTML file: the sheet for the yard first, then everything with its working."""
    return written(book, parts_of(book, answers), "html")


def markdown_report(book: Book, answers: Answers) -> str:
    """The same as Markdown."""
    return written(book, parts_of(book, answers), "markdown")


def parts_of(
    book: Book, answers: Answers, *, full: bool = True, only: frozenset[str] | None = None,
    what_if: Sequence[Tried] = (), sheet: bool = False,
) -> tuple[Part, ...]:  # fmt: skip
    """What every form of the report holds: the sheet for the yard, what if, and the report.

    `sheet` alone is only the sheet. In short, or for one group of requirements, it is left out.
    """
    profile = profile_of(book, answers)
    if sheet:
        from firstfurrow.report.blocks import Part
        from firstfurrow.report.yard import yard_document

        return (Part("yard", yard_document(profile)),)
    return _parts(profile, said_of(book, answers), full=full, only=only, what_if=what_if)


def written(
    book: Book, parts: Sequence[Part], form: str, width: int = 80, *, colour: bool = False, encoding: str = "utf-8"
) -> str:
    """These parts as text, html or markdown; width, colour and encoding are those of text."""
    if form == "html":
        from firstfurrow.report.html import html_page

        return html_page(book.messages["report.title"], parts)
    if form == "markdown":
        from firstfurrow.report.markdown import markdown

        return markdown(parts)
    from firstfurrow.report.text import render

    page = tuple(block for part in parts for block in part.document)
    return render(page, width, colour=colour, encoding=encoding)


def picture_files(parts: Sequence[Part]) -> dict[str, str]:
    """Every picture of these parts as the text of an SVG file, by the name of the file."""
    from firstfurrow.report.blocks import Picture
    from firstfurrow.report.svg import svg_file

    found: dict[str, str] = {}
    for block in (block for part in parts for block in part.document):
        if isinstance(block, Picture):
            found[f"{len(found) + 1:02}-{block.name}.svg"] = svg_file(block.drawing, block.title, block.says)
    return found


def _parts(
    profile: Profile, said: Said, studied: Study | None = None, *, full: bool = True,
    only: frozenset[str] | None = None, what_if: Sequence[Tried] = (),
) -> tuple[Part, ...]:  # fmt: skip
    from firstfurrow.report.blocks import Part
    from firstfurrow.report.compared import what_if_document
    from firstfurrow.report.document import document
    from firstfurrow.report.yard import yard_document

    report = Part("report", document(profile, full=full, studied=studied, said=said, only=only))
    sheet = (Part("yard", yard_document(profile)),) if full and only is None else ()
    if not what_if:
        return (*sheet, report)
    compared = tuple(
        block for one in what_if for block in what_if_document(profile, profile_of(profile.book, one.answers), one)
    )
    return (*sheet, Part("whatif", compared), report)


def yard_page(book: Book, answers: Answers, width: int, *, encoding: str = "utf-8") -> str:
    """The sheet to take to the yard."""
    from firstfurrow.report.text import render
    from firstfurrow.report.yard import yard_document

    return render(yard_document(profile_of(book, answers)), width, encoding=encoding)


def compared_page(book: Book, before: Answers, after: Answers, names: tuple[str, str], width: int) -> str:
    """What differs between two plans, under their names."""
    from firstfurrow.report.compared import compared_document
    from firstfurrow.report.text import render

    one, other = (advise_plan(book, make_plan(book, answers), lean=True) for answers in (before, after))
    return render(compared_document(one, other, names), width)


def steps_of(book: Book, answers: Answers, word: str, width: int) -> tuple[str, tuple[str, ...]]:
    """The title of the requirement that a word names and its reasoning, as text for each step; empty where none is."""
    from firstfurrow.report.blocks import Working
    from firstfurrow.report.reasoned import named_outcome, reasoned
    from firstfurrow.report.text import render

    profile = advise(book, answers)
    outcome = named_outcome(profile, word)
    if outcome is None:
        return "", ()
    return outcome.requirement.title, tuple(
        render((Working((line,)),), width).rstrip() for line in reasoned(profile, outcome)
    )


# ------------------------------------------------------------------------- offers


def checked_offers(book: Book, answers: Answers, texts: Mapping[str, str]) -> tuple[Checked, tuple[str, ...]]:
    """The offers in these texts (by file name) held against the profile of the answers; and what could not be read."""
    from firstfurrow.advice.offers.checked import check
    from firstfurrow.advice.offers.reading import read_offers, together

    found = together(book, [read_offers(book, text, file, answers.units) for file, text in texts.items()])
    return check(profile_of(book, answers), found.offers), found.problems


def offers_parts(checked: Checked) -> tuple[Part, ...]:
    """The verdicts as a report, for `written`."""
    from firstfurrow.report.blocks import Part
    from firstfurrow.report.offers import offers_document

    return (Part("offers", offers_document(checked)),)


def offers_json(checked: Checked, problems: tuple[str, ...]) -> dict[str, Any]:
    """The verdicts as data, for `json.dumps`."""
    from firstfurrow.report.json_offers import offers_data

    return offers_data(checked, problems)


# ------------------------------------------------------------- a tractor that is there


def offer_problems(book: Book, text: str, file: str, units: Units) -> tuple[str, ...]:
    """What is wrong with the text of an offer file that should hold one tractor."""
    from firstfurrow.advice.offers.reading import read_offers

    return read_offers(book, text, file, units).problems


def owned_page(book: Book, answers: Answers, text: str, width: int) -> str:
    """Whether the implements so far run behind the tractor in this text of an offer file."""
    return written(book, offers_parts(_held(book, answers, text)), "text", width)


def owned_report(book: Book, answers: Answers, text: str) -> str:
    """The same as an HTML page."""
    return written(book, offers_parts(_held(book, answers, text)), "html")


def wanted_keys(book: Book, answers: Answers, text: str) -> tuple[str, ...]:
    """The keys of an offer that would settle what is not known of the tractor, in the order of the book."""
    wanted = {key for one in _held(book, answers, text).offers[0].questions for key in one.keys}
    return tuple(key for key in book.offer_keys if key in wanted)


def runs_moved(book: Book, before: Answers, after: Answers, text: str) -> tuple[str, ...]:
    """One sentence for each implement of which the last answer moved whether it runs."""
    from firstfurrow.report.offers import item_lines

    old, new = (item_lines(_held(book, answers, text)) for answers in (before, after))
    return tuple(line for id_, line in new.items() if line != old.get(id_))


def _held(book: Book, answers: Answers, text: str) -> Checked:
    """The answers held against one tractor; how it is driven is a fact of it, and no wish any more."""
    from firstfurrow.advice.offers.checked import check
    from firstfurrow.advice.offers.offer import Offer
    from firstfurrow.advice.offers.reading import read_offers
    from firstfurrow.advice.offers.sizes import driven

    found = read_offers(book, text, "", answers.units).offers if text else ()
    offer = found[0] if found else Offer(book.messages["report.offers_yours_name"], "", {})
    profile = advise(book, driven(answers, offer))
    # Gates and doors that nobody measured are no question here: the tractor is there already.
    known = {id_: outcome for id_, outcome in profile.outcomes.items() if outcome.status != "not_determined"}
    return check(replace(profile, outcomes=known), (offer,))


# -------------------------------------------------------------------------- sizes


def ground_of(book: Book, answers: Answers | None, said: Sequence[str], units: Units) -> Answers:
    """The ground that sizes are tried on: of an answers file, else the usual one of the book, with these answers."""
    from firstfurrow.asking.setting import with_answers

    if answers is not None:
        return with_answers(book, replace(answers, items=()), said)
    usual = book.settings["sizes"]["ground"]
    ground = with_answers(book, Answers(units=units), [f"{id_}={words}" for id_, words in usual.items()])
    return with_answers(book, ground, said)


def sizes_of_offer(
    book: Book, text: str, file: str, ground: Answers, *, area: str | None = None,
    kinds: Sequence[Kind] | None = None, done: Callable[[], None] = lambda: None,
) -> tuple[tuple[Sizes, ...], tuple[str, ...]]:  # fmt: skip
    """What each offer in this text runs; and what could not be read."""
    from firstfurrow.advice.offers.reading import read_offers
    from firstfurrow.advice.offers.sizes import sizes
    from firstfurrow.asking.setting import with_answers

    found = read_offers(book, text, file, ground.units)
    given = None if area is None else with_answers(book, ground, [f"land_area={area}"]).given["land_area"]
    return tuple(
        sizes(book, offer, ground, area=given, kinds=kinds, done=done) for offer in found.offers
    ), found.problems


def sizes_page(sizes: Sizes, width: int, *, colour: bool = False, encoding: str = "utf-8") -> str:
    """What a tractor runs, as a page of text."""
    from firstfurrow.report.sizes import sizes_document
    from firstfurrow.report.text import render

    return render(sizes_document(sizes), width, colour=colour, encoding=encoding)


def sizes_json(sizes: Sizes) -> dict[str, Any]:
    """The same as data, for `json.dumps`."""
    from firstfurrow.report.json_sizes import sizes_data

    return sizes_data(sizes)
