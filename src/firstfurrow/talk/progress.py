"""A progress bar for work that takes seconds: on standard error, and only where somebody looks at it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def progress(steps: int) -> Iterator[Callable[[], None]]:
    """Gives what is called after each of the steps."""
    if not sys.stderr.isatty() or steps < 2:
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("", total=steps)
        yield lambda: bar.advance(task)
