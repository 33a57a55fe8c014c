"""The strict reader: the traps of YAML end here, and everything has a line and a column."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from firstfurrow.book import yaml_strict
from firstfurrow.book.problems import BookError, Said
from firstfurrow.book.yaml_strict import Marks, parse_marked, read, read_marked


def _data(text: str) -> Any:
    return parse_marked(text, "x.yaml")[0]


def _said(text: str) -> str:
    with pytest.raises(BookError) as refused:
        parse_marked(text, "x.yaml")
    (problem,) = refused.value.problems
    assert problem.why.endswith(".")
    assert problem.write.endswith(".")
    return str(refused.value)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("yes", "yes"), ("no", "no"), ("on", "on"), ("off", "off"), ("y", "y"), ("NO", "NO"), ("True", "True"),
        ("true", True), ("false", False), ("null", None), ("~", None), ("", None), ("''", ""), ("'true'", "true"),
        ("1:4", "1:4"), ("5:30", "5:30"), ("010", "010"), ("0x1F", "0x1F"), ("1_000", "1_000"), ("1,200", "1,200"),
        ("2024-01-02", "2024-01-02"), ("12", 12), ("-3", -3), ("+3", 3), ("0", 0), ("1.5", 1.5), ("-0.5", -0.5),
        (".5", 0.5), ("1e3", 1000.0), ("1.5e-2", 0.015), (".inf", ".inf"), (".nan", ".nan"), ("1.5 m", "1.5 m"),
        ("'12'", "12"), ("1.2.3", "1.2.3"), ("-", None), ("=", "="),
    ],
)  # fmt: skip
def test_scalars_are_what_they_look_like(written: str, meant: Any) -> None:
    if written == "-":
        assert _data("- ") == [None]
        return
    value = _data(f"key: {written}\n")["key"]
    assert value == meant
    assert type(value) is type(meant)


def test_keys_are_always_text() -> None:
    assert _data("{1: a, no: b, true: c, 540: d}") == {"1": "a", "no": "b", "true": "c", "540": "d"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: 1\nb: 2\na: 3\n", 'x.yaml:3:1: "a" is written twice; the first one is in line 1.'),
        ("x:\n  a: 1\n  'a': 3\n", 'x.yaml:3:3: "a" is written twice; the first one is in line 2.'),
        ("a: &name 1\n", "x.yaml:1:4: names like &name are not used here."),
        ("&k a: 1\n", "x.yaml:1:1: a key must be a plain word, without & or !."),
        ("a: !!str yes\n", "x.yaml:1:4: tags with an exclamation mark are not used here."),
        ("a: !!python/name:os.system x\n", "tags with an exclamation mark"),
        ("<<: {a: 1}\n", "x.yaml:1:1: merging with << is not used here."),
        ("? [a, b]\n: 1\n", "a key must be a plain word."),
        ("a: 1\n---\nb: 2\n", "x.yaml:2:1: a file holds one document"),
        ("a: 1e999\n", "x.yaml:1:4: 1e999 is too large a number."),
        ("a:\n\tb: 1\n", "x.yaml:2:1: there is a tab here."),
        ("a: b: c\n", "x.yaml:1:5: a colon is not expected here."),
        ("a: [1, 2\nb: 3\n", "a list that begins with [ is not closed, or a comma is missing."),
        ("a: {b: 1\nc: 3\n", "a part that begins with { is not closed, or a comma is missing."),
        ('a: "open\n', "x.yaml:1:4: the quote that opens here is not closed anywhere below."),
        ("a: 'open\nb: 2\n", "x.yaml:1:4: the quote that opens here is not closed anywhere below."),
        ('a: {b: "x}\nc: {d: "y"}\n', "x.yaml:1:8: the quote that opens here is not closed before line 2."),
        ("a: @x\n", "x.yaml:1:4: this sign cannot begin a value."),
        ("a: 1\n b: 2\n", "x.yaml:2:2: this line begins further to the right than the line above it."),
        ("a:\n\u00a0 b: 1\n c: 2\n", "x.yaml:2:1: there is an odd space here"),
        ("a: 1\nb:\u00a02\nc: 3\n", "x.yaml:2:3: there is an odd space here"),
        ("\u00a0a: 1\n", "x.yaml:1:1: there is an odd space here"),
        ("a:\n  - b: 1\n  \u2013 b: 2\n", "x.yaml:3:3: a list line begins with a long dash or a dot here."),
        ("\u2013 b: 1\n", "x.yaml:1:1: a list line begins with a long dash or a dot here."),
        ("a:\n  - b: 1\n  -b: 2\n", "x.yaml:3:3: a space is missing after the hyphen."),
        ("-b: 2\n", "x.yaml:1:1: a space is missing after the hyphen."),
        ("- b:1\n  c: 2\n", "x.yaml:1:4: a space is missing after the colon."),
        ("{a: 1, b:}\n", "x.yaml:1:9: nothing stands after this colon."),
        ("a: [new] Does it?\n", "x.yaml:1:4: a text begins with a bracket or a brace here."),
        ("a: {name} is made up\n", "x.yaml:1:4: a text begins with a bracket or a brace here."),
        ("a: 'Don't you know?\n", "x.yaml:1:8: an apostrophe ends the text here"),
        ('a: "Say "yes" to it"\n', "x.yaml:1:9: the text in quotes ends here, and more stands behind it."),
        ("a: {b: \u201cyes: no\u201d}\nc: [\n", "curly quotes stand round this text"),
        ("a:\n  - 1\n b: 2\n", "does not fit with the lines above."),
        ("a: *b\n", "*b"),
        ("a: \x07\n", "x.yaml:1:4: there is a control character here."),
        ("[" * 60 + "]" * 60, "nested too deeply"),
    ],
)
def test_refused_at_its_place(text: str, said: str) -> None:
    message = _said(text)
    assert said in message
    assert message.startswith("x.yaml:")
    assert message.count("\n") == 0


@pytest.mark.parametrize("value", ["[new] Does it?", "{name} is made up", "'Don't go", "% x", "*b c", "Frost: is it?"])
def test_where_quotes_help_it_says_which(value: str) -> None:
    assert "ut straight double quotes round the text" in _said(f"a: {value}\n")


def test_a_note_behind_a_text_is_told_with_what_is_wrong_there() -> None:
    """A # with a space before it begins a note, and may have cut a sentence short."""
    odd = Said("it has no end.", "It is read aloud.", "Write the end.")
    _, marks = parse_marked("a: Does # it?\nb: {c: whole}  # why\n", "x.yaml")
    assert "What stands behind # is not read" in marks.problem(["a"], odd).write
    assert marks.problem(["b", "c"], odd).write == "Write the end."


