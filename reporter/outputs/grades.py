"""What `gudgeon check` says on a terminal of 80 columns: the decision, the parts by urgency, what was not seen, what is wanted.

Comes in: a graded job. Goes out: lines as wide as the terminal, what matters first. What is equal is told together.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Assessments, Graded, SystemGrade
from reporter.model.base import grouped
from reporter.model.history import History
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.sheet import JobSheet
from reporter.model.template import Template
from reporter.model.terms import Extent, Grade, Remedy
from reporter.outline.context import Context
from reporter.outline.decision import decided
from reporter.outline.plainly import ended, finding
from reporter.outline.speaking import spoken
from reporter.outline.unseen import by_reason, gaps
from reporter.outputs.screen import wrapped
from reporter.wording import catalogue, date
from reporter.wording.numbers import number

TOLD = (Grade.STOP, Grade.FIRST, Grade.PLAN, Grade.WATCH)
"""Grades whose parts are told with what was found."""


def summary(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> list[str]:
    """The decision; parts by urgency; gaps; clear parts by name; the systems; what the report would still need."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    # Of what earlier visits tell and of what is due nothing is said here, so nothing of it is put into words.
    now = assessments.model_copy(update={"history": History(), "schedule": ()})
    context = Context(job, spoken(now, job, kinds), template, kinds.plugins, kinds.systems, words)
    # Where her name is at fault a stand-in without a letter has its place, which is not to be told.
    name = f"{job.sheet.vessel.name}, " * any(map(str.isalnum, job.sheet.vessel.name))
    head = f"{name}{date(job.sheet.inspection.last_day)}."
    blocks = [[*wrapped(f"{head} {' '.join(decided(context))}", 0)]]
    blocks.append(list(_incomplete(context)))
    blocks += [list(_graded(context, grade)) for grade in TOLD]
    blocks += [list(writer(context)) for writer in (_unseen, _uncounted, _clear, _systems, _wishes)]
    lines = [line for block in blocks if block for line in (*block, "")]
    return lines[:-1]


def _incomplete(context: Context) -> Iterator[str]:
    """The parts of which something is told that is not in order, so that nobody misses them among the graded ones."""
    if names := [part.title for part in context.assessments.components if part.failed]:
        yield from wrapped(context.words("check_told.incomplete_parts", names="; ".join(names)), 0)


def met_told(titles: list[str], grade: str, sheet: JobSheet) -> str:
    """The line of `check --fail-on`: how many parts have the grade or a worse one, and which, in the job's language."""
    words = catalogue(sheet.lang, sheet.terms)
    ident = "unseen" if grade == Grade.UNSEEN else "one" if len(titles) == 1 else "many"
    named = "; ".join(titles)
    return words(f"check_told.met_{ident}", count=len(titles), grade=words(f"grade.{grade}"), names=named)


def _graded(context: Context, grade: Grade) -> Iterator[str]:
    """The parts of a grade under its word; those of which the same was found in one entry."""
    parts = context.with_grade(grade)
    if parts:
        word, means = context.words(f"grade.{grade}"), context.words(f"grade_meaning.{grade}")
        yield from wrapped(ended(context.words("completion.group", word=word, means=means)), 0)
    for found, same in grouped(parts, lambda part: _why(context, part)).items():
        yield from wrapped(f"{'; '.join(part.title for part in same)}: {found}", 2)


def _why(context: Context, part: Graded) -> str:
    """What holds the part down; where its rules saw too little to say, what the inspector judged by."""
    if part.judgement and part.computed is Grade.UNSEEN:
        return ended(part.judgement.reason)
    return finding(context, part)


def _unseen(context: Context) -> Iterator[str]:
    """Every gap under the reason that it has."""
    found, words = [gap for gap in gaps(context) if not gap.part.failed], context.words
    if found:
        yield f"{words('head.not_seen')}:"
    for because, same in by_reason(found):
        if len(same) > 1:
            yield from wrapped(ended(because), 2)
        for own in same:
            names = "; ".join(gap.part.title for gap in own)
            why = f" {ended(because)}" if len(same) == 1 else ""
            yield from wrapped(f"{names}: {ended(own[0].what)}{why}", 2 if why else 4)


def _uncounted(context: Context) -> Iterator[str]:
    """Parts called seen of which it is not told what was looked at: the key to tell it by, and what it may hold."""
    said = [
        (part.title, [each.id for each in items if each.words in part.not_included])
        for part in context.assessments.components
        if part.component.examined.extent is Extent.SEEN
        and (items := context.plugins[part.component.kind].examination)
    ]
    if any(lacking for _, lacking in said):
        yield from wrapped(context.words("check_told.included"), 0)
    for title, lacking in said:
        yield from wrapped(f"{title}: {', '.join(lacking)}", 2) if lacking else ()


def _clear(context: Context) -> Iterator[str]:
    """The clear parts and what is not fitted, by name; what is expected and not listed."""
    words = context.words
    absent = [
        part.title
        for part in context.assessments.components
        if part.component.examined.extent is Extent.NOT_FITTED
    ]
    unlisted = [
        context.plugins[kind].title if kind in context.plugins else kind
        for system in context.assessments.systems
        for kind in system.not_listed
    ]
    if clear := [part.title for part in context.with_grade(Grade.CLEAR)]:
        yield from wrapped(f"{words('brief.clear')}: {'; '.join(clear)}.", 0)
    if absent:
        yield from wrapped(words("brief.not_fitted", names="; ".join(absent)), 0)
    if unlisted:
        yield from wrapped(ended(words("first.not_listed", names="; ".join(unlisted))), 0)


def _systems(context: Context) -> Iterator[str]:
    """Each system's grade with its score and what holds it down."""
    systems = [each for each in context.assessments.systems if each.components or each.expected]
    if systems:
        yield f"{context.words('check_told.systems')}:"
    for system in systems:
        yield from wrapped(_system(context, system), 2)


def _system(context: Context, system: SystemGrade) -> str:
    words = context.words
    score = "" if system.score is None else f" {number(system.score, decimals=0)}"
    held = f", {words('check_told.held_down', what=system.weakest)}" if system.weakest else ""
    listed = words("glance.coverage_of", listed=system.listed, expected=system.expected)
    covered = f", {listed}" if system.listed < system.expected else ""
    return f"{system.title}: {context.joint_word(system.grade, system.components)}{score}{held}{covered}."


def _wishes(context: Context) -> Iterator[str]:
    """What would make the report better: readings to take again, photos that a bad grade should have."""
    words = context.words
    again = [
        f"{part.title}: {ended(words.terms(action.what))}"
        for part in context.assessments.components
        for action in part.actions
        if not part.failed and action.remedy is Remedy.TEST and action.settles and action.is_open
    ]
    lacking = [(each, part.title) for part in context.assessments.components for each in _photos(part)]
    again += [
        f"{words(f'check_told.{wish}')}: {'; '.join(title for _, title in same)}."
        for wish, same in grouped(lacking, lambda pair: pair[0]).items()
    ]
    if again:
        yield f"{words('check_told.better')}:"
    for text in again:
        yield from wrapped(text, 2)


def _photos(part: Graded) -> list[str]:
    """A part graded `stop` or `first` should be shown where it stands and from near by."""
    if part.grade not in {Grade.STOP, Grade.FIRST} or part.component.examined.extent is Extent.NOT_FOUND:
        return []
    shown = {use.shows for use in part.component.photos}
    return [each for each in ("context", "close_up") if each not in shown]
