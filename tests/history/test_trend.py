"""The straight line, its edges and its crossing, against scipy and against drawn samples."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import optimize, stats

from reporter.engineering.trend import NORMAL, SHARE, bent, crossing, fit, reached, student

X = [0.0, 1.1, 2.0, 3.4, 4.1]
Y = [0.02, 0.31, 0.55, 1.20, 1.19]


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 5, 8, 13, 30, 31])
def test_students_quantile(freedom: int) -> None:
    """scipy.stats.t is the oracle."""
    assert student(freedom) == pytest.approx(stats.t.ppf(SHARE, freedom), abs=1e-9)


def test_the_line_and_its_uncertainties_are_those_of_weighted_least_squares() -> None:
    """scipy.optimize.curve_fit with absolute uncertainties gives the same line and the same covariance."""
    u = [0.02, 0.05, 0.03, 0.06, 0.04]
    line = fit(X, Y, u)
    found, covariance = optimize.curve_fit(lambda x, a, b: a + b * x, X, Y, sigma=u, absolute_sigma=True)
    assert line.at(0.0) == pytest.approx(found[0], rel=1e-5)
    assert line.slope == pytest.approx(found[1], rel=1e-5)
    assert line.u_slope == pytest.approx(math.sqrt(covariance[1, 1]), rel=1e-5)
    here = math.hypot(line.u_height, line.u_slope * line.centre)
    assert here == pytest.approx(math.sqrt(covariance[0, 0]), rel=1e-5)


@pytest.mark.parametrize("x", [0.0, 2.5, 9.0])
def test_scattered_readings_get_the_edges_of_ordinary_regression(x: float) -> None:
    """Where scatter outweighs declared uncertainty the band is the textbook one: scipy.stats.linregress and Student."""
    line = fit(X, Y, [0.01] * len(X))
    plain = stats.linregress(X, Y)
    scatter = plain.stderr * math.sqrt(sum((each - np.mean(X)) ** 2 for each in X))
    u = math.hypot(scatter / math.sqrt(len(X)), plain.stderr * (x - np.mean(X)))
    assert line.at(x) == pytest.approx(plain.intercept + plain.slope * x)
    assert line.half_width(x) == pytest.approx(stats.t.ppf(SHARE, len(X) - 2) * u)


def test_the_crossing_is_where_the_edges_meet_the_limit() -> None:
    line = fit(X, Y, [0.05] * len(X))
    met = crossing(line, 3.0)
    assert met is not None
    early, middle, late = met
    assert line.at(early) + line.half_width(early) == pytest.approx(3.0)
    assert line.at(middle) == pytest.approx(3.0)
    assert line.at(late) - line.half_width(late) == pytest.approx(3.0)


def test_between_the_edges_lie_ten_to_ninety_per_cent_of_drawn_crossings() -> None:
    """A hundred thousand drawn pairs of readings: the shares of their crossings are those promised."""
    draw = np.random.default_rng(7)
    first, last = draw.normal(1.0, 0.1, 100_000), draw.normal(2.0, 0.1, 100_000)
    crossings = (5.0 - first) / (last - first)
    met = crossing(fit([0, 1], [1, 2], [0.1, 0.1]), 5.0)
    assert met is not None
    assert np.mean(crossings < met[0]) == pytest.approx(0.1, abs=0.01)
    assert np.mean(crossings < met[2]) == pytest.approx(0.9, abs=0.01)


def test_no_crossing_of_a_line_that_rises_by_less_than_its_uncertainty() -> None:
    assert crossing(fit([0, 1], [1.0, 1.05], [0.1, 0.1]), 5.0) is None
    assert crossing(fit([0, 1], [1.0, 0.5], [0.1, 0.1]), 5.0) is None


@pytest.mark.parametrize(
    ("x", "u", "words"),
    [
        ([1.0], [0.1], "two readings"),
        ([1.0, 1.0], [0.1, 0.1], "different times"),
        ([1.0, 2.0], [0.1, 0.0], "above zero"),
    ],
)
def test_what_no_line_can_be_laid_through_is_refused(x: list[float], u: list[float], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        fit(x, [1.0] * len(x), u)


@pytest.mark.parametrize(("middle", "shows"), [(0.9, False), (1.0, True), (3.0, True), (3.1, False)])
def test_a_bend_shows_where_a_reading_stands_a_quarter_from_both_ends(middle: float, shows: bool) -> None:
    x, y, u = [0.0, middle, 4.0], [0.0, 1.0, 2.0], [0.1] * 3
    assert (bent(fit(x, y, u), x, y, u) is not None) == shows


def test_the_bend_and_the_curve_are_those_of_weighted_polynomials() -> None:
    """numpy.polyfit of the second degree with known uncertainties: the bend, its uncertainty, the curve and its edges."""
    u = [0.02, 0.05, 0.03, 0.06, 0.04]
    curve = bent(fit(X, Y, u), X, Y, u)
    found, covariance = np.polyfit(X, Y, 2, w=1 / np.array(u), cov="unscaled")
    assert curve is not None
    ratio = math.sqrt(sum(((np.polyval(found, a) - b) / c) ** 2 for a, b, c in zip(X, Y, u, strict=True)) / 2)
    reach = max(stats.norm.ppf(SHARE), stats.t.ppf(SHARE, 2) * ratio)
    assert (curve.bend, curve.u_bend) == pytest.approx((found[0], math.sqrt(covariance[0, 0])))
    for x in (0.0, 2.5, 9.0):
        terms = np.array([x * x, x, 1.0])
        assert curve.at(x) == pytest.approx(np.polyval(found, x))
        assert curve.half_width(x) == pytest.approx(reach * math.sqrt(terms @ covariance @ terms))


def test_the_first_crossing_of_a_curve_is_never_before_now() -> None:
    """Readings so coarse that the curve's edge stands past the limit already."""
    x, y, u = [0.0, 1.0, 2.0], [0.0, 1.0, 2.0], [0.5] * 3
    line = fit(x, y, u)
    met = reached(line, bent(line, x, y, u), 2.1, 2.0, 50.0)
    assert met is not None
    assert met[0] <= 2.0
    quick = [0.0, 0.1, 2.0]
    line = fit(x, quick, [0.2] * 3)
    assert reached(line, bent(line, x, quick, [0.2] * 3), 2.1, 2.0, 50.0) == (2.0, None, None)


