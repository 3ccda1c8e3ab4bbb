"""What was not seen, and what to have opened up: gaps are kept apart from what is good."""

from __future__ import annotations

from reporter.model.assessment import Graded
from reporter.model.report import Block, Cell, Column, Span, Table
from reporter.model.terms import Extent, Grade, Remedy
from reporter.outline.blocks import bullets, cell, head, heading
from reporter.outline.desk import Desk


def write(desk: Desk) -> list[Block]:
    """The parts not or not fully seen with the reason, the visit's own exclusions, what is not listed."""
    words = desk.words
    rows = [
        (Cell(text=(Span(text=part.title, href=f"#{part.component.id}"),), head=True), cell(words.terms(why)))
        for part in desk.fitted()
        if (why := _why(desk, part))
    ]
    rows += [(head(each.what), cell(each.because)) for each in desk.job.sheet.not_examined]
    for system in desk.assessments.systems:
        titles = [desk.plugins[kind].title if kind in desk.plugins else kind for kind in system.not_listed]
        rows += [(head(title), cell(words("unseen.not_listed"))) for title in titles]
    if not rows:
        return []
    columns = (Column(title=words("unseen.what"), share=1.4), Column(title=words("unseen.why"), share=3))
    return [heading(desk, "not_seen"), Table(columns=columns, rows=tuple(rows))]


def _why(desk: Desk, part: Graded) -> str:
    told = list(part.capped)
    optional = [each.title.lower() for each in part.missing if not each.needed]
    if optional and part.component.examined.extent is not Extent.NOT_SEEN:
        told.append(desk.words("unseen.optional", items=desk.words.listed(optional)))
    return " ".join(told)


def opening_up(desk: Desk) -> list[Block]:
    """The list for the seller: what a buyer should have opened up before deciding."""
    items = [
        (
            Span(text=f"{action.number} · {part.title}: ", style="strong"),
            Span(text=f"{desk.words.terms(action.what)}."),
        )
        for part in desk.assessments.components
        for action in part.actions
        if action.is_open
        and (
            action.remedy is Remedy.OPEN_UP
            or (action.grade is Grade.UNSEEN and action.remedy is not Remedy.TEST)
        )
    ]
    return [heading(desk, "opening_up"), bullets(items)] if items else []
