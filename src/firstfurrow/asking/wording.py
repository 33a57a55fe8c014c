"""The catalogue of sentences: an id and its slots become text. It cannot fail: an error path must not have errors."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from string import Formatter
from typing import Any


class _Forgiving(Formatter):
    """Fills what it can; a slot that nobody filled is shown by its name."""

    def get_value(self, key: int | str, args: Any, kwargs: Any) -> Any:
        return kwargs.get(key, f"({key})") if isinstance(key, str) else f"({key})"


_FORMATTER = _Forgiving()


def wording(messages: Mapping[str, str], message: str, **slots: object) -> str:
    """The sentence with that id, its slots filled.

    >>> wording({"kept": "Kept: {what}."}, "kept", what="clay")
    'Kept: clay.'
    >>> wording({}, "kept", what="clay")
    'kept: clay'
    """
    text = messages.get(message)
    if text is None:
        return f"{message}: {', '.join(str(v) for v in slots.values())}".rstrip(": ")
    try:
        return _FORMATTER.vformat(text, (), slots)
    except (ValueError, LookupError, AttributeError, TypeError):
        return text


def listed(words: Iterable[str], joint: str) -> str:
    """Words in a row, the last one joined with `joint`.

    >>> listed(["a", "b", "c"], "or")
    'a, b or c'
    """
    found = list(words)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} {joint} {found[-1]}"
