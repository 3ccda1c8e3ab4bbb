"""A file written so that a power cut at any moment leaves the old one or the new one, whole; and the folder's lock."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

KEPT = ".gudgeon"
"""The folder inside a job folder in which the program keeps what is no part of the job."""


def save(path: Path, data: bytes) -> None:
    """Replace the file at `path`. OSError when it cannot be; the file is then as it was."""
    # One fixed name under the folder's lock: a killed run leaves at most this one, and the next one takes it over.
    draft = path.with_name(f".{path.name}.unfinished")
    mode = path.stat().st_mode & 0o7777 if path.exists() else None
    if mode is not None:
        # A file that may not be written is not exchanged for another one either.
        path.open("ab").close()
    try:
        with draft.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            draft.chmod(mode)
        draft.replace(path)
    except OSError:
        draft.unlink(missing_ok=True)
        raise
    settle(path.parent)


def settle(folder: Path) -> None:
    """See to it that names in `folder` are on the disk; there is no such thing on Windows."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def folder_locked(folder: Path) -> Iterator[None]:
    """Nobody else of this program writes to the job folder meanwhile, in this process or another."""
    kept = folder / KEPT
    kept.mkdir(exist_ok=True)
    with (kept / "lock").open("a+b") as file:
        # A lock of the system, not the mere presence of a file: a killed run leaves none behind.
        _lock(file.fileno())
        # Closing the file lets go.
        yield


def _lock(handle: int) -> None:
    if os.name == "nt":
        import msvcrt

        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)  # type: ignore[attr-defined,unused-ignore]
    else:
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX)
