"""A folder for temporary files: where it lies, whether there is room in it, and that nothing of it stays.

Where TMPDIR (on Windows TEMP) names a folder, that is taken or refused in words, never quietly replaced by another:
photos of a boat should not lie where nobody expects them.
"""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from reporter.errors import MachineError
from reporter.machine import leavings
from reporter.machine.interrupts import held
from reporter.machine.shortage import is_machines, why

_NAMES = ("TMPDIR", "TEMP", "TMP")
_ELSEWHERE = "Make room there, or name another folder: TMPDIR=FOLDER gudgeon …"
_ANOTHER = "Name another folder: TMPDIR=FOLDER gudgeon …"


def place() -> Path:
    """The folder for temporary files; MachineError where none can be used."""
    for name in _NAMES:
        if os.environ.get(name):
            return Path(os.environ[name])
    try:
        found = Path(tempfile.gettempdir())
    except OSError as error:
        raise MachineError(
            "There is no folder for temporary files that can be written to.", _ANOTHER
        ) from error
    return found


@contextmanager
def scratch(room: int = 0) -> Iterator[Path]:
    """A new folder that goes afterwards, with `room` bytes at hand; MachineError where it cannot be had, or fills up."""
    folder = place()
    leavings.begin_in(folder)
    refuse_without(room, folder)
    prefix, suffix = leavings.scratch_name()
    try:
        made = Path(tempfile.mkdtemp(suffix, prefix, folder))
    except OSError as error:
        raise _refused(folder, error) from error
    try:
        with leavings.locked(made):
            yield made
    except OSError as error:
        if is_machines(error):
            raise _refused(folder, error) from error
        raise
    finally:
        with held():
            shutil.rmtree(made, ignore_errors=True)


def refuse_without(room: int, folder: Path, do: str = _ELSEWHERE) -> None:
    """MachineError with the numbers where fewer than `room` bytes are free; a disk that does not tell is believed."""
    try:
        free = shutil.disk_usage(folder).free
    except OSError:
        return
    if free < room:
        told = f"This needs up to {_told(room)} in {folder.absolute()}, and {_told(free)} are free."
        raise MachineError(told, do)


def _told(size: int) -> str:
    return f"{size / 1e6:,.0f} MB" if size >= 1e6 or not size else f"{size / 1e6:.1f} MB"  # noqa: PLR2004


def _refused(folder: Path, error: OSError) -> MachineError:
    what, do = why(error)
    if error.errno not in {errno.EMFILE, errno.ENFILE}:
        do = _ELSEWHERE if error.errno in {errno.ENOSPC, errno.EDQUOT} else _ANOTHER
    return MachineError(f"Temporary files cannot be written to {folder}: {what}.", do)
