"""The verdict: the one place that says how a value with its uncertainty is held against a limit.

In: a value and its uncertainty in one unit, a limit. Out: where the value stands (`guarded`), the probability that it
conforms, the grade that this reaches, and all of it as a `Check` (`compare`). Nothing here knows a component or proposes
anything. Guard band equal to the expanded uncertainty (k = 2): JCGM 106:2012 8.3.2, ILAC-G8:09/2019 4.2.2.
"""

from __future__ import annotations

from statistics import NormalDist

from reporter.engineering import domain, units
from reporter.engineering.declaration import formula
from reporter.model.assessment import Check, Working
from reporter.model.citation import Limit
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import Dimension, Grade, LimitKind, Sense, State, Verdict

ROUNDING = 1e-9
"""Relative difference that is arithmetic, not measurement."""


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


def guarded(
    value: float,
    expanded: float,
    limit: float,
    *,
    sense: Sense,
    upper: float | None = None,
    unworn: float | None = None,
) -> tuple[Verdict, float | None]:
    """Verdict and use (0 unworn, 1 at the limit; None where nothing says what unworn is).

    `expanded` is U (k = 2), not negative. A `window` runs from `limit` to `upper`, both included; its use
    is counted from the middle. Raises ValueError for a window without an upper end.
    """
    if sense is Sense.WINDOW:
        if upper is None or upper <= limit:
            msg = "a window needs an upper end above its lower one"
            raise ValueError(msg)
        middle = (limit + upper) / 2
        return _against(abs(value - middle), expanded, upper - middle), abs(value - middle) / (upper - middle)
    sign = 1.0 if sense is Sense.AT_MOST else -1.0
    verdict = _against(sign * value, expanded, sign * limit)
    if unworn is None or unworn == limit:
        return verdict, None
    return verdict, (value - unworn) / (limit - unworn)


def _against(value: float, expanded: float, limit: float) -> Verdict:
    # A figure at its limit but for the last bits of its conversion is at its limit: limits belong to the interval.
    edge = limit + ROUNDING * max(abs(value), abs(limit))
    if value <= edge:
        return Verdict.WITHIN if value + expanded <= edge else Verdict.CLOSE
    return Verdict.BEYOND if value - expanded > edge else Verdict.DOUBTFUL


def conformity(
    value: float, u: float, limit: float, sense: Sense, upper: float | None = None
) -> float | None:
    """Probability that a value with standard uncertainty `u` lies inside its limit; None without an uncertainty.

    For the annex and the data only: a verdict is never made of it (JCGM 106:2012 clause 7, from memory).
    """
    if u <= 0:
        return None
    if sense is Sense.WINDOW and upper is not None:
        return conformity_between(value, u, limit, upper)
    if sense is Sense.AT_MOST:
        return conformity_at_most(value, u, limit)
    return conformity_at_least(value, u, limit)


def grade_reached(verdict: Verdict, then: Grade, kind: LimitKind, *, load_path: bool) -> Grade:
    """The grade that a verdict leads to, `then` being the limit's own.

    Doubtful counts as beyond on a load path, else as one step milder; close is one step milder, at least `watch`.
    Limits of kind design, rule and age never lead beyond `plan`.
    """
    ceiling = then if kind is LimitKind.CONDITION or then.rank <= Grade.PLAN.rank else Grade.PLAN
    if verdict is Verdict.BEYOND or (verdict is Verdict.DOUBTFUL and load_path):
        return ceiling
    if verdict in {Verdict.CLOSE, Verdict.DOUBTFUL}:
        return ceiling.milder
    return Grade.UNSEEN if verdict is Verdict.UNSEEN else Grade.CLEAR


@formula
def conformity_at_most(value: float, u: float, limit: float) -> float:
    """Probability that a normally distributed value does not exceed the limit; u = 0 gives 0 or 1."""
    return _below(limit, value, u)


@formula
def conformity_at_least(value: float, u: float, limit: float) -> float:
    """Probability that a normally distributed value does not fall below the limit."""
    return _below(-limit, -value, u)


@formula
def conformity_between(value: float, u: float, low: float, high: float) -> float:
    """Probability that a normally distributed value lies between the limits."""
    domain.finite(lower_limit=low, upper_limit=high)
    if high <= low:
        msg = "the upper limit must lie above the lower one"
        raise ValueError(msg)
    if u == 0:
        domain.finite(value=value)
        return 1.0 if low <= value <= high else 0.0
    return _below(high, value, u) - _below(low, value, u)


def _below(limit: float, value: float, u: float) -> float:
    domain.finite(value=value, limit=limit)
    domain.not_negative(standard_uncertainty=u)
    # NormalDist refuses a width of 0; an exact value simply conforms or does not.
    if u == 0:
        return 1.0 if value <= limit else 0.0
    return NormalDist(value, u).cdf(limit)
