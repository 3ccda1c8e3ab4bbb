"""When measured wear reaches its limit, as a range of dates; or in plain words why nobody can say.

Comes in: runs of readings, the parts as graded. Goes out: a Forecast for each run of a quantity that wears. Only wear
measured twice or more by one method is forecast, and only on a part that stays: a crack, a broken wire, corrosion, a swage or
an age gives no warning that a line could follow. From three readings on the earliest date allows for a bend that they leave
open. A forecast sets no grade, and no date later than the rules do.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from reporter.engineering import trend, units
from reporter.model.assessment import Action, Check, Graded
from reporter.model.citation import Limit
from reporter.model.history import Edge, Forecast, SeriesPoint, TimeSeries
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.saying import say
from reporter.model.terms import Grade, Remedy, Sense

YEAR = 365.25
HORIZON = 50.0
"""Years ahead beyond which no date is given: nothing aboard is kept that long."""
PER = {"time": YEAR, "miles": 1000.0, "hours": 100.0}
"""What a rate is counted by: days in a year, nautical miles, engine hours."""
EDGES = 24
"""Steps of the band on the plot."""
FAR = 4.0
"""The plot looks ahead no further than this many times the years that were measured over."""


def forecasts(
    runs: Sequence[TimeSeries], parts: Sequence[Graded], plugins: Mapping[str, Plugin], job: Job
) -> tuple[Forecast, ...]:
    """One forecast or refusal for every run of a wearing quantity that was read today and has a limit."""
    today = job.sheet.inspection.last_day
    by_id = {part.component.id: (part, plugins[part.component.kind]) for part in parts}
    return tuple(
        _forecast(run, renewed=scrapped(*by_id[run.component], run.subject))
        for run in runs
        if run.wears and run.limit and run.limit.sense is not Sense.WINDOW and run.points[-1].day == today
    )


def _forecast(run: TimeSeries, *, renewed: bool) -> Forecast:
    refusal = _refusal(run, renewed=renewed)
    if not refusal:
        per = _counted_by(run)
        axis = _axis(run, per)
        line = trend.fit(*axis)
        curve = trend.bent(line, *axis)
        now = _place(run.points[-1], per)
        met = trend.reached(line, curve, _bound(run), now, now + HORIZON * YEAR / _pace(run, per))
        if met:
            return _dated(run, per, line, curve, met)
        refusal = "backwards" if line.slope < -line.reach * line.u_slope else "no_wear"
    return Forecast(run=run, refused=say(f"forecast.{refusal}"))


def _refusal(run: TimeSeries, *, renewed: bool) -> str:
    """Why no line may be laid through these readings, or nothing."""
    points = run.points
    alone = len(points) == 1
    faults = {
        "restarted": alone and run.restarted is not None,
        "one_reading": alone,
        "past": _toward(run, points[-1].value.value) >= _bound(run),
        "renewed": renewed,
        "other_means": len({point.means for point in points}) > 1,
        "no_uncertainty": any(point.value.u <= 0 for point in points),
        "one_day": len({point.day for point in points}) == 1,
        "backwards": any(_fell(run, one, other) for one, other in pairwise(points)),
    }
    return next((fault for fault, holds in faults.items() if holds), "")


def _fell(run: TimeSeries, one: SeriesPoint, other: SeriesPoint) -> bool:
    """Whether wear ran backwards from one reading to the next by more than their expanded uncertainties (k = 2)."""
    drop = _toward(run, one.value.value) - _toward(run, other.value.value)
    return drop > 2 * math.hypot(one.value.u, other.value.u)


def _sign(run: TimeSeries) -> float:
    return -1.0 if run.limit and run.limit.sense is Sense.AT_LEAST else 1.0


def _toward(run: TimeSeries, value: float) -> float:
    """A value on an axis that grows towards the limit."""
    return _sign(run) * value


def _bound(run: TimeSeries) -> float:
    assert isinstance(run.limit, Limit)  # noqa: S101  (only runs with a limit come here)
    return _toward(run, units.to_base(run.limit.value, run.limit.unit))


def _counted_by(run: TimeSeries) -> str:
    """Miles or hours where the kind says so and every visit gives a higher figure than the one before, else time."""
    if run.wears_by == "time":
        return "time"
    logged = [getattr(point, run.wears_by) for point in run.points]
    rises = all(one is not None and other is not None and other > one for one, other in pairwise(logged))
    return run.wears_by if rises else "time"


def _place(point: SeriesPoint, per: str) -> float:
    return float(point.day.toordinal()) if per == "time" else float(getattr(point, per))


def _axis(run: TimeSeries, per: str) -> tuple[list[float], list[float], list[float]]:
    return (
        [_place(point, per) for point in run.points],
        [_toward(run, point.value.value) for point in run.points],
        [point.value.u for point in run.points],
    )


def _dated(
    run: TimeSeries, per: str, line: trend.FittedLine, curve: trend.Curve | None, met: trend.Met
) -> Forecast:
    rate = _sign(run) * line.slope * PER[per]
    return Forecast.model_validate(
        {
            "run": run,
            "per": per,
            "rate": _shown(run, rate),
            "rate_expanded": abs(_shown(run, 2 * line.u_slope * _excess(line) * PER[per])),
            "rests_on": _rests_on(run, curve),
            "quickens": curve is not None and curve.quickens,
            **dict(zip(("earliest", "middle", "latest"), (_day(run, per, x) for x in met), strict=True)),
            "edges": tuple(_edges(run, per, line, curve, met)),
        }
    )


def _rests_on(run: TimeSeries, curve: trend.Curve | None) -> str:
    """What so few readings cannot show, and the dates rest on instead: a key of the words."""
    if len(run.points) == 2:  # noqa: PLR2004  (the line goes through both: no scatter is left to see)
        return "two"
    if curve is None:
        return "close"
    return "three" if len(run.points) == 3 else ""  # noqa: PLR2004  (the curve goes through all three)


def _excess(line: trend.FittedLine) -> float:
    """How many times wider the readings make the edges than their declared uncertainties would."""
    return line.reach / trend.NORMAL


def _shown(run: TimeSeries, base: float) -> float:
    """A difference in the run's unit."""
    return units.from_base(base, run.unit)


