"""What time tells: earlier visits, what changed since, readings in date order, forecasts, and what is due when."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from enum import StrEnum
from functools import cached_property
from typing import Literal

from reporter.model.base import Noun, grouped
from reporter.model.citation import Limit
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import Access, Grade, LimitKind, Remedy, Sense


class Changed(StrEnum):
    """How a part stands against the latest earlier record of it."""

    WORSE = "worse"
    GONE = "gone"
    MIXED = "mixed"
    WORN = "worn"
    NOT_SEEN = "not_seen"
    FIRST_TIME = "first_time"
    RENEWED = "renewed"
    DONE = "done"
    BETTER = "better"
    UNCHANGED = "unchanged"


class Visit(Noun):
    """An inspection: its report's number, its day, who made it, and the log and the hours as far as known."""

    number: str
    day: dt.date
    place: str
    author: str = ""
    miles: Value | None = None
    hours: Value | None = None


class Record(Noun):
    """Where a part stands in an earlier folder: the report's number, the day, and the id it had then."""

    number: str
    day: dt.date
    ident: str


class PartChange(Noun):
    """One part against the latest earlier record of it; `records` are all of them, oldest first.

    `before` is that record graded with today's limits, `issued` the grade it was issued with where known and
    different. `was` is the id that the part had then. `since` is the day of that record. `incidents` are what the log
    tells of the part since then, in its own words.
    """

    component: str
    title: Text
    changed: Changed
    before: Grade | None = None
    issued: Grade | None = None
    now: Grade | None = None
    was: str = ""
    since: dt.date | None = None
    told_before: Text = ""
    told_now: Text = ""
    incidents: tuple[Text, ...] = ()
    records: tuple[Record, ...] = ()


class SeriesPoint(Noun):
    """One reading of a run. `means` is how it was taken: method, sums it went through, instruments.

    `miles` (nautical miles) and `hours` are what the boat's log and engine showed that day.
    """

    day: dt.date
    value: Value
    means: Text = ""
    miles: float | None = None
    hours: float | None = None


class TimeSeries(Noun):
    """Readings of one quantity at one place on one part in date order; `unit` is the one to print them in.

    A run begins anew when the part was renewed or the reading was changed by work (`restarted`).
    """

    component: str
    title: Text
    subject: str
    name: Text
    at: str = ""
    side: str = ""
    unit: str
    imperial: str = ""
    points: tuple[SeriesPoint, ...]
    limit: Limit | None = None
    wears: bool = False
    wears_by: Literal["time", "miles", "hours"] = "time"
    restarted: dt.date | None = None


def worsened(run: TimeSeries, limits: Iterable[Limit]) -> bool | None:
    """Whether the last reading lies nearer to the limit (or further past it) than the one before; False: further from it.

    None where it moved by less than both uncertainties together (k = 2), or where no limit of condition tells which way
    is worse: there is none, or it is a window.
    """
    if len(run.points) < 2:  # noqa: PLR2004 - one reading has not moved
        return None
    before, last = run.points[-2:]
    change = last.value.value - before.value.value
    own = [each for each in limits if each.quantity == run.subject and not each.between]
    senses = {each.sense for each in own if each.kind is LimitKind.CONDITION}
    one_way = {Sense.AT_MOST: change > 0, Sense.AT_LEAST: change < 0}
    if abs(change) <= 2 * math.hypot(before.value.u, last.value.u) or len(senses) != 1:
        return None
    return one_way.get(senses.pop())


class Edge(Noun):
    """The line (or bent curve) and its 10 and 90 % edges at one place of the forecast's axis, in the run's unit."""

    x: float
    low: float
    middle: float
    high: float


class Forecast(Noun):
    """When a run reaches its limit: from `earliest` (10 %) to `latest` (90 %), or in plain words why nobody can say.

    `per` is what the rate is counted by: a year, 1000 nautical miles or 100 hours; rates are in the run's unit with
    their expanded uncertainty. A date is None where it lies more than `HORIZON` years ahead. `quickens`: the readings
    bend towards the limit, so only the earliest date is given. `rests_on` tells what so few readings leave unseen: of
    `two` the scatter and a bend, of those too `close` in time a bend, of `three` which of the two it is.
    """

    run: TimeSeries
    per: Literal["time", "miles", "hours"] = "time"
    refused: Text = ""
    rate: float = 0.0
    rate_expanded: float = 0.0
    quickens: bool = False
    rests_on: Literal["", "two", "close", "three"] = ""
    earliest: dt.date | None = None
    middle: dt.date | None = None
    latest: dt.date | None = None
    edges: tuple[Edge, ...] = ()


class Carried(Noun):
    """A recommendation of an earlier report and what became of it.

    `first` is the report it was first made in with its number there; `number` is its number in this report, 0 when it
    is not made again. `lapsed`: not asked for any more, and nothing tells that it was done.
    """

    component: str
    title: Text
    what: Text
    first: str
    since: dt.date
    grade: Grade
    state: Literal["open", "not_seen", "done", "declined", "lapsed"]
    number: int = 0
    action: str = ""
    by: str = ""
    on: Text = ""
    proof: tuple[str, ...] = ()
    reason: Text = ""


class History(Noun):
    """Everything that earlier folders tell: visits oldest first, changes, runs of readings, forecasts, recommendations."""

    visits: tuple[Visit, ...] = ()
    changes: tuple[PartChange, ...] = ()
    runs: tuple[TimeSeries, ...] = ()
    forecasts: tuple[Forecast, ...] = ()
    carried: tuple[Carried, ...] = ()
    remarks: tuple[Text, ...] = ()

    def runs_of(self, ident: str) -> tuple[TimeSeries, ...]:
        """The runs of one component."""
        return self._runs.get(ident, ())

    @cached_property
    def _runs(self) -> dict[str, tuple[TimeSeries, ...]]:
        return grouped(self.runs, lambda each: each.component)

    def forecasts_of(self, ident: str) -> tuple[Forecast, ...]:
        """The forecasts made of readings of one component."""
        return self._forecasts.get(ident, ())

    @cached_property
    def _forecasts(self) -> dict[str, tuple[Forecast, ...]]:
        return grouped(self.forecasts, lambda each: each.run.component)


class Due(Noun):
    """Something due: `on` is the last day for it, or None where only words can say it (`when`).

    `reason` is what set the day. `bring` are parts and supplies. `unrecorded`: care of which no earlier time is on
    record.
    """

    component: str = ""
    title: Text = ""
    place: Text = ""
    what: Text
    on: dt.date | None
    when: Text
    reason: Literal["grade", "inspector", "interval", "forecast", "care", "look", "passage"]
    grade: Grade | None = None
    number: int = 0
    remedy: Remedy
    access: Access = Access.UNKNOWN
    bring: tuple[Text, ...] = ()
    unrecorded: bool = False
