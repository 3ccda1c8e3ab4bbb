"""Pictures go into the laid-out file last and straight from disk to disk, so that memory does not grow with them.

Comes in: the pictures that pages paint, then the update of the file that ReportLab wrote. Goes out: the pictures in it.
They are named by their content, so that the same report gives the same bytes. Must not decode them.
"""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path
from typing import Any, BinaryIO

from reportlab.pdfbase.pdfutils import readJPEGInfo

from reporter.typeset.update import Update, reserve

_COLOURS = {1: b"DeviceGray", 3: b"DeviceRGB"}


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
        """Give every picture that is painted so far an object of ReportLab's document."""
        for name in self._files:
            reserve(document, name)

    def append(self, document: Any, update: Update) -> None:
        """Put the pictures into the written file; OSError when one cannot be read, or the file not written."""
        for name, picture in self._files.items():
            number, _ = document.idToObjectNumberAndVersion[document.getXObjectName(name)]
            update.begin(number)
            _write(update.file, number, picture)


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
