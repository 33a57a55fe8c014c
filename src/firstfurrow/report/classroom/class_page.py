"""The page for the educator: counts of what a class needs, what it does not know, and what to talk about next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.advice.class_words import Reader
from firstfurrow.advice.classroom import ClassCounts, Spread, Wanted
from firstfurrow.asking.answers import Units
from firstfurrow.asking.refs import ref_of
from firstfurrow.book.model import Book
from firstfurrow.book.teaching import TeachingPair
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph, Picture, Table, Terms
from firstfurrow.report.classroom.bars import bars
from firstfurrow.report.classroom.names import plain
from firstfurrow.report.classroom.words import ClassWords, upper
from firstfurrow.report.made_with import made_with

MOST_ROWS = 12  # of a table
MOST_DECIDING, MOST_FIRST = 9, 5  # of what decides for most, and of what is first for most
MOST_UNKNOWN = 10
MOST_NOTES = 5
MOST_PAIRS = 5
MOST_FILES = 8  # that are named behind one title
MOST_TITLES = 5
MOST_BROKEN = 25
MOST_MOVES = 8
MOST_HANDOUTS = 40
LONGEST_NAME = 40
LONGEST_FILE = 40
LONGEST_REASON = 240


@dataclass(frozen=True, slots=True)
class Written:
    """One participant: the name, the file of the answers, and that of the handout."""

    name: str
    file: str
    handout: str


@dataclass(frozen=True, slots=True)
class Problem:
    """What is to be said of one file: behind its name, such as ":7: there is a tab here."."""

    file: str
    reason: str


def class_document(
    book: Book, counts: ClassCounts, units: Units, handouts: Sequence[Written] = (),
    broken: Sequence[Problem] = (), carried: Sequence[Problem] = (),
) -> Document:  # fmt: skip
    """The page. `broken` are files that do not count, `carried` what was left out of files that do."""
    return tuple(_ClassPage(book, counts, units).blocks(handouts, broken, carried))


class _ClassPage:
    """One page being written."""

    def __init__(self, book: Book, counts: ClassCounts, units: Units) -> None:
        self.book = book
        self.counts = counts
        self.words = ClassWords(book)
        self.say = self.words.say
        self.reader = Reader(book, units)

    def blocks(
        self, handouts: Sequence[Written], broken: Sequence[Problem], carried: Sequence[Problem]
    ) -> Iterator[Block]:
        """Everything in reading order."""
        count = self.counts.count
        yield Heading(self.say("title"), 1)
        if broken:
            yield Paragraph(self.say("count_broken", count=count, broken=len(broken)), "strong")
        else:
            yield Paragraph(self.say("count", count=count), "strong")
        yield Paragraph(self.say("intro"))
        if broken:
            yield from self._files(self.say("broken"), self.say("broken_intro"), broken)
        if carried:
            yield from self._files(self.say("carried"), self.say("carried_intro"), carried)
        yield from self._deciding()
        yield from self._crossed("refusal", self.say("refusals"))
        yield from self._crossed("conflict", self.say("conflicts"))
        yield from self._unknown()
        yield from self._next()
        yield from self._size_classes()
        yield from self._spreads()
        yield from self._wanted()
        yield from self._kinds()
        yield from self._handouts(handouts)
        yield Paragraph(self.book.messages["report.not_covered"], "caution")
        yield Paragraph(self.book.messages["report.manuals"], "caution")
        if self.book.edition is not None:
            yield Paragraph(made_with(self.book), "quiet")

    def _files(self, title: str, intro: str, problems: Sequence[Problem]) -> Iterator[Block]:
        yield Heading(title)
        yield Paragraph(intro)
        lines = [
            self.say("line_of", file=plain(p.file, LONGEST_FILE), reason=plain(p.reason, LONGEST_REASON))
            for p in problems[:MOST_BROKEN]
        ]
        yield Bullets((*lines, *self.words.more(problems, MOST_BROKEN)))

    # ------------------------------------------------------------- what decides

    def _deciding(self) -> Iterator[Block]:
        counts = self.counts
        yield Heading(self.say("deciding"))
        first = sorted((one for one in counts.deciding if one.first), key=lambda one: -one.first)[:MOST_FIRST]
        shown = [one for one in counts.deciding if one in counts.deciding[:MOST_DECIDING] or one in first]
        if shown:
            yield Paragraph(self.say("deciding_intro"))
            headers = (self.say("column_what"), self.say("column_first"), self.say("column_among"))
            yield Table(headers, tuple((self._name(one.id), str(one.first), str(one.count)) for one in shown))
            yield from map(Paragraph, self.words.more(counts.deciding, len(shown)))
            rows = [(self.say("bar", what=self._name(one.id), count=one.count), one.count, one.first) for one in shown]
            drawing = bars(rows, counts.count)
            yield Picture("class_deciding", self.say("bars"), drawing, (self.say("bars_say"),))
        if counts.nothing_decides:
            yield Paragraph(self.say("nothing_decides", count=counts.nothing_decides, all=counts.count))

    def _name(self, entry: str) -> str:
        return upper(self.words.entry(entry))

    def _crossed(self, sort: str, title: str) -> Iterator[Block]:
        """For how many, and whose; what can hurt stands right below."""
        found = [one for one in self.counts.crossed if one.sort == sort]
        if found:
            yield Heading(title)
        for one in found:
            what = upper(self.say(f"kind.{one.kind}"))
            yield Paragraph(self.say("crossed_many", what=what, count=one.count, all=self.counts.count), "strong")
            if [title for title, _ in one.titles] == [what]:  # then it need not be said twice
                yield Paragraph(self._named(one.titles[0][1]))
            else:
                lines = map(self._whose, one.titles[:MOST_TITLES])
                yield Bullets((*lines, *self.words.more(one.titles, MOST_TITLES)))
            if one.caution:
                yield Paragraph(self.say("careful", caution=one.caution), "caution")

    def _whose(self, title: tuple[str, tuple[str, ...]]) -> str:
        words, files = title
        return self.say("crossed_whose", title=words, count=len(files), files=self._named(files))

    def _named(self, files: Sequence[str]) -> str:
        return self.words.some([plain(file, LONGEST_FILE) for file in files], MOST_FILES)

    # ---------------------------------------------------------- what nobody knows

    def _unknown(self) -> Iterator[Block]:
        unknown = self.counts.unknown
        if not unknown:
            return
        yield Heading(self.say("unknown"))
        items = []
        for one in unknown[:MOST_UNKNOWN]:
            question = self.book.question(one.id)
            assert question is not None
            parts = [self.say("unknown_many", count=one.count, all=self.counts.count)]
            if question.how is not None:
                parts.append(self.say("unknown_guide", guide=self.book.guides[question.how].title))
            if question.moves:
                moves = self.words.some([self.words.brief(id_) for id_ in question.moves], MOST_MOVES)
                parts.append(self.say("unknown_moves", what=moves))
            items.append((self.words.question(one.id), " ".join(parts)))
        yield Terms(tuple(items))
        yield from map(Paragraph, self.words.more(unknown, MOST_UNKNOWN))

    def _next(self) -> Iterator[Block]:
        """Notes of those who teach on what most do not know; then pairs of plans that are about the same."""
        unknown = [one.id for one in self.counts.unknown]
        notes = [note for id_ in unknown if (note := self.book.teaching.notes.get(id_)) is not None][:MOST_NOTES]
        pairs = self._pairs(unknown)
        if not notes and not pairs:
            return
        yield Heading(self.say("next"))
        if notes:
            yield Paragraph(self.say("next_intro"))
        for note in notes:
            yield Heading(self.words.question(note.question), 3)
            said = (("note_wrong", note.wrong), ("note_because", note.because), ("note_room", note.room))
            yield Bullets(tuple(self.say(id_, text=text) for id_, text in said))
        if pairs:
            yield Heading(self.say("pairs"), 3)
            yield Paragraph(self.say("pairs_intro"))
            yield Bullets(tuple(self.say("pair", title=p.title, id=p.id, say=p.say) for p in pairs))

    def _pairs(self, unknown: Sequence[str]) -> tuple[TeachingPair, ...]:
        """First pairs that change what most do not know, then pairs that move what decides for most."""
        pairs = self.book.teaching.pairs
        found = [pair for id_ in unknown[:MOST_UNKNOWN] for pair in pairs if ref_of(pair.question).question == id_]
        deciding = [one.id for one in self.counts.deciding[:MOST_NOTES]]
        found += [pair for id_ in deciding for pair in pairs if id_ in pair.look_at]
        return tuple({pair.id: pair for pair in found}.values())[:MOST_PAIRS]

    # ---------------------------------------------------------------- what is asked

    def _size_classes(self) -> Iterator[Block]:
        counts, rows = self.counts, self.book.tables["size_classes"].rows
        if not any(one.count for one in counts.size_classes) and not counts.no_size_class:
            return
        yield Heading(self.say("size_classes"))
        lines = [(upper(rows[one.id].name), str(one.count)) for one in counts.size_classes]
        if counts.no_size_class:
            lines.append((upper(self.say("size_class_none")), str(counts.no_size_class)))
        yield Table((self.say("column_size"), self.say("column_many")), tuple(lines))

    def _spreads(self) -> Iterator[Block]:
        if not self.counts.spreads:
            return
        yield Heading(self.say("spreads"))
        yield Paragraph(self.say("spreads_intro"))
        columns = ("need", "asked", "least", "quarter", "middle", "three_quarters", "most")
        headers = tuple(self.say(f"column_{column}") for column in columns)
        yield Table(headers, tuple(map(self._spread, self.counts.spreads)))

    def _spread(self, one: Spread) -> tuple[str, ...]:
        values = (one.least, one.quarter, one.middle, one.three_quarters, one.most)
        told = (self.reader.told(one.requirement, value) for value in values)
        return (upper(self.words.brief(one.requirement)), str(one.asked), *told)

    def _wanted(self) -> Iterator[Block]:
        if self.counts.wanted:
            yield Heading(self.say("wanted"))
            yield Terms(tuple(map(self._values, self.counts.wanted)))

    def _values(self, one: Wanted) -> tuple[str, str]:
        values = [
            self.say("wanted_value", value=self.reader.told(one.requirement, value), count=count)
            for value, count in one.values
        ]
        what = self.say("wanted_of", what=upper(self.words.brief(one.requirement)), asked=one.asked)
        return what, self.words.some(values, MOST_ROWS)

    def _kinds(self) -> Iterator[Block]:
        kinds = self.counts.kinds
        if kinds:
            yield Heading(self.say("kinds"))
            rows = tuple((upper(self.book.kinds[one.id].name), str(one.count)) for one in kinds[:MOST_ROWS])
            yield Table((self.say("column_implement"), self.say("column_many")), rows)
            yield from map(Paragraph, self.words.more(kinds, MOST_ROWS))

    def _handouts(self, handouts: Sequence[Written]) -> Iterator[Block]:
        yield Heading(self.say("handouts"))
        headers = (self.say("column_name"), self.say("column_file"), self.say("column_handout"))
        rows = [(plain(one.name, LONGEST_NAME), plain(one.file, LONGEST_FILE), one.handout) for one in handouts]
        yield Table(headers, tuple(rows[:MOST_HANDOUTS]))
        yield from map(Paragraph, self.words.more(rows, MOST_HANDOUTS))
