"""What `gudgeon compare` says on a terminal: what changed, what moved, what became of the recommendations.

Comes in: the later job, graded with the earlier one as its history. Goes out: lines of at most 78 characters; what would run
past a screen is counted instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from reporter.model.assessment import Assessments
from reporter.model.history import Carried, Change, Changed
from reporter.model.job import Job
from reporter.model.template import Template
from reporter.outline.desk import Desk, Kinds
from reporter.outline.history import SAME, against, change_word, told
from reporter.outline.outlook import refusals, sentence
from reporter.outline.readings import beyond, dated, moved, value_of, where
from reporter.outline.recommended import state_of
from reporter.outline.speaking import spoken
from reporter.outline.summary import WIDTH, wrapped
from reporter.wording import Catalogue, catalogue

MOST = 5
"""Rows of one list before the rest is counted."""
MOST_NAMES = 6
TOLD = frozenset({Changed.WORSE, Changed.GONE, Changed.DONE})
"""Changes that are told one by one; of the others the names are enough for a screen."""


def compared(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> list[str]:
    """The comparison, worst news first."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    assessments = spoken(assessments, job, kinds)
    desk = Desk(job, assessments, template, kinds.plugins, kinds.systems, words)
    history = assessments.history
    lines = wrapped(f"{job.sheet.vessel.name}. {against(desk)}", 0)
    lines += [line for remark in history.remarks for line in wrapped(remark, 0)]
    for block in (list(write(desk)) for write in (_changes, _readings, _recommended, _outlook)):
        lines += ["", *block] if block else []
    return [line.replace("\u00a0", " ") for line in lines]


def _changes(desk: Desk) -> Iterator[str]:
    changes, words = desk.assessments.history.changes, desk.words
    differing = [each for each in changes if each.changed not in SAME]
    yield words("history.counts", changed=len(differing), total=len(changes))
    for _, group in groupby(differing, key=lambda each: each.changed):
        rows = list(group)
        if rows[0].changed in TOLD:
            yield f"{change_word(desk, rows[0])}:"
            yield from _capped([_change(desk, each) for each in rows], desk)
        else:
            names = words.listed(_few([each.title for each in rows], words))
            yield from wrapped(f"{change_word(desk, rows[0])}: {names}", 0)
    same = [each.title for each in changes if each.changed in SAME]
    if same:
        yield from wrapped(words("history.same", names=words.listed(_few(same, words))), 0)


def _change(desk: Desk, change: Change) -> str:
    grades = [desk.words(f"grade.{grade}") for grade in (change.before, change.now) if grade]
    said = told(desk, change, brief=True) if change.changed is not Changed.NOT_SEEN else ""
    return f"  {change.title} ({' → '.join(grades)}){f': {said}' if said else ''}"


def _readings(desk: Desk) -> Iterator[str]:
    """Readings that moved by more than their uncertainty; the others are counted."""
    runs, words = [run for run in desk.assessments.history.runs if len(run.points) > 1], desk.words
    if not runs:
        return
    yield f"{words('history.readings')}:"
    runs.sort(key=lambda run: not beyond(run))
    rows = [
        f"  {run.name}{where(run, words)}: {dated(run, run.points[-2])} → {value_of(run, run.points[-1])}, {moved(run, words)}"
        for run in runs
    ]
    yield from _capped(rows, desk)


def _recommended(desk: Desk) -> Iterator[str]:
    found = desk.assessments.history.carried
    if found:
        yield f"{desk.words('history.recommendations')}:"
        yield from _capped(
            [_carried(desk, each) for each in sorted(found, key=lambda each: each.state == "open")], desk
        )


def _carried(desk: Desk, each: Carried) -> str:
    return f"  {each.first} · {state_of(desk, each)} · {each.title}: {each.what}"


def _outlook(desk: Desk) -> Iterator[str]:
    found, words = desk.assessments.history.forecasts, desk.words
    if not found:
        return
    yield f"{words('forecast.title')}:"
    yield from _capped([f"  {sentence(each, words)}" for each in found if not each.refused], desk, lines=4)
    refused = refusals(found, words)
    if refused:
        yield from _capped(
            [f"  {words('forecast.refusals')} {refused[0]}", *(f"  {each}" for each in refused[1:])], desk
        )


def _capped(rows: list[str], desk: Desk, *, lines: int = 2) -> Iterator[str]:
    """Each row on `lines` lines at most; beyond `MOST` rows the rest is counted."""
    for row in rows[:MOST]:
        text = desk.words.terms(row)
        found = wrapped(text.strip(), 2)
        yield from (
            found[:lines]
            if len(found) <= lines
            else [*found[: lines - 1], f"{found[lines - 1][: WIDTH - 2]} …"]
        )
    if len(rows) > MOST:
        yield f"  {desk.words('schedule.and_more', count=len(rows) - MOST)}"


def _few(names: list[str], words: Catalogue) -> list[str]:
    """The first names, and how many more: the list has to fit a screen."""
    return (
        names
        if len(names) <= MOST_NAMES + 1
        else [*names[:MOST_NAMES], words("first.others", count=len(names) - MOST_NAMES)]
    )
