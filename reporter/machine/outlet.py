"""Standard output that a reader may close, as `gudgeon limits chain | head -1` does: then the rest is dropped without a word.

The exit code stays what the command earned. A full disk is told: what was asked for did not arrive.
"""

from __future__ import annotations

import errno
import io
import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import Any

from reporter.errors import MachineError
from reporter.machine.shortage import why

_CLOSED = {errno.EPIPE, errno.ECONNRESET, errno.EBADF}


class _Outlet(io.RawIOBase):
    """Bytes to a file descriptor, for as long as somebody takes them."""

    def __init__(self, handle: int) -> None:
        self._handle = handle
        self._gone = False

    def writable(self) -> bool:
        """Always."""
        return True

    def fileno(self) -> int:
        """The descriptor."""
        return self._handle

    def isatty(self) -> bool:
        """True at a terminal."""
        return os.isatty(self._handle)

    def write(self, data: Any) -> int:
        """All of it, or nothing any more; MachineError once, where it cannot be taken."""
        left = memoryview(data)
        while left and not self._gone:
            try:
                left = left[os.write(self._handle, left) :]
            except OSError as error:
                self._gone = True
                if error.errno not in _CLOSED:
                    what, do = why(error)
                    raise MachineError(f"What was to be printed cannot be written: {what}.", do) from error
        return len(data)


def prepare() -> None:
    """Put the outlet in the place of standard output; streams that were closed from outside lead nowhere."""
    # In their order, so that each takes its own number: the next file to be opened would else be standard output.
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open("r+", encoding="utf-8"))  # noqa: SIM115 - to the end
    stream = sys.__stdout__
    if os.name == "nt" or stream is None or sys.stdout is not stream or stream.isatty():
        return
    buffer = io.BufferedWriter(_Outlet(stream.fileno()))
    sys.stdout = io.TextIOWrapper(buffer, stream.encoding, stream.errors)


def flush() -> None:
    """Send what is still held back; MachineError as above."""
    if sys.stdout is not None:
        with suppress(ValueError):
            sys.stdout.flush()
