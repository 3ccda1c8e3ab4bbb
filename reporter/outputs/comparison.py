"""What `gudgeon compare` says on a terminal: what changed, what moved, what became of the recommendations.

Comes in: the later job, graded with the earlier one as its history. Goes out: lines of at most 78 characters: as many as a
screen of 24 holds, or everything. What was looked at for the first time has not changed: it is counted, no more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from typing import Literal

from reporter.model.assessment import Assessments
from reporter.model.history import Carried, Change, Changed, TimeSeries
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.template import Template
from reporter.outline.context import Context, context_of
from reporter.outline.outlook import refusals, sentence
from reporter.outline.readings import beyond, dated, moved, value_of, where
from reporter.outline.recommended import state_of
from reporter.outline.visits import SAME, against, change_word, counted, told
from reporter.outputs.screen import WIDTH, wrapped
from reporter.wording import Catalogue

Fate = Literal["open", "not_seen", "done", "declined", "lapsed"]
SCREEN = 24
"""Lines of a terminal's screen."""
MOST = (3, 2, 1)
"""Rows of each list on one screen, of one line each, as many as fit; the rest is counted."""
TOLD = frozenset({Changed.WORSE, Changed.GONE, Changed.DONE})
"""Changes that are told one by one; of the others the names are enough."""
STATES: tuple[Fate, ...] = ("open", "not_seen", "lapsed", "declined", "done")


def compared(
    job: Job, assessments: Assessments, template: Template, kinds: Kinds, *, everything: bool = False
) -> list[str]:
    """The comparison, worst news first: on one screen, or whole."""
    context = context_of(job, assessments, template, kinds)
    history = context.assessments.history
    lines = wrapped(f"{job.sheet.vessel.name}. {against(context)}", 0)
    lines += [line for remark in history.remarks for line in wrapped(remark, 0)]
    if everything:
        writers = (_changes, _readings, _recommended, _outlook)
        for block in (list(write(context, None)) for write in writers):
            lines += ["", *block] if block else []
    else:
        lines = _on_a_screen(context, lines)
    return [line.replace("\u00a0", " ") for line in lines]


def _on_a_screen(context: Context, lead: list[str]) -> list[str]:
    """As many rows of each list as fit; the last line says how to read the rest."""
    lines: list[str] = []
    for most in MOST:
        lines = [*lead, *_changes(context, most), *_readings(context, most), *_recommended(context, most)]
        if len(lines) < SCREEN:
            break
    return [*lines[: SCREEN - 1], context.words("history.rest")]


def _changes(context: Context, most: int | None) -> Iterator[str]:
    changes, words = context.assessments.history.changes, context.words
    yield from wrapped(counted(context), 0)
    differing = [each for each in changes if each.changed not in {*SAME, Changed.FIRST_TIME}]
    for changed, group in groupby(differing, key=lambda each: each.changed):
        rows = list(group)
        if changed in TOLD:
            yield f"{change_word(context, rows[0])}:"
            rows.sort(key=lambda each: -each.now.rank if each.now else 0)
            yield from _capped([_change(context, each) for each in rows], context, most)
        else:
            yield from _names(f"{change_word(context, rows[0])}: ", rows, words, whole=most is None)
    for changed, ident in ((Changed.UNCHANGED, "same"), (Changed.FIRST_TIME, "seen_first")):
        rows = [each for each in changes if each.changed is changed]
        if rows and (most is None or changed is Changed.UNCHANGED):
            lead = words(f"history.{ident}", names="").rstrip(" .")
            yield from _names(f"{lead} ", rows, words, whole=most is None)


def _names(lead: str, changes: list[Change], words: Catalogue, *, whole: bool) -> Iterator[str]:
    """The names after what is said of them; on a screen the first few, and how many more."""
    names = [words.terms(each.title) for each in changes]
    if whole:
        yield from wrapped(f"{lead}{words.listed(names)}", 0)
        return
    shown = len(names)
    while shown > 1 and len(f"{lead}{_some(names, shown, words)}") > WIDTH:
        shown -= 1
    yield from _cut(f"{lead}{_some(names, shown, words)}", 0)


def _some(names: list[str], shown: int, words: Catalogue) -> str:
    rest = len(names) - shown
    return words.listed([*names[:shown], words("first.others", count=rest)] if rest else names)


def _change(context: Context, change: Change) -> str:
    grades = [context.words(f"grade.{grade}") for grade in (change.before, change.now) if grade]
    said = told(context, change)
    return f"{change.title} ({' → '.join(grades)}){f': {said}' if said else ''}"


def _readings(context: Context, most: int | None) -> Iterator[str]:
    """Readings that moved by more than their uncertainty; the others only where everything is told."""
    runs, words = [run for run in context.assessments.history.runs if len(run.points) > 1], context.words
    wanted = sorted(runs, key=lambda run: not beyond(run)) if most is None else [*filter(beyond, runs)]
    if not wanted:
        return
    yield f"{words('history.readings')}:"
    yield from _capped([_moved(context, run, whole=most is None) for run in wanted], context, most)


def _moved(context: Context, run: TimeSeries, *, whole: bool) -> str:
    """Then, now, and by how much; on a screen without the place where the line would be too long."""
    words, before = context.words, dated if whole or len(context.assessments.history.visits) > 1 else value_of
    told = f": {before(run, run.points[-2])} → {value_of(run, run.points[-1])}, {moved(run, words)}"
    placed = f"{run.name}{where(run, words)}{told}"
    return placed if whole or len(placed) <= WIDTH - 2 else f"{run.name}{told}"


def _recommended(context: Context, most: int | None) -> Iterator[str]:
    """How many earlier recommendations are in which state, then each, what is open first."""
    found, words = context.assessments.history.carried, context.words
    if not found:
        return
    count = Counter(each.state for each in found)
    states = [f"{count[state]} {words(f'history.state_{state}')}" for state in STATES if count[state]]
    yield from wrapped(f"{words('history.recommendations')}: {', '.join(states)}.", 0)
    rows = sorted(found, key=lambda each: STATES.index(each.state))
    yield from _capped([_carried(context, each) for each in rows], context, most)


def _carried(context: Context, each: Carried) -> str:
    return f"{each.first} · {state_of(context, each)} · {each.title}: {each.what}"


def _outlook(context: Context, most: int | None) -> Iterator[str]:
    found, words = context.assessments.history.forecasts, context.words
    if not found:
        return
    yield f"{words('forecast.title')}:"
    rows = [sentence(each, words) for each in found if not each.refused]
    if refused := refusals(found, words):
        rows += [f"{words('forecast.refusals')} {refused[0]}", *refused[1:]]
    yield from _capped(rows, context, most)


def _capped(rows: list[str], context: Context, most: int | None) -> Iterator[str]:
    """Each row whole, or on a screen each on one line and beyond `MOST` the number of the rest."""
    rows = [context.words.terms(row) for row in rows]
    if most is None:
        for row in rows:
            yield from wrapped(row, 2)
        return
    for row in rows[:most]:
        yield from _cut(row, 2)
    if len(rows) > most:
        yield f"  {context.words('schedule.and_more', count=len(rows) - most)}"


def _cut(text: str, indent: int) -> list[str]:
    """The text on one line, cut where it is longer."""
    line = f"{' ' * indent}{text}"
    return [line if len(line) <= WIDTH else f"{line[: WIDTH - 2].rstrip()} …"]
