"""A reading on its bar, from unworn to just past the limit: one kind of block of a report."""

from __future__ import annotations

import math
from typing import Literal

from reporter.model.base import Noun
from reporter.model.terms import Grade


class Band(Noun):
    """A stretch of a measure bar, in its own unit, and the grade it stands for, in `word` as the reader is told it."""

    start: float
    end: float
    grade: Grade
    word: str = ""


class Tick(Noun):
    """A limit on a measure bar, with its label."""

    at: float
    label: str


class EarlierDot(Noun):
    """An earlier reading on a measure bar."""

    value: float
    label: str


class MeasureBar(Noun):
    """A reading as a dot with its whisker (expanded uncertainty) on a bar from unworn to just past the limit.

    `low_label` and `high_label` are the values at its ends; `earlier` stands in order of time.
    """

    kind: Literal["measure_bar"] = "measure_bar"
    low: float
    high: float
    value: float
    expanded: float
    label: str
    bands: tuple[Band, ...]
    ticks: tuple[Tick, ...]
    earlier: tuple[EarlierDot, ...] = ()
    low_label: str = ""
    high_label: str = ""
    alt: str
    together: bool = False

    def share(self, value: float) -> float:
        """Where a value stands from the low end to the high one, from 0 to 1; one off the bar stands at the nearer end."""
        span = self.high - self.low
        if not math.isfinite(value) or not math.isfinite(span) or span == 0:
            return 1.0 if value == math.inf else 0.0
        return min(max((value - self.low) / span, 0.0), 1.0)
