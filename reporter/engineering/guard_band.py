"""Decision rules: where a guarded value stands against a limit, which grade that reaches, how far wear has gone.

Comes in: plain floats in one unit. Goes out: verdicts, grades, the use of a part. Nothing here knows a component.
Guard band equal to the expanded uncertainty (k = 2): JCGM 106:2012 8.3.2, ILAC-G8:09/2019 4.2.2.
"""

from __future__ import annotations

from reporter.engineering import judging
from reporter.model.terms import Grade, LimitKind, Sense, Verdict

ROUNDING = 1e-9
"""Relative difference that is arithmetic, not measurement."""


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
        return judging.conformity_between(value, u, limit, upper)
    if sense is Sense.AT_MOST:
        return judging.conformity_at_most(value, u, limit)
    return judging.conformity_at_least(value, u, limit)


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
