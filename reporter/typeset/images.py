"""Pictures go into the laid-out file last and straight from disk to disk, so that memory does not grow with them.

Comes in: the pictures that pages paint, then the file that ReportLab wrote with an empty object for each. Goes out: that
file with the pictures appended as an incremental update (ISO 32000-1, 7.5.6) that redefines those objects. Pictures
are named by their content, so that the same report gives the same bytes. Must not decode them.
"""

from __future__ import annotations

import hashlib
import re
import shutil
from pathlib import Path
from typing import Any, BinaryIO

from reportlab.pdfbase.pdfdoc import PDFObject
from reportlab.pdfbase.pdfutils import readJPEGInfo

from reporter.errors import LayoutError

_COLOURS = {1: b"DeviceGray", 3: b"DeviceRGB"}
_TAIL = 4096
"""Bytes at the end of the file in which its trailer stands; ReportLab writes some 300."""


class _Reserved(PDFObject):  # type: ignore[misc]  # ReportLab is untyped
    """An object that takes a number now and is defined later."""

    def format(self, _document: object) -> bytes:
        """The null object."""
        return b"null"


class Images:
    """The pictures of one document, each once, however often it is painted."""

    def __init__(self) -> None:
        self._names: dict[Path, str] = {}
        self._files: dict[str, Path] = {}

    def name(self, file: Path) -> str:
        """The name by which pages call a JPEG file; OSError when it cannot be read."""
        if file not in self._names:
            with file.open("rb") as stream:
                self._names[file] = hashlib.file_digest(stream, "sha256").hexdigest()
            self._files.setdefault(self._names[file], file)
        return self._names[file]

    def reserve(self, document: Any) -> None:
        """Give every picture an object of ReportLab's document; before that is written."""
        for name in self._files:
            document.addForm(name, _Reserved())

    def append(self, document: Any, target: Path) -> None:
        """Put the pictures into the written file; OSError when one cannot be read, or the file not written."""
        if not self._files:
            return
        with target.open("r+b") as file:
            trailer = _trailer(file)
            offsets = {}
            for name, picture in self._files.items():
                number, _ = document.idToObjectNumberAndVersion[document.getXObjectName(name)]
                offsets[number] = file.tell()
                _write(file, number, picture)
            start = file.tell()
            sections = [b"%d 1\n%010d 00000 n \n" % each for each in sorted(offsets.items())]
            file.write(b"xref\n" + b"".join(sections) + trailer + b"startxref\n%d\n%%%%EOF\n" % start)


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


def _write(file: BinaryIO, number: int, picture: Path) -> None:
    """One picture as an image XObject (ISO 32000-1, 8.9.5), its bytes as they are (DCTDecode, 7.4.8)."""
    with picture.open("rb") as stream:
        wide, high, colours, _ = readJPEGInfo(stream)
        size = stream.seek(0, 2)
        stream.seek(0)
        file.write(
            b"%d 0 obj\n<</Type/XObject/Subtype/Image/Width %d/Height %d/ColorSpace/%s/BitsPerComponent 8"
            b"/Filter/DCTDecode/Length %d>>\nstream\n" % (number, wide, high, _COLOURS[colours], size)
        )
        shutil.copyfileobj(stream, file)
    file.write(b"\nendstream\nendobj\n")
