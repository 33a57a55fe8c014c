"""Where nothing fits: what it would be if one reading was taken in the other unit, or with the tape laid around."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from firstfurrow.advice.measuring.matching import Probe, match
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import length
from firstfurrow.quantities import convert, format_number

CENTIMETRES = 2.54  # in an inch
LONG = ("span",)  # read off a tape that may have both units on it
ROUND = ("lower", "upper")  # a tape can be laid around a pin


def slips(named: Named) -> Iterator[str]:
    """One sentence for each row that fits once a single reading is taken as a usual slip makes it."""
    for probe in named.probes:
        for sentence, value, slots in _readings(probe):
            slipped = replace(probe, value=value)
            turned = [slipped if p is probe else p for p in named.probes]
            for candidate in match(named.rows, turned):
                if candidate.possible and any(m.probe is slipped and m.fit == "fits" for m in candidate.marks):
                    name, part = candidate.row.name, named.part(probe)
                    yield named.tell(sentence, name=name, part=part, **slots)


def _readings(probe: Probe) -> Iterator[tuple[str, float, dict[str, str]]]:
    if probe.part in LONG:
        in_cm, in_inches = convert(probe.value, "mm", "cm"), convert(probe.value, "mm", "in")
        yield "else_slip_inches", probe.value * CENTIMETRES, {"number": format_number(in_cm, 2)}
        yield "else_slip_centimetres", probe.value / CENTIMETRES, {"number": format_number(in_inches, 2)}
    if probe.part in ROUND:
        across = probe.value / math.pi
        yield "else_slip_around", across, {"measured": length(probe.value), "across": length(across)}
