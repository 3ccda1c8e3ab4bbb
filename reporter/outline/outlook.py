"""Forecasts in words and as plots, with the refusals and the way they are made.

Comes in: what was graded. Goes out: blocks, or nothing where the template wants no forecast. A plot shows readings with their
uncertainty, the limit, the line and its 10 and 90 % edges, readable without colour, with everything it shows in words.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from reporter.engineering import units
from reporter.engineering.figures import deserved
from reporter.model.drawing import XY, Drawing, Ellipse, Path, Shape, Words
from reporter.model.history import Forecast, SeriesPoint
from reporter.model.quantity import PartialDate
from reporter.model.report import Block, Figure, Heading, Paragraph, Span
from reporter.outline.blocks import cell, head, note, table
from reporter.outline.context import Context
from reporter.outline.readings import dated, limit_of, where
from reporter.wording import Catalogue, date, exact
from reporter.wording.numbers import number, with_unit

PLOTTED = 2
"""So many forecasts are drawn as well: those that may reach their limit first."""
WIDTH, HEIGHT = 320.0, 120.0
LEFT, RIGHT, TOP, BOTTOM = 44.0, 12.0, 14.0, 20.0
ROOM = 0.08
"""Free room above and below the curves, as a share of the height."""


def write(context: Context) -> list[Block]:
    """Each forecast as a sentence, the soonest first and with its plot, then what could not be forecast and why."""
    found, words = context.assessments.history.forecasts, context.words
    made = [each for each in found if not each.refused]
    if not found or not (made or context.assessments.history.visits):
        return []
    blocks: list[Block] = [
        Heading(level=2, text=words("forecast.title"), anchor="forecast"),
        note(words("forecast.note")),
    ]
    made.sort(key=lambda each: each.earliest or dt.date.max)
    # What all of them rest on is told once.
    rests = {forecast.rests_on for forecast in made}
    shared = rests.pop() if len(made) > 1 and len(rests) == 1 else ""
    if shared:
        blocks.append(note(words(f"forecast.{shared}")))
    for place, forecast in enumerate(made):
        told = sentence(forecast, words, rests=not shared)
        drawn = place < PLOTTED
        text = (Span(text=f"{forecast.run.title}: ", style="strong"), Span(text=told))
        blocks.append(Paragraph(text=text, keep=drawn))
        if drawn:
            blocks.append(Figure(drawing=plot(forecast, words, told), width="column"))
    rows = [(head(why), cell(parts)) for why, parts in refusals(found, words)]
    return [*blocks, table(words, "forecast", rows, why=1, parts=1.8)] if rows else blocks


def sentence(forecast: Forecast, words: Catalogue, *, rests: bool = True) -> str:
    """Rate with its uncertainty, then the range of dates, then, if it `rests` in this sentence, what the range rests on."""
    run, spread = forecast.run, forecast.rate_expanded
    shown = number(forecast.rate, expanded=spread)
    rate = words(
        "forecast.rate", name=run.name, at=where(run, words), rate=shown, u=number(spread, decimals=deserved(forecast.rate, spread)), unit=run.unit,
        per=words(f"forecast.per_{forecast.per}"),
    )  # fmt: skip
    pace = f" {words('forecast.pace')}" if forecast.per != "time" else ""
    ground = f" {words(f'forecast.{forecast.rests_on}')}" if rests and forecast.rests_on else ""
    return f"{rate} {_range(forecast, words)}{pace}{ground}"


def _range(forecast: Forecast, words: Catalogue) -> str:
    shown = with_unit(exact(round(limit_of(forecast.run), 6)), forecast.run.unit)
    if forecast.earliest is None:
        return words("forecast.beyond", limit=shown)
    ident = "quickens" if forecast.quickens else "range" if forecast.latest else "range_open"
    earliest, latest = _month(forecast.earliest), _month(forecast.latest)
    if earliest == latest:
        earliest, latest = date(forecast.earliest), date(forecast.latest)
    return words(f"forecast.{ident}", limit=shown, earliest=earliest, latest=latest)


def _month(day: dt.date | None) -> str:
    """A day that a line through readings leads to, as near as that can be told."""
    return date(PartialDate(year=day.year, month=day.month)) if day else ""


def refusals(found: tuple[Forecast, ...], words: Catalogue) -> Iterator[tuple[str, str]]:
    """What could not be forecast, by the reason: each part with what was measured of it, and at which of its places."""
    told: dict[str, dict[str, dict[str, list[str]]]] = {}
    for each in found:
        if each.refused:
            measured = told.setdefault(each.refused, {}).setdefault(each.run.title, {})
            measured.setdefault(each.run.name, []).append(where(each.run, words))
    for why, parts in told.items():
        yield why, "; ".join(f"{part}: {_measured(measured, words)}" for part, measured in parts.items())


def _measured(places: Mapping[str, Sequence[str]], words: Catalogue) -> str:
    return ", ".join(
        words.inside(name) + "".join(dict.fromkeys(at)).replace(") (", "; ") for name, at in places.items()
    )


@dataclass(frozen=True)
class PlotFrame:
    """Where numbers stand on the drawing."""

    x: tuple[float, float]
    y: tuple[float, float]

    def at(self, x: float, y: float) -> XY:
        """A place of the axes as a place of the drawing."""
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return LEFT + across * (WIDTH - LEFT - RIGHT), HEIGHT - BOTTOM - up * (HEIGHT - TOP - BOTTOM)


def plot(forecast: Forecast, words: Catalogue, said: str) -> Drawing:
    """The forecast drawn; `said` is its sentence, which the alternative text repeats."""
    run, limit = forecast.run, limit_of(forecast.run)
    points = [(_place(forecast, point), *_spread(forecast, point)) for point in run.points]
    frame = _frame(forecast, points, limit)
    shown = with_unit(exact(limit), run.unit)
    shapes: list[Shape] = [
        *_band(forecast, frame),
        *_limit_line(frame, limit, words("forecast.limit", value=shown)),
    ]
    for x, middle, half in points:
        shapes += _reading(frame, x, middle, half)
    return Drawing(
        width=WIDTH,
        height=HEIGHT,
        shapes=(*shapes, *_axes(forecast, frame)),
        alt=words(
            "forecast.alt",
            name=run.name,
            readings="; ".join(dated(run, point) for point in run.points),
            limit=shown,
            said=said,
        ),
    )


def _place(forecast: Forecast, point: SeriesPoint) -> float:
    return (
        float(point.day.toordinal()) if forecast.per == "time" else float(getattr(point, forecast.per) or 0.0)
    )


def _spread(forecast: Forecast, point: SeriesPoint) -> tuple[float, float]:
    unit = forecast.run.unit
    return units.from_base(point.value.value, unit), units.from_base(2 * point.value.u, unit)


def _frame(forecast: Forecast, points: list[tuple[float, float, float]], limit: float) -> PlotFrame:
    heights = [limit, *(each.middle for each in forecast.edges)]
    heights += [edge for _, middle, half in points for edge in (middle - half, middle + half)]
    low, high = min(heights), max(heights)
    room = (high - low) * ROOM or 1.0
    return PlotFrame((forecast.edges[0].x, forecast.edges[-1].x), (low - room, high + room))


def _band(forecast: Forecast, frame: PlotFrame) -> list[Shape]:
    """The band as a wash with dashed edges, the line through it; both end at the frame."""
    low, high = frame.y

    def held(y: float) -> float:
        return min(max(y, low), high)

    lower = tuple(frame.at(each.x, held(each.low)) for each in forecast.edges)
    upper = tuple(frame.at(each.x, held(each.high)) for each in forecast.edges)
    middle = tuple(frame.at(each.x, each.middle) for each in forecast.edges)
    return [
        Path(points=(*lower, *reversed(upper)), closed=True, stroke="none", fill="wash"),
        Path(points=lower, stroke="second", weight="fine", dashed=True),
        Path(points=upper, stroke="second", weight="fine", dashed=True),
        Path(points=middle, stroke="second", weight="fine"),
    ]


def _limit_line(frame: PlotFrame, limit: float, label: str) -> list[Shape]:
    start, end = frame.at(frame.x[0], limit), frame.at(frame.x[1], limit)
    return [
        Path(points=(start, end), stroke="ink", weight="bold"),
        Words(at=(start[0] + 3, start[1] - 3), text=label, size=7.5),
    ]


def _reading(frame: PlotFrame, x: float, middle: float, half: float) -> list[Shape]:
    """A dot with its whisker (k = 2)."""
    foot, head, dot = frame.at(x, middle - half), frame.at(x, middle + half), frame.at(x, middle)
    caps = [
        Path(points=((end[0] - 2.5, end[1]), (end[0] + 2.5, end[1])), weight="fine") for end in (foot, head)
    ]
    return [
        Path(points=(foot, head), weight="fine"),
        *caps,
        Ellipse(centre=dot, radii=(2.4, 2.4), fill="ink"),
    ]


def _axes(forecast: Forecast, frame: PlotFrame) -> list[Shape]:
    """Both ends of both axes named; the rest can be read off the sentence."""
    (left, right), (low, high) = frame.x, frame.y
    corner, foot, head = frame.at(left, low), frame.at(right, low), frame.at(left, high)
    shapes: list[Shape] = [Path(points=(head, corner, foot), stroke="rule", weight="fine")]
    for x, anchor in ((left, "start"), (right, "end")):
        at = (frame.at(x, low)[0], HEIGHT - 6)
        shapes.append(
            Words.model_validate({"at": at, "text": _named(forecast, x), "size": 7.5, "anchor": anchor})
        )
    for y in (low, high):
        at = (LEFT - 4, frame.at(left, y)[1] + (2.5 if y == low else 5))
        text = with_unit(number(y, expanded=(high - low) / 10), forecast.run.unit)
        shapes.append(Words(at=at, text=text, size=7.5, anchor="end"))
    return shapes


def _named(forecast: Forecast, x: float) -> str:
    if forecast.per == "time":
        return date(dt.date.fromordinal(round(x)))
    return with_unit(number(x, decimals=0), {"miles": "nmi", "hours": "h"}[forecast.per])
