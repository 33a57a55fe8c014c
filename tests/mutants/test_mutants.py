"""Single changes of a small text, by hand; and every change that is accepted still exists and says why."""

from __future__ import annotations

import ast

import pytest
from changes import Piece, changes
from formulas_changed import as_code, formulas_changed
from mutant import Mutant, file_of, key_of, mutants
from run import accepted, entries

FORMULA = """\
@formula("a / sin(b)", unit="kg", digits=1, raises="a", lowers="b")
def over(a, b):
    '''Words.'''
    return a / math.sin(math.radians(b))
"""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("f = a + b * 2", ["a - (b * 2)", "a", "b * 2", "b / 2", "3", "1"]),
        ("x: int = 0.5", ["1.5", "-0.5", "0.505"]),
        ("if a < b:\n    run(a)", ["not (a < b)", "a <= b", "a >= b", "pass"]),
        ("f = a and not b", ["a or (not b)", "not b", "a", "b"]),
        ("for a in b:\n    if a: continue", ["not a", "pass", "break"]),
        ("f = max(a, b)", ["min", "a", "b"]),
        ("raise ValueError('words')", ["pass"]),
        ("import a\n'words'\nassert a == 1", []),
    ],
)
def test_what_stands_there_instead(text: str, expected: list[str]) -> None:
    found = changes(Piece(text), ast.parse(text))
    assert sorted(change.new for change in found) == sorted(expected)
    for change in found:
        assert " ".join(text.encode()[change.start : change.end].decode().split()) == change.old


def test_a_formula_is_changed_in_its_text_in_both_and_in_what_it_declares() -> None:
    found = list(formulas_changed(Piece(FORMULA), ast.parse(FORMULA)))
    texts, both = ([(d.old, d.new) for d in found if d.kind == kind] for kind in ("text", "both"))
    assert texts == both
    assert ("a / sin(b)", "a * sin(b)") in texts
    assert [(d.old, d.new) for d in found if d.kind == "declared"] == [
        ("digits=1", "digits=2"), ("digits=1", "digits=0"), ("unit='kg'", "unit='m'"),
        ("raises='a'", "lowers='a'"), ("raises='a'", "either='a'"),
        ("lowers='b'", "raises='b'"), ("lowers='b'", "either='b'"),
    ]  # fmt: skip
    assert as_code("a * sin(b)") == "a * FUNCTIONS['sin'](b)"


def test_a_mutant_has_its_change_and_is_known_without_its_line() -> None:
    before, after = mutants("mechanics.x", FORMULA), mutants("mechanics.x", "import math\n" * 9 + FORMULA)
    assert [m.id for m in before] == [m.id for m in after]
    assert len({m.id for m in before}) == len(before)
    [one] = [m for m in before if (m.kind, m.old, m.new) == ("both", "a / sin(b)", "a * sin(b)")]
    assert ast.unparse(ast.parse(one.source(FORMULA)).body[0].body[-1]) == "return a * FUNCTIONS['sin'](b)"  # type: ignore[attr-defined]


def test_every_accepted_change_exists_and_says_why() -> None:
    reasons = accepted()
    assert len(reasons) == len(entries())
    made: list[Mutant] = []
    for module in {key[0] for key in reasons}:
        made += mutants(module, file_of(module).read_text(encoding="utf-8"))
    assert not reasons.keys() - {m.key for m in made}
    assert all(len(reason.split()) > 3 for reason in reasons.values())
    assert all(key_of(m.entry()) == m.key for m in made)
