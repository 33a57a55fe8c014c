"""What `book check --deep` did not see: claims of a question of which nothing was seen come first, those of the edition
before others."""

from __future__ import annotations

from pathlib import Path

from firstfurrow.advice.moves_tested import Pair, Tried
from firstfurrow.asking.answers import NOT_SURE, Answers
from firstfurrow.asking.refs import Ref
from firstfurrow.commands.book_moves import own_questions, verdict

PAIR = Pair(Answers("metric", {}, ()), Ref("seen"), NOT_SURE, frozenset())
SHIPPED = tuple((f"altitude_{n}", "mass") for n in range(9))
SEEN = {("soil", "mass"): PAIR, **{(name, "pto_power"): PAIR for name, _ in SHIPPED}}


def test_a_claim_of_a_question_that_moved_nothing_is_not_hidden_behind_others() -> None:
    unseen = (*SHIPPED, ("depth", "mass"), ("frost", "pto_power"), ("soil", "drawbar_pull"))
    said = list(verdict(Tried(300, 1, SEEN, unseen, {}), {"frost", "soil"}, every_note=False))
    assert said[-6:] == [
        "  frost: pto_power (nothing that it claims was seen)",
        "  depth: mass (nothing that it claims was seen)",
        "  soil: drawbar_pull",
        "  altitude_0: mass",
        "  altitude_1: mass",
        "  and of 7 more questions: --notes shows all of them.",
    ]


def test_the_questions_of_an_edition_are_those_that_it_adds_or_changes(tmp_path: Path) -> None:
    (tmp_path / "edition.yaml").write_text("id: mine\nname: Mine\nversion: 1\nfor: {id: firstfurrow, version: 1}\n")
    (tmp_path / "sections").mkdir()
    (tmp_path / "sections" / "ground.yaml").write_text(
        "questions:\n  - {id: soil, ask: Which soil is it?}\n"
        "  - {id: frost, after: soil, type: choice, ask: Is it cold?, why: It helps.,"
        " choices: [{id: cold, label: cold}, {id: warm, label: warm}], not_sure: {how: left_out}}\n"
    )
    assert own_questions(tmp_path) == {"soil", "frost"}
