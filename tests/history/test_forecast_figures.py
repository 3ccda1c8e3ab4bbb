"""Forecasts whose figures are reckoned outside the program: rate, its uncertainty, and the dates of line, edges and bend.

The figures of `CASES` come from `reckoned`, which shares nothing with the program: numpy.polyfit for line, bend and their
covariance with known uncertainties (GUM 5.1.2, 5.2.2: variance of a prediction g'Vg), scipy for the quantiles and for the
places where an edge meets the limit. A test holds the table against it, another the program against the table.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy import optimize, stats

from reporter.model.history import Forecast
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.quantity import PartialDate, Value
from reporter.model.terms import Dimension, Grade, Sense
from reporter.outline.outlook import sentence
from reporter.wording import catalogue, date
from tests.grade import cases
from tests.history.visits import forecast, kind, visit

YEAR = 365.25
SPRING = ("2022-05-01", "2023-05-01", "2024-05-01", "2025-05-01")


class Case(NamedTuple):
    """Days, readings in millimetres and their U (k = 2); then rate and U a year, earliest, middle and latest day."""

    days: tuple[str, ...]
    mm: tuple[float, ...]
    expanded: tuple[float, ...]
    rate: float
    rate_expanded: float
    dates: tuple[str, str, str]
    rests_on: str = ""
    limit: float = 4.0


CASES = {
    # by hand: 0.99 mm in 365 days; U = 365.25 / 365 · √(0.2² + 0.2²) = 0.2830; 2.01 mm more take 741.06 days
    "two": Case(SPRING[2:], (1, 1.99), (0.2, 0.2), 0.990678, 0.28304, ("2026-12-16", "2027-05-12", "2027-12-08"), "two"),
    "two of unlike uncertainty": Case(SPRING[2:], (1, 2.01), (0.4, 0.1), 1.010692, 0.41259, ("2026-11-16", "2027-04-20", "2028-01-08"), "two"),
    "two, the limit near": Case(SPRING[2:], (3, 3.8), (0.1, 0.1), 0.80055, 0.14152, ("2025-06-27", "2025-07-31", "2025-09-10"), "two"),
    "two, two years apart": Case(SPRING[1::2], (0, 1.5), (0.3, 0.3), 0.74949, 0.21199, ("2027-12-24", "2028-08-31", "2029-08-24"), "two"),
    "two, no last date within fifty years": Case(SPRING[2:], (1, 1.21), (0.2, 0.2), 0.210144, 0.28304, ("2032-03-20", "2038-08-10", ""), "two"),
    "two, too far ahead": Case(SPRING[2:], (1, 1.01), (0.002, 0.002), 0.010007, 0.0028304, ("", "", ""), "two"),
    "three in a line": Case(SPRING[1:], (1, 1.5, 2), (0.1,) * 3, 0.49966, 0.070662, ("2027-08-28", "2029-05-02", "2029-11-02"), "three"),
    "three in a line, coarse": Case(SPRING[1:], (1, 1.5, 2), (0.3,) * 3, 0.49966, 0.21199, ("2026-10-05", "2029-05-02", "2031-03-22"), "three"),
    # a scatter beyond what is stated: Student's 3.0777 for one degree of freedom times the ratio
    "three that scatter": Case(SPRING[1:], (1, 1.56, 2), (0.06,) * 3, 0.49969, 0.16437, ("2028-05-31", "2029-04-17", "2030-08-19"), "three"),
    "three, slowing down": Case(SPRING[1:], (1, 2.1, 2.6), (0.3,) * 3, 0.79959, 0.82831, ("2025-10-28", "2026-12-15", "2032-03-23"), "three"),
    # second difference 0.6, its u = √6 · 0.05 = 0.1225: 4.9 times, so bent
    "three, quickening": Case(SPRING[1:], (1, 1.2, 2), (0.1,) * 3, 0.49952, 0.83324, ("2026-06-26", "", ""), "three"),
    # second difference 0.2, its u = √6 · 0.04 = 0.0980: 2.04 times, just bent (2.055 with the leap day) …
    "three, just quickening": Case(SPRING[1:], (1, 1.4, 2), (0.08,) * 3, 0.49961, 0.27901, ("2027-02-04", "", ""), "three"),
    # … and 0.967 times, so not
    "three, perhaps quickening": Case(SPRING[1:], (1, 1.4, 2), (0.17,) * 3, 0.49961, 0.27901, ("2026-10-20", "2029-05-26", "2032-04-01"), "three"),
    "three, perhaps quickening more": Case(SPRING[1:], (1, 1.4, 2), (0.11,) * 3, 0.499612, 0.27901, ("2026-12-25", "2029-05-26", "2032-04-01"), "three"),
    "three, plainly slowing down": Case(SPRING[1:], (1, 2.1, 2.6), (0.2,) * 3, 0.799589, 0.82831, ("2025-10-28", "2026-12-15", "2032-03-23"), "three"),
    # 0.5 − 0.95 − 1.1 + 2 = 0.45 is 2.25 times its u, 2 · 0.1; but −0.5 + 2.85 − 3.3 + 2 = 1.05 is 2.35 times √20 · 0.1:
    # they scatter too much for the bend to count
    "four, perhaps quickening": Case(SPRING, (0.5, 0.95, 1.1, 2), (0.2,) * 4, 0.464752, 0.30287, ("2025-12-29", "2029-12-27", "2034-06-12")),
    "two, within fifty years": Case(SPRING[2:], (1, 1.05929), (0.00002,) * 2, 0.0593306, 2.8304e-05, ("2074-11-17", "2074-11-23", "2074-11-29"), "two"),
    "two, beyond fifty years": Case(SPRING[2:], (1, 1.0585), (0.00002,) * 2, 0.0585401, 2.8304e-05, ("", "", ""), "two"),
    "three, still and then steep": Case(SPRING[1:], (1, 1, 1.5), (0.1,) * 3, 0.24971, 0.69373, ("2027-01-06", "", ""), "three"),
    "three, two of them early": Case(("2024-05-01", "2024-05-11", "2026-05-01"), (1, 1.05, 2), (0.1,) * 3, 0.49139, 0.076586, ("2029-11-25", "2030-05-26", "2031-01-02"), "close"),
    "three, two of them late": Case(("2024-05-01", "2026-04-21", "2026-05-01"), (1, 1.9, 2), (0.1, 0.2, 0.1), 0.49190, 0.12511, ("2029-09-18", "2030-06-06", "2031-06-02"), "close"),
    "four in a line": Case(SPRING, (0.5, 1, 1.5, 2), (0.1,) * 4, 0.49979, 0.044703, ("2028-03-04", "2029-05-01", "2029-09-03")),
    "four that scatter": Case(SPRING, (0.5, 1.1, 1.4, 2), (0.05,) * 4, 0.47977, 0.12534, ("2026-08-02", "2029-07-24", "2030-09-25")),
    "four, quickening": Case(SPRING, (0.5, 0.6, 1.1, 2), (0.2,) * 4, 0.49979, 0.37207, ("2026-07-07", "", "")),
    "five, unevenly": Case(("2020-03-01", "2021-07-15", "2022-05-01", "2024-10-01", "2025-05-01"), (0.3, 0.8, 1, 2, 2.1), (0.1, 0.2, 0.1, 0.3, 0.1), 0.35074, 0.026483, ("2028-12-12", "2030-10-05", "2031-03-10")),
    "two that shrink": Case(SPRING[2:], (9, 8.01), (0.2, 0.2), -0.990678, 0.28304, ("2026-12-16", "2027-05-12", "2027-12-08"), "two", -6.0),
    "three that shrink": Case(SPRING[1:], (9, 8.5, 8), (0.1,) * 3, -0.49966, 0.070662, ("2027-08-28", "2029-05-02", "2029-11-02"), "three", -6.0),
}  # fmt: skip
"""A limit below zero stands for "at least" that many millimetres."""


class Fit:
    """A weighted polynomial and its edges about the limit, by numpy and scipy."""

    def __init__(self, x: Any, y: Any, u: Any, limit: float, degree: int) -> None:
        self.p, self.cov = np.polyfit(x, y, degree, w=1 / u, cov="unscaled")
        self.degree, self.limit, self.k = degree, limit, float(stats.norm.ppf(0.9))
        free = len(x) - degree - 1
        if free:
            ratio = math.sqrt(np.sum(((y - np.polyval(self.p, x)) / u) ** 2) / free)
            self.k = max(self.k, stats.t.ppf(0.9, free) * ratio)
        self.excess = self.k / float(stats.norm.ppf(0.9))
        self.u_lead = math.sqrt(self.cov[0, 0])

    def edge(self, x: float, side: int) -> float:
        """How far the edge stands above the limit at `x`."""
        g = np.array([x**power for power in range(self.degree, -1, -1)])
        return float(np.polyval(self.p, x) + side * self.k * math.sqrt(g @ self.cov @ g) - self.limit)

    def meets(self, side: int, start: float, stop: float) -> float:
        """Where the edge first stands at the limit, or infinity."""
        grid = np.linspace(start, stop, 5001)
        over = [place for place, x in enumerate(grid) if self.edge(x, side) >= 0]
        if not over:
            return math.inf
        return float(
            optimize.brentq(self.edge, grid[over[0] - 1], grid[over[0]], (side,)) if over[0] else start
        )


def reckoned(case: Case) -> tuple[float, float, tuple[str, str, str]]:
    """Rate, its U and the three days, by another way than the program's."""
    days = [dt.date.fromisoformat(each) for each in case.days]
    x = np.array([(each - days[-1]).days / YEAR for each in days])
    toward = math.copysign(1.0, case.limit)
    y, u = toward * np.array(case.mm), np.array(case.expanded) / 2
    line = Fit(x, y, u, case.limit, 1)
    met = [line.meets(+1, 0, 60), (case.limit - line.p[1]) / line.p[0], line.meets(-1, 0, 400)]
    quarter = (x[-1] - x[0]) / 4
    if any((x >= x[0] + quarter) & (x <= x[-1] - quarter)):
        curve = Fit(x, y, u, case.limit, 2)
        bent = curve.meets(+1, 0, 60)
        quickens = curve.p[0] > 2 * curve.excess * curve.u_lead
        met = [bent, math.inf, math.inf] if quickens else [min(met[0], bent), *met[1:]]
    told = [
        (days[-1] + dt.timedelta(days=math.floor(each * YEAR))).isoformat() if each <= 50 else ""
        for each in met
    ]
    return toward * line.p[0], 2 * line.u_lead * line.excess, (told[0], told[1], told[2])


