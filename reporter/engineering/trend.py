"""A straight line through readings of known uncertainty, its bend, its edges, and where they reach a limit.

In: places on an axis (days, miles, hours) and readings, plain floats of one unit each, with standard uncertainties. Out:
the line, and places on the axis. Nothing here knows a part, a date or a limit's meaning.
Weighted least squares with known uncertainties: R. J. Barlow, "Statistics", 6.2 (from memory, unverified). Crossing by
inverse prediction: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175 (from memory, unverified). A bend is the coefficient of a
second-degree term held against its own uncertainty, the way in which NIST/SEMATECH e-Handbook 2.3.6.5 tries a quadratic
calibration (its opening read); the term is made uncorrelated with the line: G. E. Forsythe, J. SIAM 5 (1957) 74 (from
memory, unverified). All are held against scipy, numpy and drawn samples in the tests.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist

from reporter.engineering import domain

SHARE = 0.9
"""Each edge leaves out the remaining tenth: from edge to edge lie 10 to 90 %."""
NORMAL = NormalDist().inv_cdf(SHARE)
"""How many standard uncertainties an edge lies from the line when all uncertainties are known."""
COVER = 2.0
"""A bend counts as seen beyond its expanded uncertainty (k = 2): 2.3 in 100 straight runs look as bent."""
APART = 0.25
"""A bend shows only when a reading stands at least this share of the whole stretch from its first and its last place."""
STEPS = 100
"""Steps in which the stretch ahead is searched, before the place is narrowed down by halving."""
HALVINGS = 60
Met = tuple[float, float | None, float | None]
"""Places on the axis at which a limit is reached: 10, 50 and 90 %, the last two None where a bend forbids them."""


@dataclass(frozen=True)
class FittedLine:
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


@dataclass(frozen=True)
class Curve:
    """A line with a bend: line + bend · (d² − skew · d − square), d = x − centre; `bend` has its own uncertainty.

    The term in brackets is uncorrelated with the line, so the variances add (GUM 5.1.2). `reach` is as for a line.
    """

    line: FittedLine
    skew: float
    square: float
    bend: float
    u_bend: float
    reach: float

    @property
    def quickens(self) -> bool:
        """Whether the curve bends upward by more than the expanded uncertainty of its bend."""
        return self.bend > COVER * self.u_bend * self.reach / NORMAL

    def at(self, x: float) -> float:
        """The curve at `x`."""
        return self.line.at(x) + self.bend * self._term(x)

    def half_width(self, x: float) -> float:
        """From the curve to either edge at `x`."""
        line = self.line.half_width(x) / self.line.reach
        return self.reach * math.hypot(line, self.u_bend * self._term(x))

    def _term(self, x: float) -> float:
        from_centre = x - self.line.centre
        return from_centre**2 - self.skew * from_centre - self.square


def fit(x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> FittedLine:
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
    line = FittedLine(centre, height, slope, total**-0.5, spread**-0.5, NORMAL)
    return replace(line, reach=_reach(_misfit(line, x, y, weights), len(x) - 2))


def bent(line: FittedLine, x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> Curve | None:
    """The line with the bend that the readings show; None where too few stand too close together to show one."""
    first, last = min(x), max(x)
    margin = APART * (last - first)
    if not any(first + margin <= each <= last - margin for each in x):
        return None
    weights = [1 / each**2 for each in u]
    spread = line.u_slope**-2
    skew = math.fsum(w * (a - line.centre) ** 3 for w, a in zip(weights, x, strict=True)) / spread
    curve = Curve(line, skew, spread * line.u_height**2, 0.0, 0.0, NORMAL)
    terms = [curve._term(a) for a in x]  # noqa: SLF001  (the curve's own module)
    sharp = math.fsum(w * term**2 for w, term in zip(weights, terms, strict=True))
    bend = math.fsum(w * term * b for w, term, b in zip(weights, terms, y, strict=True)) / sharp
    curve = replace(curve, bend=bend, u_bend=sharp**-0.5)
    return replace(curve, reach=_reach(_misfit(curve, x, y, weights), len(x) - 3))


def _misfit(
    through: FittedLine | Curve, x: Sequence[float], y: Sequence[float], weights: Sequence[float]
) -> float:
    return math.fsum(w * (b - through.at(a)) ** 2 for w, a, b in zip(weights, x, y, strict=True))


def _reach(misfit: float, freedom: int) -> float:
    """The normal quantile, or Student's times the ratio of seen to declared scatter where that is more."""
    return max(NORMAL, student(freedom) * math.sqrt(misfit / freedom)) if freedom else NORMAL


def crossing(line: FittedLine, limit: float) -> tuple[float, float, float] | None:
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


def reached(line: FittedLine, curve: Curve | None, limit: float, now: float, far: float) -> Met | None:
    """Where `limit` is reached: 10, 50 and 90 %, the first of them allowing for a bend that the readings leave open.

    Once they show that the wear quickens, a straight line runs late: then the first place stands alone, `math.inf` when
    it lies beyond `far`. None as for `crossing`.
    """
    met = crossing(line, limit)
    if curve and curve.quickens:
        return _soonest(curve, limit, now, far), None, None
    if curve is None or met is None:
        return met
    return min(met[0], _soonest(curve, limit, now, met[0])), met[1], met[2]


def _soonest(curve: Curve, limit: float, now: float, far: float) -> float:
    """The first place from `now` to `far` at which the curve's upper edge stands at the limit, else infinity."""

    def short(x: float) -> bool:
        return curve.at(x) + curve.half_width(x) < limit

    places = [now + (far - now) * step / STEPS for step in range(STEPS + 1)]
    high = next((place for place in places if not short(place)), math.inf)
    if high in {now, math.inf}:
        return high
    low = high - (far - now) / STEPS
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if short(middle) else (low, middle)
    return high


def student(freedom: int) -> float:
    """Student's quantile of `SHARE` for a whole number of degrees of freedom, by bisection."""
    low, high = 0.0, 10.0
    for _ in range(HALVINGS):
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
