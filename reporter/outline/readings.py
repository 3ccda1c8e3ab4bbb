"""A run of readings in words: each with its day and uncertainty, and how far the last has moved from the one before.

Comes in: a run. Goes out: text. It judges nothing: a move is told beside its own uncertainty.
"""

from __future__ import annotations

import math

from reporter.engineering import units
from reporter.model.history import SeriesPoint, TimeSeries
from reporter.model.terms import Dimension
from reporter.wording import Catalogue, date, exact, joined, quantity
from reporter.wording.numbers import MINUS, number, with_unit


def side_of(side: str, words: Catalogue) -> str:
    """The side of a reading in the report's language; nothing where it has none."""
    return words(f"side.{side}") if side else ""


def where(run: TimeSeries, words: Catalogue) -> str:
    """The place on the part and the side, in brackets, or nothing."""
    places = joined(", ", run.at, side_of(run.side, words))
    return words("history.at", place=places) if places else ""


def value_of(run: TimeSeries, point: SeriesPoint) -> str:
    """A reading with its expanded uncertainty in the run's unit."""
    if point.value.dimension is Dimension.COUNT:
        return with_unit(exact(units.from_base(point.value.value, run.unit)), run.unit)
    return quantity(point.value.value, run.unit, expanded=2 * point.value.u)


def dated(run: TimeSeries, point: SeriesPoint) -> str:
    """A reading led by its day."""
    return f"{date(point.day)}: {value_of(run, point)}"


def limit_of(run: TimeSeries) -> float:
    """The limit in the run's unit; 0 where it has none."""
    limit = run.limit
    return units.from_base(units.to_base(limit.value, limit.unit), run.unit) if limit else 0.0


def beyond(run: TimeSeries) -> bool:
    """Whether the last reading differs from the one before by more than both uncertainties together (k = 2)."""
    before, last = run.points[-2:]
    return abs(last.value.value - before.value.value) > 2 * math.hypot(before.value.u, last.value.u)


def moved(run: TimeSeries, words: Catalogue) -> str:
    """How far the last reading stands from the one before: "+0.4 %", or that it is less than its uncertainty."""
    before, last = run.points[-2:]
    change = units.from_base(last.value.value - before.value.value, run.unit)
    if not beyond(run):
        return words("history.within_u") if change else with_unit("0", run.unit)
    shown = number(
        abs(change), expanded=units.from_base(2 * math.hypot(before.value.u, last.value.u), run.unit)
    )
    return with_unit(f"{'+' if change > 0 else MINUS}{shown}", run.unit)
