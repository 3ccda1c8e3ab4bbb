"""The form of job.yaml, made from the model that the file is read into: no key stands here by name but for its heading.

In: a standing. Out: JSON in the shape of a part's form. A group of keys becomes questions, a list of groups entries with
columns, a list of words lines.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from enum import Enum
from types import UnionType
from typing import Annotated, Any, ClassVar, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from reporter.desk.forms import seen
from reporter.desk.standing import Standing
from reporter.engineering import units
from reporter.model.job import JobSheet
from reporter.model.quantity import PartialDate, Value
from reporter.model.terms import Dimension
from reporter.wording import Catalogue

FILE = "job.yaml"
USUAL_UNITS = {
    Dimension.LENGTH: "m",
    Dimension.MASS: "kg",
    Dimension.AREA: "m²",
    Dimension.HOURS: "h",
    Dimension.TORQUE: "N·m",
}
FIXED = {"format"}
OWN = "report_of"
"""The heading over the keys that stand in no group."""
LONG = {"note", "opinion", "own_terms", "reason", "because", "what", "shows"}
SORTS: dict[Any, str] = {bool: "yesno", dt.date: "date", PartialDate: "date", int: "number", float: "number"}
USUAL = {
    "purpose",
    "report",
    "vessel",
    "people",
    "inspection",
    "scope",
    "not_examined",
    "next",
    "instruments",
    "opinion",
}
"""What nearly every job tells; the rest is folded away."""


def sheet(standing: Standing) -> dict[str, Any]:
    """Everything that job.yaml may hold, block by block."""
    words = standing.words
    own: list[dict[str, Any]] = []
    blocks: list[dict[str, Any]] = []
    for name, field in JobSheet.model_fields.items():
        kind = _bare(field.annotation)
        if name in FIXED:
            continue
        if isinstance(kind, type) and issubclass(kind, BaseModel) and kind not in {Value, PartialDate}:
            blocks.append(_block(name, _title(words, name), list(_group(standing, (name,), kind))))
        else:
            own.append(_question(standing, (name,), field))
    for question in own:
        if question["id"] == "purpose":
            question["choices"] = [
                {"id": each, "words": words(template.title_id)}
                for each, template in standing.kinds.templates.items()
            ]
            question["sort"] = "choice"
    return {
        "kind": "",
        "title": "",
        "help": "",
        "blocks": [_block(OWN, _title(words, OWN), own), *blocks],
        "worked": [],
    }


def _block(ident: str, title: str, questions: list[dict[str, Any]]) -> dict[str, Any]:
    return {"id": ident, "title": title, "tool": "", "questions": questions}


def _group(standing: Standing, path: tuple[str, ...], kind: type[BaseModel]) -> Iterator[dict[str, Any]]:
    for name, field in kind.model_fields.items():
        inner = _bare(field.annotation)
        if isinstance(inner, type) and issubclass(inner, BaseModel) and inner not in {Value, PartialDate}:
            yield from _group(standing, (*path, name), inner)
        else:
            yield _question(standing, (*path, name), field)


def _question(standing: Standing, path: tuple[str, ...], field: FieldInfo) -> dict[str, Any]:
    words, name = standing.words, path[-1]
    return {
        "id": ".".join(path),
        "title": _title(words, name),
        "help": "",
        "main": "",
        "asked": True,
        "usual": path[0] in USUAL,
        "needed": field.is_required(),
        "file": FILE,
        "address": list(path),
        "seen": seen(standing, FILE, list(path)),
        "answers": [],
        **_sort(words, name, field),
    }


def _sort(words: Catalogue, name: str, field: FieldInfo) -> dict[str, Any]:
    """How a key is answered."""
    kind = _bare(field.annotation)
    if get_origin(kind) is tuple:
        return _list(words, _bare(get_args(kind)[0]))
    if get_origin(kind) is Literal:
        return {"sort": "choice", "choices": _choices(words, name, get_args(kind))}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return {"sort": "choice", "choices": _choices(words, name, [each.value for each in kind])}
    if kind is Value:
        return {"sort": "quantity", **_units(name, field)}
    return {"sort": SORTS[kind]} if kind in SORTS else {"sort": "text", "long": name in LONG}


def _list(words: Catalogue, kind: Any) -> dict[str, Any]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        columns = [
            {
                "id": name,
                "title": _title(words, name),
                "needed": field.is_required(),
                "help": "",
                "choices": [],
                **_plain(_sort(words, name, field)),
            }
            for name, field in kind.model_fields.items()
        ]
        return {"sort": "rows", "columns": columns}
    if get_origin(kind) is Literal:
        return {"sort": "choices", "choices": _choices(words, "", get_args(kind))}
    return {"sort": "lines"}


def _plain(sort: dict[str, Any]) -> dict[str, Any]:
    """A column knows fewer ways than a question."""
    name = (
        "long"
        if sort.get("long")
        else {"quantity": "text", "number": "text", "lines": "text", "rows": "text"}.get(
            sort["sort"], sort["sort"]
        )
    )
    return {"sort": name, "choices": sort.get("choices", [])}


def _units(name: str, field: FieldInfo) -> dict[str, Any]:
    """The units that a size may be told in, and the usual one."""
    dimension = _dimension(field)
    names = units.names(dimension) if dimension else ()
    usual = "nmi" if name == "miles" else USUAL_UNITS.get(dimension, "") if dimension else ""
    return {"unit": usual if usual in names else next(iter(names), ""), "units": list(names)}


class _Asked(Exception):  # noqa: N818 - no error, but an answer
    """Raised in place of reading a size: its dimension."""


class _Probe:
    """Stands in for the reader of quantities, and tells what it is asked for."""

    @staticmethod
    def _tell(_text: str, dimension: Dimension) -> None:
        raise _Asked(dimension)

    context: ClassVar = {"quantity": _tell}


def _dimension(field: FieldInfo) -> Dimension | None:
    """The dimension of a size: only the field's own reader knows it."""
    inner = [each for option in get_args(field.annotation) for each in getattr(option, "__metadata__", ())]
    for each in (*field.metadata, *inner):
        read = getattr(each, "func", None)
        try:
            _ = read and read("1", _Probe)
        except _Asked as answer:
            return Dimension(answer.args[0])
    return None


def _choices(words: Catalogue, name: str, values: Any) -> list[dict[str, str]]:
    return [
        {"id": str(each), "words": words.either(f"sheet.{name}_{each}", _spoken(str(each)))}
        for each in values
        if each
    ]


def _title(words: Catalogue, name: str) -> str:
    return words.either(f"sheet.{name}", _spoken(name))


def _spoken(name: str) -> str:
    """A key as it is said: its words are English and plain."""
    told = name.replace("_", " ")
    return told[:1].upper() + told[1:]


def _bare(annotation: Any) -> Any:
    """A type without what may also be absent, and without its conditions."""
    while True:
        if get_origin(annotation) is Annotated:
            annotation = get_args(annotation)[0]
        elif get_origin(annotation) in {Union, UnionType}:
            inner = [each for each in get_args(annotation) if each is not type(None)]
            if len(inner) != 1:
                return annotation
            annotation = inner[0]
        else:
            return annotation
