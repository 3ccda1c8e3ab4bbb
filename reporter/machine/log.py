"""What a run did and when, for somebody who is to help: versions, steps, the outcome; no text, name or photo of a job.

Comes in: the file, then lines. Goes out: that file, line by line, so that a killed run leaves what it had come to.
"""

from __future__ import annotations

import os
import time
from contextlib import suppress
from pathlib import Path
from typing import TextIO

from reporter.errors import CannotWriteError
from reporter.machine.shortage import why

FIRST = "gudgeon log"
"""By which a log is known: only such a file is replaced."""


class _Log:
    file: TextIO | None = None
    begun = 0.0


_log = _Log()


def open_log(path: Path, head: str) -> None:
    """Begin the log; CannotWriteError where there is another file, or none can be."""
    try:
        if path.is_symlink() or (path.exists() and not _is_log(path)):
            raise CannotWriteError(
                f"{path} is there already, and is no log of this program.", "Choose another name for --log."
            )
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_NOFOLLOW", 0), 0o600)
    except OSError as error:
        what, do = why(error)
        raise CannotWriteError(f"{path} cannot be written: {what}.", do) from error
    _log.file, _log.begun = os.fdopen(handle, "w", encoding="utf-8"), time.monotonic()
    note(f"{FIRST}\n{head}")


def note(line: str) -> None:
    """A line of the log, with the seconds since it began; nothing without a log, and never a failure."""
    if _log.file is not None:
        with suppress(OSError, ValueError):
            _log.file.write(
                line + "\n" if line.startswith(FIRST) else f"{time.monotonic() - _log.begun:8.2f}  {line}\n"
            )
            _log.file.flush()


def _is_log(path: Path) -> bool:
    if not path.is_file():
        return False
    with path.open("rb") as file:
        return file.read(len(FIRST)) == FIRST.encode()
