"""What happened meanwhile, and the recommendations: what is wrong, what follows if it lets go, and in which state each is; those of last time.

Comes in: the context. Goes out: tables. A recommendation keeps its number; what becomes of the part is told once per part.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import partial
from itertools import groupby

from reporter.model.assessment import Action
from reporter.model.base import grouped
from reporter.model.history import Carried
from reporter.model.report import Block, Cell, Span, Table
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import across, cell, graded, head, heading, note, spanned, subhead, table
from reporter.outline.context import Context
from reporter.outline.jobs import (
    SERIOUS,
    ToDo,
    besides,
    follows,
    jobs,
    numbers,
    part_names,
    urgent,
    usual_day,
)
from reporter.outline.plainly import ended, reasons
from reporter.wording import date, joined


def incidents(context: Context) -> list[Block]:
    """The author's log of incidents; a section only when there are any."""
    log = context.job.sheet.incidents
    if not log:
        return []
    titles = {part.component.id: part.title for part in context.assessments.components}
    rows = (
        (head(date(each.date)), cell(each.what), cell(titles.get(each.component, each.component)))
        for each in log
    )
    return [heading(context, "incidents"), table(context.words, "incident", rows, date=1, what=3, part=1.3)]


def write(context: Context) -> list[Block]:
    """Each recommendation with its consequence and its state, the most urgent first; then those carried over."""
    found, earlier = recommended(context), carried_over(context)
    if not found and not earlier:
        return []
    told = note(counted(context, found)).model_copy(update={"keep": True})
    listed: list[Block] = [told, _table(context, found)] if found else []
    return [heading(context, "completion"), *listed, *earlier]


def recommended(context: Context) -> list[ToDo]:
    """Every recommendation put to the reader, by urgency, part and number: what the template recommends but the unseen."""
    wanted = {Grade(each) for each in context.template.recommends} - {Grade.UNSEEN, Grade.WATCH}
    found = [job for job in jobs(context) if job[1].grade in wanted]
    by_part = grouped(found, lambda job: (job[1].grade, job[0].component.id))
    return [job for grade in URGENCY for (of, _), own in by_part.items() if of is grade for job in own]


def counted(context: Context, found: list[ToDo]) -> str:
    """How many recommendations there are in each state: the same ones that the table below lists."""
    words = context.words
    states = Counter(state(action) for _, action in found)
    grades = Counter(action.grade for _, action in found if action.is_open)
    told = [words(f"completion.count_{grade}", count=count) for grade in URGENCY if (count := grades[grade])]
    closed = [
        words(f"completion.count_{each}", count=states[each]) for each in ("done", "declined") if states[each]
    ]
    opened = words("completion.count_open", count=states["open"], grades=words.listed(told)) if told else ""
    return joined(" ", opened, *closed, _watched(context))


def _watched(context: Context) -> str:
    """How many jobs more there are that are no recommendations, so that the first page's count is met."""
    count = sum(each.is_open and each.grade is Grade.WATCH for each in context.assessments.actions)
    if not count or Grade.WATCH.value in context.template.recommends:
        return ""
    section = context.words("head.schedule")
    return context.words(
        "completion.watched_one" if count == 1 else "completion.watched", count=count, section=section
    )


def _table(context: Context, found: list[ToDo]) -> Table:
    """A line for each grade, which tells by when where most are due on one day; under it a row for each recommendation."""
    rows: list[tuple[Cell, ...]] = []
    told: dict[str, int] = {}
    more: dict[str, str] = {}
    for ident, own in grouped(urgent(context), lambda job: job[0].component.id).items():
        more[ident] = besides(context, own)
        _follows(context, own, told)
    for grade, of_grade in groupby(found, key=lambda job: job[1].grade):
        group = list(of_grade)
        when = usual_day(group)
        rows.append(across(_line(context, grade, when), 4))
        for own in grouped(group, partial(_same, context, more)).values():
            part, action = own[0]
            first = action.is_open and grade in SERIOUS
            said = _pointing(context, own, more[part.component.id]) if first else _row(context, own, told)
            rows.append((*said, cell(_state(context, own[0], when))))
    listed = table(context.words, "completion", rows, number=0.4, what=3.9, consequence=2.4, state=1.5)
    return listed.model_copy(update={"fit": True})


