"""The yard's sheet: every job by precedence and trade on the first pages, then a card for each part.

It holds no owner's data, no opinion and no score: it is handed to people who need none of them. The jobs of the sheet
are made by `yard_jobs`.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from reporter.model.assessment import Assessments, Graded
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.report import Block, Cell, Heading, Paragraph, Photo, Report, Span, Table, plain, strong
from reporter.model.template import Template
from reporter.model.terms import Grade, Remedy
from reporter.outline.blocks import Row, across, boxes, cell, facts, head, note, sentence, table
from reporter.outline.context import Context, context_of
from reporter.outline.decision import nothing_to_do
from reporter.outline.jobs import YardJob, plates, sizes, yard_jobs
from reporter.outline.photos import in_pairs, shown, small
from reporter.outline.plainly import ended, runs
from reporter.wording import date

COLUMNS = {"number": 0.5, "job": 5.2, "bring": 3.2, "how": 1.3, "hours": 0.6, "done": 0.7, "checked": 0.7}
LOOKS = frozenset({Remedy.LOOK, Remedy.TEST, Remedy.OPEN_UP})
"""What is only looked at needs no size on the sheet."""
PICTURED = frozenset({Grade.STOP, Grade.FIRST})
"""Of these parts the sheet shows a photo; those of the others stand in the report."""


def work_list(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Report:
    """The yard's sheet as a report of its own."""
    context = context_of(job, assessments, template, kinds)
    sheet, words = job.sheet, context.words
    return Report(
        lang=sheet.lang,
        title=f"{words('work.title')}: {sheet.vessel.name}",
        subject=words("work.subject"),
        author="",
        number=sheet.report.number,
        dated=sheet.report.issued or sheet.inspection.last_day,
        page=sheet.page,
        text=sheet.text,
        running_head=words("work.head", vessel=sheet.vessel.name, number=sheet.report.number),
        running_foot=words("work.title"),
        draft="" if sheet.report.issued else words("foot.draft"),
        page_word=words("foot.page"),
        blocks=tuple(_blocks(context)),
    )


def _blocks(context: Context) -> Iterator[Block]:
    words, sheet = context.words, context.job.sheet
    yield Heading(level=1, text=words("work.title"), listed=False)
    days = words.listed([date(day) for day in sheet.inspection.dates])
    yield facts(
        [
            (words("work.boat"), sheet.vessel.name),
            (words("work.from"), f"{sheet.report.number}, {days}"),
            (words("circumstance.where"), sheet.inspection.place),
        ]
    )
    jobs = yard_jobs(context)
    yield note(f"{words('terms.caution_1')} {words('work.boxes') if jobs else ''}".strip())
    if not jobs:
        yield Paragraph(text=plain(nothing_to_do(context)))
        return
    yield _table(context, jobs)
    yield from _cards(context, jobs)


def _table(context: Context, jobs: list[YardJob]) -> Table:
    """Every job; a row across the table names the precedence, the first job of a trade the trade."""
    rows: list[Row] = []
    for grade, urgent in groupby(jobs, key=lambda each: each.action.grade):
        rows.append(across(cell(context.words(f"work.group_{grade}"), bold=True), len(COLUMNS)))
        for trade, group in groupby(urgent, key=lambda each: each.trade):
            rows += [_row(context, each, "" if place else f"{trade} · ") for place, each in enumerate(group)]
    return boxes(table(context.words, "work", rows, **COLUMNS))


def _row(context: Context, job: YardJob, trade: str) -> Row:
    words, action = context.words, job.action
    where = f" ({job.place})" if job.place else ""
    when = f" {words('work.by', when=action.by_when)}" if action.dated_by != "grade" else ""
    what = (
        Span(text=trade, style="accent"),
        *strong(job.names(words)),
        Span(text=f"{where}: ", style="quiet"),
        Span(text=f"{words.terms(action.what)}.{when}"),
    )
    how = (words(f"access.{action.access}"), words(f"work.takes_{action.effort}") if action.effort else "")
    bring = "; ".join(words.terms(text) for text in job.material) or "–"
    return (
        head(", ".join(str(number) for number in job.numbers)),
        Cell(text=what),
        cell(bring),
        cell("; ".join(filter(None, how)) or words("work.agree")),
        *(cell("") for _ in ("hours", "done", "checked")),
    )


def _cards(context: Context, jobs: list[YardJob]) -> Iterator[Block]:
    """What each part is, what to beware of, and what she looks like: the yard has to find the part, not to judge it."""
    hands_on = [job for job in jobs if job.action.remedy not in LOOKS and job.action.grade is not Grade.WATCH]
    worked = {part.component.id for job in hands_on for part in job.parts}
    wanted = {part.component.id for job in jobs for part in job.parts}
    parts = [part for part in context.assessments.components if part.component.id in wanted]
    said: set[str] = set()
    rows = []
    for part in parts:
        known = sizes(context, part) if part.component.id in worked else ""
        cautions = _new(context, part, said)
        if known or cautions:
            lead = (*strong(_named(context, part)), *plain(f": {known}" if known else ""))
            rows.append((Cell(text=lead), cell(cautions or "–")))
    yield Heading(level=2, text=context.words("work.cards"), listed=False)
    yield table(context.words, "work", rows, sizes=1, cautions=1.5)
    urgent = {part.component.id for job in jobs if job.action.grade in PICTURED for part in job.parts}
    shown = (_shown(context, part) for part in parts if part.component.id in urgent)
    yield from in_pairs([photo for photo in shown if photo])


def _new(context: Context, part: Graded, said: set[str]) -> str:
    """The cautions of the part's kind; what an earlier row has said already is not said again."""
    told = context.plugins[part.component.kind].cautions
    sentences = [f"{each.rstrip('.')}." for text in told for each in context.words.terms(text).split(". ")]
    fresh = [each for each in dict.fromkeys(sentences) if each not in said]
    said.update(fresh)
    return " ".join(fresh)


def _named(context: Context, part: Graded) -> str:
    shown = plates(context, part)
    if not shown:
        return part.title
    told = "component.photo" if len(shown) == 1 else "component.photos"
    return f"{part.title} ({context.words(told, number=runs(shown))})"


def _shown(context: Context, part: Graded) -> Photo | None:
    """The part's deciding photo, or else its first, small and with the part's name."""
    found = sorted(shown(context, part), key=lambda pair: not pair[0].decides)
    if not found:
        return None
    use, photo = found[0]
    numbered = context.words("component.photo", number=photo.plate)
    lead = f"{ended(numbered)} {part.title}. "
    said = sentence(use.caption) if use.caption else ""
    return small(photo).model_copy(update={"caption": (*strong(lead), *plain(said))})
