"""Both sides held against each other: port against starboard of one part, or of two parts that are opposite numbers.

Comes in: what is known of one part, and of its opposite number where it has one. Goes out: checks against the limits
that are declared `between` the sides, each with its sum and the combined uncertainty. Between two parts the check
appears on both. Sides are compared at one place and in one state; as left, a side that was not touched stands as found.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from reporter.contract import compare
from reporter.engineering import work
from reporter.engineering.sides import APART, APART_OF_LARGER
from reporter.grade.phrases import title_of
from reporter.model.assessment import Assessment, Check, Working
from reporter.model.base import grouped
from reporter.model.citation import Limit
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.findings import Component, Fact, on_mizzen
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.quantity import Value
from reporter.model.saying import say
from reporter.model.terms import Extent, State

SIDES = ("port", "starboard")
NOT_THERE = frozenset({Extent.NOT_SEEN, Extent.NOT_FITTED, Extent.NOT_FOUND})


class Known(NamedTuple):
    """One part as the plugin left it: its evidence and what `assess` made of it."""

    evidence: Evidence
    assessment: Assessment

    @property
    def name(self) -> str:
        """The side that the part is on, else its own name."""
        part = self.evidence.component
        return part.hand or part.name or part.id


class Side(NamedTuple):
    """A value on one side: what to call the side, where on the part, in which state."""

    name: str
    at: str
    state: State
    value: Value


def opposites(job: Job, plugins: Mapping[str, Plugin]) -> dict[str, Component]:
    """Id -> the one other part of its kind that agrees in every detail of `pair_by` and stands in another group."""
    there = [
        each
        for each in job.components
        if plugins[each.kind].pair_by and each.examined.extent not in NOT_THERE
    ]
    alike = grouped(
        there, lambda each: (each.kind, on_mizzen(each, job.by_id), _role(job, each, plugins[each.kind]))
    )
    found = {}
    for (_, _, role), parts in alike.items():
        for part in parts if role else ():
            others = (each for each in parts if each is not part and _apart(each, part))
            # Of three alike nobody can say which two belong together: the second other ends the search.
            other, more = next(others, None), next(others, None)
            if other and not more:
                found[part.id] = other
    return found


def _apart(one: Component, other: Component) -> bool:
    return not _stand(one) or _stand(one) != _stand(other)


def _stand(part: Component) -> str:
    return part.side or part.group


def _role(job: Job, component: Component, plugin: Plugin) -> tuple[object, ...] | None:
    facts: Mapping[str, Fact] = job.facts.get(component.id, {})
    if any(name not in facts for name in plugin.pair_by):
        return None
    told = (facts[name] for name in plugin.pair_by)
    return tuple((each.choice, each.words, each.value.value if each.value else None) for each in told)


def side_checks(mine: Known, other: Known | None, plugin: Plugin, limits: Sequence[Limit]) -> Iterator[Check]:
    """A check for every place and state at which both sides are known, against each limit that applies."""
    for limit in limits:
        if not limit.between or not mine.evidence.meets(limit.applies):
            continue
        named = {side: list(_values(limit.quantity, mine, side)) for side in SIDES}
        for one, two, state in _pairs(named["port"], named["starboard"]):
            yield from _check(mine, plugin, limit, (one, two, state))
        if other is None:
            continue
        for one, two, state in _pairs(_own(limit.quantity, mine), _own(limit.quantity, other)):
            name = other.evidence.component.name or other.name
            yield from _check(mine, plugin, limit, (one, two, state), other=name)


def _own(quantity: str, known: Known) -> list[Side]:
    """What a part tells of itself: without a side, or by the one side that the part is on; not one side of both."""
    unsided = list(_values(quantity, known, ""))
    if unsided or known.name not in SIDES:
        return unsided
    sided = {side: list(_values(quantity, known, side)) for side in SIDES}
    return sided[known.name] if sum(map(bool, sided.values())) == 1 else []


def _values(quantity: str, known: Known, side: str) -> Iterator[Side]:
    """Readings of the quantity, else the values that `assess` worked out for it, on one side ("" for none told)."""
    name = side or known.name
    spots = [spot for spot in known.evidence.at(quantity) if spot.side == side]
    yield from (Side(name, spot.at, spot.state, spot.value) for spot in spots)
    if not spots:
        checks = [each for each in known.assessment.checks if each.subject == quantity and each.side == side]
        yield from dict.fromkeys(Side(name, each.at, each.state, each.value) for each in checks if each.value)


def _pairs(ones: Sequence[Side], twos: Sequence[Side]) -> Iterator[tuple[Side, Side, State]]:
    """The two sides that lie furthest apart, at each place that both were read at, as found and as left."""
    for at in dict.fromkeys(_place(each) for each in ones):
        here = [[each for each in side if _place(each) == at] for side in (ones, twos)]
        found = [[each for each in side if each.state is State.FOUND] for side in here]
        left = [[each for each in side if each.state is State.LEFT] for side in here]
        if found[0] and found[1]:
            yield (*_furthest(*found), State.FOUND)
        if any(left):
            now = [after or before for after, before in zip(left, found, strict=True)]
            if now[0] and now[1]:
                yield (*_furthest(*now), State.LEFT)


def _place(side: Side) -> str:
    return " ".join(side.at.lower().split())


def _furthest(ones: Sequence[Side], twos: Sequence[Side]) -> tuple[Side, Side]:
    both = [(one, two) for one in ones for two in twos]
    return max(both, key=lambda pair: abs(pair[0].value.value - pair[1].value.value))


def _check(
    mine: Known,
    plugin: Plugin,
    limit: Limit,
    pair: tuple[Side, Side, State],
    *,
    other: str = "",
) -> Iterator[Check]:
    one, two, state = pair
    measure = plugin.measure(limit.quantity)
    larger, smaller = (one, two) if one.value.value >= two.value.value else (two, one)
    reckoned = _work(limit, larger, smaller, measure.unit if measure else larger.value.unit)
    if reckoned is None or measure is None:
        return
    value, sum_ = reckoned
    declared = title_of(limit.quantity, plugin)
    title = say("sides.across" if other else "sides.within", title=declared, other=other)
    like = MeasurementPoint(quantity=limit.quantity, at=one.at, state=state, value=value)
    check = compare(mine.evidence, value, limit, title=title, like=like, working=(sum_,))
    # A subject of its own, so that the difference is not told among the readings that it was made of.
    ident = f"{check.id}/{other}" if other else check.id
    yield check.model_copy(update={"id": ident, "subject": f"{limit.quantity}_sides"})


def _work(limit: Limit, larger: Side, smaller: Side, unit: str) -> tuple[Value, Working] | None:
    """The difference and its sum, in which each side bears its name; None where the sides allow no such figure."""
    dimension = larger.value.dimension
    function = (APART_OF_LARGER if limit.relative else APART).get(dimension)
    if function is None:
        return None
    shown = {"larger": unit, "smaller": unit} | ({} if limit.relative else {"result": unit})
    try:
        value, sum_ = work(function, {"larger": larger.value, "smaller": smaller.value}, units=shown)
    except ValueError:
        return None
    named = tuple(
        term.model_copy(update={"side": side.name})
        for term, side in zip(sum_.inputs, (larger, smaller), strict=True)
    )
    return value, sum_.model_copy(update={"inputs": named})
