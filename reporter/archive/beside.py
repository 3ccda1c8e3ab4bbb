"""A file written beside its target and renamed: a killed or failed run leaves the earlier file whole.

Comes in: the path to write. Goes out: an open file that takes that place when all went well, and else goes.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from reporter.errors import CannotWriteError


@contextmanager
def beside(target: Path) -> Iterator[tuple[BinaryIO, Path]]:
    """Open a new file beside the target, to take its place when all went well; CannotWriteError when it cannot."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", suffix=".part", dir=target.parent)
    except OSError as error:
        raise _refused(target, error) from error
    draft = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            yield file, draft
        draft.chmod(_ordinary_mode())
        draft.replace(target)
    except OSError as error:
        raise _refused(target, error) from error
    finally:
        draft.unlink(missing_ok=True)


def _ordinary_mode() -> int:
    """Tell the permissions that a plainly opened file has; a temporary one is closed to everybody else."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _refused(target: Path, error: OSError) -> CannotWriteError:
    return CannotWriteError(
        f"{target} cannot be written: {error.strerror or error}.",
        "Close it if it is open in a PDF reader, or choose another place for it.",
    )
