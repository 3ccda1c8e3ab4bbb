"""What goes into the laid-out file beside what ReportLab writes, so that memory grows neither with pages nor with pictures.

Comes in: the file that ReportLab wrote, with an empty object for each that is to come. Goes out: that file with those objects
appended as an incremental update (ISO 32000-1, 7.5.6). Must not know what they are.
"""

from __future__ import annotations

import re
import shutil
import tempfile
import weakref
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, Any, BinaryIO

from reportlab.pdfbase.pdfdoc import PDFIndirectObject, PDFObject

from reporter.errors import LayoutError

_TAIL = 4096
"""Bytes at the end of the file in which its trailer stands; ReportLab writes some 300."""


class _Reserved(PDFObject):  # type: ignore[misc]  # ReportLab is untyped
    """An object that takes a number now and is defined later."""

    def format(self, _document: object) -> bytes:
        """The null object."""
        return b"null"


_RESERVED = _Reserved()


def reserve(document: Any, name: str) -> None:
    """Give a form XObject of ReportLab's document its number; before it is pointed to, and once."""
    if not document.hasForm(name):
        document.addForm(name, _Reserved())


class Update:
    """Objects that are being appended to a file: their numbers, and where each begins."""

    def __init__(self, file: BinaryIO) -> None:
        self.file = file
        self._offsets: dict[int, int] = {}

    def begin(self, number: int, ahead: int = 0) -> None:
        """The object of that number begins `ahead` bytes from here."""
        self._offsets[number] = self.file.tell() + ahead

    def __bool__(self) -> bool:
        """Whether there is any."""
        return bool(self._offsets)

    def end(self, trailer: bytes) -> None:
        """Close the update with its own table of objects."""
        start = self.file.tell()
        self.file.write(b"xref\n")
        for each in sorted(self._offsets.items()):
            self.file.write(b"%d 1\n%010d 00000 n \n" % each)
        self.file.write(trailer + b"startxref\n%d\n%%%%EOF\n" % start)


@contextmanager
def updated(target: Path) -> Iterator[Update]:
    """Append objects to a file meanwhile; OSError when it cannot be written."""
    with target.open("r+b") as file:
        trailer = _trailer(file)
        update = Update(file)
        yield update
        if update:
            update.end(trailer)


def _trailer(file: BinaryIO) -> bytes:
    """The trailer for an update of a file: its own, leading on to its own table of objects; leaves the file at its end."""
    size = file.seek(0, 2)
    file.seek(max(0, size - _TAIL))
    found = re.search(rb"(trailer\s*<<.*)>>\s*startxref\s+(\d+)\s+%%EOF\s*$", file.read(), re.DOTALL)
    if found is None:
        raise LayoutError(
            "The laid-out file does not end as expected.", "This is a fault of the program: report it."
        )
    return found[1] + b"/Prev " + found[2] + b"\n>>\n"


def _closed(file: IO[bytes]) -> None:
    """Close it; what a full disk did not take is told where it was written, and needed by nobody now."""
    with suppress(OSError):
        file.close()


class Spool:
    """Finished objects of one document, on disk until its file is written; no name leads to them, so nothing of them stays."""

    def __init__(self, folder: Path) -> None:
        self._file = tempfile.TemporaryFile(dir=folder)  # noqa: SIM115 - it lives as long as the document
        weakref.finalize(self, _closed, self._file)
        self._places: list[tuple[int, int]] = []

    def take(self, document: Any, name: str) -> None:
        """Write an object of ReportLab's document down; an empty one stands for it until then."""
        number, _ = document.idToObjectNumberAndVersion[name]
        self._places.append((number, self._file.tell()))
        self._file.write(PDFIndirectObject(name, document.idToObject[name]).format(document))
        document.idToObject[name] = _RESERVED

    def append(self, update: Update) -> None:
        """Put them into the written file; OSError when they cannot be read, or the file not written."""
        with self._file:
            for number, place in self._places:
                update.begin(number, place)
            self._file.seek(0)
            shutil.copyfileobj(self._file, update.file)