def found(case: Case) -> Forecast:
    """What the program says of the case."""
    visits = [
        visit(day, cases.gap(mm, expanded=u))
        for day, mm, u in zip(case.days, case.mm, case.expanded, strict=True)
    ]
    return forecast(visits[-1], *visits[:-1], plugin=kind_of(case))


def kind_of(case: Case) -> Plugin:
    if case.limit > 0:
        return kind()
    least = cases.limit(-case.limit, Grade.FIRST, sense=Sense.AT_LEAST, unworn=10.0)
    return kind().model_copy(update={"limits": (least,)})


@pytest.mark.parametrize("name", CASES)
def test_the_table_is_what_other_libraries_reckon(name: str) -> None:
    case = CASES[name]
    rate, expanded, dates = reckoned(case)
    assert (rate, expanded) == pytest.approx((case.rate, case.rate_expanded), rel=5e-5)
    assert dates == case.dates


@pytest.mark.parametrize("name", CASES)
def test_the_program_says_what_the_table_says(name: str) -> None:
    case = CASES[name]
    said = found(case)
    assert said.refused == ""
    assert (said.rate, said.rate_expanded) == pytest.approx((case.rate, case.rate_expanded), rel=5e-5)
    days = (said.earliest, said.middle, said.latest)
    assert tuple(day.isoformat() if day else "" for day in days) == case.dates
    assert said.rests_on == case.rests_on
    assert said.quickens == (("quickening" in name and "perhaps" not in name) or "steep" in name)


