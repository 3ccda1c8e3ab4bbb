"""A straight line through readings of known uncertainty, its edges, and where it crosses a limit.

In: places on an axis (days, miles, hours) and readings, plain floats of one unit each, with standard uncertainties. Out:
the line, and places on the axis. Nothing here knows a part, a date or a limit's meaning.
Weighted least squares with known uncertainties: R. J. Barlow, "Statistics", 6.2 (from memory, unverified). Crossing by
inverse prediction: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175 (from memory, unverified). Both are held against scipy and
against drawn samples in the tests.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from reporter.engineering import domain

SHARE = 0.9
"""Each edge leaves out the remaining tenth: from edge to edge lie 10 to 90 %."""
NORMAL = NormalDist().inv_cdf(SHARE)
"""How many standard uncertainties an edge lies from the line when all uncertainties are known."""


@dataclass(frozen=True)
class Line:
    """y = height + slope · (x − centre); `height` and `slope` are uncorrelated, with standard uncertainties.

    `reach` is how many of these uncertainties an edge lies from the line: the normal quantile, or more where the
    readings scatter more than their uncertainties account for (Student's quantile times that ratio).
    """

    centre: float
    height: float
    slope: float
    u_height: float
    u_slope: float
    reach: float

    def at(self, x: float) -> float:
        """The line at `x`."""
        return self.height + self.slope * (x - self.centre)

    def half_width(self, x: float) -> float:
        """From the line to either edge at `x`."""
        return self.reach * math.hypot(self.u_height, self.u_slope * (x - self.centre))


def fit(x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> Line:
    """The weighted straight line through (x, y) with standard uncertainties `u`.

    Raises ValueError for fewer than two readings, for readings that all stand at one x, and for an uncertainty that is
    not above zero: without one no edge can be given.
    """
    if not 2 <= len(x) == len(y) == len(u):  # noqa: PLR2004  (a line needs two readings)
        msg = "a line needs two readings, each with its place and its uncertainty"
        raise ValueError(msg)
    for each in u:
        domain.positive(standard_uncertainty=each)
    weights = [1 / each**2 for each in u]
    total = math.fsum(weights)
    centre = math.fsum(w * a for w, a in zip(weights, x, strict=True)) / total
    height = math.fsum(w * b for w, b in zip(weights, y, strict=True)) / total
    spread = math.fsum(w * (a - centre) ** 2 for w, a in zip(weights, x, strict=True))
    if spread <= 0:
        msg = "the readings must be taken at different times"
        raise ValueError(msg)
    slope = math.fsum(w * (a - centre) * b for w, a, b in zip(weights, x, y, strict=True)) / spread
    misfit = math.fsum(
        w * (b - height - slope * (a - centre)) ** 2 for w, a, b in zip(weights, x, y, strict=True)
    )
    return Line(centre, height, slope, total**-0.5, spread**-0.5, _reach(misfit, len(x) - 2))


def _reach(misfit: float, freedom: int) -> float:
    """The normal quantile, or Student's times the ratio of seen to declared scatter where that is more."""
    return max(NORMAL, student(freedom) * math.sqrt(misfit / freedom)) if freedom else NORMAL


def crossing(line: Line, limit: float) -> tuple[float, float, float] | None:
    """Where the upper edge, the line and the lower edge of a rising line reach `limit`: 10, 50 and 90 %.

    None when the line does not rise by more than its uncertainty: then no last crossing can be given.
    """
    edge = line.reach * line.u_slope
    gain = line.slope**2 - edge**2
    if line.slope <= edge:
        return None
    gap = limit - line.height
    root = line.reach * math.sqrt((line.u_slope * gap) ** 2 + line.u_height**2 * gain)
    early, late = (line.slope * gap - root) / gain, (line.slope * gap + root) / gain
    return line.centre + early, line.centre + gap / line.slope, line.centre + late


def student(freedom: int) -> float:
    """Student's quantile of `SHARE` for a whole number of degrees of freedom, by bisection."""
    low, high = 0.0, 10.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _student_below(middle, freedom) < SHARE else (low, middle)
    return (low + high) / 2


def _student_below(t: float, freedom: int) -> float:
    """Student's distribution function by its finite series (Abramowitz and Stegun, 26.7.3 and 26.7.4, from memory)."""
    angle = math.atan2(t, math.sqrt(freedom))
    cosine = math.cos(angle)
    odd = freedom % 2
    term = cosine if odd else 1.0
    total = term if freedom > 1 else 0.0
    for step in range(3 if odd else 2, freedom - 1, 2):
        term *= cosine**2 * (step - 1) / step
        total += term
    inside = math.sin(angle) * total
    return 0.5 + ((angle + inside) / math.pi if odd else inside / 2)
