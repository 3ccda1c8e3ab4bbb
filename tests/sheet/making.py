"""Sheets made and filled in for tests: by pikepdf, by pypdf, and by the engine of a browser's viewer."""

from __future__ import annotations

import ctypes
from collections.abc import Mapping
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
from pikepdf.form import CheckboxField, Form
from pypdf.generic import NameObject
from pypdfium2 import raw

from reporter import visiting
from reporter.registry import find, load

ROOT = Path(__file__).parents[2]
REGISTRY = load(find())
ON = "/Yes"


def quiet(step: str) -> None:
    """Tells nobody."""


def sheet_of(folder: Path, target: Path, **how: object) -> Path:
    """The sheet of a folder."""
    visiting.sheet(folder, target, REGISTRY, tell=quiet, **how)  # type: ignore[arg-type]
    return target


def fill_with_pikepdf(sheet: Path, target: Path, values: Mapping[str, str]) -> Path:
    """The sheet with these fields filled in; "on" ticks a box, an empty text clears it."""
    with pikepdf.open(sheet) as pdf:
        left = dict(values)
        for field in Form(pdf):
            if field.fully_qualified_name not in left:
                continue
            value = left.pop(field.fully_qualified_name)
            if isinstance(field, CheckboxField):
                field.checked = value == "on"
            else:
                field.value = value  # type: ignore[union-attr]  # a text or a choice
        assert left == {}, "the sheet has no such fields"
        pdf.save(target)
    return target


def fill_with_pypdf(sheet: Path, target: Path, values: Mapping[str, str]) -> Path:
    """The same by another library."""
    writer = pypdf.PdfWriter(clone_from=sheet)
    kinds = {name: field.get("/FT") for name, field in (writer.get_fields() or {}).items()}
    assert set(values) <= set(kinds), "the sheet has no such fields"
    told = {
        name: (NameObject(ON if value == "on" else "/Off") if kinds[name] == "/Btn" else value)
        for name, value in values.items()
    }
    for page in writer.pages:
        writer.update_page_form_field_values(page, told, auto_regenerate=False)
    writer.write(target)
    return target


def fill_with_pdfium(sheet: Path, target: Path, values: Mapping[str, str]) -> Path:
    """The same by the engine of Chromium's own viewer: a click into the field, then words put in as by typing."""
    places = places_of(sheet)
    document = pypdfium2.PdfDocument(sheet)
    document.init_forms()
    form = document.formenv
    for name, value in values.items():
        number, x, y = places[name]
        page = document[number]
        raw.FORM_OnMouseMove(form, page, 0, x, y)
        raw.FORM_OnLButtonDown(form, page, 0, x, y)
        raw.FORM_OnLButtonUp(form, page, 0, x, y)
        if value != "on":
            text = f"{value}\0".encode("utf-16-le")
            raw.FORM_ReplaceSelection(form, page, (ctypes.c_ushort * (len(text) // 2)).from_buffer_copy(text))
        raw.FORM_ForceToKillFocus(form)
    document.save(target)
    document.close()
    return target


def places_of(sheet: Path) -> dict[str, tuple[int, float, float]]:
    """Field -> page from 0, and the middle of its rectangle."""
    found = {}
    with pikepdf.open(sheet) as pdf:
        for number, page in enumerate(pdf.pages):
            for widget in page.obj.get("/Annots", []):
                left, low, right, top = (float(edge) for edge in widget.Rect)
                found[str(widget.T)] = (number, (left + right) / 2, (low + top) / 2)
    return found