@pytest.mark.parametrize("name", CASES)
def test_the_sentence_holds_the_dates_and_what_they_rest_on(name: str) -> None:
    case, said = CASES[name], found(CASES[name])
    text = sentence(said, catalogue("en", "uk"))
    rests = {
        "two": "With two readings nobody",
        "three": "With three readings nobody",
        "close": "too close together",
    }
    for key, words in rests.items():
        assert (words in text) == (said.rests_on == key)
    assert ("but the wear quickens" in text) == said.quickens
    for day in {case.dates[0], case.dates[2]} - {""}:
        # A month of that far ahead is as near as readings can tell; a day stands only where both ends lie in one month.
        assert date(PartialDate.model_validate(day[:7])) in text


@pytest.mark.parametrize("name", CASES)
def test_the_band_on_the_plot_meets_the_limit_where_the_dates_say(name: str) -> None:
    """At the ends of the step in which the earliest day lies the edge towards the limit stands below it and beyond."""
    case, said = CASES[name], found(CASES[name])
    toward = math.copysign(1.0, case.limit)
    over = [toward * each.high >= case.limit for each in said.edges]
    if said.earliest is None or said.earliest.toordinal() > said.edges[-1].x:
        assert not any(over)
        return
    first = over.index(True)
    assert said.edges[first - 1].x < said.earliest.toordinal() + 1
    assert said.edges[first].x >= said.earliest.toordinal()
    assert all(toward * each.low <= toward * each.middle <= toward * each.high for each in said.edges)


