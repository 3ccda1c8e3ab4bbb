"""How often a forecast's dates hold, by drawn readings with fixed seeds: the share promised is the share kept."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest
from scipy import stats

from reporter.engineering.trend import SHARE, bent, fit, reached
from tests.effort import share

LIMIT = 2.0
STRETCH = 2.0
"""Readings are drawn over two years in which the wear comes to 1, half of what the limit allows."""


@dataclass(frozen=True)
class Wear:
    """Wear rate · t + bend · t²: 1 after two years, `first` being the share of the mean rate at which it begins."""

    first: float

    @property
    def rate(self) -> float:
        """A year, at the first reading."""
        return self.first / STRETCH

    @property
    def bend(self) -> float:
        """A year and year."""
        return (1 - self.first) / STRETCH**2

    def at(self, t: np.ndarray) -> np.ndarray:
        """The wear after `t` years."""
        return self.rate * t + self.bend * t**2

    @property
    def true_date(self) -> float:
        """By the formula for a quadratic equation."""
        if self.bend == 0:
            return LIMIT / self.rate
        return (-self.rate + math.sqrt(self.rate**2 + 4 * self.bend * LIMIT)) / (2 * self.bend)


@dataclass(frozen=True)
class Kept:
    """Of the forecasts that gave a date: how many, the share whose first date came too late, whose range held the truth."""

    dated: int
    too_late: float
    inside: float

    @property
    def margin(self) -> float:
        """Three standard deviations of a share of a tenth among so many draws."""
        return 3 * math.sqrt(SHARE * (1 - SHARE) / self.dated)


def kept(wear: Wear, readings: int, u: float, *, scatter: float = 1.0, draws: int) -> Kept:
    """Draws readings that scatter by `scatter` times their stated uncertainty, and forecasts from each draw."""
    draw = np.random.default_rng(20240501)
    x, stated = np.linspace(0.0, STRETCH, readings), [u] * readings
    found = []
    for _ in range(draws):
        y = list(wear.at(x) + draw.normal(0.0, u * scatter, readings))
        line = fit(list(x), y, stated)
        met = reached(line, bent(line, list(x), y, stated), LIMIT, STRETCH, STRETCH + 50)
        if met:
            found.append((met[0], math.inf if met[2] is None else met[2]))
    early, late = np.array(found).T
    true = wear.true_date
    return Kept(len(found), float(np.mean(early > true)), float(np.mean((early <= true) & (true <= late))))


@pytest.mark.parametrize(("readings", "u"), [(3, 0.02), (3, 0.1), (4, 0.05)])
@pytest.mark.parametrize("first", [0.0, 0.5, 0.8])
def test_the_earliest_date_of_quickening_wear_is_late_no_more_than_one_time_in_ten(
    first: float, readings: int, u: float
) -> None:
    found = kept(Wear(first), readings, u, draws=300)
    assert found.dated > 200
    assert found.too_late <= 1 - SHARE + found.margin


BENDS = list(product([0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.0, 1.1], [0.01, 0.05, 0.2], [3, 4, 6]))


@pytest.mark.slow
@pytest.mark.parametrize(("first", "u", "readings"), share(BENDS, 25))
def test_the_earliest_date_keeps_its_promise_for_every_bend(first: float, u: float, readings: int) -> None:
    """From wear that begins at rest to wear that slows down; a straight line alone is late in up to all of the cases."""
    found = kept(Wear(first), readings, u, draws=1500)
    assert found.too_late <= 1 - SHARE + found.margin


@pytest.mark.parametrize("readings", [2, 3, 5])
def test_the_range_of_steady_wear_holds_four_true_dates_in_five(readings: int) -> None:
    """10 to 90 %: 80 % at the least where the uncertainties are as stated."""
    found = kept(Wear(1.0), readings, 0.03, draws=1000)
    assert found.inside >= 2 * SHARE - 1 - math.sqrt(2) * found.margin
    assert readings > 2 or found.inside == pytest.approx(2 * SHARE - 1, abs=math.sqrt(2) * found.margin)


def test_two_and_three_readings_that_scatter_more_than_stated_keep_less_than_promised() -> None:
    """Twice the scatter: of a normal value 47.8 % lie within 1.2816 / 2 of its standard deviations (scipy.stats.norm).

    So of two readings with a line, and below by 26.1 % of three with a bend. No width follows from so few readings;
    test_forecast_figures holds that the sentence says what they rest on.
    """
    found = kept(Wear(1.0), 2, 0.02, scatter=2.0, draws=1500)
    edge = stats.norm.ppf(SHARE) / 2
    bent_ = kept(Wear(0.5), 3, 0.02, scatter=2.0, draws=1500)
    assert bent_.too_late == pytest.approx(stats.norm.cdf(-edge), abs=0.05)
    assert found.inside == pytest.approx(2 * stats.norm.cdf(edge) - 1, abs=0.05)


@pytest.mark.slow
@pytest.mark.parametrize("readings", [3, 4, 6])
@pytest.mark.parametrize("scatter", [1.5, 2.0, 3.0])
def test_from_three_readings_on_the_range_grows_with_the_scatter_that_is_seen(
    readings: int, scatter: float
) -> None:
    found = kept(Wear(1.0), readings, 0.02, scatter=scatter, draws=1500)
    assert found.inside >= 2 * SHARE - 1 - math.sqrt(2) * found.margin
    assert found.too_late <= 1 - SHARE + found.margin
