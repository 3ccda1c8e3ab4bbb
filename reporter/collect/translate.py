"""A sheet against its model: the model's value, or every fault of it as a problem in plain English.

In: a sheet, the model class, the reader of quantities. Out: the frozen value, or None with problems in the ledger. The
validating library's own words and type names are never shown.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.photo_marks import bounds_of_mark
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import read_quantity
from reporter.collect.shape import DataShape, shape_of
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.sheet import JobSheet

Model = TypeVar("Model", bound=BaseModel)
Message = tuple[str, str]
LONGEST_SHOWN = 40

EXAMPLES = {
    "format": "format: 1",
    "purpose": "purpose: pre_purchase",
    "report": "report: {number: 2026-014}",
    "number": "number: 2026-014",
    "vessel": "vessel: {name: Marram}",
    "people": "people: [{role: author, name: Rowan Teale}]",
    "vessel.name": "name: Marram",
    "people.name": "name: Rowan Teale",
    "place": "place: Skerrow Haven, berth C14",
    "role": "role: author",
    "inspection": "inspection: {dates: [2026-05-12], place: Skerrow Haven}",
    "dates": "dates: [2026-05-12]",
    "components": "components:",
    "id": "id: steering-chain",
    "kind": "kind: chain",
    "examined": "examined: seen",
    "extent": "extent: seen",
    "choice": "choice: none",
    "file": "file: IMG_0412.jpg",
    "at": "at: [0.42, 0.55]",
    "corner": "corner: [0.30, 0.40]",
    "opposite": "opposite: [0.50, 0.60]",
    "tail": "tail: [0.30, 0.40]",
    "head": "head: [0.50, 0.60]",
    "start": "start: [0.30, 0.40]",
    "end": "end: [0.50, 0.60]",
}


OTHER_KEYS = {
    "location": "place", "position": "place", "where": "place", "notes": "found", "note": "found", "remarks": "found",
    "remark": "found", "comment": "found", "comments": "found", "description": "found", "type": "kind", "part": "kind",
    "date": "dates", "loa": "length_overall", "lwl": "length_waterline", "length": "length_overall", "weight": "displacement",
    "draft": "draught", "year": "built", "surveyor": "people", "author": "people", "pictures": "photos", "images": "photos",
    "observations": "observed", "observation": "observed", "inspected": "examined", "fitted": "installed",
}  # fmt: skip
"""What people call a key -> the key, where there is one of that name."""
OTHER_WORDS = {
    "partly": "part_seen", "partially": "part_seen", "part": "part_seen", "partial": "part_seen", "some": "part_seen",
    "fully": "seen", "full": "seen", "all": "seen", "yes": "seen", "complete": "seen", "whole": "seen", "no": "not_seen",
    "hidden": "not_seen", "none": "not_fitted", "absent": "not_fitted", "missing": "not_found", "surveyor": "author",
    "inspector": "author", "buyer": "client", "visual": "eye", "visually": "eye", "looked": "eye", "by hand": "hand",
    "afloat": "afloat", "water": "afloat", "hard": "ashore", "dry": "ashore", "land": "ashore", "good": "clear", "ok": "clear",
    "fine": "clear", "urgent": "first", "danger": "stop", "monitor": "watch", "later": "plan", "replace soon": "plan",
}  # fmt: skip
"""What people write for a word of the format -> the word that is probably meant; it is asked, never taken."""


@dataclass(frozen=True)
class Outcome(Generic[Model]):
    """A sheet held against its model: the value if all of it is in order, and where it is not."""

    value: Model | None
    bad: frozenset[Loc]


def validate(sheet: YamlFile, model: type[Model], ledger: Ledger) -> Outcome[Model]:
    """The value of `model` that the sheet says, with every fault told at its line."""
    shape = shape_of(model)
    shape.read_dates(sheet)
    faults = shape.faults(sheet) + _format_fault(sheet)
    for loc, what, do in faults:
        sheet.tell(ledger, loc, what, do)
    bad = {loc for loc, _, _ in faults}
    value: Model | None = None
    try:
        value = model.model_validate(_numbered(sheet.data), context={"quantity": read_quantity})
    except ValidationError as error:
        told = {sheet.found(loc) for loc in bad}
        for each in error.errors(include_url=False):
            _tell(each, sheet, shape, told, ledger)
            bad.add(tuple(each["loc"]))
    return Outcome(None if bad else value, frozenset(bad))


def _numbered(data: dict[str, Any]) -> dict[str, Any]:
    """The data with the format as a number; another format than ours is told by `_format_fault`."""
    return {**data, "format": 1} if "format" in data else data


def salvaged(sheet: YamlFile, bad: frozenset[Loc]) -> JobSheet | None:
    """A job sheet with what is bad in it left out, for the checks of the rest; stand-ins are never told or printed."""
    data: dict[str, Any] = {
        key: dict(each) if isinstance(each, dict) else each for key, each in sheet.data.items()
    }
    for first, *rest in filter(None, bad):
        inner = data.get(str(first))
        if rest and isinstance(inner, dict):
            inner.pop(rest[0], None)
        else:
            data.pop(str(first), None)
    for key, stand_in in STAND_INS.items():
        given = data.get(key, {})
        data[key] = (
            {**stand_in, **given}
            if isinstance(stand_in, dict) and isinstance(given, dict)
            else data.get(key, stand_in)
        )
    try:
        return JobSheet.model_validate(_numbered(data), context={"quantity": read_quantity})
    except ValidationError:
        return None


STAND_INS: dict[str, Any] = {
    "format": 1,
    "purpose": "0",
    "report": {"number": "-"},
    "vessel": {"name": "-"},
    "people": [{"role": "author", "name": "-"}],
    "inspection": {"dates": ["2000-01-01"], "place": "-"},
}


def _format_fault(sheet: YamlFile) -> list[tuple[Loc, str, str]]:
    written = sheet.data.get("format", "1")
    if written == "1":
        return []
    return [
        (
            ("format",),
            f"This file says it has format {written}; this program reads format 1.",
            "Write 'format: 1'.",
        )
    ]


def _tell(error: Any, sheet: YamlFile, shape: DataShape, told: set[Loc], ledger: Ledger) -> None:
    """One fault, unless its entry has been told already."""
    loc: Loc = tuple(error["loc"])
    found = sheet.found(loc)
    if error["type"] == "too_short" and sheet.value(loc):
        return  # the list is short only of entries that are told themselves
    if any(found[:depth] in told for depth in range(len(found) + 1)):
        return
    what, do = _words(error, loc, sheet, shape)
    missing = error["type"] == "missing" and isinstance(loc[-1], str) and found != loc
    shown = (*found, loc[-1]) if missing else found
    ledger.tell(sheet.file, sheet.line(found), sheet.key(shown), what, do, loc)


def _words(error: Any, loc: Loc, sheet: YamlFile, shape: DataShape) -> Message:
    kind: str = error["type"]
    context: dict[str, Any] = error.get("ctx", {})
    if kind == "value_error":
        return _own_words(context["error"])
    if kind == "missing":
        return _missing(loc, sheet)
    if kind == "extra_forbidden":
        return _unknown_key(loc, sheet, shape)
    if kind in _CHOICES:
        return _wrong_choice(kind, loc, sheet, shape)
    value = sheet.value(loc)
    if "marks" in loc and (told := _of_mark(kind, value, loc, context)):
        return told
    if kind == "string_pattern_mismatch" and loc[-1] == "kind":
        kind = "no_kind"
    return _BOUNDS[kind](value, context) if kind in _BOUNDS else _wrong_form(kind, value, loc, sheet, shape)


_CHOICES = {"literal_error", "enum", "union_tag_invalid", "union_tag_not_found"}


def _own_words(cause: Exception) -> Message:
    """What the model or the reader of quantities said itself; both speak plainly."""
    if isinstance(cause, UnreadableError):
        return cause.what, cause.do
    text = str(cause)
    return f"{text[:1].upper()}{text[1:]}.", "Complete this entry."


def _missing(loc: Loc, sheet: YamlFile) -> Message:
    key = loc[-1]
    if isinstance(key, int):
        return "Two numbers are due here: how far across and how far down.", "Write them as [0.42, 0.55]."
    example = EXAMPLES.get(f"{loc[0]}.{key}", EXAMPLES.get(key, f"{key}: ..."))
    if loc in sheet.empty or (*sheet.found(loc[:-1]), key) in sheet.empty:
        if mark := sheet.comments.get(sheet.lines.get((*sheet.found(loc[:-1]), key), 0)):
            do = f"Write '{mark}' in quotes if it is meant: what follows # is a comment."
            return f"Nothing is written after '{key}:'.", do
        return f"Nothing is written after '{key}:'.", f"Fill it in, as in '{example}'."
    return f"The key '{key}' is missing.", f"Add it, as in '{example}'."


def _unknown_key(loc: Loc, sheet: YamlFile, shape: DataShape) -> Message:
    key, keys = str(loc[-1]), shape.keys(loc[:-1], sheet)
    what = f"There is no key '{key}' here."
    if (other := OTHER_KEYS.get(key.casefold(), "")) in keys:
        return what, f"Write '{other}'. Keys here: {listed(keys, len(keys))}."
    for depth in range(len(loc) - 2, 0, -1):
        if isinstance(loc[depth], str) and key in shape.keys(loc[:depth], sheet):
            return what, f"'{key}' stands beside '{loc[depth]}', not in it."
    return what, meant(key, keys, f"Keys here: {listed(keys, len(keys))}.")


def _wrong_choice(kind: str, loc: Loc, sheet: YamlFile, shape: DataShape) -> Message:
    choices = shape.choices(loc, sheet)
    value = sheet.value(loc)
    if kind.startswith("union"):
        value = value.get("kind") if isinstance(value, dict) else None
        if value is None:
            return "This mark does not say what it is.", f"Add 'kind:' with one of {listed(choices)}."
    listing = f"Choices: {listed(choices)}."
    if loc[-1] == "side" and "group" in shape.keys(loc[:-1], sheet):
        listing += " What else belongs together goes under 'group'."
    if (other := OTHER_WORDS.get(str(value).casefold(), "")) in choices:
        return f"'{value}' is not one of the choices.", f"Did you mean '{other}'? {listing}"
    return f"'{value}' is not one of the choices.", meant(str(value), choices, listing)


_BOUNDS: dict[str, Callable[[Any, Any], Message]] = {
    "string_too_short": lambda _, __: ("This is empty.", "Fill it in."),
    "string_too_long": lambda value, ctx: (
        f"This text has {len(value)} characters; {ctx['max_length']} is the most.", "Shorten it."),
    "string_pattern_mismatch": lambda value, _: (
        f"'{str(value)[:60]}' cannot be an id.",
        "Use small letters, digits, '-', '_' and '.', 48 at most, beginning with a letter or digit."),
    "no_kind": lambda value, _: (
        f"There is no component kind '{str(value)[:60]}'.",
        "'gudgeon plugins' lists them; write the word in its first column."),
    "too_short": lambda _, __: ("This list is empty.", "Give at least one entry."),
    "too_long": lambda _, ctx: (f"There are too many entries; {ctx['max_length']} is the most.", "Take some out."),
    "greater_than_equal": lambda value, ctx: (f"{value} is too small; {ctx['ge']:g} is the least.", "Correct the number."),
    "greater_than": lambda value, ctx: (f"{value} must be more than {ctx['gt']:g}.", "Correct the number."),
    "less_than_equal": lambda value, ctx: (f"{value} is too large; {ctx['le']:g} is the most.", "Correct the number."),
    "less_than": lambda value, ctx: (f"{value} must be less than {ctx['lt']:g}.", "Correct the number."),
}  # fmt: skip


def _of_mark(kind: str, value: Any, loc: Loc, context: Any) -> Message | None:
    """What is said of a place on the photo and of a radius; None of all else that a mark has, which is told as anywhere."""
    if kind == "too_long":
        return (
            f"Two numbers are due here, not {len(value)}.",
            "Write them with decimal points, as in [0.42, 0.55].",
        )
    if kind not in _BOUNDS:
        return None
    if isinstance(loc[-1], int):
        edges = "0 is the left or upper edge of the photo, 1 the right or lower one."
        return f"{value} lies outside the photo.", f"Correct it: {edges}"
    ends = bounds_of_mark(loc)
    if "le" not in ends:
        return None
    most = f"{ends['le']:g}"
    if loc[-1] == "radius":
        do = f"Write more than {ends['gt']:g} and at most {most}, in parts of the photo's width: 'radius: 0.05' is a twentieth."
        return _BOUNDS[kind](value, context)[0], do
    return _BOUNDS[kind](value, context)[0], f"Write a number from {ends['ge']:g} to {most}."


def _wrong_form(kind: str, value: Any, loc: Loc, sheet: YamlFile, shape: DataShape) -> Message:
    """A group where a list is due, a text where a group is due, and so on."""
    if kind in {"tuple_type", "list_type"}:
        example = f"[{value}]" if isinstance(value, str) and len(value) < LONGEST_SHOWN else "[one, two]"
        return (
            "A list is due here.",
            f"Write it in brackets, {example}, or on lines of their own beginning with '- '.",
        )
    if kind in {"model_type", "model_attributes_type", "dict_type"}:
        keys = shape.keys(loc, sheet)
        have = "a list" if isinstance(value, list) else f"'{str(value)[:LONGEST_SHOWN]}'"
        inside = (
            f"Write keys and values: {listed(keys)}." if keys else "Write 'key: value' lines, indented below."
        )
        return f"A group of keys is due here, not {have}.", inside
    if kind == "string_type":
        return "One plain entry is due here.", "Write the entry on one line after the colon."
    return "This entry cannot be read.", "Compare it with the demonstration job."
