"""What changed since the earlier record, reading beside reading and photo beside photo, and the repairs with their receipts.

Comes in: what was graded, with its history. Goes out: blocks. It says "differs from the outgoing record" and no more:
what came about in between it tells only in the words of the log.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.findings import Done
from reporter.model.history import Changed, PartChange, TimeSeries
from reporter.model.report import Block, Cell, Paragraph, plain
from reporter.model.terms import Grade
from reporter.outline import plainly
from reporter.outline.blocks import cell, graded, head, heading, note, subhead, table
from reporter.outline.context import Context
from reporter.outline.earlier_photos import pairs
from reporter.outline.readings import beyond, dated, moved, value_of, where
from reporter.wording import date, joined

SAME = frozenset({Changed.UNCHANGED})
NAMED_ALONE = {Changed.WORN: "worn", Changed.FIRST_TIME: "seen_first", Changed.UNCHANGED: "same"}
"""Of these changes the parts' names are enough: nothing else differs, or the readings stand below."""
NAMED = 8
"""Parts that are named in a line; of more the number in the sentence above is enough."""


def write(context: Context) -> list[Block]:
    """The section; without an earlier folder it tells repairs only, or nothing."""
    history, words = context.assessments.history, context.words
    repaired = list(_repairs(context))
    if not history.visits and not repaired:
        return []
    blocks: list[Block] = [heading(context, "history")]
    if history.visits:
        blocks += [
            note(against(context)).model_copy(update={"keep": True}),
            *(note(remark) for remark in history.remarks),
            *_changes(context),
        ]
        blocks += _readings(context)
        if shown := pairs(context):
            blocks += [subhead(words("history.photos")), *shown]
    else:
        blocks.append(note(words("history.none_earlier")))
    return [*blocks, *repaired]


def against(context: Context) -> str:
    """Which record the report compares with."""
    visits, words = context.assessments.history.visits, context.words
    if len(visits) == 1:
        said = words("history.against", report=visits[0].number, date=date(visits[0].day)) + "."
    else:
        named = [words("history.visit", number=each.number, date=date(each.day)) for each in visits]
        said = words("history.against_many", reports=words.listed(named))
    return f"{said} {words('history.caution')}"


def counted(context: Context, *, short: bool = False) -> str:
    """How many of the parts seen both times differ, and how many were looked at for the first time; `short` in a line."""
    changes, words = context.assessments.history.changes, context.words
    first = sum(each.changed is Changed.FIRST_TIME for each in changes)
    same = sum(each.changed in SAME for each in changes)
    count = {"changed": len(changes) - first - same, "total": len(changes) - first}
    if short:
        return words("history.in_short_first" if first else "history.in_short", **count, count=first)
    said = [words("history.counts", **count)]
    said += [words("history.count_first", count=first)] if first else []
    return " ".join(said)


def _changes(context: Context) -> list[Block]:
    """The count, then a row for each part that differs; what is as it was, and what is new to the record, in a line."""
    changes, words = context.assessments.history.changes, context.words
    differing = [each for each in changes if each.changed not in NAMED_ALONE]
    blocks: list[Block] = [Paragraph(text=plain(counted(context)), keep=bool(differing))]
    if differing:
        rows = (_row(context, each) for each in differing)
        blocks.append(table(words, "history", rows, part=1.5, change=1.0, before=1.0, now=1.0, told=2.5))
    for changed, ident in NAMED_ALONE.items():
        named = [each.title for each in changes if each.changed is changed]
        if named and (len(named) <= NAMED or changed is Changed.WORN):
            blocks.append(note(words(f"history.{ident}", names=words.listed(named))))
    return blocks


def _row(context: Context, change: PartChange) -> tuple[Cell, ...]:
    link = f"#{change.component}" if context.assessments.part(change.component) else ""
    return (
        head(change.title, link),
        cell(change_word(context, change)),
        _grade(context, change.before),
        _grade(context, change.now),
        cell(told(context, change)),
    )


def _grade(context: Context, grade: Grade | None) -> Cell:
    return graded(grade, context.words(f"grade.{grade}")) if grade else cell("–")


def change_word(context: Context, change: PartChange) -> str:
    """The change in a word or two."""
    part = context.assessments.part(change.component)
    ident = "renewed_since" if change.changed is Changed.RENEWED else change.changed.value
    if change.changed is Changed.NOT_SEEN and part and part.unjudged:
        ident = "not_judged"
    return context.words(f"history.{ident}")


def told(context: Context, change: PartChange) -> str:
    """What is found now, in a sentence, or what was then where nothing is told now; then the log's words where it names the part."""
    words, said = context.words, []
    part = context.assessments.part(change.component)
    if part and (change.told_now or part.grade is Grade.CLEAR):
        said.append(plainly.finding(context, part))
    elif change.told_before:
        said.append(words("history.then", what=plainly.ended(words.terms(change.told_before))))
    said += [words("history.logged", what=each) for each in change.incidents]
    aside = [words("history.issued", grade=words(f"grade.{change.issued}"))] if change.issued else []
    aside += [words("history.was", was=change.was)] if change.was else []
    return " ".join((*said, f"({'; '.join(aside)})" if aside else "")).strip()


def _readings(context: Context) -> list[Block]:
    """Every quantity that was read at the same place before: a row for what moved, a line for what did not."""
    read_again = [run for run in context.assessments.history.runs if len(run.points) > 1]
    runs = [run for run in read_again if beyond(run)]
    words = context.words
    steady = len(read_again) - len(runs)
    stayed = [note(words("history.stayed", count=steady))] if steady else []
    if not runs:
        return [subhead(words("history.readings")), *stayed] if stayed else []
    rows = (_reading(context, run) for run in runs)
    moves = table(words, "history", rows, part=1.4, quantity=1.8, before=1.9, now=1.2, moved=1.3)
    return [subhead(words("history.readings")), moves, *stayed]


def _reading(context: Context, run: TimeSeries) -> tuple[Cell, ...]:
    told = dated if len(context.assessments.history.visits) > 1 else value_of
    earlier = "; ".join(told(run, point) for point in run.points[:-1])
    return (
        head(run.title),
        cell(f"{run.name}{where(run, context.words)}"),
        cell(earlier),
        cell(value_of(run, run.points[-1])),
        cell(moved(run, context.words)),
    )


def _repairs(context: Context) -> Iterator[Block]:
    """Work on record in this report with its receipts, then the papers aboard."""
    done = [(part.title, each) for part in context.assessments.components for each in part.component.done]
    words = context.words
    if done:
        yield subhead(words("history.repairs"))
        rows = (_repair(title, each) for title, each in done)
        yield table(words, "repair", rows, date=1.0, part=1.5, what=2.8, by=1.2, proof=1.3)
    if papers := context.job.sheet.documents:
        named = [joined(", ", each.shows, date(each.date), each.file) for each in papers]
        yield note(words("history.papers", items="; ".join(named)))


def _repair(title: str, done: Done) -> tuple[Cell, ...]:
    papers = ", ".join(name.removeprefix("documents/") for name in done.documents)
    return (head(date(done.date) or "–"), cell(title), cell(done.what), cell(done.by), cell(papers or "–"))
