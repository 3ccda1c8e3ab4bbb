"""Visits to one invented part, for tests of what time tells: values in, Assessments out, no files."""

from __future__ import annotations

import datetime as dt

from reporter.model.assessment import Assessments
from reporter.model.findings import Component
from reporter.model.history import Forecast, PartChange
from reporter.model.job import Job, Reading
from reporter.model.plugin import Plugin
from reporter.model.sheet import Inspection, Issue
from reporter.model.template import Template
from reporter.model.terms import Grade
from tests.grade import cases

WEARS = cases.TEMPLATE.model_copy(update={"forecasts": True})
LIMIT = cases.limit(4.0, Grade.FIRST)


def kind(**more: object) -> Plugin:
    """The part of the grading tests, its gap being wear."""
    plugin = cases.plugin(LIMIT)
    wearing = tuple(each.model_copy(update={"wears": True, **more}) for each in plugin.readings)
    return plugin.model_copy(update={"readings": wearing})


def visit(
    day: str, *readings: Reading, parts: tuple[Component, ...] | None = None, number: str = "", **more: object
) -> Job:
    """One visit on `day` (its report numbered by it) to the part `one`."""
    made = cases.job(*(parts if parts is not None else (cases.part(),)), readings=readings)
    sheet = made.sheet.model_copy(
        update={
            "inspection": Inspection(dates=(dt.date.fromisoformat(day),), place="here"),
            "report": Issue(number=number or f"R-{day}"),
            **more,
        }
    )
    return made.model_copy(update={"sheet": sheet})


def graded(now: Job, *earlier: Job, plugin: Plugin | None = None, template: Template = WEARS) -> Assessments:
    """The visit graded with its earlier ones."""
    return cases.grades(now.model_copy(update={"earlier": earlier}), plugin or kind(), template=template)


def forecast(now: Job, *earlier: Job, plugin: Plugin | None = None) -> Forecast:
    """The forecast of the only run."""
    (found,) = graded(now, *earlier, plugin=plugin).history.forecasts
    return found


def change(now: Job, *earlier: Job) -> PartChange:
    """The change of the part `one`."""
    return next(each for each in graded(now, *earlier).history.changes if each.component == "one")
