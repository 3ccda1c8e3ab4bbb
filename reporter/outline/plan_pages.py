"""The plan of a visit as a document: its sections in small type to the paper's edges, two pages for a whole boat."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from reporter.model.report import Block, Heading, PageShape, Paragraph, Report, Span, plain, strong
from reporter.outline.visit_plan import VisitPlan

_NUMBERS = re.compile(r"(?:^|(?<=; ))\d+(?:[,–] ?\d+)*(?= )")
"""The numbers that lead what is said of parts: "3", "18–20, 22"."""
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
            yield Paragraph(text=(*strong(f"{lead}: "), *_told(plan, text)), style="small")
    yield Paragraph(text=plain(plan.words("plan.says_nothing")), style="note")


def _told(plan: VisitPlan, text: str) -> Iterator[Span]:
    """A row with the numbers of its parts to be found at a glance, and what is to be reached of them held back."""
    reach = plan.words("plan.reach", items="\0").partition("\0")[0]
    named, label, items = text.partition(reach)
    at = 0
    for found in _NUMBERS.finditer(named):
        yield Span(text=named[at : found.start()])
        yield Span(text=found.group(), style="strong")
        at = found.end()
    yield Span(text=named[at:])
    if label:
        yield Span(text=f"{label}{items}", style="quiet")


def occasion(plan: VisitPlan) -> str:
    """For what, when and where."""
    if plan.job is None or plan.template is None:
        return ""
    sheet = plan.job.sheet
    days = plan.words.listed([plan.words.date(day) for day in sheet.inspection.dates])
    title = plan.words(plan.template.title_id)
    return plan.words("plan.occasion", purpose=title, days=days, place=sheet.inspection.place)
