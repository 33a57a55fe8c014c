"""Ways to break a good text, worse than people do; seeded, so that a number names the input."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from copy import deepcopy
from typing import Any

import yaml

from firstfurrow.book.yaml_strict import DEEPEST, parse_marked

# Texts that somebody could put where a word, a number or a quantity is expected.
NASTY_WORDS = (
    "", " ", "yes", "no", "on", "off", "null", "~", "true", "True", "nan", ".nan", "inf", "-.inf", "-inf", "1e400",
    "1e308",
    "-1", "0", "00", "010", "0o17", "0x1F", "1_000", "1,5", "1.2.3", "12:30:45", "2024-01-02", "2024-01-02T03:04:05Z",
    "-0", "+5", "5", "-5 ft", "5 kg", "5 furlongs", "0 m", "1e9 ft", "99999999999 acre", "1/0 in", "1/3/5 in", "9'99\"",
    "3 ft 4", "½ ¼ in", "٣ ft", "５ ft", "1e-320 m", "not sure", "unsure", "none_of_these", "choose", "other", "i1",
    "i1.kind",
    "item", "kind", "<<", "*a", "&a", "!!python/object:os.system", "!x y", "@x", "`x`", "%TAG ! tag:x,2000:", "---",
    "...",
    "{}", "[]", "{", "]", "- -", "? a", ": :", "a: b: c", "#x", "'", '"', "\\", "\\x00", "${HOME}", "$(id)", "`id`",
    "%s%n",
    "{0}", "{name}", "{0.__class__}", "{what!r:>99999999}", "../../beside/secret", "../../../beside/secret",
    "../answers", "/etc/hostname", "..\\..\\x", "con", "NUL",
    "<script>alert(1)</script>", "</svg>", "]]>", "=1+1", "@SUM(A1)", "-2+3", "|", "a|b", "`", "*", "_",
    "[x](http://a.invalid)",
    "\x1b[31m", "\x1b]0;x\x07", "\x9b2J", "\x08", "\x7f", "\u202e", "\u2066", "\u200f", "\u2028", "\u2029", "\x85",
    "\x0c", "\ufeff",
    "\U0001f69c", "🚜🚜", "e\u0301" * 40, "\u0301", "中文", "שלום", "ﷺ", "\U000e0041", "\ufffe", "ß", "İ", "ǅ", "²",
    "①",
    "Ⅻ",
)  # fmt: skip
LONG = (
    "x" * 10_000,
    "ab " * 3_400,
    "9" * 5_000,
    "9" * 400 + " ft",
    "-" * 3_000,
    "((" * 2_000,
    "1 " * 3_000,
    "'" * 5_001,
)
CONTROLS = (
    "\x00\x01\x07\x08\x0b\x0c\x1b\x7f\x85\x9b\u00ad\u200b\u200e\u200f\u2028\u2029\u202a\u202e\u2066\ufeff\ufffe\t\r"
)
DATA: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 2, 7, 10**17, -(10**17), 0.5, -0.0, 1e300, 1e-300, [], {}, [None], [[]],
    [[[["x"]]]], {"": ""},
    {"a": {"b": {"c": [1]}}}, ["x", "x"], [0, -1, 1.5], {"value": "3 ft"}, {"low": "3 m", "high": "1 m"},
    {"item": "i1"},
)  # fmt: skip

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_UNIT = re.compile(r"(?<=\d )(?:[a-zA-Z%/]+)")
_WORD = re.compile(r"[A-Za-z_]{2,}")


def word(rng: random.Random) -> str:
    """One nasty text; a long one now and then."""
    return rng.choice(LONG) if rng.random() < 0.04 else rng.choice(NASTY_WORDS)


# ------------------------------------------------------------------------------ lines and characters


def _lines(change: Callable[[random.Random, list[str], int], None]) -> Callable[[random.Random, str], str]:
    def apply(rng: random.Random, text: str) -> str:
        lines = text.split("\n")
        change(rng, lines, rng.randrange(len(lines)))
        return "\n".join(lines)

    return apply


def _delete(rng: random.Random, lines: list[str], at: int) -> None:
    del lines[at : at + rng.randint(1, 3)]


def _duplicate(rng: random.Random, lines: list[str], at: int) -> None:
    lines[at:at] = lines[at : at + rng.randint(1, 3)] * rng.choice((1, 1, 1, 50))


def _swap(rng: random.Random, lines: list[str], at: int) -> None:
    other = rng.randrange(len(lines))
    lines[at], lines[other] = lines[other], lines[at]


def _indent(rng: random.Random, lines: list[str], at: int) -> None:
    lines[at] = rng.choice(("", " ", "   ", "\t", "      ", "\u00a0", "\u3000")) + lines[at].lstrip()


def _put_in(rng: random.Random, text: str) -> str:
    at = rng.randint(0, len(text))
    return text[:at] + rng.choice(CONTROLS) * rng.choice((1, 1, 3, 200)) + text[at:]


def _put_word(rng: random.Random, text: str) -> str:
    at = rng.randint(0, len(text))
    return text[:at] + word(rng) + text[at:]


def _cut(rng: random.Random, text: str) -> str:
    return text[: rng.randint(0, len(text))]


def _take_out(rng: random.Random, text: str) -> str:
    start = rng.randint(0, len(text))
    return text[:start] + text[start + rng.randint(1, 40) :]


def _replaced(pattern: re.Pattern[str], by: Callable[[random.Random], str]) -> Callable[[random.Random, str], str]:
    def apply(rng: random.Random, text: str) -> str:
        found = list(pattern.finditer(text))
        if not found:
            return _put_word(rng, text)
        one = rng.choice(found)
        return text[: one.start()] + by(rng) + text[one.end() :]

    return apply


def _number(rng: random.Random) -> str:
    return rng.choice(
        (
            "nan",
            "inf",
            "-1",
            "-7.5",
            "0",
            "1e308",
            "1e999",
            "9" * 30,
            "9" * 5_000,
            "010",
            "1/0",
            "1:2",
            "0x10",
            "٣",
            "",
            "3..4",
        )
    )


def _unit(rng: random.Random) -> str:
    return rng.choice(
        ("kg", "ft", "acre", "psi", "furlong", "%", "deg", "", "m/s", "ft ft", "kW/m", "\u00b0", "'", '"', "m" * 999)
    )


def _value(rng: random.Random, text: str) -> str:
    """What stands behind a colon becomes something else."""
    lines = text.split("\n")
    keyed = [n for n, line in enumerate(lines) if ":" in line]
    if keyed:
        at = rng.choice(keyed)
        lines[at] = (
            lines[at].split(":", 1)[0]
            + ": "
            + rng.choice(
                (
                    word(rng),
                    "[" * rng.choice((5, 60, 5000)),
                    "{a: " * 60,
                    "|\n  text",
                    ">-\n",
                    "&a [*a]",
                    "!!int 3",
                    "!!binary x",
                    '"\\ud800"',
                    "? x",
                )
            )
        )
    return "\n".join(lines)


def _exploding(rng: random.Random, text: str) -> str:
    bomb = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]\n" for n in range(1, 40))
    return bomb + text if rng.random() < 0.5 else text + bomb


def _nested(rng: random.Random, text: str) -> str:
    depth = rng.choice((45, 400, 20_000))
    sign = rng.choice(("[", "{a: ", "- ", "? "))
    return text + "\nz: " + sign * depth if rng.random() < 0.5 else sign * depth + text


def _long_line(rng: random.Random, text: str) -> str:
    return text + "\n" + rng.choice(("z: ", "", "# ", "- ")) + rng.choice(("x", "x ", "9", "'", ";", "é")) * 100_000


def _ends(rng: random.Random, text: str) -> str:
    return text.replace("\n", rng.choice(("\r\n", "\r", "\u2028", "\n\n", "\x0b", "")))


def _nothing(rng: random.Random, text: str) -> str:
    return rng.choice(("", "\n", " ", "#", "null", "[]", "{}", "a", "--- \n", "\ufeff"))


TEXT_WAYS: tuple[Callable[[random.Random, str], str], ...] = (
    _lines(_delete), _lines(_delete), _lines(_duplicate), _lines(_duplicate), _lines(_swap), _lines(_indent), _put_in,
    _put_in, _put_word, _put_word, _cut, _take_out, _take_out, _replaced(_NUMBER, _number), _replaced(_NUMBER, _number),
    _replaced(_UNIT, _unit), _replaced(_UNIT, _unit), _replaced(_WORD, word), _replaced(_WORD, word), _value, _value,
    _exploding,
    _nested, _long_line, _ends, _nothing,
)  # fmt: skip


def _coded(rng: random.Random, text: str) -> bytes:
    """The text in bytes: mostly as it should be, now and then in another coding or with bytes that are no text."""
    raw = text.encode("utf-8", "surrogatepass")
    chance = rng.random()
    if chance < 0.92:
        return raw
    at = rng.randint(0, len(raw))
    return rng.choice(
        (
            b"\xef\xbb\xbf" + raw, b"\xef\xbb\xbf" * 3 + raw, text.encode("utf-16", "surrogatepass"),
            raw[:at] + b"\xff\xfe" + raw[at:],
            text.encode("utf-16-le", "surrogatepass"), text.encode("utf-32", "surrogatepass"), text.encode("latin-1",
            "replace"),
            raw[:at] + b"\x00" * 9 + raw[at:], raw[:at] + b"\xed\xa0\x80" + raw[at:],
            raw[:at] + rng.randbytes(30) + raw[at:],
            raw[: max(0, at - 1)], b"\xff\xfe", b"\xfe\xff" + raw, rng.randbytes(200),
        )
    )  # fmt: skip


def broken_text(rng: random.Random, text: str) -> bytes:
    """The text with one to three things wrong."""
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        text = rng.choice(TEXT_WAYS)(rng, text)
    return _coded(rng, text)


# --------------------------------------------------------------------------------- data behind the signs


def places(data: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in plain data."""
    found = [at] if at else []
    if len(at) > DEEPEST:
        return found
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inside:
        found += places(value, (*at, key))
    return found


