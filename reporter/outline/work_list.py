"""The yard's list: what to do, where, on which part of which size, with what; boxes for who did it and when.

It holds no owner's data, no opinion and no score: it is handed to people who need none of them.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from reporter.model.assessment import Action, Assessments, Graded
from reporter.model.job import Job
from reporter.model.report import (
    Block,
    Cell,
    Column,
    Heading,
    Paragraph,
    PhotoPair,
    Report,
    Span,
    Table,
    plain,
)
from reporter.model.template import Template
from reporter.outline.blocks import cell, facts, note
from reporter.outline.desk import Desk, Kinds, numbered_photos
from reporter.outline.parts import cautions
from reporter.outline.photos import photo_of
from reporter.outline.speaking import spoken
from reporter.wording import catalogue, date

COLUMNS = (("number", 0.5), ("what", 3.2), ("how", 1.6), ("bring", 1.9), ("when", 1.4), ("done", 1.6))
CSV_COLUMNS = (
    "number",
    "place",
    "part",
    "size",
    "what",
    "remedy",
    "access",
    "parts",
    "tools",
    "photos",
    "when",
    "done_by",
    "date",
)


def work_list(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Report:
    """The work list as a report of its own, part by part in walking order."""
    desk = _desk(job, assessments, template, kinds)
    sheet, words = job.sheet, desk.words
    return Report(
        lang=sheet.lang,
        title=f"{words('work.title')}: {sheet.vessel.name}",
        subject=words("work.subject"),
        author="",
        number=sheet.report.number,
        dated=sheet.report.issued or sheet.inspection.last_day,
        page=sheet.page,
        text=sheet.text,
        running_head=words("work.head", vessel=sheet.vessel.name, number=sheet.report.number),
        running_foot=words("work.title"),
        draft="" if sheet.report.issued else words("foot.draft"),
        page_word=words("foot.page"),
        blocks=tuple(_blocks(desk)),
    )


def _desk(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Desk:
    words = catalogue(job.sheet.lang, job.sheet.terms)
    told = spoken(assessments, job, kinds)
    return Desk(job, told, template, kinds.plugins, kinds.systems, words, numbered_photos(told))


def to_do(part: Graded) -> list[Action]:
    """The part's actions that are neither declined nor done."""
    return sorted((each for each in part.actions if each.is_open), key=lambda action: action.number)


def _blocks(desk: Desk) -> Iterator[Block]:
    words, sheet = desk.words, desk.job.sheet
    yield Heading(level=1, text=words("work.title"), listed=False)
    yield Paragraph(text=(Span(text=sheet.vessel.name, style="strong"),), style="lead")
    yield facts(
        [
            (
                words("work.from"),
                f"{sheet.report.number}, {words.listed([date(day) for day in sheet.inspection.dates])}",
            ),
            (words("circumstance.where"), sheet.inspection.place),
        ]
    )
    yield note(words("terms.caution_1"))
    parts = [part for part in desk.assessments.components if to_do(part)]
    if not parts:
        yield Paragraph(text=plain(words("action.none")))
    for part in parts:
        yield from _part(desk, part)


def _part(desk: Desk, part: Graded) -> Iterator[Block]:
    words = desk.words
    yield Heading(level=2, text=part.title, anchor=part.component.id)
    where = "; ".join(text for text in (desk.place(part), sizes(desk, part)) if text)
    if where:
        yield Paragraph(text=plain(where), style="small", keep=True)
    columns = tuple(
        Column(title=words(f"work.{name}"), share=share, align="right" if name == "number" else "left")
        for name, share in COLUMNS
    )
    yield Table(
        columns=columns, rows=tuple(_row(desk, part, action) for action in to_do(part)), style="boxes"
    )
    yield from cautions(desk, part)
    yield from _photos(desk, part)


def _row(desk: Desk, part: Graded, action: Action) -> tuple[Cell, ...]:
    words = desk.words
    shown = ", ".join(str(plate) for plate in plates(desk, part))
    how = [
        words(f"remedy.{action.remedy}"),
        words(f"access.{action.access}"),
        words(f"effort.{action.effort}"),
    ]
    if shown:
        how.append(words("component.photo", number=shown))
    return (
        Cell(text=plain(str(action.number)), head=True),
        cell(words.terms(action.what)),
        cell("; ".join(filter(None, how))),
        cell("; ".join(words.terms(text) for text in (*action.parts, *action.supplies, *action.tools))),
        cell(action.by_when),
        cell(""),
    )


def sizes(desk: Desk, part: Graded) -> str:
    """The part's sizes, materials and the like, as far as they are known."""
    told = []
    for field in desk.plugins[part.component.kind].details:
        fact = desk.job.facts.get(part.component.id, {}).get(field.id)
        if fact and field.holds != "date":
            shown = field.choices.get(fact.choice, "") or desk.value(
                fact.value, field.unit, field.imperial or field.unit
            )
            told.append(f"{desk.words.terms(field.title).lower()} {desk.words.terms(shown) or fact.words}")
    return ", ".join(told)


def plates(desk: Desk, part: Graded) -> list[int]:
    """The numbers of the part's photos."""
    return [desk.plates[part.component.id, place] for place in range(len(part.component.photos))]


def _photos(desk: Desk, part: Graded) -> Iterator[Block]:
    """Small photos, two by two: the yard has to find the part, not to judge it."""
    found = [photo_of(desk, part, place, use) for place, use in enumerate(part.component.photos)]
    photos = [photo.model_copy(update={"size": "half"}) for photo in found if photo]
    for left, right in zip(photos[::2], photos[1::2], strict=False):
        yield PhotoPair(left=left, right=right)
    if len(photos) % 2:
        yield photos[-1]


def work_csv(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> str:
    """The same list as CSV, for a yard's own planning."""
    report = _desk(job, assessments, template, kinds)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(CSV_COLUMNS)
    words = report.words
    for part in report.assessments.components:
        for action in to_do(part):
            writer.writerow(
                (
                    action.number,
                    report.place(part),
                    part.title,
                    sizes(report, part),
                    words.terms(action.what),
                    words(f"remedy.{action.remedy}"),
                    words(f"access.{action.access}"),
                    words(f"effort.{action.effort}"),
                    "; ".join(words.terms(text) for text in (*action.parts, *action.supplies)),
                    "; ".join(words.terms(text) for text in action.tools),
                    ", ".join(str(plate) for plate in plates(report, part)),
                    action.by_when,
                    "",
                    "",
                )
            )
    return out.getvalue()
