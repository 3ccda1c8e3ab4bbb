"""What `gudgeon compare` says on a terminal: what changed, what moved, what became of the recommendations.

Comes in: the later job, graded with the earlier one as its history. Goes out: lines as wide as the terminal: as many as a
screen of 24 holds, or everything. What was looked at for the first time has not changed: it is counted, no more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Literal

from reporter.model.assessment import Assessments
from reporter.model.history import Carried, Changed, PartChange, TimeSeries, worsened
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.template import Template
from reporter.outline.completion import state_of
from reporter.outline.context import Context
from reporter.outline.outlook import refusals, sentence
from reporter.outline.readings import beyond, dated, moved, value_of, where
from reporter.outline.speaking import spoken
from reporter.outline.visits import NAMED_ALONE, change_word, counted, told
from reporter.outputs.screen import width, wrapped
from reporter.wording import Catalogue, catalogue, date

Fate = Literal["open", "not_seen", "done", "declined", "lapsed"]
SCREEN = 24
"""Lines of a terminal's screen."""
MOST = (
    (99, 99, 99),
    (8, 6, 4),
    (8, 4, 3),
    (8, 3, 2),
    (6, 3, 2),
    (5, 3, 1),
    (4, 2, 1),
    (3, 1, 1),
    (2, 1, 1),
    (1, 1, 1),
)
"""Rows of each list (changes of one sort, readings, recommendations) on one screen: the first that fits is taken."""
TOLD = frozenset({Changed.WORSE, Changed.GONE, Changed.MIXED, Changed.DONE})
"""Changes that are told one by one; of the others the names are enough."""
STATES: tuple[Fate, ...] = ("open", "not_seen", "lapsed", "declined", "done")