def _at(data: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        data = data[key]
    return data


def _other(rng: random.Random, data: Any, all_places: list[tuple[Any, ...]]) -> Any:
    chance = rng.random()
    if chance < 0.45:
        return word(rng)
    if chance < 0.7:
        return deepcopy(rng.choice(DATA))
    return deepcopy(_at(data, rng.choice(all_places)))  # a good value in the wrong place


def _change(rng: random.Random, data: Any) -> None:
    """One thing in the data is changed where it stands."""
    all_places = places(data)
    if not all_places:
        return
    path = rng.choice(all_places)
    around, last = _at(data, path[:-1]), path[-1]
    chance = rng.random()
    if chance < 0.6:
        around[last] = _other(rng, data, all_places)
    elif chance < 0.72:
        del around[last]
    elif isinstance(around, dict):
        if chance < 0.9:
            around[word(rng) if rng.random() < 0.6 else str(rng.choice(all_places)[-1])] = around.pop(last)
        else:
            around[word(rng)] = _other(rng, data, all_places)
    elif chance < 0.86:
        around.insert(last, around[last])
    elif chance < 0.9:
        around *= rng.choice((2, 60))
    else:
        around[last], around[0] = around[0], around[last]


class _Plain(yaml.SafeDumper):
    """Writes every part out: no anchors."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def as_yaml(data: Any) -> str:
    """The data as YAML without anchors."""
    return yaml.dump(data, Dumper=_Plain, allow_unicode=True, sort_keys=False, width=1000)


def broken_data(rng: random.Random, text: str) -> bytes:
    """The data of a text in YAML with one to three things wrong in it: well written, so it gets past the reader."""
    data = parse_marked(text, "good.yaml")[0]
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        _change(rng, data)
    return as_yaml(data).encode("utf-8", "surrogatepass")


def broken(rng: random.Random, text: str) -> bytes:
    """The text of a file in YAML, broken one way or the other."""
    return broken_text(rng, text) if rng.random() < 0.5 else broken_data(rng, text)