def test_a_curve_that_meets_nothing_within_sight_meets_nothing() -> None:
    x, y, u = [0.0, 1.0, 2.0], [0.0, 0.0, 0.5], [0.05] * 3
    line = fit(x, y, u)
    assert reached(line, bent(line, x, y, u), 1000.0, 2.0, 10.0) == (math.inf, None, None)


places = st.lists(st.integers(0, 60), min_size=2, max_size=6, unique=True)


@given(places, st.lists(st.floats(-5, 5), min_size=6, max_size=6), st.floats(0.05, 1), st.integers(-20, 90))
def test_a_reading_equal_to_the_fit_never_widens_the_band(
    x: list[int], y: list[float], u: float, at: int
) -> None:
    readings = y[: len(x)]
    line = fit(x, readings, [u] * len(x))
    more = fit([*x, at], [*readings, line.at(at)], [u] * (len(x) + 1))
    for place in (-30.0, 0.0, 33.0, 120.0):
        assert more.half_width(place) <= line.half_width(place) * (1 + 1e-6)


@given(places, st.randoms())
def test_the_order_of_readings_changes_nothing(x: list[int], shuffle: object) -> None:
    y, u = [0.1 * each for each in x], [0.1 + 0.01 * each for each in x]
    rows = list(zip(x, y, u, strict=True))
    shuffle.shuffle(rows)  # type: ignore[attr-defined]
    assert fit(*map(list, zip(*rows, strict=True))) == fit(*map(list, zip(*sorted(rows), strict=True)))


@given(st.floats(0.01, 0.3), st.floats(1.0, 4.0))
def test_more_uncertainty_never_brings_the_last_crossing_nearer(u: float, factor: float) -> None:
    near, far = (crossing(fit([0, 1, 2], [0, 1, 2], [each] * 3), 4.0) for each in (u, u * factor))
    assume(near is not None and far is not None)
    assert near is not None
    assert far is not None
    assert far[0] <= near[0] + 1e-9
    assert far[2] >= near[2] - 1e-9


def test_the_edge_of_known_uncertainties_is_the_normal_one() -> None:
    assert pytest.approx(stats.norm.ppf(SHARE)) == NORMAL
