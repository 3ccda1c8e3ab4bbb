"""What is due: every open action, ages about to be reached, care at fixed times, and the next look at each part.

Comes in: graded parts with dated actions, their history, the job. Goes out: the schedule. The floor is *common practice*:
everything is looked at once a year, and before a long passage.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from reporter.grade.dating import YEARLY, earliest, months_on
from reporter.grade.lineage import fitted_on
from reporter.grade.materials import supplies
from reporter.grade.phrases import limit_text, source_of
from reporter.model.assessment import Action, Graded
from reporter.model.findings import Component
from reporter.model.history import Due, History
from reporter.model.job import Job
from reporter.model.plugin import Care, Plugin
from reporter.model.saying import Text, named, say, series
from reporter.model.terms import Extent, LimitKind, Remedy, Verdict

HANDS_ON = frozenset({Remedy.CLEAN, Remedy.LUBRICATE, Remedy.REFIT, Remedy.REPAIR, Remedy.REPLACE})
"""Remedies that take the supplies which a kind names for itself."""


def schedule(
    parts: Sequence[Graded], history: History, job: Job, plugins: Mapping[str, Plugin]
) -> tuple[Due, ...]:
    """Everything due, by day; what has no day comes first, as it waits for the next passage."""
    found: list[Due] = []
    for part in parts:
        if part.component.examined.extent is not Extent.NOT_FITTED:
            plugin = plugins[part.component.kind]
            found += [_action(part, action, plugin) for action in part.actions if action.is_open]
            found += [
                *_ages(part, plugin, job),
                *_care(part, plugin, job),
                _look(part, history, job),
            ]
    found += _passage(job)
    first = dt.date.min
    return tuple(sorted(found, key=lambda due: (due.on or first, due.number or 10_000, due.component)))


def place_of(component: Component) -> Text:
    """Where aboard, with the side or group: "port, under the cockpit sole"."""
    if not component.side:
        return ", ".join(text for text in (component.group, component.place) if text)
    side = say(f"side.{component.side}")
    return series([side, component.place], ", ") if component.place else side


def _action(part: Graded, action: Action, plugin: Plugin) -> Due:
    bring = (*action.parts, *action.supplies)
    # What a person's own job uses up, nobody has said.
    by_kind = action.remedy in HANDS_ON and action.proposed_by == "rule"
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
        bring=bring or (supplies(plugin) if by_kind else ()),
    )


def _ages(part: Graded, plugin: Plugin, job: Job) -> Iterator[Due]:
    """Ages that are still inside their limit: the day on which they will not be."""
    fitted = fitted_on(job, part.component)
    for check in part.checks:
        ahead = check.verdict in {Verdict.WITHIN, Verdict.CLOSE} and check.governs
        if not (check.kind is LimitKind.AGE and check.limit and check.value and ahead and fitted):
            continue
        months = round(check.limit.value * 12)
        if check.limit.unit == "years" and months_on(fitted.middle, months) > job.sheet.inspection.last_day:
            what = say("schedule.age", limit=limit_text(check.limit), source=source_of(check.limit))
            yield _plain(
                part, what, months_on(fitted.middle, months),
                say("schedule.age_when", date=fitted), "interval", _remedy(check.task, plugin),
            )  # fmt: skip


def _remedy(task: str, plugin: Plugin) -> Remedy:
    declared = plugin.task(task)
    return declared.remedy if declared else Remedy.LOOK


def _care(part: Graded, plugin: Plugin, job: Job) -> Iterator[Due]:
    """Care at fixed times, counted from the last time on record; with none on record, from the inspection.

    Nobody knows when it was done last; but the part was looked at on that day, and what it lacks is among its actions.
    """
    open_ = {action.remedy for action in part.actions if action.is_open}
    today = job.sheet.inspection.last_day
    for care in plugin.care:
        if (
            care.remedy in open_ and care.remedy in HANDS_ON
        ) or part.component.examined.extent is Extent.NOT_FOUND:
            continue
        last = _last_done(part.component, care, job)
        told = {"months": care.months, "date": last} if last else {"months": care.months}
        when = say("schedule.care_when" if last else "schedule.care_never", **told)
        bring = (named(plugin.kind, "care", care.id, "supply"),) if care.supply else ()
        what = named(plugin.kind, "care", care.id, "what")
        day = max(months_on(last or today, care.months), today)
        yield _plain(part, what, day, when, "care", care.remedy).model_copy(
            update={"bring": bring, "unrecorded": last is None}
        )


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


def _look(part: Graded, history: History, job: Job) -> Due:
    """The next look at the part: a year from now, sooner where wear may reach a limit before."""
    year = months_on(job.sheet.inspection.last_day, YEARLY)
    forecast = earliest(part, history)
    if forecast and forecast < year:
        return _plain(
            part,
            say("schedule.measure"),
            forecast,
            say("due.forecast", date=forecast),
            "forecast",
            Remedy.LOOK,
        )
    return _plain(part, say("schedule.look"), year, say("schedule.look_when"), "look", Remedy.LOOK)


def _plain(part: Graded, what: Text, on: dt.date, when: Text, reason: str, remedy: Remedy) -> Due:
    return Due.model_validate(
        {
            "component": part.component.id, "title": part.title, "place": place_of(part.component), "what": what,
            "on": on, "when": when, "reason": reason, "remedy": remedy,
        }
    )  # fmt: skip


def _passage(job: Job) -> list[Due]:
    """Before the passage that is planned, one walk over everything."""
    plans = job.sheet.next
    if plans.next_passage is None:
        return []
    what = say("schedule.passage_named", what=plans.passage) if plans.passage else say("schedule.passage")
    when = say("due.first_dated", date=plans.next_passage)
    return [Due(what=what, on=plans.next_passage.first, when=when, reason="passage", remedy=Remedy.LOOK)]
