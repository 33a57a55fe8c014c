"""A window that is closed, or a program that is told to end: nothing private stays behind."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def tidied_up(leave: Callable[[], None]) -> Iterator[None]:
    """While it lasts, the system's request to end is the key that stops a program; a closed window calls `leave`."""

    def closed(number: int, frame: FrameType | None) -> None:
        leave()  # nobody sees what we would say
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)

    def told(number: int, frame: FrameType | None) -> None:
        raise KeyboardInterrupt

    if os.name != "posix" or threading.current_thread() is not threading.main_thread():
        yield
        return
    handlers = ((signal.SIGHUP, closed), (signal.SIGTERM, told))
    usual = [(number, new) for number, new in handlers if signal.getsignal(number) == signal.SIG_DFL]
    for number, new in usual:
        signal.signal(number, new)
    try:
        yield
    finally:
        for number, _ in usual:
            signal.signal(number, signal.SIG_DFL)
