"""Two plans side by side: bars of a pair in proportion, words where there is no amount, furthest first."""

from __future__ import annotations

import pytest
from drawn import NAMES, boxes, profile_named, said, written

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.felt import difference, scale_of
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Picture
from firstfurrow.report.pictures.before_after import MOST, before_after
from making import Maker

NARROW, WIDE = ({"kind": "rotary_tiller", "size": size} for size in ("1.2 m", "1.8 m"))
PAIRS = tuple(zip(NAMES, (*NAMES[3:], *NAMES[:3]), strict=True))


def bars(picture: Picture) -> list[float]:
    """How long the bars are, in order; the first two areas are those of the key."""
    _, _, *found = boxes(picture.drawing.shapes, "light", "hatch")
    return [right - left for left, _, right, _ in found]


def drawn(book: Book, before: Profile, after: Profile, names: tuple[str, str] = ("first", "second")) -> Picture:
    picture = before_after(book, before, after, names)
    assert picture is not None
    return picture


@pytest.mark.parametrize("names", PAIRS, ids="-".join)
def test_bars_of_a_pair_are_in_proportion_and_the_longer_is_the_same_in_all_pairs(
    book: Book, names: tuple[str, str]
) -> None:
    before, after = (profile_named(book, name) for name in names)
    found = iter(bars(drawn(book, before, after)))
    longest = []
    for move in difference(scale_of(book), before, after).moves[:MOST]:
        requirement = book.requirements[move.requirement]
        sides = [p.outcomes[move.requirement].widest for p in (before, after)]
        worded = not requirement.unit and move.requirement == "drawbar_class"
        if requirement.sense not in ("at_least", "at_most") or worded:
            continue
        if requirement.sense == "at_most" and None in sides:
            continue
        values = [0.0 if side is None else float(side.stated) for side in sides]
        first, second = next(found), next(found)
        assert first * values[1] == pytest.approx(second * values[0], rel=0.001, abs=1)
        longest.append(max(first, second))
    assert next(found, None) is None
    assert longest == pytest.approx(longest[:1] * len(longest), abs=0.01)


@pytest.mark.parametrize("names", PAIRS, ids="-".join)
def test_what_moves_furthest_stands_first_and_both_values_are_said(book: Book, names: tuple[str, str]) -> None:
    before, after = (profile_named(book, name) for name in names)
    moves = difference(scale_of(book), before, after).moves
    lines = [line for line in drawn(book, before, after).says if line[:1].isupper()]
    for line, move in zip(lines[1:], moves[:MOST], strict=False):
        assert line.startswith(book.requirements[move.requirement].title)
        for shown in (move.before, move.after):
            assert shown is None or shown in line
    assert (f"{len(moves) - MOST} more" in said(drawn(book, before, after))) == (len(moves) > MOST)


def test_a_wider_tool_has_the_longer_bar(book: Book, maker: Maker) -> None:
    picture = drawn(book, *(maker.profile([one]) for one in (NARROW, WIDE)))
    line = next(line for line in picture.says if line.startswith("Power at the turning shaft"))
    assert "at least. first: " in line
    lengths = bars(picture)
    assert all(first < second for first, second in zip(lengths[::2], lengths[1::2], strict=True))


def test_the_same_plan_twice_has_no_picture(book: Book, maker: Maker) -> None:
    profile = maker.profile([NARROW])
    assert before_after(book, profile, profile, ("a", "b")) is None


def test_a_category_is_words_and_no_bar(book: Book) -> None:
    before, after = (profile_named(book, name) for name in ("steep_gravel_lane", "too_much_at_once"))
    picture = drawn(book, before, after)
    line = next(line for line in picture.says if line.startswith("Hitch category"))
    assert line.endswith("first: nothing asked for. second: category 2.")
    assert len(bars(picture)) == 2 * sum(", at least." in one or ", at most." in one for one in picture.says)


def test_no_limit_is_no_short_bar(book: Book, maker: Maker) -> None:
    open_, gate = (maker.profile([NARROW], gate_width=width) for width in (None, "2.5 m"))
    picture = drawn(book, open_, gate)
    line = next(line for line in picture.says if line.startswith("Greatest width"))
    assert "first: no limit. second: " in line
    assert len(bars(picture)) == 2 * (len(picture.says) - 2)


def test_long_names_become_letters_that_are_explained(book: Book, maker: Maker) -> None:
    names = ("The plan with the wide tiller for the heavy field", "The plan with the narrow tiller")
    picture = drawn(book, maker.profile([WIDE]), maker.profile([NARROW]), names)
    assert picture.says[0] == f"The first plan is A: {names[0]}. The second plan is B: {names[1]}."
    assert f"A: {names[0]}" in written(picture.drawing).replace("\n", " ")
    assert ". A: " in picture.says[1]


def test_a_lean_profile_does_as_well(book: Book, maker: Maker) -> None:
    whole, lean = (
        drawn(book, *(maker.profile([one], lean=lean) for one in (NARROW, WIDE))) for lean in (False, True)
    )  # fmt: skip
    assert whole == lean
