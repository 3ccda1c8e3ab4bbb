"""The decision in words, and everything that comes first: what, what happens if it is left, what to do, what it takes.

Comes in: what was graded. Goes out: blocks for the first page. Nothing urgent is left to a later list.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, groupby

from reporter.model.assessment import Action
from reporter.model.base import grouped
from reporter.model.report import Block, Cell, Paragraph, Span, plain
from reporter.model.terms import Effort, Extent, Grade
from reporter.outline.blocks import cell, spanned, table
from reporter.outline.context import Context
from reporter.outline.jobs import ToDo, follows, urgent
from reporter.outline.plainly import counted, ended, linked, reason, runs, takes


def answer(context: Context) -> list[Block]:
    """The decision in three lines: what forbids sailing, what comes next, what nobody can say yet."""
    first, *more = decided(context)
    blocks: list[Block] = [Paragraph(text=plain(first), style="answer", anchor="first")]
    return [*blocks, Paragraph(text=plain(" ".join(more)), style="lead")] if more else blocks


def decided(context: Context) -> list[str]:
    """The sentences of the decision, the gravest first."""
    words, found = context.words, urgent(context)
    stops = [action for _, action in found if action.grade is Grade.STOP]
    firsts = [action for _, action in found if action.grade is Grade.FIRST]
    told = []
    if stops:
        told.append(_sized(context, "answer.stop", len(stops)))
    if firsts:
        whens = {action.by_when for action in firsts}
        when = whens.pop() if len(whens) == 1 else words("due.first")
        told.append(_sized(context, "answer.more" if stops else "answer.first", len(firsts), when=when))
    if not told:
        bad = context.with_grade(Grade.STOP, Grade.FIRST)
        told.append(_sized(context, "answer.no_action", len(bad)) if bad else _nothing(context))
    if unseen := len(context.with_grade(Grade.UNSEEN)):
        told.append(_sized(context, "answer.unseen", unseen))
    return told


def _nothing(context: Context) -> str:
    """That nothing was found, which only who looked can say."""
    looked = {Extent.SEEN, Extent.PART_SEEN, Extent.NOT_FOUND}
    seen = any(part.component.examined.extent in looked for part in context.assessments.components)
    return context.words("first.nothing_first" if seen else "answer.no_part")


def nothing_to_do(context: Context) -> str:
    """What stands in place of an empty list of jobs: never that there is nothing to do while a part is not to be used."""
    bad = context.with_grade(Grade.STOP, Grade.FIRST)
    return _sized(context, "answer.no_action", len(bad)) if bad else context.words("action.none")


def _sized(context: Context, ident: str, count: int, **values: str) -> str:
    """One of two sentences, for one thing or for several; it begins with a capital."""
    return ended(
        context.words(f"{ident}_one" if count == 1 else ident, count=counted(context, count), **values)
    )


def comes_first(context: Context) -> list[Block]:
    """One row a part under a line for each grade and date; whatever its length, nothing is hidden."""
    found = urgent(context)
    if not found:
        return []
    rows: list[tuple[Cell, ...]] = []
    told: dict[str, str] = {}
    for (grade, when), group in groupby(found, key=lambda job: (job[1].grade, job[1].by_when)):
        line = context.words("answer.group", word=context.words(f"grade.{grade}"), when=when)
        rows.append((Cell(text=plain(ended(line)), grade=grade, columns=4),))
        rows += [_row(context, own, told) for own in _rows_of(context, list(group))]
    told_first = table(context.words, "answer", rows, number=0.5, wrong=2.95, otherwise=3.05, do=3.3)
    return [told_first.model_copy(update={"style": "facts", "fit": True})]


def _rows_of(context: Context, found: list[ToDo]) -> list[list[ToDo]]:
    """What makes one row: all of a part, and parts of a kind of which the same is told and asked for."""

    def same(own: Sequence[ToDo]) -> object:
        (part, action), *more = own
        if more:
            return part.component.id
        return part.component.kind, reason(context, part, action), action.what, takes(context, action)

    by_part = grouped(found, lambda job: job[0].component.id)
    return [list(chain(*several)) for several in grouped(by_part.values(), same).values()]


def _row(context: Context, own: list[ToDo], told: dict[str, str]) -> tuple[Cell, ...]:
    """One part, or a few alike; what happens if it is left is told once a kind, by the number of the first afterwards."""
    words, (part, action) = context.words, own[0]
    wrong: list[Span] = []
    for each in {each.component.id: each for each, _ in own}.values():
        place = f" ({each.component.place})" if each.component.place else ""
        wrong += [linked(each, context), Span(text=place, style="quiet"), Span(text="; ")]
    wrong[-1] = Span(text=f": {reason(context, part, action)}")
    numbers = runs([each.number for _, each in own])
    consequence = follows(context, part, action)
    if consequence in told:
        consequence = words("answer.as_above", number=told[consequence])
    elif consequence:
        told[consequence] = numbers
    return (
        cell(numbers, bold=True),
        Cell(text=tuple(wrong)),
        cell(consequence or "–"),
        spanned(*_jobs(context, [each for _, each in own])),
    )


def _jobs(context: Context, actions: list[Action]) -> Iterator[Span]:
    """What to do, and after each what it takes; several are told apart by their numbers."""
    told = [same[0] for same in grouped(actions, lambda each: (each.what, takes(context, each))).values()]
    for action in told:
        number = f"{action.number} " if len(told) > 1 else ""
        effort = takes(context, action)
        yield Span(text=number, style="strong")
        yield Span(text=ended(context.words.terms(action.what)))
        yield Span(text=f" {ended(effort)} " if effort else " ", style="quiet")


def size_of_job(context: Context) -> str:
    """How much there is to do in all: by the effort that the tasks declare."""
    todo = [each for each in context.assessments.actions if each.is_open and each.grade is not Grade.UNSEEN]
    if len(todo) <= 1:
        return ""
    words = context.words
    efforts = [(effort, sum(each.effort is effort for each in todo)) for effort in Effort]
    parts = [
        words(f"answer.size_{effort.name.lower()}", count=counted(context, count))
        for effort, count in efforts
        if count
    ]
    total, shares = counted(context, len(todo)), words.listed(parts)
    return words("answer.size", total=total, parts=shares, looks=still_to_look(context))


def still_to_look(context: Context) -> str:
    """How much is to be looked at besides: ", and two more are to be looked at" behind a count of what is to be done; nothing where all was seen."""
    looks = sum(each.is_open and each.grade is Grade.UNSEEN for each in context.assessments.actions)
    if looks <= 1:
        return context.words("answer.size_look") if looks else ""
    return context.words("answer.size_looks", count=counted(context, looks))
