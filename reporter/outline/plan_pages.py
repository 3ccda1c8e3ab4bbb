"""The plan of a visit as a document: its sections in small type to the paper's edges, two pages for a whole boat."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from reporter.model.report import (
    Block,
    Heading,
    PageShape,
    Paragraph,
    Report,
    plain,
    strong,
)
from reporter.outline.visit_plan import VisitPlan

UNDATED = dt.date(2000, 1, 1)
"""A plan of kinds alone belongs to no day, and nothing here reads the clock."""


def plan_pages(plan: VisitPlan, *, lang: str, page: PageShape) -> Report:
    """The plan on paper."""
    sheet, words = (plan.job.sheet if plan.job else None), plan.words
    return Report(
        lang=lang,
        title=plan.title,
        subject=words("plan.subject"),
        author="",
        number=sheet.report.number if sheet else "–",
        dated=sheet.inspection.last_day if sheet else UNDATED,
        page=page,
        dense=True,
        running_head=plan.title,
        running_foot="",
        page_word=words("foot.page"),
        blocks=tuple(_blocks(plan)),
    )


def _blocks(plan: VisitPlan) -> Iterator[Block]:
    yield Heading(level=1, text=plan.title, listed=False)
    if plan.job:
        yield Paragraph(text=plain(occasion(plan)), style="note")
    for section in plan.sections():
        yield Heading(level=2, text=section.title, listed=False)
        if section.note:
            yield Paragraph(text=plain(section.note), style="note", keep=True)
        for lead, text in section.rows:
            yield Paragraph(text=(*strong(f"{lead}: "), *plain(text)), style="small")
    yield Paragraph(text=plain(plan.words("plan.says_nothing")), style="note")


def occasion(plan: VisitPlan) -> str:
    """For what, when and where."""
    if plan.job is None or plan.template is None:
        return ""
    sheet = plan.job.sheet
    days = plan.words.listed([plan.words.date(day) for day in sheet.inspection.dates])
    title = plan.words(plan.template.title_id)
    return plan.words("plan.occasion", purpose=title, days=days, place=sheet.inspection.place)
