"""How long 10,000 made-up offers take against one profile. Run it: python tests/benchmarks/offers.py"""

from __future__ import annotations

import random
import time
from collections.abc import Iterator
from typing import Any

from firstfurrow.advice.offers.asked import asked
from firstfurrow.advice.offers.items import item_verdicts
from firstfurrow.advice.offers.offer import Offer, Said
from firstfurrow.advice.offers.verdicts import Judge
from firstfurrow.book.load import load
from firstfurrow.book.places import recordings_folder
from firstfurrow.pages import profile_of
from firstfurrow.talk.store import read_answers

MANY, BUYER = 10_000, "two_horses"
PRESENT = 0.9  # share of the keys that an offer names


def offers(how_many: int, *, axles: bool) -> Iterator[Offer]:
    """Offers with random figures, always the same ones."""
    draw = random.Random(1)
    for number in range(how_many):
        heavy = draw.uniform(700, 4000)
        said: dict[str, Any] = {
            "pto_power": draw.uniform(10, 60), "pto_speeds": (540.0,), "shaft_types": ("1",),
            "pto_engagement": "live", "rear_sets": float(draw.randint(0, 3)), "oil_flow": draw.uniform(10, 60),
            "oil_pressure": draw.uniform(120, 200), "oil_source": "levers", "hitch_category": ("1",),
            "lift_610": draw.uniform(300, 2500), "lift_from": "test_report", "drawbar_class": 1.0,
            "mass": heavy + 300, "mass_bare": heavy, "driven_wheels": "four", "tyre_tread": "lug",
            "front_ballast": 100.0, "width": 1.6, "height": 2.3, "roll_bar": "bar_and_belt",
            "rear_axle_limit": 3000.0, "track": 1.3,
        }  # fmt: skip
        said = {key: value for key, value in said.items() if draw.random() < PRESENT}
        if axles:
            said |= {"front_axle_mass": 0.4 * heavy, "rear_axle_mass": 0.6 * heavy, "wheelbase": 1.9,
                     "hitch_overhang": 0.8}  # fmt: skip
        yield Offer(f"offer {number}", "made", {key: Said(value, str(value), "made") for key, value in said.items()})


def main() -> None:
    """Time the verdicts, then the same with whether each implement runs."""
    book = load()
    ready = asked(profile_of(book, read_answers(recordings_folder() / BUYER / "answers.yaml", book)))
    judge = Judge(ready)
    for name, how_many, axles in (("plain", MANY, False), ("with axle weights", MANY // 50, True)):
        made = list(offers(how_many, axles=axles))
        start = time.process_time()
        for offer in made:
            judge.judge(offer)
        verdicts = time.process_time() - start
        start = time.process_time()
        for offer in made:
            item_verdicts(book, ready, judge.judge(offer))
        both = time.process_time() - start
        print(f"{how_many} {name}: verdicts {verdicts:.2f} s, with implements {both:.2f} s")


if __name__ == "__main__":
    main()
