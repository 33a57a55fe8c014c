"""Text that a user wrote reaches no page as anything but text: HTML, SVG, Markdown, JSON, and the terminal.

A page with odd texts in every place that a user can fill is laid beside the same page with a plain word there: the
same tags, lines and keys, in the same order, and no sign that moves a cursor or turns the way of reading.
"""

from __future__ import annotations

import ast
import json
import os
import re
from collections.abc import Mapping
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from breaking import NASTY_WORDS
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from inputs import OFFER, PLAN, put
from watched import UNSEEN, run

import firstfurrow
from firstfurrow.asking.answers import Answers, Given
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.answers_text import write
from firstfurrow.book.drawn import charts
from firstfurrow.book.model import Book, Edition, Question
from firstfurrow.book.yaml_strict import parse_marked
from firstfurrow.commands.common import data_text
from firstfurrow.pages import checked_offers, offers_json, offers_parts, page_data, parts_of, picture_files
from firstfurrow.quantities.harmless import escaped, harmless, one_line, sentence
from firstfurrow.report.blocks import (
    Bullets,
    Check,
    Checklist,
    Heading,
    Paragraph,
    Part,
    StepLine,
    Table,
    Terms,
    Working,
)
from firstfurrow.report.html import html_page
from firstfurrow.report.markdown import markdown
from firstfurrow.report.sheets.offer_template import offer_template
from firstfurrow.report.text import render
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore

WORD = "x"
NUMBERS = (*range(32), *range(127, 160), 0x61C, 0x200E, 0x200F, *range(0x2028, 0x202F), *range(0x2066, 0x206A), 0xDFFF)
SIGNS = "".join(map(chr, (*NUMBERS, 0xD800, 0xFEFF, 0xFFFE)))
GROUPS = tuple(" ".join(NASTY_WORDS[first::4]) for first in range(4))
ODD = (
    "\x1b[2J\x1b]0;owned\x07 <script>alert(1)</script> \u202egnp.exe \ud800 | a | `b` ](http://a.invalid) {0} {n!r:>9}",
    SIGNS,
    *GROUPS,
)
FIXED: dict[str, Any] = {
    "derandomize": True,
    "database": None,
    "deadline": None,
    "suppress_health_check": list(HealthCheck),
}
TEXTS = st.text(st.characters(codec=None, exclude_categories=()), max_size=60) | st.sampled_from(ODD)
ODD_TEXTS = pytest.mark.parametrize("odd", ODD, ids=[f"text {number}" for number in range(len(ODD))])
STYLE = re.compile("\x1b\\[[0-9;]*m")


# ------------------------------------------------------------------------------ the four functions


@given(TEXTS)
@settings(**FIXED)
def test_what_is_harmless_has_no_such_sign_and_is_as_long(text: str) -> None:
    assert UNSEEN.search(harmless(text)) is None
    assert UNSEEN.search(one_line(text)) is None
    assert not set(one_line(text)) & set("\n\t\r")
    assert len(harmless(text)) == len(one_line(text)) == len(text)
    assert len(sentence(text, 40)) <= 40
    if not re.search("[\ud800-\udbff][\udc00-\udfff]", text):  # two halves that JSON would read as one sign
        assert json.loads(escaped(json.dumps([text], ensure_ascii=False))) == [text]
    assert UNSEEN.search(escaped(json.dumps([text], ensure_ascii=False))) is None


def test_ordinary_text_stays_as_it_is() -> None:
    text = "Größe: ½ in × 3 ft, 20 °C – “café” 中文 שלום 🚜\n\ta second line"
    assert harmless(text) == text
    assert sentence("a.yaml:3: it is odd.") == "a.yaml:3: it is odd."


# --------------------------------------------------------------------------------------- the pages


def of_an_edition(book: Book, odd: str) -> Book:
    """The book as a local edition may word it: implements, requirements, every sentence of the page."""
    kinds = {
        id_: replace(
            kind, name=f"{odd} {id_}", plain=odd, needs=(odd,), mistakes=(odd,), cautions=(odd,),
            variants=tuple(replace(one, name=f"{odd} {one.id}") for one in kind.variants),
        )
        for id_, kind in book.kinds.items()
    }  # fmt: skip
    wanted = {id_: replace(one, title=f"{odd} {id_}", what=odd, check=odd) for id_, one in book.requirements.items()}
    said = odd.replace("{", "{{").replace("}", "}}")
    messages = {id_: f"{text} {said}" if text.endswith(".") else text for id_, text in book.messages.items()}
    return replace(book, kinds=kinds, requirements=wanted, messages=messages, edition=Edition("mine", odd, 1, None))


