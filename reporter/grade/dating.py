"""By when: the day and the words for every action, by its grade, the plans of the job, and a forecast.

Comes in: graded parts, their history, the plans. Goes out: the same parts, each action with its day. Today is the inspection;
nothing reads the clock. A forecast brings a day forward and never pushes one back.
"""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Sequence

from reporter.model.assessment import Action, Graded
from reporter.model.history import History
from reporter.model.job import Job
from reporter.model.quantity import PartialDate
from reporter.model.saying import Text, say
from reporter.model.sheet import Plans
from reporter.model.template import Template
from reporter.model.terms import Grade

YEARLY = 12
"""Months between two looks at a part; *common practice*: once a year and before a long passage."""


def months_on(day: dt.date, months: int) -> dt.date:
    """The same day `months` later; the month's last day where it has no such day (29 February, the 31st)."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def due_day(grade: Grade, plans: Plans, today: dt.date) -> dt.date | None:
    """The last day for something of that grade: the plans' dates at their earliest; None where only words can say it."""
    passage, yard = (each.first if each else None for each in (plans.next_passage, plans.next_haul_out))
    year = months_on(today, YEARLY)
    days = {
        Grade.STOP: today,
        Grade.FIRST: passage,
        Grade.UNSEEN: passage,
        Grade.PLAN: yard or year,
        Grade.WATCH: min(year, passage or year),
        Grade.CLEAR: year,
    }
    return days[grade]


def dated(parts: Sequence[Graded], history: History, job: Job, template: Template) -> tuple[Graded, ...]:
    """The parts, each action with its day and with words for it; a forecast may bring both forward."""
    return tuple(
        part.model_copy(
            update={"actions": tuple(_dated(action, part, history, job, template) for action in part.actions)}
        )
        for part in parts
    )


def _dated(action: Action, part: Graded, history: History, job: Job, template: Template) -> Action:
    if action.edit and action.edit.by_when:
        update = {"due": _written(action.by_when), "dated_by": "inspector"}
        return action.model_copy(update=update)
    plans, today = job.sheet.next, job.sheet.inspection.last_day
    day = due_day(action.grade, plans, today)
    # Only wear that the action itself settles may hurry it: another reading of the part has an action of its own.
    forecast = earliest(part, history, _subjects(action, part))
    if forecast and (day is None or forecast < day) and action.grade.rank < Grade.STOP.rank:
        update = {
            "by_when": say("due.forecast", date=forecast),
            "due": forecast,
            "dated_by": "forecast",
        }
        return action.model_copy(update=update)
    said = action.by_when or by_when(action.grade, plans, template)
    return action.model_copy(update={"by_when": said, "due": day})


def by_when(grade: Grade, plans: Plans, template: Template) -> Text:
    """When an action of that urgency is due, in words, with the date of the passage or haul-out where known."""
    if own := template.due.get(grade.value):  # type: ignore[call-overload]
        return say(own)
    if grade in {Grade.FIRST, Grade.STOP, Grade.UNSEEN} and plans.next_passage:
        return say(f"due.{grade}_dated", date=plans.next_passage)
    if grade is Grade.PLAN and plans.next_haul_out:
        return say("due.plan_dated", date=plans.next_haul_out)
    return say(f"due.{grade}")


def _written(text: str) -> dt.date | None:
    """The inspector's own day, where it is written as a date."""
    try:
        return PartialDate.model_validate(text.strip()).last
    except ValueError:
        return None


def _subjects(action: Action, part: Graded) -> set[str]:
    return {check.subject for check in part.checks if check.id in action.settles}


def earliest(part: Graded, history: History, subjects: set[str] | None = None) -> dt.date | None:
    """The earliest day at which wear of the part (of these quantities) may reach its next limit."""
    days = [
        each.earliest
        for each in history.forecasts_of(part.component.id)
        if each.earliest and (subjects is None or each.run.subject in subjects)
    ]
    return min(days, default=None)
