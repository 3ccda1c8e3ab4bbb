"""What happened meanwhile: incidents and repairs, and the state of each recommendation."""

from __future__ import annotations

from reporter.model.assessment import Action, Graded
from reporter.model.history import Carried
from reporter.model.report import Block, Cell, Column, Table, plain, strong
from reporter.model.terms import Grade
from reporter.outline.blocks import cell, head, heading
from reporter.outline.desk import Desk
from reporter.outline.recommended import carried_over
from reporter.wording import date


def incidents(desk: Desk) -> list[Block]:
    """The author's log of incidents; a section only when there are any."""
    log = desk.job.sheet.incidents
    if not log:
        return []
    columns = tuple(
        Column(title=desk.words(f"incident.{title}"), share=share)
        for title, share in (("date", 1), ("what", 3), ("part", 1.3))
    )
    titles = {part.component.id: part.title for part in desk.assessments.components}
    rows = tuple(
        (head(date(each.date)), cell(each.what), cell(titles.get(each.component, each.component)))
        for each in log
    )
    return [heading(desk, "incidents"), Table(columns=columns, rows=rows)]


def write(desk: Desk) -> list[Block]:
    """Each recommendation with room to sign it off: done by whom, when, with which proof; then those carried over."""
    actions = [
        action for action in desk.assessments.actions if action.grade in {Grade.STOP, Grade.FIRST, Grade.PLAN}
    ]
    earlier = carried_over(desk)
    if not actions and not earlier:
        return []
    columns = tuple(
        Column(title=desk.words(f"completion.{title}"), share=share)
        for title, share in (("number", 0.4), ("what", 3), ("done_by", 1.3), ("date", 1), ("proof", 1.3))
    )
    since = {(each.component, each.action): each for each in desk.assessments.history.carried if each.action}
    rows = tuple(
        _row(desk, part, action, since.get((part.component.id, action.id)))
        for action in actions
        for part in desk.assessments.components
        if action in part.actions
    )
    table = [Table(columns=columns, rows=rows, style="boxes")] if rows else []
    return [heading(desk, "completion"), *table, *earlier]


def _row(desk: Desk, part: Graded, action: Action, earlier: Carried | None) -> tuple[Cell, ...]:
    """One line to be signed off; a recommendation carried over says in which report it was first made."""
    words, done = desk.words, action.edit.done if action.edit else None
    aside = (
        [words("action.declined", reason=action.edit.reason)] if action.edit and action.edit.decline else []
    )
    aside += [words("completion.first_made", number=earlier.first)] if earlier else []
    told = f" ({'; '.join(aside)})" if aside else ""
    return (
        head(str(action.number)),
        Cell(text=(*strong(f"{part.title}: "), *plain(f"{words.terms(action.what)}{told}"))),
        cell(done.by if done else ""),
        cell(date(done.date) if done else ""),
        cell(", ".join(done.documents) if done else ""),
    )
