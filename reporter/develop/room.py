"""How much room the copies of a report's photos will take at most, before any is made.

Comes in: the report, the job folder. Goes out: bytes, rather too many than too few.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from reporter.develop.developing import gather
from reporter.model.report import Report

PAGES, A_BLOCK = 1_000_000, 4_000
"""Bytes of everything in a report but its photos: fonts, colours and data, and what each block adds, drawings included."""
A_DOT = 0.75
"""Bytes of a JPEG's dot at the quality that copies have; sharp photos of gear take 0.3 to 0.5, noise takes more."""
AGAIN = 2
"""Times the size of the photo's own file that a copy of all its dots may take, if that was pressed harder."""


def reckon(report: Report, folder: Path, *, dpi: int) -> int:
    """Bytes that the copies and insets take together with the pages."""
    room = PAGES + A_BLOCK * len(report.blocks)
    for name, wanted in gather(report, dpi).items():
        dots = wanted.box[0] * wanted.box[1] + sum(pixels**2 for pixels in wanted.insets.values())
        most = round(A_DOT * dots)
        with suppress(OSError):
            # A small photo is never made larger.
            most = min(most, AGAIN * (1 + len(wanted.insets)) * (folder / name).stat().st_size)
        room += most
    return room
