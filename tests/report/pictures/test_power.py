"""The picture of shaft power: bars in proportion, longest first, what decides and what may come later in words."""

from __future__ import annotations

import pytest
from drawn import NAMES, boxes, labels, page_of, profile_named, said, written

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.reasoning import Ends, ends
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Drawing, Line
from firstfurrow.report.pictures import power
from firstfurrow.report.pictures.sheet import MARGIN
from making import Maker

TILLER, LATER = {"kind": "rotary_tiller", "size": "1.5 m"}, {"kind": "disc_mower", "when": "later"}
NEAR = 0.01


def picture(profile: Profile) -> Picture:
    return next(power.pictures(page_of(profile)))


def asking(profile: Profile) -> list[Demand]:
    """What asks for power, in the order of the drawing."""
    return sorted((d for d in profile.demands if d.requirement == "pto_power"), key=lambda d: -d.value)


def bars(drawing: Drawing) -> list[float]:
    """How long the bars are; the first area is the one of the key."""
    _, *found = boxes(drawing.shapes, "mid")
    assert all(left == MARGIN for left, *_ in found)
    return [right - left for left, _, right, _ in found]


def reaches(drawing: Drawing) -> list[tuple[float, float]]:
    """Where the lines begin and end that say how far a value may be off; the first one is in the key."""
    _, *found = [s for s in drawing.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.stroke == "normal"]
    return [(line.x1 - MARGIN, line.x2 - MARGIN) for line in found]


@pytest.mark.parametrize("name", NAMES)
def test_bars_and_lines_are_in_proportion_to_the_values(book: Book, name: str) -> None:
    profile = profile_named(book, name)
    drawing, demands = picture(profile).drawing, asking(profile)
    found = bars(drawing)
    assert len(found) == len(demands)
    each = found[0] / demands[0].value
    assert found == pytest.approx([each * d.value for d in demands], abs=NEAR)
    assert found == sorted(found, reverse=True)
    reach = [ends(d.top) for d in demands]
    told = profile.outcomes["pto_power"].widest.told  # type: ignore[union-attr]
    wide = [(each * e.low, each * e.high) for e in reach if told(e.low) != told(e.high)]  # type: ignore[operator]
    assert reaches(drawing) == [pytest.approx(pair, abs=NEAR) for pair in wide]


@pytest.mark.parametrize("name", NAMES)
def test_every_hookup_is_written_with_its_value_and_said_with_its_ends(book: Book, name: str) -> None:
    profile = profile_named(book, name)
    told = profile.outcomes["pto_power"].widest.told  # type: ignore[union-attr]
    shown = picture(profile)
    values = [label.text for label in labels(shown.drawing) if label.bold]
    for demand in asking(profile):
        assert told(demand.value) in values
        line = next(s for s in shown.says if s.lower().startswith(f"{demand.name}:"))
        assert f": {told(demand.value)}." in line
        end = ends(demand.top)
        if told(end.low) != told(end.high):
            assert f"between {told(end.low)} and {told(end.high)}" in line
            assert f"between {told(end.low)} and {told(end.high)}" in written(shown.drawing)


@pytest.mark.parametrize("name", NAMES)
def test_the_one_that_decides_is_named_once_and_is_the_longest(book: Book, name: str) -> None:
    shown = picture(profile_named(book, name))
    assert written(shown.drawing).count("This one decides.") == 1
    assert "This one decides." in shown.says[1]
    assert said(shown).count("This one decides.") == 1


def test_the_dashed_line_stands_where_the_requirement_does(maker: Maker) -> None:
    profile = maker.profile([TILLER])
    drawing = picture(profile).drawing
    (demand,) = asking(profile)
    *_, dashed = [s for s in drawing.shapes if isinstance(s, Line) and s.stroke == "dashed"]
    stated = profile.outcomes["pto_power"].widest.stated  # type: ignore[union-attr]
    assert dashed.x1 - MARGIN == pytest.approx(bars(drawing)[0] / demand.value * stated)


def test_what_may_come_later_is_marked_in_words(maker: Maker) -> None:
    shown = picture(maker.profile([TILLER, LATER]))
    mower, tiller = (next(s for s in shown.says if s.startswith(name)) for name in ("Disc mower", "Rotary tiller"))
    assert "This may come later." in mower
    assert "This may come later." not in tiller
    assert written(shown.drawing).count("This may come later.") == 1
    if "This one decides." in mower:
        assert "For what is sure this one decides" in tiller


def test_a_reader_in_the_united_states_sees_horsepower(maker: Maker) -> None:
    metric, us = (picture(maker.profile([TILLER], units=units)) for units in ("metric", "us"))
    assert "kW" in written(metric.drawing)
    assert "hp" not in written(metric.drawing)
    assert "hp" in written(us.drawing)
    assert bars(us.drawing) == pytest.approx(bars(metric.drawing))


def test_no_end_is_an_arrow_and_words(maker: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(power, "ends", lambda step: Ends(step.value / 2, step.value, None))
    shown = picture(maker.profile([TILLER]))
    assert [s.arrow for s in shown.drawing.shapes if isinstance(s, Line)].count("end") == 1
    assert "At the hard end no power is enough." in said(shown)


def test_of_many_hookups_the_others_are_counted(maker: Maker) -> None:
    widths = [f"{1 + number / 20:.2f} m" for number in range(power.MOST + 3)]
    shown = picture(maker.profile([{"kind": "rotary_tiller", "size": size} for size in widths]))
    assert len(bars(shown.drawing)) == power.MOST
    assert "3 more ask for less." in shown.says
    assert "3 more ask for less." in written(shown.drawing)


def test_there_is_none_where_nothing_asks_for_power(maker: Maker) -> None:
    assert not list(power.pictures(page_of(maker.profile([{"kind": "bale_spear"}]))))
