"""YAML has one reader, which is strict; no file of any sort is read beyond the size of what people write by hand."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
import yaml
from inputs import LIST, OFFER, PLAN, TITLE, put, small_book, small_files
from watched import SECONDS, files, run, slowness, what_changed, what_is_said

import firstfurrow
from firstfurrow.book import yaml_strict
from firstfurrow.book.problems import BookError
from firstfurrow.book.yaml_strict import DEEPEST, LARGEST, bytes_of, parse_marked

SRC = Path(firstfurrow.__file__).parent
READER = SRC / "book" / "yaml_strict.py"


def _modules(but: Path) -> list[Path]:
    return [path for path in sorted(SRC.rglob("*.py")) if path != but]


def _named(path: Path) -> set[str]:
    """Every module that is imported, and every attribute that is used."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name.split(".")[0] for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module.split(".")[0])
        elif isinstance(node, ast.Attribute):
            found.add(f".{node.attr}")
    return found


def test_one_module_alone_reads_yaml() -> None:
    assert [path for path in _modules(READER) if _named(path) & {"yaml", "ruamel", "_yaml"}] == []


def test_that_module_builds_no_objects() -> None:
    used = _named(READER)
    assert not used & {
        ".load",
        ".safe_load",
        ".unsafe_load",
        ".full_load",
        ".load_all",
        ".UnsafeLoader",
        ".FullLoader",
        ".Loader",
    }
    assert not used & {".get_data", ".get_single_data", ".construct_document", "pickle", "marshal", "importlib"}


def test_nothing_else_that_runs_what_it_reads_is_imported() -> None:
    for path in (*_modules(READER), READER):
        assert not _named(path) & {
            "pickle",
            "marshal",
            "shelve",
            "dill",
            "subprocess",
            "socket",
            "urllib",
            "http",
            "ctypes",
            "webbrowser",
        }, path


def test_files_of_a_reader_are_read_through_one_function() -> None:
    """`bytes_of` stops at the largest size; schemas belong to the program."""
    others = {"book/rules/shape.py"}
    found = {
        path.relative_to(SRC).as_posix() for path in _modules(READER) if _named(path) & {".read_bytes", ".read_text"}
    }
    assert found <= others


def test_one_byte_more_than_the_largest_file_is_read(tmp_path: Path) -> None:
    big = put(tmp_path / "big", b"x" * (LARGEST + 7))
    assert len(bytes_of(big)) == LARGEST + 1
    assert len(bytes_of(Path("/dev/zero"))) == LARGEST + 1 if Path("/dev/zero").exists() else True


ENDLESS = "a device without an end"
KINDS = {
    "answers to advise on": (["advise", "a.yaml"], "a.yaml", PLAN),
    "answers to go on with": (["--plain", "--resume", "a.yaml"], "a.yaml", PLAN),
    "answers of a class": (["class", "class"], "class/b.yaml", PLAN),
    "an offer": (["sizes", "o.yaml", "box blade"], "o.yaml", OFFER),
    "an offer to talk about": (["--plain", "--tractor", "o.yaml"], "o.yaml", OFFER),
    "an offer to walk around": (["measure", "walk-around", "--plain", "--out", "o.yaml"], "o.yaml", OFFER),
    "a list of offers": (["sizes", "l.csv", "box blade"], "l.csv", LIST),
    "lines of a recording": (["replay", "r"], "r/typed.txt", "1\n"),
    "the screen of a recording": (["replay", "r"], "r/screen.txt", "x\n"),
    "answers of a recording": (["replay", "r"], "r/answers.yaml", PLAN),
    "the setting of a recording": (["replay", "r"], "r/talk.yaml", "setting: home\n"),
    "the tractor of a recording": (["replay", "r"], "r/tractor.yaml", OFFER),
    "a file of a book": (["book", "check", "small"], "small/sections/land.yaml", ""),
    "the index of a book": (["book", "check", "small"], "small/book.yaml", ""),
    "the title page of an edition": (["book", "check", "mine"], "mine/edition.yaml", TITLE),
    "a file of an edition": (["--book", "mine", "--plain"], "mine/report.yaml", "messages: {}\n"),
}


