"""Lets the tests of the talk use the tiny book of the tests of the asking."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "asking"))
