"""What a verdict is made of.

Expanded uncertainty, acceptance limits, and the probability that a value conforms.

In: numbers of one and the same unit, best estimate and standard uncertainty. Out: numbers of that unit, or
probabilities. It gives no verdict: that is `guard_band`.
"""

from __future__ import annotations

from statistics import NormalDist

from reporter.engineering import domain
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis, SourceStatus

_EXPANDED = Citation(title="NIST Technical Note 1297", clause="6.1, 6.2")
_RULES = Citation(
    title="ILAC-G8:09/2019", clause="4.2.2, guard band", status=SourceStatus.READ_2, basis=LimitBasis.STANDARD
)
_CONFORMITY = Citation(
    title="JCGM 106:2012",
    clause="7, conformance probability",
    status=SourceStatus.MEMORY,
    basis=LimitBasis.STANDARD,
)

_VALUE = Symbol("y", "best estimate", "1")
_U = Symbol("u", "standard uncertainty", "1")
_P = Symbol("p", "probability that the value conforms", "%")


@formula(
    title="Expanded uncertainty",
    text="U = k·u",
    symbols={"standard": _U, "coverage": Symbol("k", "coverage factor", "1")},
    result=Symbol("U", "expanded uncertainty", "1"),
    source=_EXPANDED,
)
def expanded(standard: float, coverage: float = 2.0) -> float:
    """Half-width of the interval that holds about 95 % (k = 2)."""
    domain.not_negative(standard_uncertainty=standard)
    domain.positive(coverage_factor=coverage)
    return coverage * standard


@formula(
    title="Acceptance limit below an upper limit",
    text="A = L − U",
    symbols={"limit": Symbol("L", "limit, at most", "1"), "guard": Symbol("U", "guard band", "1")},
    result=Symbol("A", "acceptance limit", "1"),
    source=_RULES,
)
def acceptance_at_most(limit: float, guard: float) -> float:
    """Greatest value that lies inside the limit by its whole guard band."""
    domain.finite(limit=limit)
    domain.not_negative(guard_band=guard)
    return limit - guard


@formula(
    title="Acceptance limit above a lower limit",
    text="A = L + U",
    symbols={"limit": Symbol("L", "limit, at least", "1"), "guard": Symbol("U", "guard band", "1")},
    result=Symbol("A", "acceptance limit", "1"),
    source=_RULES,
)
def acceptance_at_least(limit: float, guard: float) -> float:
    """Smallest value that lies inside the limit by its whole guard band."""
    domain.finite(limit=limit)
    domain.not_negative(guard_band=guard)
    return limit + guard


@formula(
    title="Probability of conformity, at most",
    text="p = Φ((L − y) / u)",
    symbols={"value": _VALUE, "u": _U, "limit": Symbol("L", "limit, at most", "1")},
    result=_P,
    source=_CONFORMITY,
)
def conformity_at_most(value: float, u: float, limit: float) -> float:
    """Probability that a normally distributed value does not exceed the limit; u = 0 gives 0 or 1."""
    return _below(limit, value, u)


@formula(
    title="Probability of conformity, at least",
    text="p = Φ((y − L) / u)",
    symbols={"value": _VALUE, "u": _U, "limit": Symbol("L", "limit, at least", "1")},
    result=_P,
    source=_CONFORMITY,
)
def conformity_at_least(value: float, u: float, limit: float) -> float:
    """Probability that a normally distributed value does not fall below the limit."""
    return _below(-limit, -value, u)


@formula(
    title="Probability of conformity, window",
    text="p = Φ((H − y) / u) − Φ((L − y) / u)",
    symbols={
        "value": _VALUE,
        "u": _U,
        "low": Symbol("L", "lower limit", "1"),
        "high": Symbol("H", "upper limit", "1"),
    },
    result=_P,
    source=_CONFORMITY,
)
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
