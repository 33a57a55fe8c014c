"""How long a list of 10,000 made-up offers takes against one profile. Run it: python tests/benchmarks/offers.py

Processor time, the least of some tries: the list read from its text, every verdict and whether each implement runs, and
the page. The same again for a shorter list with axle weights and tyres, which are worked out again one by one.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from typing import Any

from firstfurrow.advice.offers.checked import check
from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.book.load import load
from firstfurrow.book.places import recordings_folder
from firstfurrow.pages import offers_parts, profile_of, written
from firstfurrow.talk.store import read_answers

MANY, FEWER, TRIES = 10_000, 1_000, 5
BUYERS = ("two_horses", "market_beds")  # on grass, where tyres are not worked out, and on tilled soil, where they are
PRESENT = 0.9  # share of the cells that are filled in


def row(draw: random.Random, number: int, *, axles: bool) -> dict[str, str]:
    """One offer as somebody would type it."""
    power, kilograms, lift, ports = (
        draw.randint(15, 80), draw.randint(650, 3900), draw.randint(900, 5000), draw.choice((0, 2, 4, 6)),
    )  # fmt: skip
    said = {
        "name": f"offer {number}", "engine_power": f"{power} hp", "pto_power": f"{0.85 * power:.1f} hp",
        "pto_speeds": draw.choice(("540", "540/1000")), "shaft_types": "type 1",
        "pto_engagement": draw.choice(("live", "own clutch")), "rear_sets": str(ports // 2), "rear_ports": str(ports),
        "oil_features": "float; free return", "oil_flow": f"{draw.randint(20, 60) / 4} gpm",
        "oil_pressure": f"{draw.randint(1700, 3000)} psi", "oil_source": "levers",
        "hitch_category": draw.choice(("cat 1", "2")), "lift_ball_ends": f"{lift} lb",
        "lift_610": f"{int(0.75 * lift)} lb", "lift_from": draw.choice(("test report", "brochure")),
        "drawbar_class": draw.choice("01"), "shaft_to_pin": "14 in", "mass": f"{kilograms + 500} kg",
        "mass_bare": f"{kilograms} kg", "driven_wheels": draw.choice(("4wd", "two")), "tyre_tread": "lug",
        "front_ballast": f"{draw.randint(0, 20) * 10} kg", "rear_axle_limit": f"{draw.randint(2000, 6000)} kg",
        "width": f"{draw.randint(60, 80)} in", "height": f"{draw.randint(82, 104)} in", "roll_bar": "ROPS",
        "road_kit": draw.choice(("lights", "none")), "track": f"{draw.randint(34, 59)} in",
    }  # fmt: skip
    if axles:
        front = round(kilograms * draw.uniform(0.36, 0.46))
        said |= {
            "front_axle_mass": f"{front} kg", "rear_axle_mass": f"{kilograms - front} kg",
            "wheelbase": f"{draw.randint(55, 85)} in", "hitch_overhang": f"{draw.randint(22, 40)} in",
            "rear_tyre_size": draw.choice(("12.4-24", "14.9-28", "320/85R24")), "front_tyre_size": "8-16",
        }  # fmt: skip
    return {key: text if key == "name" or draw.random() < PRESENT else "" for key, text in said.items()}


def yard(how_many: int, *, axles: bool) -> str:
    """A list with separators, always the same one."""
    draw = random.Random(1)
    rows = [row(draw, number, axles=axles) for number in range(how_many)]
    return "\n".join(["|".join(rows[0]), *("|".join(r.values()) for r in rows)]).replace("|", "\t")


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """Processor seconds and what came of it."""
    start = time.process_time()
    found = work()
    return time.process_time() - start, found


def main() -> None:
    """Time reading, verdicts and page."""
    book = load()
    for buyer in BUYERS:
        profile = profile_of(book, read_answers(recordings_folder() / buyer / "answers.yaml", book))
        for name, how_many, axles in (("plain", MANY, False), ("with axle weights and tyres", FEWER, True)):
            text = yard(how_many, axles=axles)
            least = [float("inf")] * 3
            for _ in range(TRIES):
                reading, read = timed(lambda text=text: read_offers(book, text, "yard.tsv"))  # type: ignore[misc]
                checked = check(profile, read.offers)
                judging, _ = timed(lambda checked=checked: [one.standing for one in checked.offers])  # type: ignore[misc]
                page, _ = timed(lambda checked=checked: written(book, offers_parts(checked), "text", 80))  # type: ignore[misc]
                least = [min(pair) for pair in zip(least, (reading, judging, page), strict=True)]
            print(
                f"{buyer}: {len(read.offers)} good rows of {how_many} {name}: read {least[0]:.2f} s, judged "
                f"{least[1]:.2f} s, page {least[2]:.2f} s"
            )


if __name__ == "__main__":
    main()