def _pace(run: TimeSeries, per: str) -> float:
    """Days to one step of the axis: miles and hours at the pace at which she ran them from the first reading to the last."""
    if per == "time":
        return 1.0
    first, last = run.points[0], run.points[-1]
    return (last.day - first.day).days / (_place(last, per) - _place(first, per))


def _day(run: TimeSeries, per: str, x: float | None) -> dt.date | None:
    """The day of a place on the axis, never before today; None beyond the horizon, and where there is no place."""
    last = run.points[-1]
    days = math.inf if x is None else (x - _place(last, per)) * _pace(run, per)
    if days > HORIZON * YEAR:
        return None
    return last.day + dt.timedelta(days=max(0, math.floor(days)))


def _edges(
    run: TimeSeries, per: str, line: trend.FittedLine, curve: trend.Curve | None, met: trend.Met
) -> list[Edge]:
    """The band from the first reading to a little past the last crossing, for the plot."""
    start, end = _place(run.points[0], per), _place(run.points[-1], per)
    stop = max(end, min(met[0] if met[2] is None else met[2], end + FAR * (end - start)))
    places = [start + (stop - start) * step / EDGES for step in range(EDGES + 1)]
    return [_edge(run, line, curve, x) for x in places]


def _edge(run: TimeSeries, line: trend.FittedLine, curve: trend.Curve | None, x: float) -> Edge:
    """The line with its edges, the one towards the limit being the further of line's and curve's; a seen bend alone."""
    shape = curve if curve and curve.quickens else line
    low, middle, high = (shape.at(x) + side * shape.half_width(x) for side in (-1, 0, 1))
    if curve:
        high = max(high, curve.at(x) + curve.half_width(x))
    low, centre, high = (_shown(run, _sign(run) * value) for value in (low, middle, high))
    return Edge(x=x, low=low, middle=centre, high=high)


def scrapped(part: Graded, plugin: Plugin, subject: str) -> bool:
    """Whether an action before the next passage renews the part, or that of it which `subject` measures."""
    return any(_renews(action, part, plugin, subject) for action in part.actions)


def _renews(action: Action, part: Graded, plugin: Plugin, subject: str) -> bool:
    """A replacement graded `first` or `stop` and not declined: of the whole part, for damage, or for that very wear.

    What it settles is asked beside its words, since the inspector may have put them otherwise.
    """
    declined = action.edit is not None and action.edit.decline
    if action.remedy is not Remedy.REPLACE or action.grade.rank < Grade.FIRST.rank or declined:
        return False
    settled = [check for check in part.checks if check.id in action.settles]
    return _whole(action.task, plugin) or any(
        check.subject == subject or _condemns(check, plugin) for check in settled
    )


def _whole(ident: str, plugin: Plugin) -> bool:
    """Whether a task renews the whole part."""
    task = plugin.task(ident)
    return task is not None and task.renews


def _condemns(check: Check, plugin: Plugin) -> bool:
    """Whether what was found is damage, or asks for the whole part to be renewed."""
    if _whole(check.task, plugin):
        return True
    observation = plugin.observation(check.subject)
    return bool(observation and check.choice and observation.choice(check.choice).damage)
