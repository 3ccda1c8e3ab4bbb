"""Readings of one quantity at one place on one part, in date order: reading beside reading, and what forecasts are made of.

Comes in: parts with their earlier selves. Goes out: runs. A run keeps how each reading was taken, so that nobody takes a
change of gauge for wear; it begins anew where work changed the reading.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from reporter.engineering import units
from reporter.grade.lineage import GradedVisit, Lineage
from reporter.grade.phrases import title_of, units_of
from reporter.model.assessment import Check, Graded
from reporter.model.citation import Limit
from reporter.model.evidence import MeasurementPoint
from reporter.model.history import SeriesPoint, TimeSeries
from reporter.model.plugin import Plugin
from reporter.model.quantity import Value
from reporter.model.saying import Text, series
from reporter.model.terms import LimitKind, State, Verdict

MEASURING = frozenset((unit.name, unit.dimension) for unit in units.UNITS)
"""Every unit with what it measures."""


class SeriesKey(NamedTuple):
    """What makes two readings comparable: quantity, place on the part, side."""

    subject: str
    at: str
    side: str


@dataclass(frozen=True)
class TakenReading:
    """One reading of one visit, and how it was come by."""

    value: Value
    means: str
    at: str


Readings = dict[SeriesKey, dict[State, TakenReading]]


def time_series_of(lineage: Lineage, plugin: Plugin) -> tuple[TimeSeries, ...]:
    """The runs of one part: every reading of today, with those of the same place before it."""
    visits = [*lineage.same, (lineage.now, lineage.part)]
    records = [(visit, record(visit, part, plugin)) for visit, part in visits]
    keys = dict.fromkeys(key for _, found in reversed(records) for key in found)
    return tuple(_run(lineage.part, plugin, key, records) for key in keys)


def _run(
    part: Graded, plugin: Plugin, key: SeriesKey, records: list[tuple[GradedVisit, Readings]]
) -> TimeSeries:
    points: list[SeriesPoint] = []
    restarted = None
    at = ""
    for visit, found in records:
        states = found.get(key, {})
        left, taken = states.get(State.LEFT), states.get(State.LEFT) or states.get(State.FOUND)
        if taken is None:
            continue
        if left:
            # Work changed the reading: what was worn before says nothing of what comes after.
            points, restarted = [], visit.day
        points.append(_point(visit, taken))
        at = taken.at
    quantity, limit = plugin.measure(key.subject), _next_limit(part, key)
    assert quantity is not None  # noqa: S101  (records hold nothing but what the plugin declares)
    metric, imperial = units_of(key.subject, plugin, limit)
    return TimeSeries(
        component=part.component.id,
        title=part.title,
        subject=key.subject,
        name=title_of(key.subject, plugin),
        at=at,
        side=key.side,
        unit=metric or quantity.unit,
        imperial=imperial or quantity.imperial or quantity.unit,
        points=tuple(points),
        limit=limit,
        wears=quantity.wears,
        wears_by=quantity.wears_by,
        restarted=restarted,
    )


def _point(visit: GradedVisit, taken: TakenReading) -> SeriesPoint:
    vessel = visit.job.sheet.vessel
    return SeriesPoint(
        day=visit.day,
        value=taken.value,
        means=taken.means,
        miles=units.from_base(vessel.miles.value, "nmi") if vessel.miles else None,
        hours=vessel.engine_hours.value if vessel.engine_hours else None,
    )


def record(visit: GradedVisit, part: Graded, plugin: Plugin) -> Readings:
    """Every reading of one part at one visit: worked-out quantities first, then readings that went into none."""
    found: Readings = {}
    spots = part.spots
    used: list[MeasurementPoint] = []
    for check in part.checks:
        if (
            check.value
            and check.limit
            and check.governs
            and check.kind is not LimitKind.AGE
            and plugin.measure(check.subject)
        ):
            sources = [spot for spot in spots if _went_in(spot, check)]
            used += sources
            # What came out better than new is not believed, so that no trend is made of it.
            if check.verdict is not Verdict.UNSEEN:
                _put(found, check, check.value, _means(visit, check.method, check, sources))
    for spot in spots:
        quantity = plugin.quantity(spot.quantity)
        if quantity and spot not in used:
            _put(found, spot, spot.value, _means(visit, quantity.method, None, [spot]))
    return found


def _put(found: Readings, like: Check | MeasurementPoint, value: Value, means: str) -> None:
    """The first reading of a place stands, but of repeats that scatter the worst, as in grading."""
    subject = like.subject if isinstance(like, Check) else like.quantity
    key = SeriesKey(subject, " ".join(like.at.lower().split()), like.side)
    states = found.setdefault(key, {})
    before = states.get(like.state)
    if before is None or (isinstance(like, Check) and _worse(like, before.value)):
        states[like.state] = TakenReading(value, means, like.at)


def _worse(check: Check, other: Value) -> bool:
    """Whether the check's value lies nearer to its limit, or further past it, than another value."""
    if check.limit is None or check.value is None or check.limit.unworn is None:
        return False
    unworn, at = (units.to_base(each, check.limit.unit) for each in (check.limit.unworn, check.limit.value))
    return (check.value.value - other.value) * (at - unworn) > 0


def _went_in(spot: MeasurementPoint, check: Check) -> bool:
    """Whether a reading is the checked value itself, or stands among the inputs of its sums at the same place."""
    if spot.state is not check.state or spot.at not in {"", check.at} or spot.side not in {"", check.side}:
        return False
    terms = [
        term
        for sum_ in check.working
        for term in sum_.inputs
        if (term.unit, spot.value.dimension) in MEASURING
    ]
    inputs = [units.to_base(term.value, term.unit) for term in terms]
    inputs += [check.value.value] if check.value and spot.quantity == check.subject else []
    return any(math.isclose(each, spot.value.value, rel_tol=1e-9, abs_tol=1e-12) for each in inputs)


def _means(visit: GradedVisit, method: str, check: Check | None, spots: list[MeasurementPoint]) -> Text:
    """Method, the sums that the value went through, and the instruments by kind: ids differ from folder to folder."""
    kinds = {each.id: each.kind for each in visit.job.sheet.instruments}
    gauges = sorted({kinds.get(spot.instrument, spot.instrument) for spot in spots if spot.instrument})
    sums = [each.id for each in check.working] if check else []
    return series([text for text in (method, *sums, ", ".join(gauges)) if text], by="; ")


def _next_limit(part: Graded, key: SeriesKey) -> Limit | None:
    """The nearest governing limit of condition ahead of today's reading, else the last one that it is past."""
    checks = [
        check
        for check in part.checks
        if check.governs
        and check.limit
        and check.use is not None
        and check.kind is LimitKind.CONDITION
        and (check.subject, " ".join(check.at.lower().split()), check.side) == key
    ]
    ahead = [check for check in checks if (check.use or 0) < 1]
    chosen = max(ahead, key=_use, default=None) or min(checks, key=_use, default=None)
    return chosen.limit if chosen else None


def _use(check: Check) -> float:
    return check.use or 0.0
