"""Our own regression cases from the rows of ASAE D497 (not published): draft, drawbar power, PTO power."""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.draft import specific_draft_pull, tool_draft
from firstfurrow.mechanics.power import drawbar_power, oil_power, rotary_power, shaft_power_of_pull
from firstfurrow.quantities import convert

pytestmark = pytest.mark.derived("worked out by hand from the rows")


def row_draft(book: Book, row: str, texture: str, width: float, depth: float, speed: float) -> float:
    tool = book.tables["draft"][row]
    return tool_draft(
        soil_factor=tool[texture].planning, A=tool["A"].planning, B=tool["B"].planning, C=tool["C"].planning,
        speed=speed, width=width, depth=depth,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("row", "texture", "width", "depth", "speed", "newtons", "drawbar", "pto", "surface"),
    [
        ("mouldboard_plough", "medium", 0.7112, 20, 6, 8319.9, 13.867, 19.00, "tilled"),
        ("mouldboard_plough", "coarse", 0.3048, 15, 5, 1603.7, 2.227, 3.05, "tilled"),
        ("disk_harrow_tandem_secondary", "medium", 1.8288, 10, 8, 4918.2, 10.929, 14.97, "tilled"),
        ("field_cultivator_secondary", "coarse", 9, 8, 9, 2297.9, 5.745, 7.87, "tilled"),
        ("grain_drill_no_till", "medium", 12, 1, 8, 7948.8, 17.664, 22.94, "firm"),
        ("spring_tooth_harrow", "medium", 2.4, 1, 8, 4800.0, 10.667, 14.61, "tilled"),
    ],
)
def test_pulled_tools(
    book: Book, row: str, texture: str, width: float, depth: float, speed: float,
    newtons: float, drawbar: float, pto: float, surface: str,
) -> None:  # fmt: skip
    pull = row_draft(book, row, texture, width, depth, speed)
    assert pull * 1000 == pytest.approx(newtons, abs=0.05)
    power = drawbar_power(pull=pull, speed=speed)
    assert power == pytest.approx(drawbar, abs=0.0005)
    ratio = book.tables["surfaces"][surface]["power_ratio_front_assist"].planning
    assert shaft_power_of_pull(draft_power=power, reserve=1, climb=0, ratio=ratio) == pytest.approx(pto, abs=0.005)


@pytest.mark.parametrize(
    ("row", "width", "depth", "speed", "fine", "medium", "coarse"),
    [
        ("mouldboard_plough", 0.30, 15, 6, 3.760, 2.632, 1.692),
        ("mouldboard_plough", 0.35, 18, 6, 5.264, 3.685, 2.369),
        ("mouldboard_plough", 0.40, 20, 7, 7.215, 5.051, 3.247),
        ("subsoiler_narrow_point", 1, 30, 5, 8.130, 5.691, 3.659),
        ("subsoiler_narrow_point", 1, 40, 5, 10.840, 7.588, 4.878),
        ("subsoiler_winged_point", 1, 40, 5, 14.160, 9.912, 6.372),
        ("chisel_plough_straight_point", 1, 20, 7, 2.576, 2.190, 1.674),
        ("disk_harrow_tandem_secondary", 1, 10, 8, 3.056, 2.689, 2.384),
        ("disk_harrow_tandem_primary", 1, 12, 8, 5.244, 4.615, 4.090),
        ("disk_harrow_offset_primary", 1, 15, 7, 7.434, 6.542, 5.799),
        ("field_cultivator_secondary", 1, 8, 9, 0.393, 0.334, 0.255),
        ("row_crop_cultivator_s_tine", 1, 5, 7, 0.945, 0.803, 0.614),
        ("row_crop_cultivator_c_shank", 1, 5, 7, 1.755, 1.492, 1.141),
        ("disk_bedder", 1, 15, 6, 3.630, 3.194, 2.831),
    ],
)
def test_draft_in_three_soils(
    book: Book, row: str, width: float, depth: float, speed: float, fine: float, medium: float, coarse: float
) -> None:
    for texture, expected in (("fine", fine), ("medium", medium), ("coarse", coarse)):
        assert row_draft(book, row, texture, width, depth, speed) == pytest.approx(expected, abs=0.0006)


@pytest.mark.parametrize(
    ("row", "width", "feed", "kilowatts", "horsepower"),
    [
        ("baler_small_rectangular", 0, 6, 8.0, 10.7),
        ("baler_large_round_variable", 0, 8, 12.8, 17.2),
        ("baler_large_round_fixed", 0, 8, 16.9, 22.7),
        ("mower_cutterbar", 2.1, 0, 2.52, 3.4),
        ("mower_conditioner_disk", 2.8, 0, 22.4, 30.0),
        ("rake_rotary", 3.5, 0, 7.0, 9.4),
        ("tedder", 5.2, 0, 7.8, 10.5),
        ("forage_harvester_wilted_alfalfa", 0, 10, 46.0, 61.7),
    ],
)
def test_rotary_machines(book: Book, row: str, width: float, feed: float, kilowatts: float, horsepower: float) -> None:
    machine = book.tables["rotary_power"][row]
    power = rotary_power(
        a=machine["a"].planning, b=machine["b"].planning, width=width, c=machine["c"].planning, feed=feed
    )
    assert power == pytest.approx(kilowatts, abs=0.005)
    assert convert(power, "kW", "hp") == pytest.approx(horsepower, abs=0.06)


def test_oil_power() -> None:
    assert oil_power(pressure=175, flow=40, efficiency=1) == pytest.approx(11.67, abs=0.005)
    us = oil_power(pressure=convert(2500, "psi", "bar"), flow=convert(10, "gpm", "L/min"), efficiency=1)
    assert convert(us, "kW", "hp") == pytest.approx(14.58, abs=0.006)
    assert us == pytest.approx(10.87, abs=0.006)


def test_two_plough_methods_disagree_at_speed(book: Book) -> None:
    """At 6.4 km/h the older method has 1.42 over walking pace; the mouldboard row gives 1.29."""
    factors = [book.tables["speed_factor"][pace]["factor"].planning for pace in ("pace_1", "pace_4")]
    old = [specific_draft_pull(specific_draft=0.5, width=1, depth=20, speed_factor=factor) for factor in factors]
    new = [row_draft(book, "mouldboard_plough", "medium", 1, 20, speed) for speed in (1.6, 6.4)]
    assert old[1] / old[0] == pytest.approx(1.42)
    assert new[1] / new[0] == pytest.approx(1.29, abs=0.005)
