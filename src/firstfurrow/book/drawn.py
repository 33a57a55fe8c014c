"""The questions as a drawing: flowcharts in Mermaid text, one for each section and one of the sections."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby, pairwise

from firstfurrow.book.conditions import leaves
from firstfurrow.book.conditions_in_words import in_words
from firstfurrow.book.model import Book, Question, Section
from firstfurrow.quantities.harmless import one_line

SECTIONS = "sections"  # the name of the chart of all sections
LONGEST = 56  # characters of a question that stand in its box
OTHERWISE = "otherwise"
# What has a meaning in Mermaid, and how it is written so that it only stands there.
_SIGNS = {ord(sign): f"#{name};" for sign, name in (
    ("#", "35"), ('"', "quot"), ("&", "amp"), ("<", "lt"), (">", "gt"), ("[", "91"), ("]", "93"), ("{", "123"),
    ("}", "125"), ("|", "124"), ("`", "96"), ("\\", "92"), (";", "59"),
)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Chart:
    """One flowchart: its name (the id of the section), its title, and the text."""

    name: str
    title: str
    text: str


def charts(book: Book) -> tuple[Chart, ...]:
    """The chart of the sections, then that of each section. The same book gives the same text."""
    return (_overview(book), *(_section(book, section) for section in book.sections))


@dataclass(slots=True)
class _Drawing:
    """Lines of one chart."""

    lines: list[str] = field(default_factory=lambda: ["flowchart TD"])
    joints: int = 0

    def node(self, id_: str, text: Sequence[str], ends: tuple[str, str] = ("[", "]")) -> None:
        """A box, with lines of text in it."""
        label = "<br/>".join(_safe(line) for line in text)
        self.lines.append(f'  {id_}{ends[0]}"{label}"{ends[1]}')

    def edge(self, start: str, end: str, label: str = "", *, arrow: str = "-->") -> None:
        """An arrow, with words on it."""
        words = f'|"{_safe(label)}"| ' if label else ""
        self.lines.append(f"  {start} {arrow}{words or ' '}{end}")

    def joint(self) -> str:
        """A point at which ways come together."""
        self.joints += 1
        id_ = f"joint_{self.joints}"
        self.lines.append(f'  {id_}(("&nbsp;"))')
        return id_

    @property
    def text(self) -> str:
        """All of it."""
        return "\n".join(self.lines) + "\n"


def _safe(text: str) -> str:
    return " ".join(one_line(text).split()).translate(_SIGNS)


def _short(text: str) -> str:
    """The beginning of a text, cut between words.

    >>> _short("How steep is the steepest place the tractor must climb or come down?")
    'How steep is the steepest place the tractor must climb ...'
    """
    if len(text) <= LONGEST:
        return text
    return re.sub(r"\W*\s\S*$", "", text[: LONGEST + 1]) + " ..."


def _node(question: Question) -> str:
    return f"q_{question.id}"


# ----------------------------------------------------------------------------- one section


def _section(book: Book, section: Section) -> Chart:
    made = _Drawing()
    made.node("start", [section.title], ("([", "])"))
    questions = section.questions if section.group is None else section.group.questions
    put = [question for question in questions if question.id not in book.retired]
    ends = _walk(book, made, put, [("start", "")])
    if section.group is not None:
        ends = _closed(made, section.group.closes, put, ends)
    made.node("finish", [_after(book, section)], ("([", "])"))
    for node, label in ends:
        made.edge(node, "finish", label)
    return Chart(section.id, section.title, made.text)


Ends = list[tuple[str, str]]  # nodes from which the walk goes on, each with the words on its arrow


def _walk(book: Book, made: _Drawing, questions: Sequence[Question], ends: Ends) -> Ends:
    """Questions in their order; those with the same condition one behind the other share the arrow past them."""
    for when, run in groupby(questions, key=lambda question: question.when):
        label = "" if when is None else in_words(book, when)
        start = ""
        if when is not None:
            start = ends[0][0] if len(ends) == 1 and not ends[0][1] else made.joint()
            for node, words in ends if start != ends[0][0] else ():
                made.edge(node, start, words)
            ends = [(start, label)]
        for question in run:
            made.node(_node(question), [question.id, _short(question.ask)])
            for node, words in ends:
                made.edge(node, _node(question), words)
            ends = [(_node(question), "")]
        if start:
            ends.append((start, OTHERWISE))
    return ends


def _closed(made: _Drawing, closes: Question, questions: Sequence[Question], ends: Ends) -> Ends:
    """The closing question: back to the first question of the group, or on."""
    made.node(_node(closes), [closes.id, _short(closes.ask)])
    for node, words in ends:
        made.edge(node, _node(closes), words)
    labels = {choice.id: choice.label for choice in closes.choices}
    made.edge(_node(closes), _node(questions[0]), labels.get("another", "another"))
    return [(_node(closes), labels.get("that_is_all", "that_is_all"))]


def _after(book: Book, section: Section) -> str:
    """What comes behind a section."""
    ids = [one.id for one in book.sections]
    at = ids.index(section.id) + 1
    return book.sections[at].title if at < len(ids) else "the result"


# ------------------------------------------------------------------------------- all of them


def _overview(book: Book) -> Chart:
    made = _Drawing()
    home = {question.id: section.id for section in book.sections for question in _all(section)}
    for section in book.sections:
        number = len(list(_all(section)))
        each = ", for each implement" if section.group is not None else ""
        made.node(f"s_{section.id}", [section.title, f"{section.id}: {number} questions{each}"])
    made.node("result", ["the result"], ("([", "])"))
    names = [*(f"s_{section.id}" for section in book.sections), "result"]
    for start, end in pairwise(names):
        made.edge(start, end)
    for section in book.sections:
        for other, read in _reads(section, home).items():
            made.edge(f"s_{other}", f"s_{section.id}", f"reads {', '.join(read)}", arrow="-.->")
    return Chart(SECTIONS, "The sections", made.text)


def _all(section: Section) -> Iterator[Question]:
    yield from section.questions
    if section.group is not None:
        yield from (*section.group.questions, section.group.closes)


def _reads(section: Section, home: Mapping[str, str]) -> dict[str, list[str]]:
    """Which answers of other sections the conditions of a section read."""
    found: dict[str, list[str]] = {}
    for question in _all(section):
        for leaf in leaves(question.when):
            other = home.get(leaf.subject, section.id)
            if other != section.id and leaf.subject not in found.setdefault(other, []):
                found[other].append(leaf.subject)
    return found
