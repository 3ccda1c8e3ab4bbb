"""What goes from hand to hand with the boat: what is open, the inventory; and the table to write the deviation into.

Comes in: the job and what was graded. Goes out: tables, some with room for handwriting.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Action, Graded
from reporter.model.report import Block, Cell, Column, Heading, Paragraph, Span, Table, plain, strong
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import cell, graded, head, heading, note
from reporter.outline.completion import state
from reporter.outline.context import Context
from reporter.outline.decision import nothing_to_do, still_to_look
from reporter.outline.plainly import reasons, runs

HEADINGS = (("north", "000°"), ("east", "090°"), ("south", "180°"), ("west", "270°"))
IN_FULL = (Grade.STOP, Grade.FIRST, Grade.PLAN)
"""Jobs that are told one by one with their reason; of the others the part and the job are enough."""


def open_jobs(context: Context) -> list[Block]:
    """What is open when she changes hands: how many jobs of each urgency, then these very jobs."""
    words = context.words
    jobs = [(part, each) for part in context.assessments.components for each in part.actions]
    jobs.sort(key=lambda pair: pair[1].number)
    still = [pair for pair in jobs if pair[1].is_open]
    blocks: list[Block] = [heading(context, "open_jobs"), note(words("terms.caution_1"))]
    if not still:
        return [*blocks, Paragraph(text=plain(nothing_to_do(context))), *_closed(context, jobs)]
    groups = {grade: [pair for pair in still if pair[1].grade is grade] for grade in URGENCY}
    blocks.append(Paragraph(text=plain(_counted(context, groups)), keep=True))
    return [*blocks, _table(context, groups), *_closed(context, jobs)]


def _counted(context: Context, groups: dict[Grade, list[tuple[Graded, Action]]]) -> str:
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


def _table(context: Context, groups: dict[Grade, list[tuple[Graded, Action]]]) -> Table:
    words = context.words
    columns = (Column(title=words("action.number"), share=0.7), Column(title=words("action.what"), share=8))
    rows: list[tuple[Cell, ...]] = []
    for grade, group in groups.items():
        if group:
            word = words("completion.group", word=words(f"grade.{grade}"), means=_by_when(context, group))
            rows.append((graded(grade, word).model_copy(update={"columns": len(columns), "head": True}),))
            rows += [_row(context, alike) for alike in _alike(group)]
    return Table(columns=columns, rows=tuple(rows))


def _by_when(context: Context, group: list[tuple[Graded, Action]]) -> str:
    """By when all of the group, as far as its grade says so; what has a day of its own tells it itself."""
    told = dict.fromkeys(action.by_when for _, action in group if action.dated_by == "grade")
    return next(iter(told), context.words(f"grade_meaning.{group[0][1].grade}"))


def _alike(group: list[tuple[Graded, Action]]) -> list[list[tuple[Graded, Action]]]:
    """Equal jobs on several parts together, in the order of their first number."""
    found: dict[object, list[tuple[Graded, Action]]] = {}
    for part, action in group:
        why = action.why if action.grade in IN_FULL else ""
        found.setdefault((action.what, action.by_when, why), []).append((part, action))
    return list(found.values())


def _row(context: Context, alike: list[tuple[Graded, Action]]) -> tuple[Cell, ...]:
    words, action = context.words, alike[0][1]
    parts = list(dict.fromkeys(part.title for part, _ in alike))
    href = f"#{alike[0][0].component.id}" if len(parts) == 1 else ""
    lead = Span(text=f"{words.listed(parts)}: ", style="strong", href=href)
    when = f" {words('work.by', when=action.by_when)}" if action.dated_by != "grade" else ""
    why = f" {reasons(context, alike[0][0], action)}" if action.why and action.grade in IN_FULL else ""
    text = (lead, Span(text=f"{words.terms(action.what)}.{when}"), Span(text=why, style="quiet"))
    return (head(runs([each.number for _, each in alike])), Cell(text=text))


def _closed(context: Context, jobs: list[tuple[Graded, Action]]) -> Iterator[Block]:
    """Jobs done or declined, each in a line."""
    words = context.words
    for which in ("done", "declined"):
        told = [_told(context, part, each, which) for part, each in jobs if state(each) == which]
        if told:
            yield Paragraph(text=(*strong(f"{words(f'open.{which}')} "), *plain("; ".join(told) + ".")))


def _told(context: Context, part: Graded, action: Action, which: str) -> str:
    words, edit = context.words, action.edit
    what = f"{action.number} · {part.title}: {words.terms(action.what)}"
    if which == "declined" and edit:
        return f"{what} ({edit.reason})"
    return what


def inventory(context: Context) -> list[Block]:
    """Spares, tools and keys, each with a box for both hands; a section only when the job lists any."""
    kept, words = context.job.sheet.inventory, context.words
    if not kept:
        return []
    columns = tuple(
        Column(title=words(f"inventory.{title}"), share=share)
        for title, share in (
            ("what", 2.2),
            ("count", 0.8),
            ("where", 1.6),
            ("note", 1.6),
            ("out", 0.9),
            ("back", 0.9),
        )
    )
    rows = tuple(
        (head(each.what), cell(each.count), cell(each.where), cell(each.note), cell(""), cell(""))
        for each in kept
    )
    return [heading(context, "inventory"), Table(columns=columns, rows=rows, style="boxes")]


def deviation(context: Context) -> list[Block]:
    """Four headings to be filled in, when an action asks for the deviation and it was not taken yet."""
    asked = [action for action in context.assessments.actions if action.id.endswith(".deviation")]
    if not any(action.edit is None or not (action.edit.done or action.edit.decline) for action in asked):
        return []
    words = context.words
    columns = tuple(
        Column(title=words(f"deviation.{title}"), share=share)
        for title, share in (("heading", 1.4), ("magnetic", 1), ("compass", 1), ("deviation", 1), ("by", 1.6))
    )
    rows = tuple(
        (head(f"{words(f'deviation.{ident}')}, {angle}"), *(cell("") for _ in columns[1:]))
        for ident, angle in HEADINGS
    )
    return [
        Heading(level=2, text=words("deviation.title"), anchor="deviation"),
        note(words("deviation.note")),
        Table(columns=columns, rows=rows, style="boxes"),
    ]
