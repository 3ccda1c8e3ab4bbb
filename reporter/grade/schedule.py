"""What is due when: actions by grade, plans and forecast; ages, care and the next look by interval.

Comes in: graded parts, their history, the plans of the job. Goes out: actions with their day, and the schedule. Today is the
inspection; nothing reads the clock. A forecast brings a day forward and never pushes one back. The floor is *common practice*:
everything is looked at once a year, and before a long passage.
"""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from reporter.grade.lineage import bounds, fitted_on
from reporter.model.assessment import Action, Graded
from reporter.model.history import Due, History
from reporter.model.job import Component, Job, Plans
from reporter.model.plugin import Care, Plugin
from reporter.model.quantity import PartialDate
from reporter.model.template import Template
from reporter.model.terms import Extent, Grade, LimitKind, Remedy, Verdict
from reporter.wording import Catalogue, catalogue, date, exact
from reporter.wording.numbers import with_unit

YEARLY = 12
"""Months between two looks at a part; *common practice*: once a year and before a long passage."""
HANDS_ON = frozenset({Remedy.CLEAN, Remedy.LUBRICATE, Remedy.REFIT, Remedy.REPAIR, Remedy.REPLACE})
"""Remedies that take the supplies which a kind names for itself."""


def months_on(day: dt.date, months: int) -> dt.date:
    """The same day `months` later; the month's last day where it has no such day (29 February, the 31st)."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def due_day(grade: Grade, plans: Plans, today: dt.date) -> dt.date | None:
    """The last day for something of that grade: the plans' dates at their earliest; None where only words can say it."""
    passage, yard = (bounds(each)[0] if each else None for each in (plans.next_passage, plans.next_haul_out))
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
    words = catalogue(job.sheet.lang, job.sheet.terms)
    return tuple(
        part.model_copy(
            update={
                "actions": tuple(
                    _dated(action, part, history, job, template, words) for action in part.actions
                )
            }
        )
        for part in parts
    )


def _dated(
    action: Action, part: Graded, history: History, job: Job, template: Template, words: Catalogue
) -> Action:
    if action.edit and action.edit.by_when:
        update = {"due": _written(action.by_when), "dated_by": "inspector"}
        return action.model_copy(update=update)
    plans, today = job.sheet.next, job.sheet.inspection.last_day
    day = due_day(action.grade, plans, today)
    forecast = _earliest(part, history, _subjects(action, part))
    if forecast and (day is None or forecast < day) and action.grade.rank < Grade.STOP.rank:
        update = {
            "by_when": words("due.forecast", date=date(forecast)),
            "due": forecast,
            "dated_by": "forecast",
        }
        return action.model_copy(update=update)
    said = action.by_when or by_when(action.grade, plans, words, template)
    return action.model_copy(update={"by_when": said, "due": day})


def by_when(grade: Grade, plans: Plans, words: Catalogue, template: Template) -> str:
    """When an action of that urgency is due, in words, with the date of the passage or haul-out where known."""
    if own := template.due.get(grade.value):  # type: ignore[call-overload]
        return words(own)
    if grade in {Grade.FIRST, Grade.STOP, Grade.UNSEEN} and plans.next_passage:
        return words(f"due.{grade}_dated", date=date(plans.next_passage))
    if grade is Grade.PLAN and plans.next_haul_out:
        return words("due.plan_dated", date=date(plans.next_haul_out))
    return words(f"due.{grade}")


def _written(text: str) -> dt.date | None:
    """The inspector's own day, where it is written as a date."""
    try:
        return bounds(PartialDate.model_validate(text.strip()))[1]
    except ValueError:
        return None


def _subjects(action: Action, part: Graded) -> set[str]:
    return {check.subject for check in part.checks if check.id in action.settles}


def _earliest(part: Graded, history: History, subjects: set[str] | None = None) -> dt.date | None:
    """The earliest day at which wear of the part (of these quantities) may reach its next limit."""
    days = [
        each.earliest
        for each in history.forecasts
        if each.run.component == part.component.id
        and each.earliest
        and (subjects is None or each.run.subject in subjects)
    ]
    return min(days, default=None)


