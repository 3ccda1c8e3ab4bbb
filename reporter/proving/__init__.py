"""Holding a received report against its seals, against its own data, and against the folder it was made from.

Everything that opens the stranger's file runs in a worker with limits of time and memory. `prove` is the one way in; what it
returns is told by whoever asked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection
    from pathlib import Path

    from reporter.model.sealed import Proof

__all__ = ["prove"]


def prove(
    file: Path,
    job: Path | None = None,
    *,
    known: Collection[str] = (),
    expected: int | None = None,
    template: Path | None = None,
) -> Proof:
    """Hold `file` against its seals and its own data, and against the job folder where one is given.

    `known` are the fingerprints that the reader keeps, `expected` the number of signatures that should be there,
    `template` the file of a template of one's own, where the report was made with one. UsageError: no such file, or the
    extra is not installed. JobError and the like where the reader's own folder cannot be used.
    """
    from reporter.proving.stage import proven

    return proven(file, job, known, expected, template)
