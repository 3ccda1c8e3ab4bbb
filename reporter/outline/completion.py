"""What happened meanwhile, and the recommendations: what is wrong, what follows if it lets go, and in which state each is.

Comes in: the context. Goes out: tables. A recommendation keeps its number; what becomes of the part is told once per part.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from itertools import groupby

from reporter.model.assessment import Action, Graded
from reporter.model.history import Carried
from reporter.model.report import Block, Cell, Column, Span, Table
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import cell, graded, head, heading, note
from reporter.outline.context import Context
from reporter.outline.plainly import ended, reasons, runs
from reporter.outline.recommended import carried_over
from reporter.wording import date

COLUMNS = (("number", 0.4), ("what", 3.6), ("consequence", 2.3), ("state", 1.9))
Pair = tuple[Graded, Action]
_ORDER = {grade: place for place, grade in enumerate(URGENCY)}


def incidents(context: Context) -> list[Block]:
    """The author's log of incidents; a section only when there are any."""
    log = context.job.sheet.incidents
    if not log:
        return []
    columns = tuple(
        Column(title=context.words(f"incident.{title}"), share=share)
        for title, share in (("date", 1), ("what", 3), ("part", 1.3))
    )
    titles = {part.component.id: part.title for part in context.assessments.components}
    rows = tuple(
        (head(date(each.date)), cell(each.what), cell(titles.get(each.component, each.component)))
        for each in log
    )
    return [heading(context, "incidents"), Table(columns=columns, rows=rows)]


def write(context: Context) -> list[Block]:
    """Each recommendation with its consequence and its state, the most urgent first; then those carried over."""
    pairs = recommended(context)
    earlier = carried_over(context)
    if not pairs and not earlier:
        return []
    table: list[Block] = [note(counted(context, pairs)), _table(context, pairs)] if pairs else []
    return [heading(context, "completion"), *table, *earlier]


def recommended(context: Context) -> list[tuple[Graded, Action]]:
    """Every recommendation put to the reader, by urgency, part and number: what the template recommends but the unseen."""
    wanted = {Grade(each) for each in context.template.recommends} - {Grade.UNSEEN, Grade.WATCH}
    pairs = [
        (part, each)
        for part in context.assessments.components
        for each in part.actions
        if each.grade in wanted
    ]
    first: dict[tuple[str, Grade], int] = {}
    for part, each in sorted(pairs, key=lambda pair: pair[1].number):
        first.setdefault((part.component.id, each.grade), each.number)
    return sorted(
        pairs,
        key=lambda pair: (_ORDER[pair[1].grade], first[pair[0].component.id, pair[1].grade], pair[1].number),
    )


def counted(context: Context, pairs: list[tuple[Graded, Action]]) -> str:
    """How many recommendations there are in each state: the same ones that the table below lists."""
    words = context.words
    states = Counter(state(action) for _, action in pairs)
    grades = Counter(action.grade for _, action in pairs if action.is_open)
    told = [words(f"completion.count_{grade}", count=count) for grade in URGENCY if (count := grades[grade])]
    closed = [
        words(f"completion.count_{each}", count=states[each]) for each in ("done", "declined") if states[each]
    ]
    opened = words("completion.count_open", count=states["open"], grades=words.listed(told)) if told else ""
    return " ".join(text for text in (opened, *closed, _watched(context)) if text)


def _watched(context: Context) -> str:
    """How many jobs more there are that are no recommendations, so that the first page's count is met."""
    count = sum(each.is_open and each.grade is Grade.WATCH for each in context.assessments.actions)
    if not count or Grade.WATCH.value in context.template.recommends:
        return ""
    section = context.words("head.schedule")
    return context.words(
        "completion.watched_one" if count == 1 else "completion.watched", count=count, section=section
    )


def state(action: Action) -> str:
    """`open`, `done` or `declined`."""
    if action.is_open:
        return "open"
    return "done" if action.edit and action.edit.done else "declined"


def _table(context: Context, pairs: list[tuple[Graded, Action]]) -> Table:
    columns = tuple(Column(title=context.words(f"completion.{name}"), share=share) for name, share in COLUMNS)
    since = {
        (each.component, each.action): each for each in context.assessments.history.carried if each.action
    }
    rows: list[tuple[Cell, ...]] = []
    told: dict[str, int] = {}
    for grade, urgent in groupby(pairs, key=lambda pair: pair[1].grade):
        word = context.words(
            "completion.group",
            word=context.words(f"grade.{grade}"),
            means=context.words(f"grade_meaning.{grade}"),
        )
        rows.append((graded(grade, word).model_copy(update={"columns": len(COLUMNS), "head": True}),))
        group = list(urgent)
        rows += [_row(context, alike, since, told) for alike in _alike(context, group)]
    return Table(columns=columns, rows=tuple(rows))


def _alike(context: Context, pairs: list[Pair]) -> list[list[Pair]]:
    """What is asked of several parts for one reason together, in the order of the first of them."""
    found: dict[object, list[Pair]] = {}
    for part, action in pairs:
        same = (
            action.what,
            action.by_when,
            reasons(context, part, action),
            part.component.kind,
            state(action),
        )
        found.setdefault(same, []).append((part, action))
    return list(found.values())


def _row(
    context: Context, alike: list[Pair], since: Mapping[tuple[str, str], Carried], told: dict[str, int]
) -> tuple[Cell, ...]:
    """One recommendation; what follows if the part lets go is told once, and pointed to after that."""
    words, (part, action) = context.words, alike[0]
    follows = words.terms(context.plugins[part.component.kind].consequence) or "–"
    if told.setdefault(follows, action.number) != action.number:
        follows = words("answer.as_above", number=told[follows])
    names: list[Span] = []
    for each, _ in alike:
        names += [Span(text=each.title, style="strong", href=f"#{each.component.id}"), Span(text="; ")]
    names[-1] = Span(text=": ", style="strong")
    what = Span(text=f"{ended(words.terms(action.what))} ")
    why = Span(text=reasons(context, part, action), style="quiet")
    return (
        head(runs([each.number for _, each in alike])),
        Cell(text=tuple(span for span in (*names, what, why) if span.text)),
        cell(follows),
        cell(_state(context, action, since.get((part.component.id, action.id)))),
    )


def _state(context: Context, action: Action, earlier: Carried | None) -> str:
    """Open and by when, done by whom with which proof, or declined and why; and where it was first made."""
    words, edit = context.words, action.edit
    told = words("completion.open", when=action.by_when)
    if edit and edit.done:
        proof = ", ".join(edit.done.documents) or words("completion.no_proof")
        told = words(
            "completion.done",
            by=edit.done.by or words("first.not_known"),
            date=date(edit.done.date) or words("first.not_known"),
            proof=proof,
        )
    elif edit and edit.decline:
        told = words("completion.declined", reason=edit.reason)
    return f"{told} ({words('completion.first_made', number=earlier.first)})" if earlier else told
