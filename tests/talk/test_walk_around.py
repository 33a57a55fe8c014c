"""The walk around a tractor, typed in: kept after each box, told back, at odds said at once, nothing ever lost."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from io import StringIO
from pathlib import Path

import pytest

from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.advice.offers.walk_around import OfferBoxes
from firstfurrow.asking.answers import Units
from firstfurrow.book.load import load
from firstfurrow.book.walk_around import boxes
from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE
from firstfurrow.talk.script import INTERRUPT, ScriptFront
from firstfurrow.talk.walk_around import WalkAround, WalkAroundError

BOOK = load()
BOXES = boxes(BOOK)
NUMBER = {box.key.id: box.number for box in BOXES}
DEMO = Path(__file__).parents[2] / "transcripts_demo" / "offers"


def go(key: str) -> str:
    return f"go {NUMBER[key]}"


def walk(
    lines: Sequence[str], path: Path | None = None, *, width: int = 80, units: Units | None = None,
    only: Collection[str] | None = None, text: str = "",
) -> tuple[str, str | None]:  # fmt: skip
    """The screen as one line of words, and the offer."""
    front = ScriptFront(lines, width)
    offer = WalkAround(BOOK, front, units, OfferBoxes(BOOK, units), only=only, text=text).run(path)
    for line in front.screen.splitlines():
        assert len(line) < width or line.startswith(">") or " " not in line.strip(), line
    return " ".join(front.screen.split()), offer


def said(text: str | None) -> dict[str, object]:
    """What the offer says, in working units; it must be one that reads back without a word."""
    assert text is not None
    found = read_offers(BOOK, text, "mine.yaml")
    assert found.problems == ()
    return {key: value.value for key, value in found.offers[0].said.items()}


# --------------------------------------------------------------- there and back


@pytest.mark.parametrize("demo", sorted(DEMO.glob("*.yaml")), ids=lambda p: p.stem)
@pytest.mark.parametrize("width", [40, 80])
def test_an_offer_typed_in_box_by_box_reads_back_the_same(demo: Path, tmp_path: Path, width: int) -> None:
    shipped = read_offers(BOOK, demo.read_text(encoding="utf-8"), demo.name).offers[0]
    lines = [shipped.said[box.key.id].text if box.key.id in shipped.said else "" for box in BOXES]
    screen, text = walk([shipped.name, *lines], tmp_path / "mine.yaml", width=width)
    assert said(text) == {key: value.value for key, value in shipped.said.items()}
    assert (tmp_path / "mine.yaml").read_text(encoding="utf-8") == text
    assert f"{len(shipped.said)} of {len(BOXES)} boxes are filled in." in screen


@pytest.mark.parametrize("units", ["us", "metric", None])
def test_a_zero_needs_no_unit_and_none_means_zero(units: Units | None) -> None:
    _, text = walk(["mine", go("front_ballast"), "0", go("loader_lift"), "none"], units=units)
    assert said(text) == {"front_ballast": 0, "loader_lift": 0}


def test_what_is_read_is_what_an_offer_file_says_in_the_same_words() -> None:
    typed = {"engine_power": "40 PS", "pto_power": "30 hp", "hitch_category": "Cat 1", "driven_wheels": "4WD",
             "road_kit": "lights and SMV", "mid_pto": "none", "pto_speeds": "540/1000", "width": "5' 3\"",
             "oil_flow": "8 gpm", "rear_sets": "2", "front_tyre_size": "7.50-16"}  # fmt: skip
    _, text = walk(["mine", *(line for key, value in typed.items() for line in (go(key), value)), "save"])
    file = "format: firstfurrow-offer/1\nname: x\noffer:\n" + "".join(
        f"  {key}: '{value.replace(chr(39), chr(39) * 2)}'\n" for key, value in typed.items()
    )
    assert said(text) == said(file)
    assert said(text)["pto_power"] == pytest.approx(30 * 0.745699872)  # a mechanical horsepower


@pytest.mark.parametrize(
    ("key", "line", "says"),
    [
        ("mass", "1.2 ton", "Which ton?"),
        ("mass", "1200", "has no unit"),
        ("mass", "-5 kg", "cannot be negative"),
        ("pto_power", "30 lb", "That is a mass"),
        ("driven_wheels", "six", "Write one of these: two, four"),
        ("road_kit", "lights, none", "none and something else"),
        ("rear_tyre_size", "huge", "cannot be read as the size of a tyre"),
    ],
)
def test_a_bad_value_gets_its_sentence_and_the_same_box_again(key: str, line: str, says: str) -> None:
    screen, text = walk(["mine", go(key), line, "why", "save"])
    assert says in screen
    assert text is None  # nothing else was filled in


# -------------------------------------------------------------------- the numbers


def test_boxes_are_asked_in_the_order_and_with_the_numbers_of_the_sheet() -> None:
    front = ScriptFront(["mine", *[""] * len(BOXES)])
    assert WalkAround(BOOK, front, None, OfferBoxes(BOOK)).run(None) is None
    shown = [line for line in front.screen.splitlines() if line.startswith("Box ")]
    assert shown == [f"Box {box.number} of {len(BOXES)}: {box.key.name}" for box in BOXES]
    for stop in BOOK.round.stops if BOOK.round else ():
        assert front.screen.count(stop.title.upper()) == 1


def test_a_walk_of_some_boxes_keeps_their_numbers_and_what_the_others_hold() -> None:
    before = "format: firstfurrow-offer/1\nname: mine\noffer:\n  width: 62 in\n"
    screen, text = walk(["1400 kg", "go 1", "save"], only=("wheelbase", "mass"), text=before)
    assert f"Box {NUMBER['wheelbase']} of {len(BOXES)}" in screen
    assert "has no unit" not in screen
    assert "That is a mass" in screen  # the wheelbase was asked first
    assert "only boxes that are asked here" in screen
    assert said(text) == {"width": pytest.approx(62 * 0.0254)}
    _, both = walk(["", "1400 kg"], only=("wheelbase", "mass"), text=before)
    assert said(both) == {"width": pytest.approx(62 * 0.0254), "mass": 1400}


def test_where_measures_are_known_a_bare_number_has_the_unit_of_its_box() -> None:
    lines = ["mine", go("mass"), "5,200", go("width"), "62 1/2", go("shaft_to_pin"), "14, 16", "save"]
    screen, text = walk(lines, units="us")
    assert said(text)["mass"] == pytest.approx(5200 * 0.45359237)
    assert said(text)["width"] == pytest.approx(62.5 * 0.0254)
    assert said(text)["shaft_to_pin"] == pytest.approx((355.6, 406.4))
    assert "5200 lb (2359 kg)" in screen
    assert "62.5 in (158.8 cm)" in screen


def test_one_unit_behind_several_numbers_stands_for_all() -> None:
    assert said(walk(["mine", go("shaft_to_pin"), "14, 16 in", "save"])[1])["shaft_to_pin"] == pytest.approx(
        (355.6, 406.4)
    )


# ------------------------------------------------------------------------ at odds

CROSSED = ["mine", go("lift_610"), "3000 lb", go("lift_ball_ends"), "2600 lb"]


def test_what_does_not_go_together_is_said_at_once_and_both_count_as_not_known(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    screen, text = walk([*CROSSED, go("mass"), "1400 kg", "save"], path)
    told = screen.split("2600 lb", 1)[1]
    assert told.index("more than the lift at the ball ends") < told.index(f"go {NUMBER['mass']}")
    assert f"not known: {NUMBER['lift_610']}, {NUMBER['lift_ball_ends']}." in told
    assert said(text) == {"mass": 1400}  # so that it is an offer that can be checked
    assert "in doubt lift_610: 3000 lb" in (text or "")
    screen, text = walk([go("lift_ball_ends"), "3200 lb", "save"], path)  # both are there again, and one is mended
    assert "Filled in: 1179 kg (2600 lb)." in screen
    assert "What did not go together is settled." in screen
    assert set(said(text)) == {"mass", "lift_610", "lift_ball_ends"}


def test_an_offer_file_that_is_at_odds_with_itself_can_be_mended(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(
        "format: firstfurrow-offer/1\nname: mine\noffer:\n  engine_power: 40 hp\n  pto_power: 45 hp\n", encoding="utf-8"
    )
    assert read_offers(BOOK, path.read_text(encoding="utf-8"), "mine.yaml").problems
    screen, text = walk([go("pto_power"), "34 hp", "save"], path)
    assert "never gives more than the engine" in screen
    assert set(said(text)) == {"engine_power", "pto_power"}


def test_only_what_is_at_odds_is_held_back() -> None:
    found = OfferBoxes(BOOK).at_odds(
        "mine", {"front_axle_mass": "600 kg", "rear_axle_mass": "800 kg", "mass_bare": "1500 kg", "width": "1.6 m"}
    )
    assert found.keys == {"front_axle_mass", "rear_axle_mass", "mass_bare"}
    assert len(found.sentences) == 1


# ----------------------------------------------------------------- the file on disk


class _Stopping(ScriptFront):
    """Looks at the file before each line is typed."""

    def __init__(self, lines: Sequence[str], path: Path) -> None:
        super().__init__(lines)
        self.path = path
        self.seen: list[int] = []

    def ask(self, prompt: str) -> str:
        if self.path.exists():
            self.seen.append(len(said(self.path.read_text(encoding="utf-8"))))
        return super().ask(prompt)


def test_the_file_is_a_valid_offer_after_every_box(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    front = _Stopping([*CROSSED, go("mass"), "1400 kg", go("mass"), "unsure", "4wd", "save"], path)
    WalkAround(BOOK, front, None, OfferBoxes(BOOK)).run(path)
    assert front.seen[0] == 1
    assert max(front.seen) == 1  # lift, then neither lift, then the mass
    assert not list(tmp_path.glob(".*"))  # nothing is left beside it


@pytest.mark.parametrize("end", [[INTERRUPT], []], ids=["interrupted", "closed"])
def test_what_was_typed_is_kept_whatever_ends_the_talk(tmp_path: Path, end: list[str]) -> None:
    path = tmp_path / "mine.yaml"
    front = ScriptFront(["mine", go("mass"), "1400 kg", *end])
    talk = WalkAround(BOOK, front, None, OfferBoxes(BOOK))
    assert talk.run(path) == path.read_text(encoding="utf-8")
    assert talk.interrupted is bool(end)
    assert said(path.read_text(encoding="utf-8")) == {"mass": 1400}
    assert f"--out{path}" in "".join(front.screen.split())  # a long path may be broken


def test_before_the_first_box_nothing_is_written(tmp_path: Path) -> None:
    screen, text = walk(["mine", "save"], tmp_path / "mine.yaml")
    assert text is None
    assert list(tmp_path.iterdir()) == []
    assert "Nothing was filled in, so nothing was kept." in screen


def test_a_file_is_gone_on_with_and_its_notes_stay(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(
        "# mine\nformat: firstfurrow-offer/1\nname: Grey one\nnotes: [seen on a Sunday]\noffer:\n"
        "  road_kit: [lights, emblem]\n  pto_speeds: 540\n",
        encoding="utf-8",
    )
    screen, text = walk([go("road_kit"), "", "", go("mass"), "1400 kg", "save"], path)
    assert "This is Grey one: 2 of" in screen
    assert "comments. They are lost" in screen
    assert "Filled in: lights, the slow-vehicle mark." in screen
    assert said(text) == {"road_kit": ("lights", "emblem"), "pto_speeds": (540,), "mass": 1400}
    assert "seen on a Sunday" in (text or "")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("format: firstfurrow-answers/1\n", ":1: This is not an offer"),
        ("format: firstfurrow-offer/1\nname: a\noffer:\n  mass: 1200\n", ":4: weight ready for work"),
        ("format: firstfurrow-offer/1\nname: a\noffer:\n  pto_powr: 30 hp\n", 'Did you mean "pto_power"?'),
        ("format: firstfurrow-offer/1\noffer:\n  mass: 1200 kg\n", "has no name"),
        ("format: firstfurrow-offer/1\nname: a\noffer: [1]\n", "one key in each line"),
        ("a: b: c\n", "mine.yaml:1"),
    ],
)
def test_a_file_that_is_no_offer_is_left_as_it_is(tmp_path: Path, content: str, says: str) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(content, encoding="utf-8")
    with pytest.raises(WalkAroundError) as error:
        walk(["mine", "4wd"], path)
    assert says in str(error.value)
    assert "The file was left as it is." in str(error.value)
    assert path.read_text(encoding="utf-8") == content


def test_a_folder_and_odd_bytes_are_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "odd.yaml").write_bytes(b"\xff\xfe\xff")
    for path in (tmp_path, tmp_path / "odd.yaml"):
        with pytest.raises(WalkAroundError, match=str(path)):
            walk(["mine"], path)


def test_where_nothing_can_be_written_the_offer_is_shown_at_the_end(tmp_path: Path) -> None:
    path = tmp_path / "not there" / "mine.yaml"
    screen, text = walk(["mine", "4wd", go("mass"), "1400 kg", "save"], path)
    assert screen.count("cannot be written") == 1
    assert "mass: 1400 kg" in screen.split("Copy what follows")[1]
    assert set(said(text)) == {"driven_wheels", "mass"}


# ------------------------------------------------------------------------ commands


def test_every_word_of_the_help_does_what_it_says() -> None:
    lines = ["mine", "4wd", "back", "how", "why", "list", "unsure", "help", "words", go("mass"), "go 999", "go", "save"]
    screen, text = walk(lines)
    assert "Box 1: four." in screen
    assert screen.count(f"Box 1 of {len(BOXES)}: driven wheels") == 3  # asked, back, how
    assert "It is held against what your plan asks for: " in screen
    assert "1 driven wheels: four Empty: 2, 3," in screen
    assert "Box 1 is empty again." in screen
    assert "list: what is filled in" in screen
    assert "That word does nothing here." in screen
    assert screen.count(f"from 1 to {len(BOXES)}") == 2
    assert text is None


def test_back_from_the_first_box_changes_the_name() -> None:
    _, text = walk(["mien", "4wd", "back", "back", "mine", "save"])
    assert "name: 'mine'" in (text or "")


def test_my_tractor_is_a_name() -> None:
    assert "name: 'My tractor'" in (walk(["My tractor", "4wd", "save"])[1] or "")


@pytest.mark.parametrize("name", ["", "help", "x" * 90])
def test_a_name_that_is_none_is_asked_again(name: str) -> None:
    _, text = walk([name, "mine's: #1", "4wd", "save"])
    assert read_offers(BOOK, text or "", "mine.yaml").offers[0].name == "mine's: #1"


def test_unsure_all_the_way_leaves_everything_empty() -> None:
    screen, text = walk(["mine", *["unsure"] * len(BOXES)])
    assert text is None
    assert "never guessed" in screen


def test_a_pipe_that_never_ends_comes_to_an_end() -> None:
    assert walk(["mine", *["y"] * 500])[1] is None


NONSENSE = ["banana", "9" * 400, "\x07", "1/0 in", "{a: b}", "'", "22 mm 1 lb", "nan", "1e999 kg", "go -1", "- - -"]


@pytest.mark.parametrize("line", NONSENSE)
def test_nonsense_in_any_box_gets_a_sentence_or_is_taken_and_never_ends_the_talk(line: str) -> None:
    lines = ["mine", *(part for box in BOXES for part in (f"go {box.number}", line)), "save"]
    front = ScriptFront(lines)
    text = WalkAround(BOOK, front, None, OfferBoxes(BOOK)).run(None)
    assert text is None or said(text) is not None
    assert f"> go {len(BOXES)}\n" in front.screen  # the walk came to the last box
    assert "Traceback" not in front.screen


# ----------------------------------------------------------------- cautions, command


@pytest.mark.parametrize("width", [40, 80])
def test_cautions_stand_before_the_name_and_before_the_boxes_of_a_stop(width: int) -> None:
    assert BOOK.round is not None
    screen, _ = walk(["mine", *[""] * len(BOXES)], width=width)
    for caution in BOOK.round.cautions:
        assert screen.index(caution) < screen.index("What do you call this tractor?")
    for stop in BOOK.round.stops:
        for caution in stop.cautions:
            first = next(box for box in BOXES if box.stop.id == stop.id)
            assert screen.index(caution) < screen.index(f"Box {first.number} of {len(BOXES)}")


def test_the_command_keeps_a_file_of_its_own_and_goes_on_with_one_that_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    def type_in(*lines: str) -> None:
        monkeypatch.setattr("sys.stdin", StringIO("".join(f"{line}\n" for line in lines)))

    type_in("Red one", "4wd", "save")
    assert main(["measure", "walk-around", "--plain"]) == DONE
    assert "firstfurrow-tractor.yaml" in capsys.readouterr().out
    type_in(go("mass"), "3000", "save")
    assert main(["measure", "walk-around", "--plain", "--units", "us", "--out", "firstfurrow-tractor.yaml"]) == DONE
    assert set(said(Path("firstfurrow-tractor.yaml").read_text(encoding="utf-8"))) == {"driven_wheels", "mass"}
    type_in("Blue one", "2wd", "save")
    assert main(["measure", "walk-around", "--plain"]) == DONE
    assert sorted(p.name for p in tmp_path.iterdir()) == ["firstfurrow-tractor-2.yaml", "firstfurrow-tractor.yaml"]
    capsys.readouterr()
    Path("other.yaml").write_text("a: 1\n", encoding="utf-8")
    assert main(["measure", "walk-around", "--out", "other.yaml"]) == BAD_INPUT
    assert capsys.readouterr().err.startswith("firstfurrow: other.yaml:1: This is not an offer.")
    assert main(["measure", "hitch", "--out", "other.yaml"]) == BAD_INPUT
    assert "walk-around only" in capsys.readouterr().err
