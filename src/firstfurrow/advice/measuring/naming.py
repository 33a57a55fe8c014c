"""A finding from matched rows: the same sentences for the arms, the shaft, the drawbar and couplings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from firstfurrow.advice.measuring.matching import Candidate, Mark, Probe, best, match, nearly
from firstfurrow.advice.measuring.telling import Teller, measured
from firstfurrow.asking.wording import listed
from firstfurrow.book.model import Row

MOST_OTHERS = 3  # more would be read by nobody at a tractor
# Parts that do not wear, and their sentences for what fits and what is close.
REASONS = {"splines": ("counted", "close"), "power": ("power", "strong")}


class Named:
    """What the rows and the probes say together."""

    def __init__(
        self,
        tell: Teller,
        thing: str,
        rows: Sequence[Row],
        probes: Sequence[Probe],
        needed: Sequence[str],
        usual: Sequence[str] = (),
    ):
        self.tell = tell
        self._usual = {id_: place for place, id_ in enumerate(usual)}
        self.thing = thing
        self.rows = rows
        self.probes = probes
        self.candidates = match(rows, probes)
        self.best, self.others = best(self.candidates)
        self.needed = frozenset(needed)
        self.missing = tuple(part for part in needed if part not in {probe.part for probe in probes})

    @property
    def one(self) -> Candidate | None:
        """The one best candidate; None when there are more, or none."""
        return self.best[0] if len(self.best) == 1 else None

    @property
    def worn(self) -> bool:
        """True when a pin or hole of the best candidate is worn."""
        return any(mark.fit == "close" and mark.probe.part not in REASONS for c in self.best for mark in c.marks)

    @property
    def from_memory(self) -> bool:
        """True when a figure that decides on the best candidate is from memory."""
        return any(
            mark.figure is not None and mark.figure.grade == "memory" and mark.probe.part in self.needed
            for c in self.best
            for mark in c.marks
        )

    @property
    def sure(self) -> bool:
        """One candidate, everything needed measured and fitting as new, by figures that somebody has read."""
        one = self.one
        alone = one is not None and not self.others and one.count("close") == one.count("open") == 0
        return alone and not self.missing and not self.from_memory

    def what(self) -> tuple[str, ...]:
        """What it is, with the reasons."""
        if not self.probes:
            return (self.tell("nothing"),)
        if not self.best:
            return self._none()
        one = self.one
        if one is None:
            return (self.tell("several", names=self.names(self.best)), *self._parts())
        head = self.tell("sure" if self.sure else "likely", name=one.row.name)
        return (head, *(self._reason(one, mark) for mark in one.marks if mark.fit in ("fits", "close")))

    def _none(self) -> tuple[str, ...]:
        parts = ", ".join(f"{self.part(p)} {measured_of(p)}" for p in self.probes)
        return (self.tell("none", thing=self.tell(f"thing_{self.thing}"), parts=parts), *self._parts())

    def _parts(self) -> tuple[str, ...]:
        """What each measure says by itself."""
        found = []
        for probe in self.probes:
            if probe.only_rules_out:
                continue
            alone = match(self.rows, (probe,))
            # What does not wear and is only close says little beside what fits.
            fits = [c for c in alone if probe.part in REASONS and c.count("fits")]
            fitting = fits or [c for c in alone if c.possible]
            if fitting:
                found.append(self.tell("part_fits", part=self.part(probe), names=self.names(fitting)))
            else:
                found.append(self.tell("part_fits_none", part=self.part(probe)))
        return tuple(found)

    def _reason(self, candidate: Candidate, mark: Mark) -> str:
        probe, figure = mark.probe, mark.figure
        assert figure is not None
        fits, close = REASONS.get(probe.part, ("fits", "worn"))
        sort = fits if mark.fit == "fits" else close
        part = self.part(probe)
        return self.tell(
            f"one_{sort}",
            part=part[0].upper() + part[1:],
            measured=measured_of(probe),
            name=candidate.row.name,
            figure=measured(figure.planning, figure.unit),
            grade=self.tell.grade(figure),
        )

    def other(self) -> tuple[str, ...]:
        """What else it could be."""
        found = [self._close(c) for c in self.others if c.count("fits") or not _by_power_only(c)]
        for candidate, mark in nearly(self.candidates):
            assert mark.figure is not None  # what has no figure rules nothing out
            found.append(
                self.tell(
                    "else_thinner" if mark.probe.only_rules_out else "else_wider",
                    name=candidate.row.name,
                    part=self.part(mark.probe),
                    measured=measured_of(mark.probe),
                    figure=measured(mark.figure.planning, mark.figure.unit),
                )
            )
        return tuple(found[:MOST_OTHERS])

    def _close(self, candidate: Candidate) -> str:
        power = next((m for m in candidate.marks if m.fit == "close" and m.probe.part == "power"), None)
        if not candidate.count("close"):
            return self.tell("else_open", name=candidate.row.name)
        if power is None or power.figure is None:
            return self.tell("else_close", name=candidate.row.name)
        most = measured(power.figure.planning, power.figure.unit)
        return self.tell("else_power", name=candidate.row.name, figure=most)

    def next(self) -> tuple[str, ...]:
        """What to measure to be sure: first what is missing, else what is in doubt."""
        found = [self.tell(f"next_{part}") for part in self.missing]
        if self.probes and not self.best:
            for probe in self.probes:
                again = f"next_{probe.part}" if probe.part in REASONS else "next_again"
                found.append(self.tell(again, part=self.part(probe)))
        if self.worn and self.thing in ("hitch", "drawbar"):
            found.append(self.tell("next_worn"))
        if self.from_memory:
            found.append(self.tell("next_memory"))
        return tuple(found)

    def names(self, candidates: Iterable[Candidate]) -> str:
        """Their names, the usual ones first."""
        ordered = sorted(candidates, key=lambda c: self._usual.get(c.row.id, len(self._usual)))
        return listed((c.row.name for c in ordered), "or")

    def part(self, probe: Probe) -> str:
        """What was measured, in words."""
        return self.tell(f"part_{probe.name}")


def _by_power_only(candidate: Candidate) -> bool:
    return any(mark.fit == "close" and mark.probe.part == "power" for mark in candidate.marks)


def measured_of(probe: Probe) -> str:
    """A measure as the reader sees it."""
    if probe.part == "splines":
        return measured(probe.value, "")
    return measured(probe.value, "kW" if probe.part == "power" else "mm")
