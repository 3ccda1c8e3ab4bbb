"""What the computer refuses, told as the computer's: no room, no permission, no memory; never as a fault of a photo or a folder.

Comes in: an exception of the system. Goes out: the cause and what to do, in plain words, or nothing where it is none of these.
"""

from __future__ import annotations

import errno
from pathlib import Path

from reporter.errors import CannotWriteError, MachineError

_WHY: dict[int, tuple[str, str]] = {
    errno.ENOSPC: ("the disk is full", "Make room on it, or choose another place."),
    errno.EDQUOT: ("your share of the disk is full", "Make room in it, or choose another place."),
    errno.EFBIG: ("the file would be larger than this disk or your account allows", "Choose another place."),
    errno.EROFS: ("the disk can only be read", "Choose another place."),
    errno.EACCES: ("you may not write there", "Close it if it is open elsewhere, or choose another place."),
    errno.EPERM: ("you may not write there", "Close it if it is open elsewhere, or choose another place."),
    errno.ENOENT: ("there is no such folder", "Make it, or choose another place."),
    errno.ENOTDIR: ("what should be a folder is a file", "Choose another place."),
    errno.EIO: ("the disk does not answer as it should", "Choose another one, and look after this one."),
    errno.EMFILE: ("too many files are open", "Close other programs, and try again."),
    errno.ENFILE: ("too many files are open", "Close other programs, and try again."),
    errno.ENAMETOOLONG: ("the name is too long", "Choose a shorter one."),
}  # fmt: skip
_ALWAYS = {
    errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EROFS, errno.EIO, errno.EMFILE, errno.ENFILE, errno.ENAMETOOLONG,
}  # fmt: skip
"""What can be nobody's fault but the computer's, wherever it comes up, or a name's that no disk takes."""
MEMORY = "This computer has not enough memory left for this."
CLOSE = "Close other programs, or use fewer or smaller photos, and try again."
_NO_MEMORY = ("annot allocate memory", "failed to map segment", "can't start new thread")


def why(error: OSError) -> tuple[str, str]:
    """Why something cannot be written, and what to do."""
    usual = (
        error.strerror or str(error),
        "Close it if it is open in another program, or choose another place.",
    )
    return _WHY.get(error.errno or 0, usual)


def unwritable(target: Path, error: OSError) -> CannotWriteError:
    """Why a file cannot be written, the computer's own faults told as such."""
    what, do = why(error)
    kind = MachineError if is_machines(error) else CannotWriteError
    return kind(f"{target} cannot be written: {what}.", do)


def machines(error: BaseException) -> MachineError | None:
    """The exception told as the computer's fault, where it can be nobody else's."""
    if isinstance(error, MemoryError) or any(each in str(error) for each in _NO_MEMORY):
        return MachineError(MEMORY, CLOSE)
    if isinstance(error, OSError) and error.errno in _ALWAYS:
        what, do = why(error)
        place = (
            f"{error.filename} cannot be written or read" if error.filename else "Something cannot be written"
        )
        return MachineError(f"{place}: {what}.", do)
    return None


def refused(error: BaseException) -> MachineError | None:
    """What this user may not open or look into, where nobody told it more closely."""
    if isinstance(error, PermissionError) and error.filename:
        return MachineError(
            f"{error.filename} cannot be opened: you may not look there.",
            "Change its permissions or those of its folder.",
        )
    return None


def is_machines(error: BaseException) -> bool:
    """True where `machines` would tell it."""
    return machines(error) is not None
