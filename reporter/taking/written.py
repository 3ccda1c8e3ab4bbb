"""Blanks that were written in: names, notes and reasons, details with how they are known, the names of photos."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from reporter.asking.naming import BASIS
from reporter.collect.dates import date_fault, in_iso
from reporter.collect.quantity_slips import UnreadableError
from reporter.model.form import Filled, Question
from reporter.model.plugin import DetailField
from reporter.taking.answers import detail, one_of
from reporter.taking.entries import Entries

LINES = (
    ("name",), ("place",), ("side",), ("group",), ("installed",), ("found",), ("opinion",), ("private",), ("examined", "because"),
    ("judgement", "reason"),
)  # fmt: skip
_APART = re.compile(r"[,;\n]+")


def take_words(entries: Entries) -> None:
    """Plain words, work done, and a grade of one's own, which stands only with its reason."""
    for path in LINES:
        field = entries.fields.get(path)
        if field is not None and field.changed:
            _line(entries, path, field)
    _done(entries)
    _judged(entries)


def _line(entries: Entries, path: tuple[str, ...], field: Filled) -> None:
    there = entries.part.get(*path)
    with entries.taken.told(field):
        wanted = _read_line(entries, path, field.value)
        if not _same(there, wanted) and entries.taken.settles(field, str(there or ""), wanted):
            entries.part.put(wanted or None, *path)


def _read_line(entries: Entries, path: tuple[str, ...], written: str) -> str:
    """Words as they stand, a side by its id, a date as far as it is known."""
    question = entries.question(*path)
    if written and question and question.choices:
        return one_of(written, question.choices)
    if written and question and question.sort == "date":
        written = in_iso(written)
        if fault := date_fault(written, partial=True):
            raise UnreadableError(*fault)
    return written


def _same(there: Any, wanted: str) -> bool:
    """Whether both say the same; how lines are broken says nothing."""
    return str(there or "").split() == wanted.split()


def _done(entries: Entries) -> None:
    """One more thing done; what was told before stays."""
    field = entries.fields.get(("done",))
    if field is None or not field.changed or not field.value:
        return
    done: list[Any] = list(entries.part.get("done") or [])
    if not any(isinstance(each, dict) and _same(each.get("what"), field.value) for each in done):
        entries.part.put([*done, {"what": field.value}], "done")
        entries.taken.added(field, field.value)


def _judged(entries: Entries) -> None:
    boxes = entries.under("judgement", "grade")
    changed = [each for each in boxes.values() if each.changed]
    ticked = [steps[0] for steps, each in boxes.items() if each.value]
    if not changed:
        return
    part, taken = entries.part, entries.taken
    if len(ticked) > 1:
        taken.refuse(changed[0], "take.two_boxes", "take.one_box")
        return
    if ticked and not part.get("judgement", "reason"):
        taken.refuse(changed[0], "take.no_reason", "take.give_grade_reason")
        return
    there, wanted = str(part.get("judgement", "grade") or ""), ticked[0] if ticked else ""
    if there != wanted and taken.settles(changed[0], there, wanted):
        part.put(wanted or None, "judgement", "grade")


def take_details(entries: Entries) -> None:
    """A detail's value, and how it is known."""
    for ident in entries.tables("details"):
        fields = entries.under("details", ident)
        declared = entries.plugin.detail(ident)
        question = entries.question("details", ident)
        if declared is None or question is None:
            entries.gone(fields)
            continue
        value, basis = fields.get(()), fields.get((BASIS,))
        if value is not None and value.changed:
            with entries.taken.told(value):
                _detail(entries, declared, question, value)
        if basis is not None and basis.changed:
            with entries.taken.told(basis):
                _basis(entries, ident, question, basis)


def _detail(entries: Entries, declared: DetailField, question: Question, field: Filled) -> None:
    path, text = ("details", declared.id, "value"), field.value
    there = str(entries.part.get(*path) or "")
    wanted = detail(text, declared, question.unit, question.choices, entries.today) if text else ""
    if wanted != there and entries.taken.settles(field, there, wanted):
        entries.part.put(wanted or None, *(path if wanted else path[:2]))


def _basis(entries: Entries, ident: str, question: Question, field: Filled) -> None:
    part, taken = entries.part, entries.taken
    if part.get("details", ident, "value") is None:
        taken.refuse(field, "take.basis_alone", "take.value_too")
        return
    wanted = one_of(field.value, question.basis) if field.value else ""
    there = str(part.get("details", ident, "basis") or "")
    if wanted != there and taken.settles(field, there, wanted):
        part.put(wanted or None, "details", ident, "basis")


def take_photos(entries: Entries, photos: Sequence[str]) -> None:
    """The photos named, each by its name or by a number that only one of the folder's photos ends with."""
    field = entries.fields.get(("photos",))
    if field is None or not field.changed:
        return
    part, taken = entries.part, entries.taken
    there: list[Any] = list(part.get("photos") or [])
    have = {(each.get("file") if isinstance(each, dict) else str(each)) for each in there}
    printed = {each.strip() for each in _APART.split(field.printed)}
    for written in (each.strip() for each in _APART.split(field.value)):
        if not written or written in printed:
            continue
        file = _photo(written, photos)
        if not file:
            taken.refuse(field, "take.no_photo", "take.copy_photo", name=written)
        elif file not in have:
            there.append({"file": file})
            have.add(file)
            taken.added(field, file)
    if there != list(part.get("photos") or []):
        part.put(there, "photos")


def _photo(written: str, photos: Sequence[str]) -> str:
    """The one photo that is meant; empty where none is, or more than one."""
    wanted = written.casefold().removeprefix("photos/")
    stems = {name: name.casefold().rsplit(".", 1)[0] for name in photos}
    exact = [name for name in photos if wanted in {name.casefold(), stems[name]}]
    ending = [
        name for name in photos if wanted.isdigit() and re.search(rf"(?<!\d)0*{int(wanted)}$", stems[name])
    ]
    found = exact or ending
    return found[0] if len(found) == 1 else ""
