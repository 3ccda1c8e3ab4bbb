"""How a key of a file is answered, by the model that the file is read into: its sort, choices, units, columns, words.

In: a field of a model. Out: what a question or a column of the page says of it. No key is known here but by its type.
"""

from __future__ import annotations

import datetime as dt
from enum import Enum
from types import UnionType
from typing import Annotated, Any, ClassVar, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from reporter.collect.fields import CHOICES, field_words
from reporter.engineering import units
from reporter.model.quantity import PartialDate, Value
from reporter.model.sheet import JobSheet
from reporter.model.terms import Dimension
from reporter.wording import Catalogue

LONG = {"note", "opinion", "own_terms", "reason", "because", "what", "shows"}
PHOTOS = {"photo", "hull_number_photo"}
"""What names a photo of the folder."""
SORTS: dict[Any, str] = {bool: "yesno", dt.date: "date", PartialDate: "date", int: "number", float: "number"}
USUAL_UNITS = {
    Dimension.LENGTH: "m",
    Dimension.MASS: "kg",
    Dimension.AREA: "m²",
    Dimension.HOURS: "h",
    Dimension.TORQUE: "N·m",
}
NAUTICAL = {"miles"}


def said(words: Catalogue, model: type[BaseModel], name: str) -> dict[str, str]:
    """Title and help of a field, as the catalogue has them."""
    title, help_text = field_words(words, "job" if model is JobSheet else model.__name__, name)
    return {"title": title.rstrip("."), "help": help_text}


def sort_of(words: Catalogue, model: type[BaseModel], name: str) -> dict[str, Any]:
    """How a field is answered."""
    field = model.model_fields[name]
    kind = bare(field.annotation)
    if get_origin(kind) is tuple:
        return _list(words, bare(get_args(kind)[0]))
    if get_origin(kind) is Literal:
        return {"sort": "choice", "choices": _choices(words, f"{model.__name__}.{name}", get_args(kind))}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return {"sort": "choice", "choices": _choices(words, kind.__name__, [each.value for each in kind])}
    if kind is Value:
        return {"sort": "quantity", **_units(name, field)}
    if kind in SORTS:
        return {"sort": SORTS[kind]}
    return {"sort": "photo"} if name in PHOTOS else {"sort": "text", "long": name in LONG}


def is_group(kind: Any) -> bool:
    """Whether a type is a group of keys."""
    return isinstance(kind, type) and issubclass(kind, BaseModel) and kind not in {Value, PartialDate}


def columns(words: Catalogue, model: type[BaseModel]) -> list[dict[str, Any]]:
    """The columns of a list of entries. What is a list itself has no column: it is written by hand."""
    found = []
    for name, field in model.model_fields.items():
        sort = sort_of(words, model, name)
        if sort["sort"] not in {"rows", "lines", "choices"} and not is_group(bare(field.annotation)):
            plain = (
                "long"
                if sort.get("long")
                else {"quantity": "text", "number": "text"}.get(sort["sort"], sort["sort"])
            )
            found.append(
                {
                    "id": name,
                    **said(words, model, name),
                    "sort": plain,
                    "choices": sort.get("choices", []),
                    "needed": field.is_required(),
                }
            )
    return found


def _list(words: Catalogue, kind: Any) -> dict[str, Any]:
    if is_group(kind):
        return {"sort": "rows", "columns": columns(words, kind)}
    if get_origin(kind) is Literal:
        return {"sort": "choices", "choices": _choices(words, "", get_args(kind))}
    return {"sort": "lines"}


def _choices(words: Catalogue, where: str, values: Any) -> list[dict[str, str]]:
    ident = CHOICES.get(where, "")
    return [
        {"id": str(each), "words": words(ident.format(each)) if ident else str(each).replace("_", " ")}
        for each in values
        if each
    ]


def _units(name: str, field: FieldInfo) -> dict[str, Any]:
    """The units that a size may be told in, and the usual one."""
    dimension = _dimension(field)
    names = units.names(dimension) if dimension else ()
    usual = "nmi" if name in NAUTICAL else USUAL_UNITS.get(dimension, "") if dimension else ""
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


def bare(annotation: Any) -> Any:
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
