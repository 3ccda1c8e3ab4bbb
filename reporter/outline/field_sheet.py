"""The field sheet: what is asked of every part, in walking order, as a form to be filled in by hand or on a screen.

Comes in: a job and the installed kinds. Goes out: a `Report` of form fields with the data that says what they stand for.
What the folder answers already is filled in; what it answered last time stands beside.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator

from reporter.asking import Part, Stop, asked, asking_version, walk
from reporter.model.form import Form
from reporter.model.job import Job
from reporter.model.plugin import Kinds, Plugin
from reporter.model.report import Attachment, Block, Fields, Heading, PageShape, Paragraph, Report, plain
from reporter.model.template import Template
from reporter.outline.sheet_parts import SheetPart
from reporter.wording import Catalogue, catalogue, date

FORMAT = 1
"""Of the data in a sheet."""


def field_sheet(
    job: Job,
    template: Template,
    kinds: Kinds,
    *,
    page: PageShape,
    everything: bool = False,
    empty: bool = False,
) -> Report:
    """The sheet of a job. With `everything` each question that its kind knows, else the usual ones that apply.

    With `empty` nothing is filled in, whatever the folder says.
    """
    sheet, words = job.sheet, catalogue(job.sheet.lang, job.sheet.terms)
    stops = walk(kinds, job, template)
    title = words("sheet.title", vessel=sheet.vessel.name)
    return Report(
        lang=sheet.lang,
        title=title,
        subject=words("sheet.subject"),
        author="",
        number=sheet.report.number,
        dated=sheet.report.issued or sheet.inspection.last_day,
        page=page,
        dense=True,
        running_head=words("sheet.head", vessel=sheet.vessel.name, number=sheet.report.number),
        running_foot="",
        page_word=words("foot.page"),
        blocks=tuple(_blocks(job, stops, kinds, words, everything=everything, empty=empty)),
        attachments=(_meaning(job, stops, kinds, words),),
    )


def _blocks(
    job: Job, stops: list[Stop], kinds: Kinds, words: Catalogue, *, everything: bool, empty: bool
) -> Iterator[Block]:
    yield Heading(level=1, text=words("sheet.title", vessel=job.sheet.vessel.name), listed=False)
    days = [part.before[0].sheet.inspection.last_day for stop in stops for part in stop.parts if part.before]
    then = words("sheet.then_means", day=date(max(days))) if days else ""
    yield Paragraph(text=plain(f"{words('sheet.how_to')} {then}".strip()), style="note")
    met: set[str] = set()
    for stop in stops:
        yield Heading(level=2, text=f"{stop.system.title}: {stop.title}", listed=False)
        for part in stop.parts:
            plugin = kinds.plugins[part.kind]
            made = SheetPart(
                part,
                asked(plugin, words, part.component, job),
                _then(part, plugin, words),
                words,
                tuple(words.terms(each) for each in plugin.cautions),
                first=part.kind not in met,
                everything=everything,
                empty=empty,
            )
            met.add(part.kind)
            yield Fields(title=f"{part.number}  {part.name}", items=(*made.head(), *made.questions()))


def _then(part: Part, plugin: Plugin, words: Catalogue) -> Form | None:
    """The form as the last visit answered it."""
    if part.before is None:
        return None
    visit, old = part.before
    return asked(plugin, words, old, visit)


def _meaning(job: Job, stops: list[Stop], kinds: Kinds, words: Catalogue) -> Attachment:
    """What the sheet belongs to: the job, the kinds in the version they were asked by, the parts under their ids."""
    parts = [part for stop in stops for part in stop.parts]
    told = {
        "format": FORMAT,
        "report": job.sheet.report.number,
        "revision": job.sheet.report.revision,
        "vessel": job.sheet.vessel.name,
        "inspection": [str(day) for day in job.sheet.inspection.dates],
        "lang": job.sheet.lang,
        "kinds": {kind: asking_version(kinds.plugins[kind]) for kind in sorted({part.kind for part in parts})},
        "parts": [
            {"id": part.ident, "kind": part.kind, "name": part.name or "", "place": part.place,
             "group": _known(part, "group"), "side": _known(part, "side"), "listed": part.component is not None}
            for part in parts
        ],
    }  # fmt: skip
    text = json.dumps(told, ensure_ascii=False, indent=1)
    return Attachment(
        name="sheet.json",
        media_type="application/json",
        description=words("sheet.data"),
        packed=zlib.compress(text.encode()),
        relationship="Data",
    )


def _known(part: Part, name: str) -> str:
    """What the folder says of the part, else what the last visit said."""
    known = part.component or (part.before[1] if part.before else None)
    return str(getattr(known, name)) if known else ""
