"""Offer files: units as typed, every damage one sentence with its place, and good rows kept."""

from __future__ import annotations

import pytest
from offering import read_one

from firstfurrow.advice.offers.reading import read_offers, together
from firstfurrow.book.model import Book

HEAD = "format: firstfurrow-offer/1\nname: mine\noffer:\n"


def problems(book: Book, text: str, file: str = "mine.yaml") -> tuple[str, ...]:
    return read_offers(book, text, file).problems


def test_units_are_read_as_typed_and_hp_is_mechanical(book: Book) -> None:
    offer = read_one(book, pto_power="30 hp", engine_power="40 PS", lift_610="1000 lb", oil_flow="8 gpm", width="62 in")
    assert offer.get("pto_power") == pytest.approx(30 * 0.745699872)  # 550 foot-pounds a second, exact by definition
    assert offer.get("engine_power") == pytest.approx(40 * 0.73549875)  # 75 kilogram-metres a second
    assert offer.get("lift_610") == pytest.approx(453.59237)
    assert offer.get("oil_flow") == pytest.approx(8 * 3.785411784)
    assert offer.get("width") == pytest.approx(62 * 0.0254)


def test_words_of_the_trade_are_understood(book: Book) -> None:
    offer = read_one(book, hitch_category="Cat 1", driven_wheels="4WD", roll_bar="ROPS", pto_speeds="540/1000",
                     road_kit="lights and SMV", mid_pto="none", shaft_types="type 1", tyre_tread="R4")  # fmt: skip
    assert offer.get("hitch_category") == ("1",)
    assert offer.get("driven_wheels") == "four"
    assert offer.get("roll_bar") == "bar_and_belt"
    assert offer.get("pto_speeds") == (540, 1000)
    assert offer.get("road_kit") == ("lights", "emblem")
    assert offer.get("mid_pto") == ()
    assert offer.get("tyre_tread") == "mixed"


def test_what_is_not_known_is_left_out(book: Book) -> None:
    found = read_offers(book, HEAD + "  pto_power: unknown\n  mass: '?'\n  width:\n", "mine.yaml")
    assert (found.problems, dict(found.offers[0].said)) == ((), {})


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("mass: 1.2 ton", "Which ton?"),
        ("mass: 1.2 t", "Which ton?"),
        ("mass: -500 kg", "cannot be negative"),
        ("mass: 0 kg", "more than nothing"),
        ("mass: 1200", "has no unit"),
        ("pto_power: 30 lb", "That is a mass"),
        ("pto_powr: 30 hp", 'Did you mean "pto_power"?'),
        ("driven_wheels: six", "Write one of these: two, four"),
        ("road_kit: [lights, none]", "none and something else"),
        ("mass: true", "a number with its unit"),
        ("mass: [1 kg, 2 kg]", "one value"),
        ("mass: 1e300 kg", "too large"),
        ("wheelbase: 1e-9 m", "more than nothing"),
        ('driven_wheels: "\\e[2Jsix\\r"', "Write one of these"),
        ("mass: .nan", "does not begin with a number"),
    ],
)
def test_a_bad_value_gets_one_sentence_with_its_line(book: Book, line: str, says: str) -> None:
    found = problems(book, f"{HEAD}  {line}\n")
    assert len(found) == 1
    assert found[0].startswith("mine.yaml:4: ")
    assert says in found[0]
    assert found[0].isprintable()


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("front_axle_mass: 600 kg, rear_axle_mass: 800 kg, mass_bare: 1500 kg", "add up to"),
        ("lift_610: 900 kg, lift_ball_ends: 800 kg", "more than the lift at the ball ends"),
        ("pto_power: 40 hp, engine_power: 35 hp", "never gives more than the engine"),
        ("mass_bare: 1600 kg, mass: 1500 kg", "swapped"),
        ("rear_sets: 4, rear_ports: 4", "so that is 2"),
        ("height_folded: 2.5 m, height: 2.4 m", "swapped"),
        ("loader_lift: 900 kg, loader_breakout: 800 kg", "breakout"),
        ("turning_circle: 4 m, turning_radius: 3 m", "radius"),
    ],
)
def test_what_does_not_go_together_is_refused(book: Book, lines: str, says: str) -> None:
    found = problems(book, HEAD + "".join(f"  {line}\n" for line in lines.split(", ")))
    assert len(found) == 1
    assert found[0].startswith("mine.yaml:")
    assert says in found[0]


