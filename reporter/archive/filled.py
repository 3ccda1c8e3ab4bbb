"""Reads a form that was filled in: by whatever program, so nothing in the file is trusted and nothing of it is run.

Comes in: a path. Goes out: fields with their values, and the data that the sheet carries about itself.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Object

from reporter.archive.attached import attached_files, content_of
from reporter.archive.unreadable import LOCKED, UNREADABLE, locked
from reporter.errors import UsageError, VerificationError
from reporter.model.form import Filled, FilledForm

_DATA = "sheet.json"
_LONGEST = 40_000


def read_form(path: Path) -> FilledForm:
    """The fields of a filled sheet. UsageError when there is no such file, VerificationError when it is none of our sheets."""
    if not path.is_file():
        raise UsageError(f"There is no file {path}.")
    try:
        with pikepdf.open(path) as pdf:
            meaning = _meaning(pdf)
            fields = tuple(_fields(pdf))
    except LOCKED as error:
        raise locked(path) from error
    except UNREADABLE as error:
        message = f"{path} cannot be read as a field sheet ({type(error).__name__})."
        raise VerificationError(
            message, "Save the filled sheet again, from the program you filled it in with."
        ) from error
    if not fields:
        message = f"{path} holds no fields: it was printed to a new file, or flattened."
        raise VerificationError(
            message, "Save the filled sheet itself; a print of it can only be read by eye."
        )
    return FilledForm(meaning, fields)


def _meaning(pdf: pikepdf.Pdf) -> dict[str, Any]:
    found = {name: specification for name, specification in attached_files(pdf) if name == _DATA}
    if not found:
        raise VerificationError(
            "The file does not say which job it belongs to.", "Take a sheet that 'gudgeon sheet' wrote."
        )
    said = json.loads(content_of(_DATA, found[_DATA]))
    if not isinstance(said, dict):
        raise VerificationError("What the sheet says about itself cannot be read.")
    return said


def _fields(pdf: pikepdf.Pdf) -> Iterator[Filled]:
    for number, page in enumerate(pdf.pages, start=1):
        for widget in page.obj.get("/Annots", Array()):
            if isinstance(widget, Dictionary) and widget.get("/Subtype") == Name.Widget and "/T" in widget:
                yield _field(widget, number)


def _field(widget: Object, page: int) -> Filled:
    kind = widget.get("/FT")
    read = _ticked if kind == Name.Btn else _written
    value = widget.get("/V")
    if kind == Name.Btn and value is None:
        value = widget.get("/AS")  # some programs turn the box and say nothing of the field
    return Filled(page, str(widget.T), str(widget.get("/TU", "")), read(value), read(widget.get("/DV")))


def _ticked(value: Object | None) -> str:
    return "" if value is None or str(value).lstrip("/") in {"", "Off"} else "on"


def _written(value: Object | None) -> str:
    if isinstance(value, Array):
        value = value[0] if len(value) else None
    return "" if value is None else str(value)[:_LONGEST].replace("\r\n", "\n").replace("\r", "\n").strip()