@given(st.text(alphabet=st.sampled_from("ab:-'\"[]{} \n\u00a0\u2013\u201c,#"), max_size=40))
def test_any_slip_has_one_place_within_the_text(text: str) -> None:
    try:
        parse_marked(text, "x.yaml")
    except BookError as refused:
        (problem,) = refused.problems
        assert 0 <= problem.line <= text.count("\n") + 1
        assert problem.message.endswith(".")


def test_without_the_fast_parser_the_result_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "a: [1, 1e3, 'x', yes]\nb: {c: 1:4, d: null}\n"
    fast = parse_marked(text, "x.yaml")
    monkeypatch.setattr(yaml_strict, "_Loader", yaml.SafeLoader)
    slow = parse_marked(text, "x.yaml")
    assert fast == slow
    assert "tab" in _said("a:\n\tb: 1\n")


def test_every_value_and_key_has_a_position() -> None:
    data, marks = parse_marked("a:\n  - x: 1\n    y: two\n  - {z: 3}\n", "x.yaml")
    assert data == {"a": [{"x": 1, "y": "two"}, {"z": 3}]}
    assert marks.at(["a", 0, "y"]) == (3, 8)
    assert marks.at(["a", 0, "y"], key=True) == (3, 5)
    assert marks.at(["a", 1, "z"]) == (4, 9)
    assert marks.at(["a", 1, "missing"]) == marks.at(["a", 1]) == (4, 5)
    assert Marks("x.yaml").at(["nothing"]) == (1, 1)
    odd = Said("it is odd.", "Nobody expects it.", "Write it even.")
    assert str(marks.problem(["a", 0, "x"], odd)) == "x.yaml:2:8: it is odd. Nobody expects it. Write it even."


def test_files_that_cannot_be_read_are_said(tmp_path: Path) -> None:
    with pytest.raises(BookError, match=r"^gone.yaml: there is no such file\. "):
        read(tmp_path / "gone.yaml")
    with pytest.raises(BookError, match="this is a folder"):
        read(tmp_path, "sub")
    latin = tmp_path / "latin.yaml"
    latin.write_bytes(b"a: 1\nb: \xe9\n")
    with pytest.raises(BookError, match=r"^latin.yaml:2:4: the file is not saved as UTF-8 text\. "):
        read(latin)
    document = tmp_path / "document.yaml"
    document.write_bytes(b"PK\x03\x04\x14\x00\x06\x00")
    with pytest.raises(BookError, match=r"^document.yaml: this is a document of a word processor, not plain text\. "):
        read(document)
    big = tmp_path / "big.yaml"
    big.write_bytes(b"#" * (yaml_strict.LARGEST + 1))
    with pytest.raises(BookError, match="far too large"):
        read(big)
    marked = tmp_path / "marked.yaml"
    marked.write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read(marked) == {"a": 1}
    assert read_marked(marked)[0] == {"a": 1}
    empty = tmp_path / "empty.yaml"
    empty.write_text("# nothing\n", encoding="utf-8")
    assert read(empty) is None


TEXTS = st.recursive(
    st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(st.text(max_size=8), TEXTS, max_size=4))
def test_what_a_writer_of_yaml_quotes_comes_back(data: dict[str, Any]) -> None:
    assert _data(yaml.safe_dump(data, default_style='"')) == data


@given(st.text(max_size=60))
def test_any_text_is_data_or_one_problem_with_a_place(text: str) -> None:
    try:
        parse_marked(text, "x.yaml")
    except BookError as refused:
        problems = refused.problems
    else:
        return
    assert len(problems) == 1
    assert problems[0].message.endswith(".")
