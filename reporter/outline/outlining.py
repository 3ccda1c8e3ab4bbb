"""The stage itself: the template's sections in its order, then the attached data.

Comes in: Job, Assessments, Template and the installed kinds. Goes out: a Report. It reads no file, draws nothing itself
and knows no date but the inspection's and the day of issue.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from reporter.model.assessment import Assessments
from reporter.model.base import Noun
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.report import Attachment, Block, Report, Span
from reporter.model.template import VERSION, Template
from reporter.outline import (
    annex,
    carried,
    circumstances,
    completion,
    due,
    first_page,
    glance,
    glossary,
    handing_over,
    outlook,
    overview,
    parts,
    photos,
    register,
    signing,
    tasks,
    unseen,
    visits,
)
from reporter.outline.attached import attachments, carries
from reporter.outline.context import Context, context_of
from reporter.wording import date

SECTIONS: dict[str, Callable[[Context], list[Block]]] = {
    "first_page": first_page.write,
    "about": first_page.about_her,
    "opinion": circumstances.opinion,
    "contents": first_page.contents,
    "at_a_glance": glance.write,
    "actions": tasks.write,
    "components": parts.write,
    "not_seen": unseen.write,
    "opening_up": unseen.opening_up,
    "history": visits.write,
    "forecast": outlook.write,
    "open_jobs": handing_over.open_jobs,
    "shown": photos.gravest,
    "schedule": due.write,
    "supplies": due.to_buy,
    "deviation": handing_over.deviation,
    "inventory": handing_over.inventory,
    "incidents": completion.incidents,
    "completion": completion.write,
    "particulars": circumstances.particulars,
    "circumstances": circumstances.write,
    "photo_register": register.write,
    "elsewhere": carried.elsewhere,
    "boat": overview.write,
    "sums": annex.sums,
    "method": annex.method,
    "terms": annex.terms,
    "signatures": signing.signatures,
}
LINKS = {"href", "place_href"}
"""Fields of nouns other than spans that hold "#anchor"."""
GLOSSARY = "glossary"
"""The one section that is made of all others."""


def outline(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Report:
    """The whole report in the order of the template's sections; a section with nothing to say is left out."""
    context = context_of(job, assessments, template, kinds)
    sheet, words = job.sheet, context.words
    author, data = sheet.person("author"), attachments(job, assessments, template)
    issue = words(
        "foot.issue" if sheet.report.issued else "foot.issue_draft",
        revision=sheet.report.revision,
        date=date(sheet.report.issued),
    )
    # For whom it was cut is told alike in every language: whoever makes it again needs it.
    version = [f"{VERSION}{job.audience}"] if job.audience else []
    return Report(
        lang=sheet.lang,
        title=f"{context.title}: {sheet.vessel.name}",
        subject=words(template.reader_id) if template.reader_id else context.title,
        author=author.name if author else "",
        keywords=(sheet.vessel.name, sheet.report.number, sheet.vessel.hull_number, *version),
        number=sheet.report.number,
        dated=sheet.report.issued or sheet.inspection.last_day,
        page=sheet.page,
        text=sheet.text,
        running_head=words("foot.head", vessel=sheet.vessel.name, number=sheet.report.number, issue=issue),
        running_foot=context.title,
        draft="" if sheet.report.issued else words("foot.draft"),
        page_word=words("foot.page"),
        blocks=resolved(_blocks(context, data)),
        attachments=data if carries(job) else (),
    )


def _blocks(context: Context, data: tuple[Attachment, ...]) -> list[Block]:
    """Every section in the template's order; the number of the data with the sources, or at the end where there are none.

    The list of sources is written when it is known what points to it, and the glossary, wherever it stands, last: it
    knows what all others say.
    """
    order = sorted(context.template.sections, key=lambda name: name == "method")
    made: dict[str, list[Block]] = {name: SECTIONS[name](context) for name in order if name != GLOSSARY}
    said = [block for blocks in made.values() for block in blocks]
    made[GLOSSARY] = glossary.write(context, said) if GLOSSARY in context.template.sections else []
    number = carried.fingerprint(context, data, is_carried=carries(context.job))
    last = "method" if "method" in made else context.template.sections[-1]
    made[last] = [*made[last], *number]
    return [block for name in context.template.sections for block in made[name]]


def resolved(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """The blocks, links to anchors that none of them has as plain text: a template may leave out what they point to."""
    anchors = {anchor for block in blocks if (anchor := getattr(block, "anchor", ""))}
    return tuple(_resolved(block, anchors) for block in blocks)


def _resolved(value: Any, anchors: set[str]) -> Any:
    if isinstance(value, Span):
        lost = value.href.startswith("#") and value.href[1:] not in anchors
        return value.model_copy(update={"href": ""}) if lost else value
    if isinstance(value, tuple):
        told = tuple(_resolved(each, anchors) for each in value)
        return told if any(new is not old for new, old in zip(told, value, strict=True)) else value
    if isinstance(value, Noun):
        changes = {name: new for name, old in value if (new := _resolved(old, anchors)) is not old}
        changes |= {name: "" for name, old in value if name in LINKS and old and old[1:] not in anchors}
        return value.model_copy(update=changes) if changes else value
    return value
