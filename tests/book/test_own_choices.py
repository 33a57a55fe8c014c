"""Our own choices, and what we say of kinds by ourselves: they name real answers and fit to one another."""

from __future__ import annotations

from itertools import pairwise

from firstfurrow.book.model import Book


def test_easy_and_hard_answers_are_answers_of_a_question_that_some_kind_looks_at(book: Book) -> None:
    rows = book.tables["our_choices"].rows
    easy, hard = (set(rows[f"place_{name}"].words["answers"]) for name in ("easy", "hard"))
    deciding = {s.hard_by for k in book.kinds.values() for s in (k.shaft, *(v.shaft for v in k.variants)) if s}
    for asked in filter(None, deciding):
        question = book.question(asked)
        assert question is not None
        ids = {choice.id for choice in question.choices}
        assert ids & easy, asked
        assert ids & hard, asked
    known = {c.id for asked in filter(None, deciding) for c in book.question(asked).choices}  # type: ignore[union-attr]
    assert easy | hard <= known
    assert not easy & hard


def test_a_digger_on_the_arms_is_never_asked_about_a_hydraulic_top_link(book: Book) -> None:
    """A loose or moving top link folds a digger up on to its driver (common practice, no source)."""
    assert "three_point" in book.kinds["backhoe"].features
    assert "tilts" not in book.kinds["backhoe"].features
    assert "tilts" in book.kinds["box_blade"].features


def test_only_a_digger_for_post_holes_refuses_a_quick_coupler(book: Book) -> None:
    """Its boom hangs where the hook of the coupler would be (owners' reports and reasoning; common practice)."""
    assert [k.kind for k in book.kinds.values() if k.no_quick_coupler] == ["post_hole_digger"]


def test_lawn_mowers_spare_the_lawn_and_what_is_pulled_through_soil_or_wood_wants_lugs(book: Book) -> None:
    """Common practice, no source."""
    treads = {name: {k.kind for k in book.kinds.values() if k.tread == name} for name in ("turf", "lug")}
    assert treads["turf"] == {"finish_mower", "mid_mount_mower"}
    assert treads["lug"] >= {k.kind for k in book.kinds.values() if k.draft_control or k.guard}
    assert {k.kind for k in book.kinds.values() if k.guard} == {"log_winch", "forwarding_trailer"}


def test_what_a_smaller_machine_does_is_nothing_that_asks_for_a_strong_tractor(book: Book) -> None:
    """Common practice, no source: nobody replaces a baler, a plough, a loader or a heavy trailer by hand tools."""
    small = {k.kind: k.done_without for k in book.kinds.values() if k.done_without is not None}
    riding = {k for k, other in small.items() if other.what == "a riding mower"}
    assert riding == {"finish_mower", "mid_mount_mower"}
    lawn = book.choice("no_tractor_area").planning
    assert all(other.area == lawn for k, other in small.items() if k in riding)
    assert small["utility_trailer"].load == book.choice("no_tractor_load").planning
    for name in small:
        kind = book.kinds[name]
        assert not kind.draft_control
        assert not kind.guard
        assert not any(variant.way == "loader" for variant in kind.variants)


def test_a_paved_road_is_no_answer_and_grips_at_least_as_well_when_dry(book: Book) -> None:
    """Road-accident engineering, quoted: wet concrete 0.60, dry concrete 0.75."""
    question = book.question("surface")
    assert question is not None
    assert "paved" not in {choice.id for choice in question.choices}
    paved = book.tables["surfaces"]["paved"]["grip"]
    assert (paved.low, paved.planning, paved.high) == (0.6, 0.6, 0.75)
    assert all(row["grip"].high <= paved.high for row in book.tables["surfaces"].rows.values())


def test_heat_begins_to_count_where_the_textbook_says_and_grows_with_the_answer(book: Book) -> None:
    """A textbook, read in a copy: 1 % for each 5 degrees Fahrenheit above 85 (29 degrees Celsius), diesel."""
    rows = list(book.tables["heat"].rows.values())
    assert [row.id for row in rows] == ["mild", "hot", "very_hot"]
    assert rows[0]["above"].high == 0
    assert all(a["above"].high <= b["above"].high for a, b in pairwise(rows))
    step = book.choice("heat_step").planning
    assert round(step * 9 / 5, 1) == 5.0
    assert 29 <= 35 - rows[1]["above"].high <= 30  # the guide says up to 35 degrees


def test_what_is_worked_out_for_the_class_that_stands_in(book: Book) -> None:
    """What the counterweight, axle loads, track and hauling come to needs a tractor; all else holds for any."""
    assert {r.id for r in book.requirements.values() if r.stand_in} == {
        "rear_axle_load", "rear_ballast", "front_axle_load", "track_least", "mass_most",
    }  # fmt: skip


def test_requirements_stand_in_the_order_of_their_groups(book: Book) -> None:
    groups = [r.group for r in book.requirements.values()]
    assert list(dict.fromkeys(groups)) == list(book.groups)
    assert groups == sorted(groups, key=list(book.groups).index)


def test_what_can_hurt_somebody_has_a_caution(book: Book) -> None:
    """Every requirement and every kind of implement."""
    assert [r.id for r in book.requirements.values() if not r.cautions] == []
    assert [k.kind for k in book.kinds.values() if not k.cautions] == []


def test_size_classes_grow_in_every_length_and_weight_that_was_added(book: Book) -> None:
    """Front axle pivot a little under half of the centre's height, load ahead of the loader (common practice)."""
    rows = list(book.tables["size_classes"].rows.values())
    for column in ("pivot_height", "pins_ahead", "hitch_height"):
        for end in ("low", "planning", "high"):
            found = [getattr(row[column], end) for row in rows]
            assert found == sorted(found), (column, end)
    for row in rows:
        assert 0.44 <= row["pivot_height"].planning / row["centre_height"].planning <= 0.5
        assert 0 <= row["pins_ahead"].planning - row["loader_ahead"].planning <= 0.25
