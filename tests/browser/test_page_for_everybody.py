"""The report in a browser, for everybody: by keyboard, by ear, on a phone, with large letters, in the dark, offline."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe

from browsing import BUYERS, LONGEST, MARKS, SHORTEST, Report, Tab
from firstfurrow.report.blocks import Contents, Heading, Paragraph, Part, Picture
from firstfurrow.report.html import html_page
from firstfurrow.talk.recordings import Recording
from printed import squeezed

pytestmark = MARKS

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice")
LARGEST = 600_000  # bytes of a file that goes by mail and onto an old phone
FOCUS = """() => { const on = document.activeElement, look = getComputedStyle(on), box = on.getBoundingClientRect();
    return {tag: on.tagName, id: on.id, words: on.innerText, link: on.getAttribute('href'), line: look.outlineStyle,
            wide: parseFloat(look.outlineWidth), seen: box.bottom > 0 && box.top < innerHeight}; }"""
SORT = "data-sort"
MARK_SORTS = f"""() => {{ const sorts = new Map();
    for (const one of document.body.querySelectorAll(':not(figure *, section, main, table, tbody, thead, tr, ul, ol)'))
        sorts.set(`${{one.parentNode.className}} ${{one.tagName}} ${{one.className}}`, one);
    sorts.forEach((one) => one.setAttribute('{SORT}', ''));
    return sorts.size; }}"""  # the last of each sort
LARGE_LETTERS = "document.documentElement.style.fontSize = '200%'"

each_buyer = pytest.mark.parametrize(
    "buyer",
    [
        pytest.param(one, id=one.name, marks=[] if one in (*LONGEST, SHORTEST) else [pytest.mark.long])
        for one in BUYERS
    ],
)


def complaints(tab: Tab, among: str | None = None, *, contrast: bool = False) -> list[str]:
    """What axe finds. To look at letters for their contrast takes many times as long as all the rest."""
    options = {
        "runOnly": list(RULES), "resultTypes": ["violations"], "rules": {"color-contrast": {"enabled": contrast}},
    }  # fmt: skip
    found = Axe().run(tab.page, among, options).response["violations"]
    return [f"{one['id']}: {node['html'][:120]}" for one in found for node in one["nodes"]]


def by_ear(tab: Tab) -> Counter[str]:
    """What the browser tells a screen reader is there, counted by its role."""
    session = tab.page.context.new_cdp_session(tab.page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    session.detach()
    return Counter(node["role"]["value"] for node in nodes if not node["ignored"])


@each_buyer
def test_it_asks_for_nothing_but_itself_and_the_console_stays_empty(
    buyer: Recording, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(buyer)
    tab = opened(report.path)
    assert tab.asked == [report.path.as_uri()]
    assert tab.said == []
    assert report.path.stat().st_size < LARGEST


def test_a_page_that_would_ask_for_more_is_noticed_and_gets_nothing(
    report_of: Callable[..., Report], opened: Callable[..., Tab], tmp_path: Path
) -> None:
    page = report_of(SHORTEST).path.read_text(encoding="utf-8")
    path = tmp_path / "asking.html"
    more = '<img src="https://away.example/a.png" alt="more">'
    path.write_text(page.replace("</main>", f"{more}</main>"), encoding="utf-8")
    assert "Content Security Policy" in " ".join(opened(path).said)
    path.write_text(more, encoding="utf-8")
    tab = opened(path)
    assert "https://away.example/a.png" in tab.asked
    assert tab.said != []


@each_buyer
def test_axe_finds_nothing(
    buyer: Recording, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    assert complaints(opened(report_of(buyer).path), contrast=False) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_letters_of_every_sort_stand_out_from_what_is_behind_them(
    scheme: str, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    tab = opened(report_of(SHORTEST).path, color_scheme=scheme)
    assert tab.page.evaluate(MARK_SORTS) > 15
    assert complaints(tab, f"[{SORT}]", contrast=True) == []


def test_axe_does_find_what_is_wrong(opened: Callable[..., Tab], tmp_path: Path) -> None:
    path = tmp_path / "wrong.html"
    path.write_text(
        "<html><title>x</title><main><h1>A</h1><h4>B</h4><p style='color: #999'>grey</p><img src='data:,'></main>",
        encoding="utf-8",
    )
    found = " ".join(complaints(opened(path), contrast=True))
    for rule in ("html-has-lang", "image-alt", "heading-order", "color-contrast"):
        assert rule in found


@each_buyer
def test_title_language_headings_and_landmarks_say_what_is_where(
    buyer: Recording, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(buyer)
    page = opened(report.path).page
    assert report.name is not None
    assert report.name in page.title()
    assert page.evaluate("document.documentElement.lang") == "en"
    # Each part stands by itself and is found by its heading: one of level 1 for each, and none is left out below it.
    levels = page.evaluate("[...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((heading) => +heading.tagName[1])")
    assert all(later <= before + 1 for before, later in pairwise(levels))
    assert levels.count(1) == len(report.parts) == page.locator("main > section").count()
    for part in report.parts:
        first = part.document[0]
        assert isinstance(first, Heading)
        assert page.get_by_role("region", name=first.text, exact=True).count() == 1
    assert page.get_by_role("main").count() == page.get_by_role("banner").count() == 1
    assert page.get_by_role("navigation", name="What your tractor must offer").count() == 1


@each_buyer
def test_tables_and_pictures_have_names_and_every_header_says_what_it_heads(
    buyer: Recording, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(buyer)
    page = opened(report.path).page
    unnamed = """[...document.querySelectorAll('table')]
        .filter((table) => !table.ariaLabelledByElements?.[0]?.innerText.trim()).map((table) => table.outerHTML)"""
    assert page.locator("table").count() > 2
    assert page.evaluate(unnamed) == []
    assert page.locator("th:not([scope])").count() == 0
    pictures = [block for part in report.parts for block in part.document if isinstance(block, Picture)]
    assert page.locator("figure svg[role=img]").count() == len(pictures)
    for picture in pictures:
        assert page.get_by_role("img", name=picture.title).count() >= 1
    described = """[...document.querySelectorAll('figure svg')].map((svg) =>
        document.getElementById(svg.getAttribute('aria-describedby'))?.innerText.trim() ?? '')"""
    assert "" not in page.evaluate(described)


def test_by_keyboard_the_first_link_skips_to_the_report_and_the_contents_lead_to_their_sections(
    report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(SHORTEST)
    page = opened(report.path).page
    contents = next(block for part in report.parts for block in part.document if isinstance(block, Contents))

    def pressed(key: str) -> dict[str, Any]:
        page.keyboard.press(key)
        on: dict[str, Any] = page.evaluate(FOCUS)
        assert on["line"] != "none"
        assert on["wide"] >= 2
        assert on["seen"]
        return on

    assert pressed("Tab")["tag"] == "A"
    assert pressed("Enter") | {"seen": True} == page.evaluate(FOCUS) | {"seen": True}
    assert page.evaluate(FOCUS)["words"] == "What your tractor must offer"
    for title in contents.titles:
        link = pressed("Tab")
        assert (link["tag"], link["words"]) == ("A", title)
        section = pressed("Enter")
        assert (section["tag"], section["words"]) == ("H2", title)
        assert link["link"] == f"#{section['id']}"
        page.locator(f'nav a[href="{link["link"]}"]').focus()  # back to where the reader was


@each_buyer
def test_nothing_scrolls_sideways_on_a_phone_nor_with_letters_twice_as_large(
    buyer: Recording, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    tab = opened(report_of(buyer).path, width=360, height=800)
    assert tab.wide() <= 0
    tab.page.evaluate(LARGE_LETTERS)
    assert tab.page.evaluate("getComputedStyle(document.querySelector('#report p')).fontSize") == "32px"
    assert tab.wide() <= 0
    tab.page.set_viewport_size({"width": 320, "height": 568})
    assert tab.wide() <= 0


def test_a_page_that_is_too_wide_is_noticed(opened: Callable[..., Tab], tmp_path: Path) -> None:
    path = tmp_path / "wide.html"
    long = Part("report", (Heading("A", 1), Paragraph("x" * 400)))
    path.write_text(html_page("A", (long,)), encoding="utf-8")
    assert opened(path, width=360).wide() <= 0  # a word without end is broken
    path.write_text(html_page("A", (long,)).replace("overflow-wrap: anywhere", ""), encoding="utf-8")
    assert opened(path, width=360).wide() > 0


def test_tables_stay_tables_by_ear_where_a_narrow_screen_shows_them_as_lines(
    report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    path = report_of(SHORTEST).path
    broad, narrow = (by_ear(opened(path, width=width)) for width in (900, 360))
    for role in ("table", "row", "columnheader", "rowheader", "heading", "list", "image", "link"):
        assert broad[role] == narrow[role] > 0, role


@pytest.mark.parametrize(
    "wishes",
    [{"color_scheme": "dark"}, {"forced_colors": "active"}, {"forced_colors": "active", "color_scheme": "dark"}],
    ids="-".join,
)  # fmt: skip
def test_no_wish_for_other_colours_hides_anything(
    wishes: dict[str, str], report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    path = report_of(SHORTEST).path
    usual = opened(path).page.inner_text("body")
    page = opened(path, **wishes).page
    assert page.inner_text("body") == usual

    def colour(of: str, what: str, pseudo: str | None = None) -> str:
        look = "([what, of, pseudo]) => getComputedStyle(document.querySelector(what), pseudo)[of]"
        return str(page.evaluate(look, [what, of, pseudo]))

    ink, paper = colour("color", "body"), colour("backgroundColor", "body")
    assert ink != paper
    assert colour("color", ".caution") == ink
    assert colour("borderLeftColor", ".caution") != paper
    assert colour("borderTopColor", ".checks tbody th", "::before") != paper  # the box to tick
    # A picture is drawn in black: it keeps its own white sheet, whatever is around it.
    assert colour("backgroundColor", "figure svg") == "rgb(255, 255, 255)"


def test_in_print_only_the_links_of_the_screen_are_left_out(
    report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    path = report_of(SHORTEST).path
    seen, printed = (squeezed(opened(path, media=media).page.inner_text("body")) for media in ("null", "print"))
    assert len(printed) > 10_000
    assert seen == squeezed("What your tractor must offer") + printed
