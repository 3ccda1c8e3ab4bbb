"""What a hand wrote in a blank, read: one of several words, a quantity, a date, words.

Comes in: the text and its question. Goes out: the text as the folder holds it; `UnreadableError` says what is wrong.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from reporter.collect.detail_values import fact_of, too_long
from reporter.collect.plausible import implausible
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import has_unit, read_quantity
from reporter.model.findings import Detail
from reporter.model.form import Option
from reporter.model.plugin import DetailField, Quantity
from reporter.model.quantity import Value
from reporter.model.terms import Dimension

SHOWN = 12
"""So many possible answers are named."""


def one_of(text: str, options: Iterable[Option]) -> str:
    """The id of the option that `text` means: by id, by its words, or by a beginning that only one of them has."""
    named: dict[str, set[str]] = {}
    for each in options:
        for word in {each.id.casefold(), each.words.casefold()}:
            named.setdefault(word, set()).add(each.id)
    wanted = " ".join(text.split()).casefold()
    exact = named.get(wanted, set())
    begun = {
        ident for word, idents in named.items() if wanted and word.startswith(wanted) for ident in idents
    }
    found = exact or begun
    if len(found) == 1:
        return found.pop()
    shown = "; ".join(f"{each.id} ({each.words})" for each in list(options)[:SHOWN])
    raise UnreadableError(f"'{text}' is none of the possible answers.", f"Write one of: {shown}.")


def detail(
    text: str, declared: DetailField, unit: str, options: tuple[Option, ...], today: dt.date | None
) -> str:
    """A detail as findings.yaml holds it: a choice by its id, a number with its unit, a date, words."""
    if fault := too_long(text):
        raise UnreadableError(*fault)
    if options:
        text = one_of(text, options)
    elif unit and not has_unit(text):
        text = f"{text} {unit}"
    _, fault = fact_of(Detail(value=text), declared, today)
    if fault:
        raise UnreadableError(*fault)
    return text


def reading(text: str, declared: Quantity, unit: str) -> tuple[dict[str, str], Value]:
    """A reading as the cells `value` and `unit` of a row, and what it is worth."""
    own = has_unit(text)
    bare = unit or (declared.unit if declared.dimension in {Dimension.COUNT, Dimension.RATIO} else unit)
    value = read_quantity(text, declared.dimension, bare=None if own else bare or "")
    if fault := implausible(value, declared.title, declared.plausible, declared.unit):
        raise UnreadableError(*fault)
    cells = {"value": text}
    if unit and not own:
        cells["unit"] = unit
    return cells, value


def row_value(row: Mapping[str, str], declared: Quantity) -> Value | None:
    """What a row of measurements.csv is worth; None where it cannot be read."""
    text, unit = row.get("value", ""), row.get("unit", "")
    try:
        return read_quantity(text, declared.dimension, bare=unit or declared.unit)
    except UnreadableError:
        return None
