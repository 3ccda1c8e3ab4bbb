"""What happened meanwhile, and the recommendations: what is wrong, what follows if it lets go, and in which state each is.

Comes in: the context. Goes out: tables. A recommendation keeps its number; what becomes of the part is told once per part.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import groupby

from reporter.model.assessment import Action, Graded
from reporter.model.history import Carried
from reporter.model.report import Block, Cell, Column, Span, Table, plain
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import cell, graded, head, heading, note
from reporter.outline.context import Context
from reporter.outline.recommended import carried_over
from reporter.wording import date

COLUMNS = (("number", 0.4), ("what", 3.6), ("consequence", 2.3), ("state", 1.9))
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
    told = [
        words("completion.count", count=count, word=words(f"grade.{grade}"))
        for grade in URGENCY
        if (count := grades[grade])
    ]
    closed = [
        words(f"completion.count_{each}", count=states[each]) for each in ("done", "declined") if states[each]
    ]
    opened = words("completion.count_open", count=states["open"], grades=words.listed(told)) if told else ""
    return " ".join(text for text in (opened, *closed) if text)


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
    for grade, urgent in groupby(pairs, key=lambda pair: pair[1].grade):
        word = context.words(
            "completion.group",
            word=context.words(f"grade.{grade}"),
            means=context.words(f"grade_meaning.{grade}"),
        )
        rows.append((graded(grade, word).model_copy(update={"columns": len(COLUMNS), "head": True}),))
        for _, group in groupby(urgent, key=lambda pair: pair[0].component.id):
            rows += _rows(context, list(group), since)
    return Table(columns=columns, rows=tuple(rows))


def _rows(
    context: Context, pairs: list[tuple[Graded, Action]], since: Mapping[tuple[str, str], Carried]
) -> Iterator[tuple[Cell, ...]]:
    """One part's recommendations of one urgency; what follows if the part lets go stands beside them once."""
    for place, (part, action) in enumerate(pairs):
        told = context.words.terms(context.plugins[part.component.kind].consequence) or "–"
        follows = () if place else (Cell(text=plain(told), rows=len(pairs)),)
        first = since.get((part.component.id, action.id))
        yield (
            head(str(action.number)),
            _what(context, part, action),
            *follows,
            cell(_state(context, action, first)),
        )


def _what(context: Context, part: Graded, action: Action) -> Cell:
    words = context.words
    lead = Span(text=f"{part.title}: ", style="strong", href=f"#{part.component.id}")
    why = f"{words.terms(action.why).rstrip('.')}." if action.why else ""
    return Cell(text=(lead, Span(text=f"{words.terms(action.what)}. "), Span(text=why, style="quiet")))


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
