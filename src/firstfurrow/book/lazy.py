"""Mappings and sequences that read their part of the book when somebody first looks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Generic, TypeVar, overload

T = TypeVar("T")


class LazyMapping(Mapping[str, T]):
    """A mapping that is read as a whole at the first access."""

    __slots__ = ("_read", "_values")

    def __init__(self, read: Callable[[], Mapping[str, T]]) -> None:
        self._read = read
        self._values: Mapping[str, T] | None = None

    @property
    def _all(self) -> Mapping[str, T]:
        if self._values is None:
            self._values = self._read()
        return self._values

    def __getitem__(self, key: str) -> T:
        return self._all[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all)

    def __len__(self) -> int:
        return len(self._all)

    def __repr__(self) -> str:
        return repr(dict(self._all))


class LazyFiles(Mapping[str, T]):
    """A mapping with known keys of which each value is a file of its own, read when it is first asked for."""

    __slots__ = ("_keys", "_read", "_values")

    def __init__(self, keys: Sequence[str], read: Callable[[str], T]) -> None:
        self._keys = tuple(keys)
        self._read = read
        self._values: dict[str, T] = {}

    def __getitem__(self, key: str) -> T:
        if key not in self._values:
            if key not in self._keys:
                raise KeyError(key)
            self._values[key] = self._read(key)
        return self._values[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)

    def __repr__(self) -> str:
        return repr(dict(self))


class LazySequence(Sequence[T], Generic[T]):
    """A sequence of which each part is a file of its own, read when the walk first comes to it."""

    __slots__ = ("_files",)

    def __init__(self, keys: Sequence[str], read: Callable[[str], T]) -> None:
        self._files = LazyFiles(keys, read)

    @overload
    def __getitem__(self, index: int) -> T: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[T, ...]: ...
    def __getitem__(self, index: int | slice) -> T | tuple[T, ...]:
        keys = tuple(self._files)
        if isinstance(index, slice):
            return tuple(self._files[key] for key in keys[index])
        return self._files[keys[index]]

    def __len__(self) -> int:
        return len(self._files)

    def __repr__(self) -> str:
        return repr(tuple(self))


class LazyWhole(Sequence[T], Generic[T]):
    """A sequence that is read as a whole at the first access."""

    __slots__ = ("_read", "_values")

    def __init__(self, read: Callable[[], Sequence[T]]) -> None:
        self._read = read
        self._values: tuple[T, ...] | None = None

    @property
    def _all(self) -> tuple[T, ...]:
        if self._values is None:
            self._values = tuple(self._read())
        return self._values

    @overload
    def __getitem__(self, index: int) -> T: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[T, ...]: ...
    def __getitem__(self, index: int | slice) -> T | tuple[T, ...]:
        return self._all[index]

    def __len__(self) -> int:
        return len(self._all)

    def __repr__(self) -> str:
        return repr(self._all)
