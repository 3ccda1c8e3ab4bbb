"""Gathers what is known of one component into an Evidence value.

Readings are merged only within one place, side and state. Type A uncertainty from repeats and type B from
instrument and method combine as in GUM (JCGM 100:2008) 4.2, 4.3 and 5.1.2.
"""

from __future__ import annotations

import datetime as dt
import math
import statistics
from collections.abc import Mapping, Sequence

from reporter.engineering import units
from reporter.grade.dating import months_on
from reporter.grade.lineage import fitted_on, renewed, visit_order
from reporter.model.evidence import Earlier, Evidence, MeasurementPoint
from reporter.model.findings import Component, Fact
from reporter.model.job import Job, Reading
from reporter.model.plugin import Need, Plugin, Quantity
from reporter.model.quantity import Value
from reporter.model.saying import Text, named
from reporter.model.terms import BASE_UNIT, Dimension

AGREEING = 1 / math.sqrt(3)
"""Repeats agree while their standard error is at most this part of their type B uncertainty; see `merge`."""


def gather(job: Job, component: Component, plugin: Plugin, plugins: Mapping[str, Plugin]) -> Evidence:
    """The evidence of `component`: facts, merged readings, resolved needs, limits in force, earlier readings."""
    needed: dict[str, tuple[MeasurementPoint, ...] | Fact | Value] = {}
    unmet: dict[str, Text] = {}
    for need in plugin.needs:
        found = _resolve(need, job, component, plugins)
        if found is None:
            unmet[need.id] = named(plugin.kind, "need", need.id, "why")
        else:
            needed[need.id] = found
    return Evidence(
        component=component,
        load_path=plugin.load_path,
        today=job.sheet.inspection.last_day,
        facts=job.facts.get(component.id, {}),
        spots=spots_of(job, component, plugin),
        observed=component.observed,
        needed=needed,
        unmet=unmet,
        # A limit between the sides is no plugin's to hold a single reading against.
        limits={limit.id: job.limits.get(limit.id, limit) for limit in plugin.limits if not limit.between},
        earlier=_earlier(job, component, plugin),
        damaged=is_damaged(component, plugin),
    )


def is_damaged(component: Component, plugin: Plugin) -> bool:
    """True when an observation of damage was recorded; strength margins are then withheld."""
    return any(
        observation.choice(each.choice).damage
        for ident, answers in component.observed.items()
        if (observation := plugin.observation(ident))
        for each in answers
    )


def spots_of(job: Job, component: Component, plugin: Plugin) -> tuple[MeasurementPoint, ...]:
    """The readings of one component, repeats merged, in the order of the file."""
    groups: dict[tuple[str, str, str, str], list[Reading]] = {}
    for reading in job.readings_of(component.id):
        key = (reading.quantity, reading.at, reading.side, reading.state.value)
        groups.setdefault(key, []).append(reading)
    return tuple(
        spot for group in groups.values() for spot in merge(group, plugin.quantity(group[0].quantity))
    )


def merge(repeats: Sequence[Reading], quantity: Quantity | None) -> tuple[MeasurementPoint, ...]:
    """Repeats at one place as one spot: their mean, with type A and type B uncertainty combined.

    Where the repeats scatter more than the method accounts for, the mean means little: each repeat then stands for
    itself, so that one bad value cannot hide behind good ones.

    They scatter when their standard error e exceeds u/√3, u being the type B uncertainty. Raising one of n repeats by
    d moves the mean m by d/n, and its expanded uncertainty U = 2·√(u² + e²) by at most 2e/√(u² + e²) · d/n. So up to
    that e, and no further, neither m + U nor m − U falls when a repeat rises. There U is at most 2u + e, and the highest
    repeat lies at least e above the mean, so that repeats on their own are never judged milder than their mean.
    """
    # One poor gauge among the repeats makes the mean no better than itself.
    type_b = max(_type_b(reading, quantity) for reading in repeats)
    numbers = [reading.value.value for reading in repeats]
    spread = statistics.stdev(numbers) if len(numbers) > 1 else 0.0
    error = spread / math.sqrt(len(numbers))
    # A count has no uncertainty of a method: any two that differ would pass for scatter.
    if error > type_b * AGREEING and repeats[0].value.dimension is not Dimension.COUNT:
        return tuple(
            _spot([reading], reading.value.value, type_b, spread, uneven=True) for reading in repeats
        )
    return (_spot(repeats, statistics.fmean(numbers), math.hypot(type_b, error), spread, uneven=False),)