def _same(context: Context, more: Mapping[str, str], job: ToDo) -> tuple[object, ...]:
    """What makes one row: what the first page tells, parts of which more is told apart; or what is told alike of a kind."""
    part, action = job
    ident = part.component.id
    if action.is_open and action.grade in SERIOUS:
        return (ident if more[ident] else "", _state(context, job, ""))
    why = tuple(reasons(context, part, action))
    return action.what, action.by_when, why, part.component.kind, state(action)


def _line(context: Context, grade: Grade, when: str) -> Cell:
    """The grade of the rows below, and by when they are to be done."""
    words = context.words
    word, means = words(f"grade.{grade}"), words(f"grade_meaning.{grade}")
    return graded(
        grade, words("answer.group" if when else "completion.group", word=word, when=when, means=means)
    )


def _follows(context: Context, own: Sequence[ToDo], told: dict[str, int]) -> str:
    """What follows if the part lets go, told once and pointed to after that."""
    part, action = own[0]
    said = follows(context, part, action) or "–"
    first = told.setdefault(said, action.number)
    return said if first == action.number else context.words("answer.as_above", number=first)


def _pointing(context: Context, own: Sequence[ToDo], more: str) -> tuple[Cell, ...]:
    """Jobs that the first page tells; `more` is what it has no room for."""
    name = part_names([part for part, _ in own], ": " if more else "")
    there = Span(text=context.words("completion.first_page"), href="#first")
    return numbers(own), spanned(*name, Span(text=more, style="quiet")), spanned(there)


def _row(context: Context, own: Sequence[ToDo], told: dict[str, int]) -> tuple[Cell, ...]:
    """One recommendation, to one part or to several alike."""
    part, action = own[0]
    why = Span(text=" ".join(reasons(context, part, action)), style="quiet")
    what = Span(text=f"{ended(context.words.terms(action.what))} ")
    said = spanned(*part_names([each for each, _ in own], ": "), what, why)
    return numbers(own), said, cell(_follows(context, own, told))


def state(action: Action) -> str:
    """`open`, `done` or `declined`."""
    if action.is_open:
        return "open"
    return "done" if action.edit and action.edit.done else "declined"


def _state(context: Context, job: ToDo, when: str) -> str:
    """Open and by when if not by the line above, done by whom with which proof, or declined; and where it was first made."""
    words, (part, action) = context.words, job
    edit = action.edit
    told = words("completion.open" if action.by_when == when else "completion.open_by", when=action.by_when)
    if edit and edit.done:
        told = words(
            "completion.done",
            by=edit.done.by or words("first.not_known"),
            date=date(edit.done.date) or words("first.not_known"),
            proof=", ".join(edit.done.documents) or words("completion.no_proof"),
        )
    elif edit and edit.decline:
        told = words("completion.declined", reason=edit.reason)
    made = (part.component.id, action.id)
    earlier = [
        each.first for each in context.assessments.history.carried if (each.component, each.action) == made
    ]
    return f"{told} ({words('completion.first_made', number=earlier[-1])})" if earlier else told


def state_of(context: Context, each: Carried) -> str:
    """The state with who, when, proof or reason, as far as they are known."""
    words = context.words
    if each.state == "done":
        told = joined(", ", each.on, each.by, each.reason, *each.proof)
        return words("history.done_told", told=told).strip()
    if each.state == "declined":
        return words("history.declined", reason=each.reason)
    said = words(f"history.{each.state}")
    return f"{said}, {words('history.number_now', number=each.number)}" if each.number else said


def carried_over(context: Context) -> list[Block]:
    """The table of earlier recommendations of the grades that the template recommends; nothing without any."""
    wanted = {*context.template.recommends}
    found = [each for each in context.assessments.history.carried if each.grade.value in wanted]
    found.sort(key=lambda each: (each.since, len(each.first), each.first))  # 2 stands before 10
    if not found:
        return []
    words = context.words
    one_visit = len(context.assessments.history.visits) == 1  # whose day is told with what changed
    rows = (
        (
            head(
                each.first if one_visit else words("history.visit", number=each.first, date=date(each.since))
            ),
            cell(each.title),
            cell(words.terms(each.what)),
            cell(state_of(context, each)),
        )
        for each in found
    )
    listed = table(words, "history", rows, first_made=1.3, part=1.4, what=2.6, state=2.2)
    return [subhead(words("history.recommendations")), listed.model_copy(update={"fit": True})]
