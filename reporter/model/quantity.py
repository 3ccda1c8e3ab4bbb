"""Numbers as they were written and as they are reckoned with; dates as exact as they are known.

The model holds no unit table: text becomes a `Value` through the reader that the collecting stage
puts into pydantic's validation context (`context={"quantity": parse}`).
"""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Callable
from typing import Any

from pydantic import BeforeValidator, ValidationInfo, model_validator

from reporter.model.base import Noun
from reporter.model.terms import Dimension


class Value(Noun):
    """A number in the base unit of its dimension, with its standard uncertainty (k = 1).

    `written` is the inspector's own text ("1 3/16 in"), printed first; `unit` is the unit it was
    written in, "" for a bare count. `note` tells what the reader should know of the reading of it
    (kilograms taken as kilogram-force).
    """

    dimension: Dimension
    value: float
    u: float = 0.0
    written: str = ""
    unit: str = ""
    note: str = ""


QuantityReader = Callable[[str, Dimension], Value]


def of(dimension: Dimension) -> BeforeValidator:
    """Validator for a field that files write as text such as "12.7 mm"; needs the reader in the context."""

    def read(raw: object, info: ValidationInfo) -> object:
        if not isinstance(raw, str):
            return raw
        reader: QuantityReader | None = (info.context or {}).get("quantity")
        if reader is None:
            msg = "text needs a quantity reader"
            raise ValueError(msg)
        return reader(raw, dimension)

    return BeforeValidator(read, json_schema_input_type=str)


_PARTIAL = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?")


class PartialDate(Noun):
    """A date known to the year, the month or the day: 2017, 2017-03, 2017-03-21."""

    year: int
    month: int | None = None
    day: int | None = None

    @model_validator(mode="before")
    @classmethod
    def _parse(cls, raw: Any) -> Any:
        if not isinstance(raw, str):
            return raw
        found = _PARTIAL.fullmatch(raw.strip())
        if not found:
            msg = "a date is written 2017, 2017-03 or 2017-03-21"
            raise ValueError(msg)
        year, month, day = (int(part) if part else None for part in found.groups())
        return {"year": year, "month": month, "day": day}

    @model_validator(mode="after")
    def _real(self) -> PartialDate:
        dt.date(self.year, self.month or 1, self.day or 1)
        return self

    @property
    def first(self) -> dt.date:
        """The first day that the date allows."""
        return dt.date(self.year, self.month or 1, self.day or 1)

    @property
    def last(self) -> dt.date:
        """The last day that the date allows."""
        month = self.month or 12
        return dt.date(self.year, month, self.day or calendar.monthrange(self.year, month)[1])

    @property
    def middle(self) -> dt.date:
        """The middle of the time that the date allows: 1 July of a bare year, the 15th of a bare month."""
        if self.month is None:
            return dt.date(self.year, 7, 1)
        return dt.date(self.year, self.month, self.day or 15)

    def __str__(self) -> str:
        parts = [f"{self.year:04d}", *(f"{part:02d}" for part in (self.month, self.day) if part)]
        return "-".join(parts)