def of_a_buyer(book: Book, odd: str) -> Answers:
    """Answers with that text wherever a user can write one."""
    answers = read(PLAN, "a.yaml", book)
    given = {
        key: replace(one, text=odd) if key in ("land_area", "gate_width") else one for key, one in answers.given.items()
    }
    return replace(answers, name=odd, notes=(odd, odd), given=given, aside={"slope_up": Given(0.1, odd)})


def parts(book: Book, odd: str) -> tuple[Part, ...]:
    return parts_of(of_an_edition(book, odd), of_a_buyer(book, odd), full=False)


class Tags(HTMLParser):
    """The tags of a page with the names of their attributes, and values that could lead somewhere or do something."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.seen: list[tuple[str, ...]] = []
        self.values: list[str] = []
        self.texts: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, *(name for name, _ in attrs)))
        self.values += [
            f"{name}={value}" for name, value in attrs if name in ("href", "src", "style", "srcset", "action")
        ]
        self.values += [name for name, _ in attrs if name.startswith("on")]

    def handle_endtag(self, tag: str) -> None:
        self.seen.append((f"/{tag}",))

    def handle_data(self, data: str) -> None:
        self.texts.append(data)

    def handle_comment(self, data: str) -> None:
        self.seen.append(("comment", data))


@pytest.fixture(scope="module")
def plain(book: Book) -> tuple[Part, ...]:
    """The page with a plain word in every such place."""
    return parts(book, WORD)


def squeezed(text: str) -> str:
    return " ".join(text.split())


@ODD_TEXTS
def test_a_page_for_a_browser_has_the_same_tags(book: Book, odd: str, plain: tuple[Part, ...]) -> None:
    page = html_page(odd, parts(book, odd))
    found = Tags(page)
    assert squeezed("".join(found.texts)).count(squeezed(harmless(odd))) > 20
    other = Tags(html_page(WORD, plain))
    assert found.seen == other.seen
    assert found.values == other.values
    assert all(value.startswith("href=#") for value in found.values)
    assert not any(tag[0] in ("script", "iframe", "object", "link", "base", "form") for tag in found.seen)
    assert UNSEEN.search(page) is None
    page.encode("utf-8")


@ODD_TEXTS
def test_a_picture_has_the_same_shapes(book: Book, odd: str) -> None:
    plain = picture_files(parts_of(of_an_edition(book, WORD), of_a_buyer(book, WORD)))
    found = picture_files(parts_of(of_an_edition(book, odd), of_a_buyer(book, odd)))
    assert list(found) == list(plain)
    assert len(plain) > 2
    for name, text in found.items():
        names = [element.tag for element in ElementTree.fromstring(text).iter()]
        others = [element.tag for element in ElementTree.fromstring(plain[name]).iter()]
        # Words are set on as many lines as they need; nothing else may differ.
        assert [tag for tag in names if not tag.endswith("text")] == [tag for tag in others if not tag.endswith("text")]
        assert UNSEEN.search(text) is None


def shapes(text: str) -> list[str]:
    """How each line of Markdown begins, how many cells it has, and what of it no reader would see as text."""
    found = []
    for line in text.splitlines():
        bare = re.sub(r"\\.", "", line)
        begins = re.match(r"#+ |- \[.\] |- |\d+\. |\| |\s*<br>|<a id=", line)
        code = bare.count("`")
        bare = re.sub(r"`[^`]*`", "", bare)
        found.append(
            f"{begins[0] if begins else ''} {bare.count('|')} {code} {re.findall('<[^>]*>', bare)} {bare.count('](')}"
        )
    return found


@ODD_TEXTS
def test_markdown_has_the_same_lines(book: Book, odd: str, plain: tuple[Part, ...]) -> None:
    text = markdown(parts(book, odd))
    assert shapes(text) == shapes(markdown(plain))
    assert UNSEEN.search(text) is None


@pytest.mark.parametrize("colour", [False, True], ids=["plain", "bold"])
@ODD_TEXTS
def test_a_page_in_a_terminal_holds_no_sign_that_it_would_obey(book: Book, odd: str, colour: bool) -> None:
    blocks = tuple(block for part in parts(book, odd) for block in part.document)
    for width in (40, 80):
        text = render(blocks, width, colour=colour)
        assert set(STYLE.findall(text)) <= {"\x1b[1m", "\x1b[2m", "\x1b[0m"} if colour else "\x1b" not in text
        assert UNSEEN.search(STYLE.sub("", text)) is None


@ODD_TEXTS
def test_data_come_back_as_they_were_and_hold_no_such_sign(book: Book, odd: str) -> None:
    data = page_data(of_an_edition(book, odd), of_a_buyer(book, odd))
    text = data_text(data)
    assert UNSEEN.search(text) is None
    assert json.loads(text) == json.loads(json.dumps(data))
    assert json.dumps(data, ensure_ascii=False).count(json.dumps(odd, ensure_ascii=False)[1:-1]) > 20
    text.encode("utf-8")


@given(texts=st.lists(TEXTS, min_size=6, max_size=6))
@settings(max_examples=60, **FIXED)
def test_any_text_in_any_block_is_text_in_every_form(texts: list[str]) -> None:
    def document(a: str, b: str, c: str, d: str, e: str, f: str) -> tuple[Part, ...]:
        return (
            Part("report", (
                Heading(a, 1), Paragraph(b, "strong"), Heading(c, 2), Bullets((d, e)), Table((a, b), ((c, d), (e, f))),
                Terms(((a, b),)), Checklist((a, b, c), (Check(d, e, f),), "{what} {need} {check} {room}"),
                Working((StepLine("s1", a, b, c, d, e),)),
            )),
        )  # fmt: skip

    odd, plain = document(*texts), document(*(WORD,) * 6)
    assert Tags(html_page(texts[0], odd)).seen == Tags(html_page(WORD, plain)).seen
    assert shapes(markdown(odd)) == shapes(markdown(plain))
    for text in (html_page(texts[0], odd), markdown(odd), render(odd[0].document, 80), render(odd[0].document, 40)):
        assert UNSEEN.search(text) is None


# ------------------------------------------------------------------------- offers, a class, a talk


def _offers(name: str, odd: str) -> Mapping[str, str]:
    said = odd.encode("utf-8", "ignore").decode().replace("\n", " ")
    note = "".join(c for c in said if c.isprintable())
    return {name: OFFER.replace("'Invented.", "'" + note.replace("'", "''") + " Invented.")}


@ODD_TEXTS
def test_verdicts_hold_the_name_of_a_file_and_an_offer_as_text(book: Book, odd: str) -> None:
    answers = of_a_buyer(book, odd)
    names = ("<b>|`*_[x](y)", "'\"&amp;", "=1+1")  # what the name of a tractor may hold
    texts = {f"{odd}{n}.yaml": text.replace("A tractor to break", name) for n, name in enumerate(names)
             for text in _offers("", odd).values()}  # fmt: skip
    texts = {
        file: re.sub("(?m)^name: (.*)$", lambda m: "name: '" + m[1].replace("'", "''") + "'", text)
        for file, text in texts.items()
    }
    checked, problems = checked_offers(of_an_edition(book, odd), answers, texts)
    assert not problems
    assert len(checked.offers) == len(names)
    made = offers_parts(checked)
    for text in (
        html_page(odd, made),
        markdown(made),
        render(made[0].document, 80),
        data_text(offers_json(checked, problems)),
    ):
        assert UNSEEN.search(text) is None
        text.encode("utf-8")
    assert not any(tag[0] == "b" for tag in Tags(html_page(odd, made)).seen)


@ODD_TEXTS
def test_a_talk_shows_no_sign_that_a_terminal_would_obey(book: Book, odd: str) -> None:
    """Its answers come from a file that somebody else may have written, its words from an edition."""
    local = of_an_edition(book, odd)
    lines = [
        "answers",
        "sheet",
        "so far",
        "steps lift",
        "what if 4",
        "clay",
        "3",
        odd,
        "plans",
        "compare 1",
        f"compare {odd}",
        "why",
        "",
    ]
    front = ScriptFront(lines)
    views = Shown(local, lambda: 80)
    Conversation(local, front, RehearsalStore(), of_a_buyer(book, odd), views, "home", resumed=True).run()
    assert len(front.screen) > 2_000
    assert UNSEEN.search(front.screen) is None


@pytest.mark.skipif(os.name != "posix", reason="no other system lets such names be")
@pytest.mark.parametrize("form", ["html", "markdown", "text"])
def test_a_class_with_odd_names_of_files_and_people(tmp_path: Path, form: str) -> None:
    odd = (
        "=1+1",
        "@x",
        "-2",
        "<img src=x onerror=a()>",
        "a|b`c",
        "\x1b[31mred",
        "\u202efdp",
        "line\nend",
        "\udcff raw",
    )
    for number, name in enumerate(odd):
        said = name.encode("utf-8", "ignore").decode()
        text = PLAN.replace("A plan to break", json.dumps(said, ensure_ascii=True))
        put(tmp_path / "class" / (name.replace("/", "") + ".yaml"), text if number % 2 else PLAN)
    ran = run(["class", "class", "--format", form, "--out", "made"], b"", tmp_path)
    assert (ran.code, ran.crash) == (0, ""), ran.err
    assert UNSEEN.search(ran.out + ran.err) is None
    made = sorted((tmp_path / "made").iterdir())
    assert len(made) == len(odd) + 1
    assert all(re.fullmatch(r"[a-z0-9_-]+\.(html|md|txt)", path.name) for path in made)
    for path in made:
        text = path.read_text(encoding="utf-8")
        assert UNSEEN.search(text) is None
        if form == "html":
            assert not any(tag[0] == "img" for tag in Tags(text).seen)


@pytest.mark.skipif(os.name != "posix", reason="no other system lets such names be")
@pytest.mark.parametrize("form", ["html", "markdown", "text", "json"])
def test_a_file_whose_name_is_no_text_can_be_checked_and_written_about(tmp_path: Path, form: str) -> None:
    put(tmp_path / "a.yaml", PLAN)
    put(tmp_path / "\udcff\x1b[2J.yaml", OFFER)
    ran = run(["check", "a.yaml", "\udcff\x1b[2J.yaml", "--format", form, "--out", "v"], b"", tmp_path)
    assert (ran.code, ran.err, ran.crash) == (0, "", "")
    assert UNSEEN.search((tmp_path / "v").read_text(encoding="utf-8")) is None


def test_what_the_program_writes_for_itself_holds_no_such_sign(book: Book) -> None:
    said = read(PLAN, "a.yaml", book).given
    for odd in ODD:
        text = write(replace(of_a_buyer(book, odd), given=said, aside={}), book)
        assert UNSEEN.search(text) is None
        assert read(text, "a.yaml", book).name is not None


def _asked(question: Question, odd: str) -> Question:
    choices = tuple(replace(one, label=f"{odd} {one.id}") for one in question.choices)
    return replace(question, ask=odd, why=odd, choices=choices)


@ODD_TEXTS
def test_charts_of_an_edition_have_the_same_boxes_and_arrows(book: Book, odd: str) -> None:
    def local(word: str) -> Book:
        sections = []
        for one in book.sections:
            group = None if one.group is None else replace(one.group, title=word, closes=_asked(one.group.closes, word))
            sections.append(
                replace(one, title=word, questions=tuple(_asked(q, word) for q in one.questions), group=group)
            )
        return replace(book, sections=tuple(sections))

    for chart, other in zip(charts(local(odd)), charts(local(WORD)), strict=True):
        quoted = re.compile(r'"[^"]*"')
        assert quoted.sub('""', chart.text) == quoted.sub('""', other.text)
        assert UNSEEN.search(chart.text) is None


@ODD_TEXTS
def test_the_template_of_an_offer_can_be_read_whatever_an_edition_says_in_it(book: Book, odd: str) -> None:
    keys = {
        id_: replace(key, name=odd, what=odd, where=odd, words=tuple(replace(word, label=odd) for word in key.words))
        for id_, key in book.offer_keys.items()
    }
    text = offer_template(replace(of_an_edition(book, odd), offer_keys=keys))
    assert UNSEEN.search(text) is None
    assert parse_marked(text, "o.yaml")[0] == parse_marked(offer_template(book), "o.yaml")[0]


def test_nothing_writes_a_table_for_a_spreadsheet() -> None:
    """A cell that begins with = + - @ would be worked out there. Nobody writes such a table here."""
    for path in Path(firstfurrow.__file__).parent.rglob("*.py"):
        called = {
            node.attr
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Attribute)
        }
        assert not called & {"writer", "DictWriter", "writerow", "writerows"}, path