def test_where_wear_quickens_the_plot_shows_the_curve_and_not_the_line() -> None:
    """Through three readings a curve of the second degree goes exactly."""
    said = found(CASES["three, quickening"])
    assert said.edges[0].middle == pytest.approx(1.0)
    assert said.edges[-1].middle > 2.0


def logged(day: str, mm: float, run: float) -> Job:
    """A visit with the engine's hours on record."""
    job = visit(day, cases.gap(mm, expanded=0.1))
    hours = Value(dimension=Dimension.HOURS, value=run, unit="h")
    vessel = job.sheet.vessel.model_copy(update={"engine_hours": hours})
    return job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": vessel})})


@pytest.mark.parametrize("step", [100.0, 5000.0])
def test_bent_wear_by_hours_becomes_a_day_at_the_pace_measured(step: float) -> None:
    """1.0, 1.2, 2.0 mm, as many hours between, in 730 days: numpy's curve tells after how many more; 1 mm in 2 steps."""
    x, y, u = np.array([-2 * step, -step, 0.0]), np.array([1.0, 1.2, 2.0]), np.full(3, 0.05)
    on = Fit(x, y, u, 4.0, 2).meets(+1, 0, 5 * step) * 730 / (2 * step)
    days = ("2023-05-02", "2024-05-01", "2025-05-01")
    visits = [logged(day, mm, run) for day, mm, run in zip(days, y, x + 2 * step, strict=True)]
    said = forecast(visits[-1], *visits[:-1], plugin=kind(wears_by="hours"))
    assert (said.per, said.quickens) == ("hours", True)
    assert said.rate == pytest.approx(100 / (2 * step))
    assert said.earliest == dt.date(2025, 5, 1) + dt.timedelta(days=math.floor(on))


def test_the_band_goes_in_small_steps_to_the_last_date_and_no_further_than_four_times_the_years_measured() -> (
    None
):
    near, open_ = found(CASES["two"]), found(CASES["two, no last date within fifty years"])
    assert near.latest is not None
    assert near.edges[-1].x == pytest.approx(near.latest.toordinal(), abs=1)
    assert open_.edges[-1].x == dt.date(2025, 5, 1).toordinal() + 4 * 365
    assert len(near.edges) == 25
