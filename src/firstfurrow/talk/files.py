"""Files of a talk on disk: a free name that nobody else takes, and writing that a crash cannot leave half done."""

from __future__ import annotations

import errno
import os
import shutil
import time
from contextlib import suppress
from glob import escape
from pathlib import Path

MOST = 1000  # files of one name in one folder; more is a mistake
LONGEST_TALK = 12 * 3600  # seconds


def claim(folder: Path, name: str, rights: int, ending: str = ".yaml") -> Path | None:
    """A free name in the folder, held by an empty file; None when the folder cannot be written to."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    for number in range(1, MOST):
        path = folder / (f"{name}{ending}" if number == 1 else f"{name}-{number}{ending}")
        try:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, rights))
        except FileExistsError:
            continue
        except OSError:
            return None
        return path
    return None


def claim_file(path: Path, rights: int) -> None:
    """Exactly this name, held by an empty file.

    Raises
    ------
    FileExistsError
        When there is something by that name.
    OSError
        When it cannot be written.
    """
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, rights))


def sweep_beside(folder: Path, name: str) -> None:
    """Take away what a killed program had begun to write beside files whose names begin so."""
    for path in folder.glob(f".{escape(name)}*.new"):
        number = path.name.split(".")[-2]
        with suppress(OSError):
            if number.isdigit() and not alive(int(number), path):
                path.unlink()


def alive(process: int, path: Path) -> bool:
    """True while the process that made the file may still be running."""
    if os.name != "posix":  # there, asking for a process can end it: go by the age of the file instead
        return time.time() - path.stat().st_mtime < LONGEST_TALK
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return True


def replace_file(path: Path, text: str, rights: int = 0o600) -> None:
    """Write beside, then rename: a crash leaves the old file or the new one, never half of one.

    A file that is new gets these rights, as far as the user's own rule allows. What is no file (a device, a pipe) has
    no old text to keep, and stays what it is: it is written to.
    """
    target = Path(os.path.realpath(path))
    if target.is_symlink():
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP))
    if path.exists() and not path.is_file():
        path.write_text(text, encoding="utf-8", newline="\n")
        return
    beside = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        descriptor = os.open(beside, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, rights)
        with os.fdopen(descriptor, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, beside)
        os.replace(beside, target)
    except BaseException:  # the key that stops a program may be pressed in the middle of it
        with suppress(OSError):
            beside.unlink()
        raise
