"""Holds a value against a limit: the one place where a check of a measured quantity is made.

Comes in: Evidence, a value with its uncertainty, a limit. Goes out: a Check. It proposes nothing.
"""

from __future__ import annotations

from reporter.engineering import units
from reporter.engineering.guard_band import conformity, grade_reached, guarded
from reporter.model.assessment import Check, Working
from reporter.model.citation import Limit
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import Dimension, State


def compare(
    evidence: Evidence,
    value: Value,
    limit: Limit,
    *,
    title: Text = "",
    like: MeasurementPoint | None = None,
    method: Text = "",
    working: tuple[Working, ...] = (),
    notes: tuple[Text, ...] = (),
) -> Check:
    """Holds a value (base unit, standard uncertainty) against a limit with a guard band of U = 2u.

    `title` is for what has no declared title of its own. `like` is the spot that the value came from: it lends place, side and state. On a load path a doubtful
    reading counts as beyond (`Check.grade`). Limits of kind design, rule and age never grade worse than `plan`.
    Guard band: JCGM 106:2012 8.3.2; ILAC-G8:09/2019 4.2.2.
    """
    bound = units.to_base(limit.value, limit.unit)
    upper = None if limit.upper is None else units.to_base(limit.upper, limit.unit)
    unworn = None if limit.unworn is None else units.to_base(limit.unworn, limit.unit)
    expanded = 0.0 if value.dimension is Dimension.COUNT else 2 * value.u
    verdict, use = guarded(value.value, expanded, bound, sense=limit.sense, upper=upper, unworn=unworn)
    return Check(
        id=f"{limit.id}@{like.at}/{like.side}/{like.state}" if like else limit.id,
        subject=limit.quantity,
        title=title,
        task=limit.task,
        value=value,
        limit=limit,
        verdict=verdict,
        grade=grade_reached(verdict, limit.then, limit.kind, load_path=evidence.load_path),
        kind=limit.kind,
        use=use,
        conformity=conformity(value.value, expanded / 2, bound, limit.sense, upper),
        at=like.at if like else "",
        side=like.side if like else "",
        state=like.state if like else State.FOUND,
        method=method,
        working=working,
        notes=notes,
        governs=limit.governs,
    )
