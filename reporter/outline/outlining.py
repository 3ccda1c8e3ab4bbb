"""The stage itself: the template's sections in its order, then the attached data.

Comes in: Job, Assessments, Template and the installed kinds. Goes out: a Report. It reads no file, draws nothing itself
and knows no date but the inspection's and the day of issue.
"""

from __future__ import annotations

from collections.abc import Callable

from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.report import Block, Report
from reporter.model.template import VERSION, Template
from reporter.outline import (
    annex,
    circumstances,
    completion,
    due,
    elsewhere,
    fingerprint,
    first_page,
    glance,
    glossary,
    handing_over,
    outlook,
    overview,
    parts,
    register,
    shown,
    signing,
    tasks,
    unseen,
    visits,
)
from reporter.outline.attached import attachments, carries
from reporter.outline.context import Context, context_of
from reporter.outline.links import resolved
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
    "shown": shown.write,
    "schedule": due.write,
    "supplies": due.to_buy,
    "deviation": handing_over.deviation,
    "inventory": handing_over.inventory,
    "incidents": completion.incidents,
    "completion": completion.write,
    "particulars": circumstances.particulars,
    "circumstances": circumstances.write,
    "photo_register": register.write,
    "elsewhere": elsewhere.write,
    "boat": overview.write,
    "sums": annex.sums,
    "method": annex.method,
    "terms": annex.terms,
    "signatures": signing.signatures,
}
GLOSSARY = "glossary"
"""The one section that is made of all others."""


def outline(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Report:
    """The whole report in the order of the template's sections; a section with nothing to say is left out."""
    context = context_of(job, assessments, template, kinds)
    sheet, words = job.sheet, context.words
    author, data = sheet.person("author"), attachments(job, assessments, template)
    issue = (
        words("foot.issue", revision=sheet.report.revision, date=date(sheet.report.issued))
        if sheet.report.issued
        else words("foot.issue_draft")
    )
    return Report(
        lang=sheet.lang,
        title=f"{context.title}: {sheet.vessel.name}",
        subject=words(template.reader_id) if template.reader_id else context.title,
        author=author.name if author else "",
        keywords=(sheet.vessel.name, sheet.report.number, sheet.vessel.hull_number, *_version(job)),
        number=sheet.report.number,
        dated=sheet.report.issued or sheet.inspection.last_day,
        page=sheet.page,
        text=sheet.text,
        running_head=words("foot.head", vessel=sheet.vessel.name, number=sheet.report.number, issue=issue),
        running_foot=context.title,
        draft="" if sheet.report.issued else words("foot.draft"),
        page_word=words("foot.page"),
        blocks=resolved([*_blocks(context), *fingerprint.write(context, data, carried=carries(job))]),
        attachments=data if carries(job) else (),
    )


def _version(job: Job) -> list[str]:
    """For whom the report was cut, as a keyword that is the same in every language: whoever makes it again needs it."""
    return [f"{VERSION}{job.audience}"] if job.audience else []


def _blocks(context: Context) -> list[Block]:
    """Every section in the template's order.

    The list of sources is written when it is known what points to it, and the glossary, wherever it stands, last: it
    knows what all others say.
    """
    order = sorted(context.template.sections, key=lambda name: name == "method")
    made: dict[str, list[Block]] = {name: SECTIONS[name](context) for name in order if name != GLOSSARY}
    said = [block for blocks in made.values() for block in blocks]
    made[GLOSSARY] = glossary.write(context, said) if GLOSSARY in context.template.sections else []
    return [block for name in context.template.sections for block in made[name]]
