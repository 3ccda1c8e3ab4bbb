"""Forecasts in words and as plots, with the refusals and the way they are made.

Comes in: what was graded. Goes out: blocks, or nothing where the template wants no forecast.
"""

from __future__ import annotations

import datetime as dt

from reporter.engineering.figures import deserved
from reporter.model.history import Forecast
from reporter.model.quantity import PartialDate
from reporter.model.report import Block, Figure, Heading, Paragraph, Span
from reporter.outline.blocks import note
from reporter.outline.context import Context
from reporter.outline.readings import limit_of, where
from reporter.outline.trend_plot import plot
from reporter.wording import Catalogue, date, exact, number
from reporter.wording.numbers import with_unit

PLOTTED = 2
"""Forecasts that are drawn as well: those that may reach their limit first."""


def write(context: Context) -> list[Block]:
    """Each forecast as a sentence with its plot, then what could not be forecast and why."""
    found, words = context.assessments.history.forecasts, context.words
    made = [each for each in found if not each.refused]
    if not found or not (made or context.assessments.history.visits):
        return []
    blocks: list[Block] = [
        Heading(level=2, text=words("forecast.title"), anchor="forecast"),
        note(words("forecast.note")),
    ]
    soonest = sorted(made, key=lambda each: each.earliest or dt.date.max)[:PLOTTED]
    # What all of them rest on is told once.
    rests = {forecast.rests_on for forecast in made}
    shared = rests.pop() if len(made) > 1 and len(rests) == 1 else ""
    if shared:
        blocks.append(note(words(f"forecast.{shared}")))
    for forecast in made:
        told = sentence(forecast, words, rests=not shared)
        drawn = forecast in soonest
        text = (Span(text=f"{forecast.run.title}: ", style="strong"), Span(text=told))
        blocks.append(Paragraph(text=text, keep=drawn))
        if drawn:
            blocks.append(Figure(drawing=plot(forecast, words, told), width="column"))
    if refused := refusals(found, words):
        blocks.append(note(f"{words('forecast.refusals')} {' '.join(refused)}"))
    return blocks


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


def refusals(found: tuple[Forecast, ...], words: Catalogue) -> list[str]:
    """What could not be forecast, one sentence per part and reason, with all of its places."""
    places: dict[tuple[str, str], list[str]] = {}
    for each in found:
        if each.refused:
            places.setdefault((each.run.title, each.refused), []).append(where(each.run, words))
    return [
        words("forecast.refused", part=part, why=why, at="".join(dict.fromkeys(at)).replace(") (", "; "))
        for (part, why), at in places.items()
    ]
