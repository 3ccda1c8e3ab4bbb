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

from reporter.archive import noted
from reporter.archive.replacing import TABLE, may_write
from reporter.machine import leavings
from reporter.machine.interrupts import held
from reporter.machine.shortage import unwritable


@contextmanager
def beside(target: Path, over: Path | None = None) -> Iterator[tuple[BinaryIO, Path]]:
    """Open a new file beside the target, to take its place when all went well; CannotWriteError when it cannot.

    `over` is the file that is known to be read and replaced by its own next version.
    """
    may_write(target, over=over)
    leavings.begin_in(target.parent)
    prefix, suffix = leavings.draft_name()
    try:
        handle, name = tempfile.mkstemp(suffix, prefix, target.parent)
    except OSError as error:
        raise unwritable(target, error) from error
    draft = Path(name)
    try:
        with os.fdopen(handle, "wb") as file, leavings.locked(draft):
            yield file, draft
        with held():
            draft.chmod(leavings.ordinary_mode(0o666))
            draft.replace(target)
            if target.suffix.lower() == TABLE:
                noted.note(target)
            leavings.written.append(target)
    except OSError as error:
        raise unwritable(target, error) from error
    finally:
        draft.unlink(missing_ok=True)
