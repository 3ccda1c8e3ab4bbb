"""A detail of a part, as written, to a fact: a number, a date, a choice or words.

In: the detail and what its kind declares of it. Out: the fact, or what is wrong and what to do.
"""

from __future__ import annotations

import datetime as dt

from reporter.collect.dates import date_fault, in_iso
from reporter.collect.ledger import meant
from reporter.collect.plausible import implausible
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import read_quantity
from reporter.model.findings import Detail, Fact
from reporter.model.plugin import DetailField
from reporter.model.quantity import PartialDate
from reporter.model.terms import Dimension

DetailFault = tuple[str, str] | None
LONGEST_WORDS = 400


def fact_of(detail: Detail, field: DetailField, today: dt.date | None) -> tuple[Fact | None, DetailFault]:
    """The fact that `detail` states, or None with its fault. A date must not lie after `today`."""
    if field.holds == "words":
        return _words(detail)
    if field.holds == "choice":
        return _choice(detail, field)
    if field.holds == "date":
        return _date(detail, field, today)
    return _number(detail, field)


def too_long(text: str) -> DetailFault:
    """What is said of a text that no detail may hold; None for a shorter one."""
    if len(text) <= LONGEST_WORDS:
        return None
    return f"This text has {len(text)} characters.", "Shorten it; long texts go under 'found'."


def _words(detail: Detail) -> tuple[Fact | None, DetailFault]:
    fault = too_long(detail.value)
    return (None, fault) if fault else (Fact(basis=detail.basis, words=detail.value), None)


def _choice(detail: Detail, field: DetailField) -> tuple[Fact | None, DetailFault]:
    if detail.value in field.choices:
        return Fact(basis=detail.basis, choice=detail.value, words=field.choices[detail.value]), None
    listing = "Choices: " + "; ".join(f"{ident} ({words})" for ident, words in field.choices.items()) + "."
    return None, (
        f"'{detail.value}' is no choice for '{field.title}'.",
        meant(detail.value, field.choices, listing),
    )


def _date(detail: Detail, field: DetailField, today: dt.date | None) -> tuple[Fact | None, DetailFault]:
    written = in_iso(detail.value)
    fault = date_fault(written, partial=True)
    if fault:
        return None, fault
    date = PartialDate.model_validate(written)
    if today is not None and date.first > today:
        what = f"{field.title} {date} lies after the inspection ({today})."
        return None, (what, "Correct one of the two dates.")
    return Fact(basis=detail.basis, date=date, words=detail.value), None


def _number(detail: Detail, field: DetailField) -> tuple[Fact | None, DetailFault]:
    dimension = Dimension(field.holds)
    bare = field.unit if dimension is Dimension.COUNT else ("1" if field.unit in {"", "1"} else None)
    try:
        value = read_quantity(
            detail.value, dimension, bare=bare if dimension in {Dimension.COUNT, Dimension.RATIO} else None
        )
    except UnreadableError as error:
        return None, (error.what, error.do)
    fault = implausible(
        value, field.title, field.plausible, field.unit or ("1" if dimension is Dimension.RATIO else "")
    )
    return (None if fault else Fact(basis=detail.basis, value=value, words=detail.value)), fault