def schedule(
    parts: Sequence[Graded], history: History, job: Job, plugins: Mapping[str, Plugin]
) -> tuple[Due, ...]:
    """Everything due, by day; what has no day comes first, as it waits for the next passage."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    found: list[Due] = []
    for part in parts:
        if part.component.examined.extent is not Extent.NOT_FITTED:
            plugin = plugins[part.component.kind]
            found += [_action(part, action, plugin) for action in part.actions if not _closed(action)]
            found += [
                *_ages(part, job, words),
                *_care(part, plugin, job, words),
                _look(part, history, job, words),
            ]
    found += _passage(job, words)
    first = dt.date.min
    return tuple(
        sorted(found, key=lambda due: (due.on or first, due.number or 10_000, due.component, due.what))
    )


def _closed(action: Action) -> bool:
    return bool(action.edit and (action.edit.done or action.edit.decline))


def place_of(component: Component) -> str:
    """Where aboard, with the group: "port, under the cockpit sole"."""
    return ", ".join(text for text in (component.group, component.place) if text)


def _action(part: Graded, action: Action, plugin: Plugin) -> Due:
    bring = (*action.parts, *action.supplies)
    return Due(
        component=part.component.id,
        title=part.title,
        place=place_of(part.component),
        what=action.what,
        on=action.due,
        when=action.by_when,
        reason=action.dated_by,
        grade=action.grade,
        number=action.number,
        remedy=action.remedy,
        access=action.access,
        bring=bring or (plugin.supplies if action.remedy in HANDS_ON else ()),
    )


def _ages(part: Graded, job: Job, words: Catalogue) -> Iterator[Due]:
    """Ages that are still inside their limit: the day on which they will not be."""
    fitted = fitted_on(job, part.component)
    for check in part.checks:
        ahead = check.verdict in {Verdict.WITHIN, Verdict.CLOSE} and check.governs
        if not (check.kind is LimitKind.AGE and check.limit and check.value and ahead and fitted):
            continue
        months = round(check.limit.value * 12)
        if check.limit.unit == "years" and months_on(fitted.middle, months) > job.sheet.inspection.last_day:
            limit = with_unit(exact(check.limit.value), check.limit.unit)
            yield _plain(
                part, words("schedule.age", limit=limit, source=check.limit.source.title), months_on(fitted.middle, months),
                words("schedule.age_when", date=date(fitted)), "interval", check.limit.remedy or Remedy.LOOK,
            )  # fmt: skip


def _care(part: Graded, plugin: Plugin, job: Job, words: Catalogue) -> Iterator[Due]:
    """Care at fixed times, counted from the last time on record; none on record is due at once."""
    open_ = {action.remedy for action in part.actions if not _closed(action)}
    for care in plugin.care:
        if (
            care.remedy in open_ and care.remedy in HANDS_ON
        ) or part.component.examined.extent is Extent.NOT_FOUND:
            continue
        last = _last_done(part.component, care, job)
        on = months_on(last, care.months) if last else None
        when = (
            words("schedule.care_when", months=care.months, date=date(last))
            if last
            else words("schedule.care_never")
        )
        day = max(on, job.sheet.inspection.last_day) if on else job.sheet.inspection.last_day
        bring = (care.supply,) if care.supply else ()
        yield _plain(part, care.what, day, when, "care", care.remedy).model_copy(update={"bring": bring})


def _last_done(component: Component, care: Care, job: Job) -> dt.date | None:
    """The latest day on which this care, or work of its remedy, is on record, in this folder or an earlier one."""
    names = {component.id, component.was} - {""}
    records = [(job, component)]
    records += [
        (past, old)
        for past in job.earlier
        for old in past.components
        if old.id in names and old.kind == component.kind
    ]
    days = [
        done.date.middle if done.date else record.sheet.inspection.last_day
        for record, old in records
        for done in old.done
        if care.id in done.settles or (care.remedy in HANDS_ON and done.remedy is care.remedy)
    ]
    return max(days, default=None)


def _look(part: Graded, history: History, job: Job, words: Catalogue) -> Due:
    """The next look at the part: a year from now, sooner where wear may reach a limit before."""
    year = months_on(job.sheet.inspection.last_day, YEARLY)
    forecast = _earliest(part, history)
    if forecast and forecast < year:
        return _plain(
            part,
            words("schedule.measure"),
            forecast,
            words("due.forecast", date=date(forecast)),
            "forecast",
            Remedy.LOOK,
        )
    return _plain(part, words("schedule.look"), year, words("schedule.look_when"), "look", Remedy.LOOK)


def _plain(part: Graded, what: str, on: dt.date, when: str, reason: str, remedy: Remedy) -> Due:
    return Due.model_validate(
        {
            "component": part.component.id, "title": part.title, "place": place_of(part.component), "what": what,
            "on": on, "when": when, "reason": reason, "remedy": remedy,
        }
    )  # fmt: skip


def _passage(job: Job, words: Catalogue) -> list[Due]:
    """Before the passage that is planned, one walk over everything."""
    plans = job.sheet.next
    if plans.next_passage is None:
        return []
    what = words("schedule.passage_named", what=plans.passage) if plans.passage else words("schedule.passage")
    when = words("due.first_dated", date=date(plans.next_passage))
    on = bounds(plans.next_passage)[0]
    return [Due(what=what, on=on, when=when, reason="passage", remedy=Remedy.LOOK)]