def _laid_out(folder: Path) -> None:
    for name, text in {
        "a.yaml": PLAN,
        "o.yaml": OFFER,
        "l.csv": LIST,
        "class/b.yaml": PLAN,
        "mine/edition.yaml": TITLE,
    }.items():
        put(folder / name, text)
    for name, text in {"typed.txt": "1\n", "screen.txt": "x\n", "answers.yaml": PLAN}.items():
        put(folder / "r" / name, text)
    small_files(folder / "small")


@pytest.mark.parametrize("how", ["one byte too many", ENDLESS])
@pytest.mark.parametrize("kind", KINDS)
def test_no_file_of_any_sort_is_read_beyond_the_largest(kind: str, how: str, tmp_path: Path) -> None:
    argv, name, good = KINDS[kind]
    _laid_out(tmp_path)
    path = tmp_path / name
    good = good or small_book()[name.removeprefix("small/")]
    path.unlink(missing_ok=True)
    if how == ENDLESS:
        if not Path("/dev/zero").exists():
            pytest.skip("this system has none")
        path.symlink_to("/dev/zero")
    else:
        put(path, good + "#" * (LARGEST + 1 - len(good.encode())))
    before = files(tmp_path)
    ran = run(argv, b"1\nsave\n", tmp_path)
    assert ran.crash == ""
    assert ran.code in (1, 2)
    said = ("too large", "cannot be read", "it was not followed", "there is no such file")
    assert any(words in ran.out + ran.err for words in said)
    assert what_is_said(ran.code, ran.out, ran.err) == []
    assert what_changed(before, files(tmp_path), []) == []
    assert ran.seconds < (SECONDS + 4) * slowness()


@pytest.mark.parametrize(
    "text",
    [
        "[" * 5_000,
        "a: " + "[" * 3_000 + "]" * 3_000,
        "{a: " * 20_000,
        "- " * 20_000 + "x",
        "? " * 5_000,
        "a:\n" + "  b: {" * 900,
        "x: [a, b\n" * 90_000,
    ],
)
def test_what_is_nested_without_an_end_is_refused_at_once(text: str, tmp_path: Path) -> None:
    """The parser that words complaints best takes longer and longer for each level: it is not asked that deep."""
    put(tmp_path / "a.yaml", text)
    ran = run(["advise", "a.yaml"], b"", tmp_path)
    assert (ran.code, ran.crash) == (2, "")
    assert ran.seconds < SECONDS * slowness()


def test_deep_text_is_said_to_be_deep_by_both_parsers(monkeypatch: pytest.MonkeyPatch) -> None:
    for loader in (yaml_strict._Loader, yaml.SafeLoader):
        monkeypatch.setattr(yaml_strict, "_Loader", loader)
        with pytest.raises(BookError, match="nested too deeply"):
            parse_marked("a: " + "[" * (DEEPEST + 5), "x.yaml")


def test_a_name_in_a_book_never_leads_out_of_its_folder(tmp_path: Path) -> None:
    here = tmp_path / "here"
    put(tmp_path / "beside" / "secret.yaml", "a: my secret\n")
    for old, new in (
        ("[land, ", "[../../../beside/secret, land, "),
        ("[mowing, ", "[mowing, ../../../beside/secret, "),
        ("[field_rates,", "[../../../beside/secret,"),
    ):
        small_files(here / "small")
        index = here / "small" / "book.yaml"
        index.write_text(index.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
        ran = run(["book", "check", "small"], b"", here)
        assert (ran.code, ran.outside) == (1, ())
        assert "is not an id" in ran.out
        assert "my secret" not in ran.out


@pytest.mark.parametrize(
    "form", ["{wanted:>99999999}", "{wanted!r}", "{wanted.__class__}", "{wanted[0]}", "{wanted:{wanted}}"]
)
def test_a_sentence_of_an_edition_fills_in_words_and_nothing_more(form: str, tmp_path: Path) -> None:
    """A width behind a slot could ask for more text than a machine holds."""
    put(tmp_path / "mine" / "edition.yaml", TITLE)
    put(tmp_path / "mine" / "messages.yaml", f'messages:\n  file_format: "Begin with {form}, as the first line."\n')
    ran = run(["book", "check", "mine"], b"", tmp_path)
    assert ran.code == 1
    assert "is not filled in here" in ran.out
