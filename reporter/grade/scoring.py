"""The condition score: 0 to 100, linear within each grade between its nodes, so that it never contradicts a grade.

A value climbs a ladder of thresholds made of all governing limits of its quantity with their guard bands. Between two
rungs the score runs from the node of the grade reached to the node of the next worse grade. Sign conventions: x grows
towards the limit, whatever the limit's sense.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from reporter.engineering import units
from reporter.engineering.verdict import grade_reached
from reporter.model.assessment import Check
from reporter.model.citation import Limit
from reporter.model.terms import Dimension, Grade, LimitKind, Sense, Verdict

NODES = {Grade.CLEAR: 100.0, Grade.WATCH: 85.0, Grade.PLAN: 65.0, Grade.FIRST: 40.0, Grade.STOP: 10.0}
FLOORS = {Grade.CLEAR: 85.0, Grade.WATCH: 65.0, Grade.PLAN: 40.0, Grade.FIRST: 10.0, Grade.STOP: 0.0}


class Rung(NamedTuple):
    """From `x` on, `grade` is reached."""

    x: float
    grade: Grade


def scored(checks: Sequence[Check], *, load_path: bool) -> tuple[Check, ...]:
    """The checks with their scores; only governing condition checks get one."""
    return tuple(
        check.model_copy(update={"score": _score(check, checks, load_path=load_path)})
        if _counts(check)
        else check
        for check in checks
    )


def _counts(check: Check) -> bool:
    return check.governs and check.kind is LimitKind.CONDITION and check.grade is not Grade.UNSEEN


def _score(check: Check, checks: Sequence[Check], *, load_path: bool) -> float:
    if check.value is None or check.limit is None:
        return NODES[check.grade]
    peers = [each for each in checks if _counts(each) and each.limit and _same_value(each, check)]
    limits = [each.limit for each in peers if each.limit is not None]
    expanded = 0.0 if check.value.dimension is Dimension.COUNT else 2 * check.value.u
    ladder, unworn, x = _ladder(check.value.value, expanded, limits, load_path=load_path)
    # The grade that stands may be worse than one limit's own (two limits at one value): the peers' worst decides.
    grade = max((each.grade for each in peers), key=lambda grade: grade.rank)
    return _interpolate(x, unworn, ladder, grade)


def _same_value(one: Check, other: Check) -> bool:
    return (one.subject, one.at, one.side, one.state, one.value) == (
        other.subject, other.at, other.side, other.state, other.value,
    )  # fmt: skip


def _ladder(
    value: float, expanded: float, limits: Sequence[Limit], *, load_path: bool
) -> tuple[list[Rung], float | None, float]:
    """Rungs in ascending order, where unworn is, and where the value stands.

    All limits of one quantity make one ladder, since one reading has one score: judged by each limit alone, a part past
    its first limit would score higher by the second. Where limits name different unworn values the first one's holds.
    """
    rungs: list[Rung] = []
    unworn: float | None = None
    x = value
    for limit in limits:
        at, new, x = _oriented(limit, value)
        unworn = new if unworn is None else unworn
        # Wear and doubt both lower a score: the first rung lies a whole guard band before the limit, the second on it.
        rungs.append(Rung(at, grade_reached(Verdict.BEYOND, limit.then, limit.kind, load_path=load_path)))
        if expanded > 0:
            close = grade_reached(Verdict.CLOSE, limit.then, limit.kind, load_path=load_path)
            rungs.append(Rung(at - expanded, close))
    return sorted(rungs), unworn, x


def _oriented(limit: Limit, value: float) -> tuple[float, float | None, float]:
    """The limit, the unworn value and the reading on an axis that grows towards the limit."""
    at = units.to_base(limit.value, limit.unit)
    unworn = None if limit.unworn is None else units.to_base(limit.unworn, limit.unit)
    if limit.sense is Sense.WINDOW and limit.upper is not None:
        upper = units.to_base(limit.upper, limit.unit)
        middle = (at + upper) / 2
        return upper - middle, 0.0, abs(value - middle)
    sign = 1.0 if limit.sense is Sense.AT_MOST else -1.0
    return sign * at, None if unworn is None else sign * unworn, sign * value


def _interpolate(x: float, unworn: float | None, ladder: list[Rung], grade: Grade) -> float:
    """The score of `x` within its grade's band: from where the grade is entered to where the next worse one is.

    The grade is given, not read off the ladder: two limits at one value may lead to different grades.
    """
    entered = [rung.x for rung in ladder if rung.grade.rank >= grade.rank]
    ahead = [rung.x for rung in ladder if rung.grade.rank > grade.rank]
    start = unworn if grade is Grade.CLEAR else min(entered, default=None)
    top, bottom = NODES[grade], FLOORS[grade]
    # Where nothing says what unworn is, nobody knows how far the wear has gone: the band's upper end.
    if start is None:
        return top
    # Past the last rung the score goes on falling at the pace of the wear so far.
    beyond = start + (start - unworn if unworn is not None and start > unworn else 1.0)
    end = min(ahead, default=beyond)
    if end <= start:
        return top
    part = min(max((x - start) / (end - start), 0.0), 1.0)
    # A grade keeps clear of the next one's node, so that equal scores mean equal grades.
    return (
        min(top, max(top - part * (top - bottom), bottom + 0.1))
        if grade is not Grade.STOP
        else top * (1 - part)
    )
