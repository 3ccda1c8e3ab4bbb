"""When measured wear reaches its limit, as a range of dates; or in plain words why nobody can say.

Comes in: runs of readings. Goes out: a Forecast for each run of a quantity that wears. Only wear measured twice or more by one
method is forecast: a crack, a broken wire, corrosion, a swage or an age gives no warning that a line could follow. A
forecast sets no grade, and no date later than the rules do.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from itertools import pairwise

from reporter.engineering import trend, units
from reporter.model.citation import Limit
from reporter.model.history import Edge, Forecast, Point, Run
from reporter.model.job import Job
from reporter.model.terms import Sense
from reporter.wording import Catalogue, catalogue

YEAR = 365.25
HORIZON = 50.0
"""Years ahead beyond which no date is given: nothing aboard is kept that long."""
PER = {"time": YEAR, "miles": 1000.0, "hours": 100.0}
"""What a rate is counted by: days in a year, nautical miles, engine hours."""
EDGES = 24
"""Steps of the band on the plot."""
FAR = 4.0
"""The plot looks ahead no further than this many times the years that were measured over."""


def forecasts(runs: Sequence[Run], job: Job) -> tuple[Forecast, ...]:
    """One forecast or refusal for every run of a wearing quantity that was read today and has a limit."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    today = job.sheet.inspection.last_day
    return tuple(
        _forecast(run, words)
        for run in runs
        if run.wears and run.limit and run.limit.sense is not Sense.WINDOW and run.points[-1].day == today
    )


def _forecast(run: Run, words: Catalogue) -> Forecast:
    refusal = _refusal(run)
    if refusal:
        return Forecast(run=run, refused=words(f"forecast.{refusal}", name=run.name.lower()))
    per = _counted_by(run)
    line = trend.fit(*_axis(run, per))
    met = trend.crossing(line, _bound(run))
    if met is None:
        backwards = line.slope < -line.reach * line.u_slope
        return Forecast(
            run=run,
            refused=words("forecast.backwards" if backwards else "forecast.no_wear", name=run.name.lower()),
        )
    return _dated(run, per, line, met)


def _refusal(run: Run) -> str:
    """Why no line may be laid through these readings, or nothing."""
    points = run.points
    alone = len(points) == 1
    faults = {
        "restarted": alone and run.restarted is not None,
        "one_reading": alone,
        "past": _toward(run, points[-1].value.value) >= _bound(run),
        "other_means": len({point.means for point in points}) > 1,
        "no_uncertainty": any(point.value.u <= 0 for point in points),
        "one_day": len({point.day for point in points}) == 1,
        "backwards": any(_fell(run, one, other) for one, other in pairwise(points)),
    }
    return next((fault for fault, holds in faults.items() if holds), "")


def _fell(run: Run, one: Point, other: Point) -> bool:
    """Whether wear ran backwards from one reading to the next by more than their expanded uncertainties (k = 2)."""
    drop = _toward(run, one.value.value) - _toward(run, other.value.value)
    return drop > 2 * math.hypot(one.value.u, other.value.u)


def _sign(run: Run) -> float:
    return -1.0 if run.limit and run.limit.sense is Sense.AT_LEAST else 1.0


def _toward(run: Run, value: float) -> float:
    """A value on an axis that grows towards the limit."""
    return _sign(run) * value


def _bound(run: Run) -> float:
    assert isinstance(run.limit, Limit)  # noqa: S101  (only runs with a limit come here)
    return _toward(run, units.to_base(run.limit.value, run.limit.unit))


def _counted_by(run: Run) -> str:
    """Miles or hours where the kind says so and every visit gives a higher figure than the one before, else time."""
    if run.wears_by == "time":
        return "time"
    logged = [getattr(point, run.wears_by) for point in run.points]
    rises = all(one is not None and other is not None and other > one for one, other in pairwise(logged))
    return run.wears_by if rises else "time"


def _place(point: Point, per: str) -> float:
    return float(point.day.toordinal()) if per == "time" else float(getattr(point, per))


def _axis(run: Run, per: str) -> tuple[list[float], list[float], list[float]]:
    return (
        [_place(point, per) for point in run.points],
        [_toward(run, point.value.value) for point in run.points],
        [point.value.u for point in run.points],
    )


def _dated(run: Run, per: str, line: trend.Line, met: tuple[float, float, float]) -> Forecast:
    rate = _sign(run) * line.slope * PER[per]
    return Forecast.model_validate(
        {
            "run": run,
            "per": per,
            "rate": _shown(run, rate),
            "rate_expanded": abs(_shown(run, 2 * line.u_slope * _excess(line) * PER[per])),
            **dict(zip(("earliest", "middle", "latest"), (_day(run, per, x) for x in met), strict=True)),
            "edges": tuple(_edges(run, per, line, met)),
        }
    )


def _excess(line: trend.Line) -> float:
    """How many times wider the readings make the edges than their declared uncertainties would."""
    return line.reach / trend.NORMAL


def _shown(run: Run, base: float) -> float:
    """A difference in the run's unit."""
    return units.from_base(base, run.unit)


def _day(run: Run, per: str, x: float) -> dt.date | None:
    """The day of a place on the axis, never before today; None beyond the horizon.

    Miles and hours become days at the pace at which the boat ran them from the first reading to the last.
    """
    first, last = run.points[0], run.points[-1]
    days = x - _place(last, per)
    if per != "time":
        days *= (last.day - first.day).days / (_place(last, per) - _place(first, per))
    if days > HORIZON * YEAR:
        return None
    return last.day + dt.timedelta(days=max(0, math.floor(days)))


def _edges(run: Run, per: str, line: trend.Line, met: tuple[float, float, float]) -> list[Edge]:
    """The band from the first reading to a little past the last crossing, for the plot."""
    start, end = _place(run.points[0], per), _place(run.points[-1], per)
    stop = max(end, min(met[2], end + FAR * (end - start)))
    places = [start + (stop - start) * step / EDGES for step in range(EDGES + 1)]
    return [_edge(run, line, x) for x in places]


def _edge(run: Run, line: trend.Line, x: float) -> Edge:
    middle, half = line.at(x), line.half_width(x)
    low, centre, high = (_shown(run, _sign(run) * value) for value in (middle - half, middle, middle + half))
    return Edge(x=x, low=low, middle=centre, high=high)
