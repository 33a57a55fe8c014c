"""Where the shipped book and the recorded conversations lie: inside an installed wheel, or beside src in a checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def _shipped(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parents[1] / name


def book_folder() -> Path:
    """The folder of the shipped book."""
    return _shipped("questions")


def recordings_folder() -> Path:
    """The folder of the recorded conversations."""
    return _shipped("transcripts_demo")