def _spot(
    repeats: Sequence[Reading], mean: float, u: float, spread: float, *, uneven: bool
) -> MeasurementPoint:
    first = repeats[0]
    return MeasurementPoint(
        quantity=first.quantity,
        at=first.at,
        side=first.side,
        state=first.state,
        value=first.value.model_copy(update={"value": mean, "u": u}),
        repeats=len(repeats),
        spread=spread,
        uneven=uneven,
        instrument=first.instrument,
        written=tuple(reading.value.written for reading in repeats),
    )


def _type_b(reading: Reading, quantity: Quantity | None) -> float:
    """Standard uncertainty of one reading: as entered, else resolution (rectangular) and method combined."""
    if reading.value.dimension is Dimension.COUNT:
        return 0.0
    if reading.value.u > 0:
        return reading.value.u
    method = 0.0
    if quantity:
        base = units.to_base(quantity.expected_u, quantity.unit) - units.to_base(0.0, quantity.unit)
        method = base / 2
    return math.hypot(reading.resolution / math.sqrt(12), method)


def _resolve(
    need: Need, job: Job, component: Component, plugins: Mapping[str, Plugin]
) -> tuple[MeasurementPoint, ...] | Fact | Value | None:
    if need.source == "vessel":
        found = getattr(job.sheet.vessel, need.name, None)
        return found if isinstance(found, Value) else None
    others = _together(job, component, need.kind)
    if need.holds == "reading":
        spots = [
            spot
            for each in others
            for spot in spots_of(job, each, plugins[each.kind])
            if spot.quantity == need.name
        ]
        return tuple(spots) or None
    facts = [fact for each in others if (fact := job.fact(each.id, need.name))]
    # Two parts that disagree leave the need unmet: choosing one would be a guess.
    return facts[0] if facts and all(fact == facts[0] for fact in facts) else None


def _together(job: Job, component: Component, kind: str) -> list[Component]:
    """The others of a kind that belong with the part: of one assembly where any is, and of no other group or side."""
    akin = [each for each in job.assembled(component) if each.kind == kind and each is not component]
    found = [each for each in akin if each.agrees(component)] if akin else job.beside(component, kind)
    return [each for each in found if each is not component]


def _earlier(job: Job, component: Component, plugin: Plugin) -> tuple[Earlier, ...]:
    """Spots of the same part in earlier folders, oldest first; a part fitted since inherits nothing."""
    found = []
    fitted = fitted_on(job, component)
    for past in sorted(job.earlier, key=visit_order):
        day = past.sheet.inspection.last_day
        for old in past.components:
            same = old.id in {component.id, component.was} and old.kind == component.kind
            if same and not renewed(fitted, fitted_on(past, old), day):
                found += [Earlier(date=day, spot=spot) for spot in spots_of(past, old, plugin)]
    return tuple(found)


def age_of(fact: Fact, evidence: Evidence) -> Value | None:
    """Age in calendar years at the inspection; what a bare year or month leaves open is a rectangular uncertainty.

    Rectangular: half the width over √3 (GUM, JCGM 100:2008, 4.3.7). No part was fitted after the day of the inspection.
    """
    if fact.date is None:
        return None
    first, last = fact.date.first, fact.date.last
    oldest = years_between(first, evidence.today)
    youngest = years_between(min(max(first, evidence.today), last), evidence.today)
    return Value(
        dimension=Dimension.AGE,
        value=(oldest + youngest) / 2,
        u=(oldest - youngest) / 2 / math.sqrt(3),
        written=str(fact.date),
        unit=BASE_UNIT[Dimension.AGE],
    )


def years_between(then: dt.date, now: dt.date) -> float:
    """Whole birthdays since `then`, and the part of the running year; 29 February has its birthday on the 28th."""
    whole = now.year - then.year
    if months_on(then, 12 * whole) > now:
        whole -= 1
    last, following = months_on(then, 12 * whole), months_on(then, 12 * (whole + 1))
    return whole + (now - last).days / (following - last).days