def test_axles_may_miss_the_weight_by_three_percent(book: Book) -> None:
    def with_mass(kilograms: int) -> tuple[str, ...]:
        return problems(
            book, f"{HEAD}  front_axle_mass: 400 kg\n  rear_axle_mass: 600 kg\n  mass_bare: {kilograms} kg\n"
        )

    assert not with_mass(1030)
    assert not with_mass(971)
    assert with_mass(1032)
    assert with_mass(970)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "This is not an offer"),
        ("[]", "This is not an offer"),
        ("{", "mine.yaml:"),
        (HEAD.replace("offer/1", "offer/2"), "This is not an offer"),
        (HEAD.replace("name: mine\n", "") + "  mass: 1 kg\n", "has no name"),
        (HEAD + "  mass: 1 kg\n  mass: 2 kg\n", "written twice"),
        (HEAD.replace("offer:", "ofer:") + "  mass: 1 kg\n", 'Did you mean "offer"?'),
        (HEAD + "  mass: 1 kg\nwidth: 1 m\n", "It belongs under offer"),
        (HEAD.replace("mine", "x" * 81) + "  mass: 1 kg\n", "too long"),
    ],
)
def test_a_damaged_file_is_refused_with_its_line(book: Book, text: str, says: str) -> None:
    found = read_offers(book, text, "mine.yaml")
    assert not found.offers
    assert any(says in problem for problem in found.problems)
    assert all(problem.startswith("mine.yaml:") for problem in found.problems)


@pytest.mark.parametrize("sign", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_list_is_read_whatever_its_separator(book: Book, sign: str, mark: str) -> None:
    rows = [["name", "PTO power", "rear_sets"], ["one", "30 hp", "1"], ["two", "", "2"]]
    text = mark + "\r\n".join(sign.join(row) for row in rows) + "\r\n"
    found = read_offers(book, text, "yard.csv")
    assert not found.problems
    assert [(o.name, o.get("rear_sets"), o.place) for o in found.offers] == [
        ("one", 1, "yard.csv: row 2"), ("two", 2, "yard.csv: row 3")
    ]  # fmt: skip
    assert found.offers[1].get("pto_power") is None


def test_good_rows_are_kept_and_bad_ones_said(book: Book) -> None:
    text = "name,mass,pto_powr\ngood,1200 kg,1\nheavy,-3 kg,1\n,900 kg,1\nlong,1 kg,2,3\nlast,2 tonnes,\n"
    found = read_offers(book, text, "yard.csv")
    assert [o.name for o in found.offers] == ["good", "last"]
    assert [p.split(": ")[1] for p in found.problems] == ["row 1", "row 3", "row 4", "row 5"]
    assert 'Did you mean "pto_power"?' in found.problems[0]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("mass,width\n1 kg,2 m\n", "one of them must be name"),
        ("name,mass,mass\na,1 kg,2 kg\n", "heads two columns"),
        ("name,mass\n", "no offer in this list"),
        ("", "one of them must be name"),
        ('name,mass\na,"1 kg\n', "quotes"),
    ],
)
def test_a_list_that_is_no_use_says_why(book: Book, text: str, says: str) -> None:
    found = read_offers(book, text, "yard.csv")
    assert not found.offers
    assert len(found.problems) == 1
    assert says in found.problems[0]


def test_a_name_that_comes_again_is_refused_with_both_places(book: Book) -> None:
    parts = [read_offers(book, HEAD + "  mass: 1 kg\n", "a.yaml"), read_offers(book, "name\nMine\nyours\n", "b.csv")]
    found = together(book, parts)
    assert [o.name for o in found.offers] == ["mine", "yours"]
    assert len(found.problems) == 1
    assert found.problems[0].startswith("b.csv: row 2: ")
    assert "a.yaml:2" in found.problems[0]


def test_every_key_that_a_requirement_reads_is_a_key_of_an_offer(book: Book) -> None:
    for requirement in book.requirements.values():
        assert requirement.offer_keys
        assert set(requirement.offer_keys) <= set(book.offer_keys)
