"""What happened meanwhile: incidents and repairs, and the state of each recommendation."""

from __future__ import annotations

from reporter.model.report import Block, Column, Table
from reporter.model.terms import Grade
from reporter.outline.blocks import cell, head, heading
from reporter.outline.desk import Desk
from reporter.wording import date


def incidents(desk: Desk) -> list[Block]:
    """The author's log of incidents; a section only when there are any."""
    log = desk.job.sheet.incidents
    if not log:
        return []
    columns = tuple(
        Column(title=desk.words(f"incident.{title}"), share=share) for title, share in (("date", 1), ("what", 3), ("part", 1.3))
    )
    titles = {part.component.id: part.title for part in desk.assessments.components}
    rows = tuple((head(date(each.date)), cell(each.what), cell(titles.get(each.component, each.component))) for each in log)
    return [heading(desk, "incidents"), Table(columns=columns, rows=rows)]


def write(desk: Desk) -> list[Block]:
    """Each recommendation with room to sign it off: done by whom, when, with which proof."""
    actions = [
        action for action in desk.assessments.actions if action.grade in {Grade.STOP, Grade.FIRST, Grade.PLAN}
    ]
    if not actions:
        return []
    columns = tuple(
        Column(title=desk.words(f"completion.{title}"), share=share)
        for title, share in (("number", 0.4), ("what", 3), ("done_by", 1.3), ("date", 1), ("proof", 1.3))
    )
    rows = []
    for action in actions:
        done = action.edit.done if action.edit else None
        declined = f" ({desk.words('action.declined', reason=action.edit.reason)})" if action.edit and action.edit.decline else ""
        rows.append(
            (
                head(str(action.number)),
                cell(f"{desk.words.terms(action.what)}{declined}"),
                cell(done.by if done else ""),
                cell(date(done.date) if done else ""),
                cell(", ".join(done.documents) if done else ""),
            )
        )
    return [heading(desk, "completion"), Table(columns=columns, rows=tuple(rows), style="boxes")]
