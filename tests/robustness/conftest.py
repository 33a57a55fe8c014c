"""These tests need links, signals and limits of a system after POSIX; elsewhere none of them is collected."""

from __future__ import annotations

import os

collect_ignore_glob = [] if os.name == "posix" else ["test_*.py"]
