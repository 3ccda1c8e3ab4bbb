"""Port against starboard: how far two readings of one thing lie apart.

In: the larger and the smaller of the two, both in the base unit. Out: their difference, or that as a fraction of the
larger. Which of them is the larger the caller says, so that the sum has no corner at equal sides, where a derivative of
|a - b| would vanish and with it the uncertainty. The two are taken as not correlated (GUM, JCGM 100:2008, 5.1.2): an
error that a gauge makes on both sides alike drops out of a difference, so the uncertainty is told too large, never
too small.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import Declaration, Formula, Symbol
from reporter.model.citation import Citation
from reporter.model.terms import Dimension, LimitBasis, SourceStatus

_GEOMETRY = Citation(title="geometry", status=SourceStatus.DERIVED, basis=LimitBasis.PRACTICE)


def _difference(larger: float, smaller: float) -> float:
    """How far the sides lie apart, in their base unit."""
    domain.finite(larger_side=larger, smaller_side=smaller)
    return larger - smaller


def _share(larger: float, smaller: float) -> float:
    """The difference as a fraction of the larger side."""
    domain.positive(larger_side=larger)
    domain.finite(smaller_side=smaller)
    return (larger - smaller) / larger


def _sides(unit: str) -> dict[str, Symbol]:
    return {
        "larger": Symbol("a", "larger side", unit),
        "smaller": Symbol("b", "smaller side", unit),
    }


def _apart(unit: str) -> Formula[...]:
    return Formula(_difference, Declaration(
        title="Difference between the sides", text="Δ = a − b", symbols=_sides(unit),
        result=Symbol("Δ", "difference between the sides", unit), source=_GEOMETRY,
    ))  # fmt: skip


def _apart_of_larger(unit: str) -> Formula[...]:
    return Formula(_share, Declaration(
        title="Difference between the sides, of the larger", text="δ = (a − b) / a", symbols=_sides(unit),
        result=Symbol("δ", "difference in parts of the larger side", "%"), source=_GEOMETRY,
    ))  # fmt: skip


length_apart, length_share = _apart("mm"), _apart_of_larger("mm")
angle_apart, angle_share = _apart("°"), _apart_of_larger("°")
force_apart, force_share = _apart("N"), _apart_of_larger("N")
torque_apart, torque_share = _apart("N·m"), _apart_of_larger("N·m")
count_apart, count_share = _apart(""), _apart_of_larger("")
ratio_apart, ratio_share = _apart("%"), _apart_of_larger("%")

APART: dict[Dimension, Formula[...]] = {
    each.result.dimension: each
    for each in (length_apart, angle_apart, force_apart, torque_apart, count_apart, ratio_apart)
}
"""The difference, by what the sides measure."""

APART_OF_LARGER: dict[Dimension, Formula[...]] = {
    each.symbols["larger"].dimension: each
    for each in (length_share, angle_share, force_share, torque_share, count_share, ratio_share)
}
"""The difference as a fraction of the larger side, by what the sides measure."""
