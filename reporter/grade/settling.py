"""What would settle it: the better reading that would decide a check that is close or doubtful.

Comes in: the checks of one part. Goes out: *test* actions that say how exact the next reading has to be, and how to
get there. Nothing is promised: the better reading may fall on either side of the limit. A check that is close asks for
nothing else, so it always gets one: where no reading can be exact enough, the action says so and leaves it to the
inspector.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import cast

from reporter.engineering import units
from reporter.grade.phrases import place, units_of
from reporter.model.assessment import Action, Check
from reporter.model.evidence import MeasurementPoint
from reporter.model.plugin import Derived, Plugin, Quantity
from reporter.model.saying import Either, SourceFigure, Text, named, say
from reporter.model.terms import Grade, LimitKind, Remedy, Sense, Verdict

MARGIN = 0.9
"""The better reading should decide with a little to spare, not by a hair."""

FINEST = 0.1
"""What a better method may be hoped to leave of an uncertainty; *common practice*: one more decimal place."""


def settling(checks: Sequence[Check], spots: Sequence[MeasurementPoint], plugin: Plugin) -> Iterator[Action]:
    """One *test* action per reading that is close, and per doubtful one that a better reading could decide."""
    groups: dict[tuple[str, str, str], list[Check]] = {}
    for check in sorted((each for each in checks if _open(each)), key=lambda each: -each.grade.rank):
        groups.setdefault((check.subject, check.at, check.side), []).append(check)
    number = 0
    for place_of, group in groups.items():
        if _decided(place_of, group[0], checks):
            continue
        what = _what(group[0], spots, plugin)
        close = [check for check in group if check.verdict is Verdict.CLOSE]
        if not close and not (what and plugin.measure(group[0].subject)):
            continue
        number += 1
        yield Action(
            id=f"{plugin.kind}.settle_{number}",
            what=what or say("settle.cannot", title=close[0].title, place=place(close[0])),
            remedy=Remedy.TEST,
            why=say("settle.why", said=group[0].said),
            # What is doubtful has its limit's own action beside this one; what is close has this one only.
            grade=close[0].grade if close else Grade.WATCH,
            settles=tuple(check.id for check in group),
        )


def _open(check: Check) -> bool:
    return check.governs and check.verdict in {Verdict.CLOSE, Verdict.DOUBTFUL} and check.value is not None


def _decided(place_of: tuple[str, str, str], check: Check, checks: Sequence[Check]) -> bool:
    """Whether the same reading is past another limit that leads as far: settling this one would change nothing."""
    return any(
        each.governs
        and each.verdict is Verdict.BEYOND
        and (each.subject, each.at, each.side) == place_of
        and each.grade.rank >= check.grade.rank
        for each in checks
    )


def _what(check: Check, spots: Sequence[MeasurementPoint], plugin: Plugin) -> Text:
    """How to settle the check, in words; "" where no reading can be exact enough."""
    if check.limit is None:
        return ""
    if check.kind is LimitKind.AGE:
        return say("settle.date", title=check.title)
    measure = plugin.measure(check.limit.quantity if check.limit.between else check.subject)
    if measure is None:
        return say("settle.detail", title=check.title)
    needed = _distance(check) * MARGIN
    how = "" if check.limit.between else _over_more(check, needed, measure, spots, plugin)
    if not how and needed <= _finest(check, measure):
        return ""
    return say(
        "settle.sides" if check.limit.between else "settle.what",
        title=check.title,
        place=place(check),
        how=how or _better(measure, plugin.kind),
        needed=_rounded_down(needed, units_of(check.subject, plugin, check.limit)),
    )


def _better(measure: Quantity | Derived, kind: str) -> Text:
    """The better method that the kind names, else the method itself."""
    table = "reading" if isinstance(measure, Quantity) else "derived"
    if measure.better:
        return named(kind, table, measure.id, "better")
    return named(kind, table, measure.id, "method") if isinstance(measure, Quantity) else say("settle.better")


def _finest(check: Check, measure: Quantity | Derived) -> float:
    """The smallest expanded uncertainty that a next reading may be hoped to have, in the base unit."""
    now = 2 * check.value.u if check.value else 0.0
    if isinstance(measure, Derived) or (check.limit and check.limit.between):
        return FINEST * now
    method = units.to_base(measure.expected_u, measure.unit) - units.to_base(0.0, measure.unit)
    return FINEST * (method or now) if measure.better or not method else method


def _distance(check: Check) -> float:
    """From the reading to the nearest edge of the limit, in the base unit."""
    if check.limit is None or check.value is None:
        return 0.0
    edges = [units.to_base(check.limit.value, check.limit.unit)]
    if check.limit.sense is Sense.WINDOW and check.limit.upper is not None:
        edges.append(units.to_base(check.limit.upper, check.limit.unit))
    return min(abs(check.value.value - edge) for edge in edges)


def _rounded_down(needed: float, shown_in: tuple[str, str]) -> Text:
    """One figure, never more than what is needed; in each unit that a report may have."""
    metric, imperial = (SourceFigure(figure=_one_figure(needed, unit), unit=unit) for unit in shown_in)
    return cast("Text", Either(in_metric=metric, in_imperial=imperial))


def _one_figure(needed: float, unit: str) -> float:
    shown = units.from_base(needed, unit)
    step = 10.0 ** math.floor(math.log10(shown))
    return round(math.floor(shown / step + 1e-6) * step, 9)


def _over_more(
    check: Check,
    needed: float,
    measure: Quantity | Derived,
    spots: Sequence[MeasurementPoint],
    plugin: Plugin,
) -> Text:
    """Over more pitches, where that is enough and can be done; else ""."""
    count = next(
        (spot for spot in spots if spot.quantity == measure.shrinks_with and spot.at in {check.at, ""}), None
    )
    declared = plugin.quantity(measure.shrinks_with)
    if count and declared and check.value and needed > 0:
        wanted = math.ceil(count.value.value * 2 * check.value.u / needed)
        if wanted <= declared.plausible[1]:
            what = named(plugin.kind, "reading", declared.id, "title")
            return say("settle.more", count=wanted, now=SourceFigure(figure=count.value.value), what=what)
    return ""
