"""Writes the finished file: all that a document needs beyond its pages, and a save that leaves no half file.

Comes in: the Report, the laid-out Pages and the path to write. Goes out: one file at that path, or the file
that was there before, whole. The laid-out file is only read.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

import pikepdf

from reporter.archive.attached import attach
from reporter.archive.identity import identify
from reporter.archive.signing import add_fields
from reporter.archive.structure import plant
from reporter.archive.verifying import find_faults
from reporter.errors import CannotWriteError, VerificationError
from reporter.model.pages import Pages
from reporter.model.report import Report


def write(report: Report, pages: Pages, target: Path) -> None:
    """Do what `archive` promises: finish the document beside the target, check it, then rename it."""
    with _beside(target) as (file, draft):
        _finish(report, pages, file)
        findings = find_faults(draft)
        if findings:
            shown = "\n".join(findings[:20])
            raise VerificationError(
                f"The report was laid out but its file is not in order, so it was not written:\n{shown}",
                "This is a fault of the program: please report it with these lines.",
            )


def _finish(report: Report, pages: Pages, file: BinaryIO) -> None:
    with pikepdf.open(pages.file) as pdf:
        plant(pdf, add_fields(pdf, pages))
        attach(pdf, report)
        identify(pdf, report)
        pdf.save(
            file,
            deterministic_id=True,
            min_version="1.7",
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            fix_metadata_version=False,
        )
    file.flush()
    os.fsync(file.fileno())


@contextmanager
def _beside(target: Path) -> Iterator[tuple[BinaryIO, Path]]:
    """Open a new file beside the target, to take its place when all went well and else to go."""
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