def compared(
    job: Job, assessments: Assessments, template: Template, kinds: Kinds, *, everything: bool = False
) -> list[str]:
    """The comparison, worst news first: on one screen, or whole."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    assessments = spoken(assessments, job, kinds)
    context = Context(job, assessments, template, kinds.plugins, kinds.systems, words)
    history = assessments.history
    lines = [line for remark in history.remarks for line in wrapped(remark, 0)]
    lines += wrapped(_both(context), 0)
    if everything:
        lines += wrapped(words("history.caution"), 0)
        writers = (_changes, _readings, _recommended, _outlook)
        for block in (list(write(context, None)) for write in writers):
            lines += ["", *block] if block else []
    else:
        lines = _on_a_screen(context, lines)
    return [line.replace("\u00a0", " ") for line in lines]


def _both(context: Context) -> str:
    """Whose visits are compared."""
    sheet, visits, words = context.job.sheet, context.assessments.history.visits, context.words
    vessel, now = sheet.vessel.name, date(sheet.inspection.last_day)
    if len(visits) == 1:
        return words("history.both", vessel=vessel, now=now, then=date(visits[0].day))
    return words("history.both_many", vessel=vessel, now=now, count=len(visits))


def _on_a_screen(context: Context, lead: list[str]) -> list[str]:
    """As many rows of each list as fit; the last line says how to read the rest."""
    lines, rest = list[str](), wrapped(context.words("history.rest"), 0)
    for changes, readings, recommended in MOST:
        lines = [
            *lead,
            *_changes(context, changes),
            *_readings(context, readings),
            *_recommended(context, recommended),
        ]
        if len(lines) <= SCREEN - len(rest):
            break
    return [*lines[: SCREEN - len(rest)], *rest]


def _changes(context: Context, most: int | None) -> Iterator[str]:
    changes, words = context.assessments.history.changes, context.words
    yield from wrapped(counted(context, short=most is not None), 0)
    differing = [each for each in changes if each.changed not in NAMED_ALONE]
    for changed, group in groupby(differing, key=lambda each: each.changed):
        rows = list(group)
        if changed in TOLD:
            yield _headed(context, _large(change_word(context, rows[0])), rows)
            rows.sort(key=lambda each: -each.now.rank if each.now else 0)
            yield from _capped([_change(context, each) for each in rows], context, most)
        else:
            yield from _names(f"{_large(change_word(context, rows[0]))}: ", rows, words, whole=most is None)
    for changed, ident in NAMED_ALONE.items():
        rows = [each for each in changes if each.changed is changed]
        if rows and (most is None or changed is not Changed.FIRST_TIME):
            lead = words(f"history.{ident}", names="").rstrip(" .")
            yield from _names(f"{lead} ", rows, words, whole=most is None)


def _names(lead: str, changes: list[PartChange], words: Catalogue, *, whole: bool) -> Iterator[str]:
    """The names after what is said of them; on a screen the first few, and how many more."""
    names = [words.terms(each.title) for each in changes]
    if whole:
        yield from wrapped(f"{lead}{words.listed(names)}", 0)
        return
    shown = len(names)
    while shown > 1 and len(f"{lead}{_some(names, shown, words)}") > width():
        shown -= 1
    yield from _cut(f"{lead}{_some(names, shown, words)}", 0)


def _some(names: list[str], shown: int, words: Catalogue) -> str:
    rest = len(names) - shown
    return words.listed([*names[:shown], words("first.others", count=rest)] if rest else names)


def _headed(context: Context, title: str, rows: Sequence[object]) -> str:
    return context.words("history.headed", title=title, count=len(rows))


def _large(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _change(context: Context, change: PartChange) -> tuple[str, str]:
    """The part with its grades and what was found; and, for a narrow line, without what was found."""
    grades = [context.words(f"grade.{grade}") for grade in (change.before, change.now) if grade]
    said, short = told(context, change), f"{change.title} ({' → '.join(grades)})"
    return f"{short}{f': {said}' if said else ''}", short


def _readings(context: Context, most: int | None) -> Iterator[str]:
    """Readings that moved by more than their uncertainty; the others are counted where everything is told."""
    runs, words = [run for run in context.assessments.history.runs if len(run.points) > 1], context.words
    wanted = [*filter(beyond, runs)]
    if wanted:
        yield _headed(context, words("history.moves"), wanted)
        yield from _capped([_moved(context, run) for run in wanted], context, most)
    if most is None and len(runs) > len(wanted):
        yield from wrapped(words("history.stayed", count=len(runs) - len(wanted)), 0)


def _moved(context: Context, run: TimeSeries) -> tuple[str, str]:
    """The part, whether the reading is worse or better, then and now, by how much it moved; and without part and place."""
    words, before = context.words, dated if len(context.assessments.history.visits) > 1 else value_of
    part = context.assessments.part(run.component)
    worse = worsened(run, context.plugins[part.component.kind].limits) if part else None
    # Before the figures, so that a line cut short still tells it.
    verdict = "" if worse is None else f", {words('history.worse' if worse else 'history.better')}"
    figures = f"{before(run, run.points[-2])} → {value_of(run, run.points[-1])}, {moved(run, words)}"
    told = f"{verdict}: {figures}"
    return f"{run.title}, {words.inside(run.name)}{where(run, words)}{told}", f"{run.name}{told}"


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


def _carried(context: Context, each: Carried) -> tuple[str, str]:
    """The recommendation with its state; and, for a narrow line, of which part alone."""
    short = f"{each.first} · {state_of(context, each)} · {each.title}"
    return f"{short}: {each.what}", short


def _outlook(context: Context, most: int | None) -> Iterator[str]:
    found, words = context.assessments.history.forecasts, context.words
    if not found:
        return
    yield f"{words('forecast.title')}:"
    rows = [sentence(each, words) for each in found if not each.refused]
    rows += [words("forecast.refused", why=why, parts=parts) for why, parts in refusals(found, words)]
    yield from _capped([(row, row) for row in rows], context, most)


def _capped(rows: list[tuple[str, str]], context: Context, most: int | None) -> Iterator[str]:
    """Each row whole; on a screen `most` of them, each on one line, whole or short: the heading tells how many there are."""
    for whole, short in rows[:most]:
        text = context.words.terms(whole)
        if most is None:
            yield from wrapped(text, 2)
        else:
            yield from [f"  {text}"] if len(text) <= width() - 2 else _cut(context.words.terms(short), 2)


def _cut(text: str, indent: int) -> list[str]:
    """The text on one line, cut where it is longer."""
    line = f"{' ' * indent}{text}"
    return [line if len(line) <= width() else f"{line[: width() - 2].rstrip()} …"]
