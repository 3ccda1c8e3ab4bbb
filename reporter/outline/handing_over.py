"""What goes from hand to hand with the boat: what is open, the inventory; and the table to write the deviation into.

Comes in: the job and what was graded. Goes out: tables, some with room for handwriting.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.model.base import grouped
from reporter.model.report import Block, Cell, Heading, Paragraph, Span, Table, plain, strong
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import across, boxes, cell, graded, head, heading, note, spanned, table
from reporter.outline.completion import state
from reporter.outline.context import Context
from reporter.outline.decision import nothing_to_do, still_to_look
from reporter.outline.jobs import SERIOUS, ToDo, besides, jobs, numbers, part_names
from reporter.outline.plainly import reasons

HEADINGS = (("north", "000°"), ("east", "090°"), ("south", "180°"), ("west", "270°"))
IN_FULL = (*SERIOUS, Grade.PLAN)
"""Jobs that are told one by one with their reason; of the others the part and the job are enough."""


def open_jobs(context: Context) -> list[Block]:
    """What is open when she changes hands: how many jobs of each urgency, then these very jobs."""
    words, found = context.words, jobs(context)
    still = [job for job in found if job[1].is_open]
    blocks: list[Block] = [heading(context, "open_jobs"), note(words("terms.caution_1"))]
    if not still:
        return [*blocks, Paragraph(text=plain(nothing_to_do(context))), *_closed(context, found)]
    groups = {grade: [job for job in still if job[1].grade is grade] for grade in URGENCY}
    blocks.append(Paragraph(text=plain(_counted(context, groups)), keep=True))
    return [*blocks, _table(context, groups), *_closed(context, found)]


def _counted(context: Context, groups: dict[Grade, list[ToDo]]) -> str:
    """How many jobs are open: the figures of the first page, and of the list below."""
    words = context.words
    todo = {grade: len(group) for grade, group in groups.items() if group and grade is not Grade.UNSEEN}
    if not todo:
        bad, looks = context.with_grade(Grade.STOP, Grade.FIRST), len(groups[Grade.UNSEEN])
        return (
            f"{nothing_to_do(context)} {words('open.looks', count=looks)}"
            if bad
            else words("open.only_looks", count=looks)
        )
    grades = [words(f"completion.count_{grade}", count=count) for grade, count in todo.items()]
    put = {"grades": words.listed(grades), "looks": still_to_look(context)}
    return words("open.counts", count=sum(todo.values()), **put)


def _table(context: Context, groups: dict[Grade, list[ToDo]]) -> Table:
    """Under a line for each grade its jobs; what stands in full elsewhere in the report by its numbers alone."""
    words = context.words
    rows: list[tuple[Cell, ...]] = []
    for grade, group in groups.items():
        if group:
            word = words("completion.group", word=words(f"grade.{grade}"), means=_by_when(context, group))
            rows.append(across(graded(grade, word), 2))
            rows += list(_rows(context, grade, group))
    return table(words, "action", rows, number=0.7, what=8)


def _rows(context: Context, grade: Grade, group: list[ToDo]) -> Iterator[tuple[Cell, ...]]:
    if grade in SERIOUS:
        yield numbers(group), spanned(*_on_the_first_page(context, group))
    elif grade is Grade.UNSEEN and "not_seen" in context.template.sections:
        there = context.words("open.not_seen", section=context.words("head.not_seen"))
        yield numbers(group), spanned(Span(text=there, href="#not_seen"))
    else:
        yield from (_row(context, own) for own in grouped(group, _said).values())


def _said(job: ToDo) -> tuple[str, ...]:
    """What is told of a job: equal ones on several parts are one row."""
    action = job[1]
    return action.what, action.by_when, action.why if action.grade in IN_FULL else ""


def _on_the_first_page(context: Context, group: list[ToDo]) -> Iterator[Span]:
    """Where they are told, and what there was no room for there."""
    yield Span(text=context.words("open.first_page"), href="#first")
    for own in grouped(group, lambda job: job[0].component.id).values():
        if more := besides(context, own):
            yield Span(text=" ")
            yield from part_names([own[0][0]], ": ")
            yield Span(text=more, style="quiet")


def _by_when(context: Context, group: list[ToDo]) -> str:
    """By when all of the group, as far as its grade says so; what has a day of its own tells it itself."""
    told = dict.fromkeys(action.by_when for _, action in group if action.dated_by == "grade")
    return next(iter(told), context.words(f"grade_meaning.{group[0][1].grade}"))


def _row(context: Context, own: Sequence[ToDo]) -> tuple[Cell, ...]:
    words, (part, action) = context.words, own[0]
    titles = list(dict.fromkeys(each.title for each, _ in own))
    href = f"#{part.component.id}" if len(titles) == 1 else ""
    lead = Span(text=f"{words.listed(titles)}: ", style="strong", href=href)
    when = f" {words('work.by', when=action.by_when)}" if action.dated_by != "grade" else ""
    why = " ".join(reasons(context, part, action)) if action.grade in IN_FULL else ""
    what = Span(text=f"{words.terms(action.what)}.{when} ")
    return numbers(own), spanned(lead, what, Span(text=why, style="quiet"))


def _closed(context: Context, found: list[ToDo]) -> Iterator[Block]:
    """Jobs done or declined, each in a line."""
    words = context.words
    for which in ("done", "declined"):
        told = [
            f"{action.number} · {part.title}: {words.terms(action.what)}"
            + (f" ({action.edit.reason})" if which == "declined" and action.edit else "")
            for part, action in found
            if state(action) == which
        ]
        if told:
            yield Paragraph(text=(*strong(f"{words(f'open.{which}')} "), *plain("; ".join(told) + ".")))


def inventory(context: Context) -> list[Block]:
    """Spares, tools and keys, each with a box for both hands; a section only when the job lists any."""
    kept, words = context.job.sheet.inventory, context.words
    if not kept:
        return []
    rows = (
        (head(each.what), cell(each.count), cell(each.where), cell(each.note), cell(""), cell(""))
        for each in kept
    )
    shares = {"what": 2.2, "count": 0.8, "where": 1.6, "note": 1.6, "out": 0.9, "back": 0.9}
    return [heading(context, "inventory"), boxes(table(words, "inventory", rows, **shares))]


def deviation(context: Context) -> list[Block]:
    """Four headings to be filled in, when an action asks for the deviation and it was not taken yet."""
    asked = [action for action in context.assessments.actions if action.id.endswith(".deviation")]
    if not any(action.edit is None or not (action.edit.done or action.edit.decline) for action in asked):
        return []
    words = context.words
    rows = ((head(f"{words(f'deviation.{ident}')}, {angle}"), *(cell(""),) * 4) for ident, angle in HEADINGS)
    return [
        Heading(level=2, text=words("deviation.title"), anchor="deviation"),
        note(words("deviation.note")),
        boxes(table(words, "deviation", rows, heading=1.4, magnetic=1, compass=1, deviation=1, by=1.6)),
    ]
