"""What lies about while a run works: named with the number of its process, so that it can be told from anything else.

A run that ends by itself takes its own away; what a killed one left is swept by the next that writes to the same folder: only
what bears such a name, belongs to this user, and whose process is gone. A lock is held on each, since the same
folder may be written to from another computer or container, where the number means another process.
"""

from __future__ import annotations

import os
import re
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_NAME = re.compile(r"gudgeon-(\d{1,10})-\w{8}\.scratch|\.gudgeon-(\d{1,10})-\w{8}\.part(?:\.[\w()-]{1,20})?")
_places: dict[Path, None] = {}
written: list[Path] = []
"""What this run has finished, told when it is interrupted afterwards."""


def scratch_name() -> tuple[str, str]:
    """Beginning and end of a temporary folder's name."""
    return f"gudgeon-{os.getpid()}-", ".scratch"


def draft_name() -> tuple[str, str]:
    """Beginning and end of the name of what is written beside its target."""
    return f".gudgeon-{os.getpid()}-", ".part"


def begin_in(folder: Path) -> None:
    """Remember that this run may leave something in `folder`, and sweep what dead ones left there."""
    _places[folder.absolute()] = None
    for path, process in _ours(folder):
        if process != os.getpid() and _dead(process) and _belongs_to_us(path) and _unlocked(path):
            _take_away(path)


def clear() -> None:
    """Take away everything that this run still has lying about."""
    for folder in _places:
        for path, process in _ours(folder):
            if process == os.getpid():
                _take_away(path)


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold a lock on a folder or file meanwhile, where the system and its disk know such a thing."""
    handle = _lock(path)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def ordinary_mode(full: int) -> int:
    """Permissions that a plainly made file (0o666) or folder (0o777) has; a temporary one is closed to everybody else."""
    mask = os.umask(0)
    os.umask(mask)
    return full & ~mask


def _ours(folder: Path) -> Iterator[tuple[Path, int]]:
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in entries:
            if match := _NAME.fullmatch(entry.name):
                yield Path(entry.path), int(match[1] or match[2])


def _dead(process: int) -> bool:
    """False where nobody can tell; on Windows asking in this way would end the process."""
    if os.name == "nt":
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False


def _belongs_to_us(path: Path) -> bool:
    with suppress(OSError):
        about = path.lstat()
        return about.st_uid == os.getuid() and (stat.S_ISDIR(about.st_mode) or stat.S_ISREG(about.st_mode))
    return False


def _lock(path: Path) -> int | None:
    if os.name == "nt":
        return None
    import fcntl

    handle = None
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        if handle is not None:
            os.close(handle)
        return None
    return handle


def _unlocked(path: Path) -> bool:
    handle = _lock(path)
    if handle is None:
        return False
    os.close(handle)
    return True


def _take_away(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
    else:
        with suppress(OSError):
            path.unlink()
