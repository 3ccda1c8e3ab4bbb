"""Sheets made and filled in for tests: by pikepdf, by pypdf, and from what a folder says."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pikepdf
import pypdf
from pikepdf.form import CheckboxField, Form
from pypdf.generic import NameObject

from reporter import pipeline
from reporter.registry import find, load

ROOT = Path(__file__).parents[2]
REGISTRY = load(find())
ON = "/Yes"


def quiet(step: str) -> None:
    """Tells nobody."""


def sheet_of(folder: Path, target: Path, **how: object) -> Path:
    """The sheet of a folder."""
    pipeline.sheet(folder, target, REGISTRY, tell=quiet, **how)  # type: ignore[arg-type]
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
