"""The seller's sheet: what to ask and get in writing before signing, of everything or of what one plan asks for."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.offers.traps import traps_about
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book, OfferKey, Requirement
from firstfurrow.quantities import Units
from firstfurrow.report.blocks import Block, Bullets, FillIn, Heading, Paragraph, Part
from firstfurrow.report.glossary import terms_in
from firstfurrow.report.sheets.deciding import asked_for
from firstfurrow.report.sheets.walk_around import key_box
from firstfurrow.report.sheets.wording import careful, head, made_by, saying

AGREED = 3  # lines for what was agreed


def seller_parts(book: Book, units: Units | None = None, profile: Profile | None = None) -> tuple[Part, ...]:
    """The sheet; with a profile only what it asks for, and how much of it."""
    sheet = tuple(_Sheet(book, units, profile).blocks())
    parts = [Part("seller", sheet)]
    terms = terms_in(book, sheet)
    if terms.items:
        parts.append(Part("card-words", (Heading(saying(book)("words")), terms)))
    return tuple(parts)


class _Sheet:
    """Numbers the boxes; a key that several requirements name has one box, at the first of them."""

    def __init__(self, book: Book, units: Units | None, profile: Profile | None) -> None:
        self.book = book
        self.units = units
        self.profile = profile
        self.say = saying(book)
        self.numbers: dict[str, int] = {}  # of the keys that have a box
        self.said: set[str] = set()  # traps that were told

    def blocks(self) -> Iterator[Block]:
        say, profile = self.say, self.profile
        yield Heading(say("seller_title"), 1)
        if profile is not None and profile.scenario is not None:
            yield Paragraph(say("seller_plan", name=profile.scenario), "strong")
        yield Paragraph(say("seller_head"))
        yield head(say, say("seller_paper"), self.units)
        assert self.book.round is not None
        yield from careful(say, self.book.round.cautions)
        yield FillIn(lines=(say("seller_tractor"), say("seller_seller")))
        asked = [r for r in self.book.requirements.values() if self._is_asked(r)]
        if profile is not None:
            yield from self._refused(profile)
            if not asked:
                yield Paragraph(say("seller_nothing"))
        for group, title in self.book.groups.items():
            mine = [requirement for requirement in asked if requirement.group == group]
            if mine:
                yield Heading(title)
            for requirement in mine:
                yield from self._requirement(requirement)
        if profile is None:
            rest = [key for key in self.book.offer_keys.values() if key.id not in self.numbers]
            yield Heading(say("seller_more"))
            yield Paragraph(say("seller_more_head"))
            yield from (self._box(key) for key in rest)
        yield from self._end()

    def _is_asked(self, requirement: Requirement) -> bool:
        return self.profile is None or self.profile.outcomes[requirement.id].status != "not_needed"

    def _refused(self, profile: Profile) -> Iterator[Block]:
        """What no tractor makes good stands before everything that is asked of one."""
        for refusal in profile.refusals:
            yield Paragraph(self.say("seller_refused", title=refusal.title, reason=refusal.reason), "caution")

    def _requirement(self, requirement: Requirement) -> Iterator[Block]:
        say = self.say
        yield Heading(requirement.title, 3)
        if self.profile is not None:
            outcome = self.profile.outcomes[requirement.id]
            yield Paragraph(say("seller_need", need=asked_for(self.profile, say, outcome)), "strong")
        yield Paragraph(requirement.what)
        known = [str(self.numbers[key]) for key in requirement.offer_keys if key in self.numbers]
        yield from (self._box(self.book.offer_keys[key]) for key in requirement.offer_keys if key not in self.numbers)
        if known:
            yield Paragraph(say("seller_see", numbers=", ".join(known)))
        later = say(f"later.{requirement.later}", what=requirement.later_what)
        traps = [trap.id for trap in traps_about(requirement.id) if trap.id not in self.said]
        self.said.update(traps)
        mislead = (say("seller_trap", trap=self.book.messages[f"report.trap.{trap}"]) for trap in traps)
        yield Bullets((say("seller_check", check=requirement.check), later, *mislead))
        yield from careful(say, requirement.cautions)

    def _box(self, key: OfferKey) -> FillIn:
        number = self.numbers[key.id] = len(self.numbers) + 1
        shown = (self.say("seller_shown"),)
        return key_box(self.book, self.say, key, self.units, str(number), lines=shown)

    def _end(self) -> Iterator[Block]:
        say = self.say
        yield Heading(say("seller_agreed"))
        yield FillIn(notes=(say("seller_agreed_head"),), lines=("",) * AGREED)
        yield FillIn(lines=(say("seller_price"), say("seller_signed")))
        yield Paragraph(self.book.messages["report.not_covered"], "caution")
        yield Paragraph(self.book.messages["report.manuals"], "caution")
        yield made_by(self.book, say)
