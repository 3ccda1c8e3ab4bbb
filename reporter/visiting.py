"""Before a visit and after it: the plan, the field sheet, and the filled sheet taken back. It calls the steps of the pipeline.

Comes in: a job folder. Goes out: a plan, a form, or the folder with what was filled in.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reporter import pipeline
from reporter.finishing import Tell, write
from reporter.machine.interrupts import held
from reporter.machine.leavings import written
from reporter.model.report import PageShape
from reporter.outline.visit_plan import VisitPlan
from reporter.registry import Registry
from reporter.taking import SheetTaken
from reporter.wording import languages, speaking

DOTS = 220
"""Per inch, of photos: a sheet has none."""


def plan(folder: Path | None, wanted: Sequence[str], registry: Registry, lang: str = "") -> VisitPlan:
    """The plan of the next visit: of a job folder, or of one part of each kind `wanted`."""
    from reporter.outline.speaking import spoken
    from reporter.wording import catalogue

    if folder is None:
        for kind in wanted:
            registry.plugin(kind)
        return VisitPlan(registry.in_language(lang or "en"), catalogue(lang or "en"), wanted=wanted)
    job = pipeline.collect(folder, registry, lang)
    template, told = registry.template(job.sheet.purpose), registry.in_language(job.sheet.lang)
    # A folder without a finding is a visit that lies ahead: the last record is then the latest earlier one.
    looked = [each for each in job.components if each.observed or each.found] or job.readings
    past = [job] if looked else sorted(job.earlier, key=lambda each: each.sheet.inspection.last_day)[-1:]
    last = None
    if past:
        record = past[0].model_copy(
            update={"sheet": past[0].sheet.model_copy(update={"lang": job.sheet.lang})}
        )
        # What was left behind is what the next visit meets.
        as_left = template.model_copy(update={"as_found_only": False})
        last = (record, spoken(pipeline.grade(record, registry, as_left, keep_going=True), record, told))
    return VisitPlan(told, catalogue(job.sheet.lang, job.sheet.terms), job, template, wanted, last)


def print_plan(made: VisitPlan, folder: Path, target: Path, *, lang: str = "", tell: Tell) -> None:
    """The plan on paper, or as a page for a browser where `target` ends so; on the job's own paper, where it has one."""
    from reporter.outline.plan_pages import plan_pages

    pipeline.refuse_early(target, folder)
    spoken = made.job.sheet.lang if made.job else lang or "en"
    page = made.job.sheet.page if made.job else "A4"
    with speaking(spoken):
        document = plan_pages(made, lang=spoken, page="A4" if page == "phone" else page)
        write(document, folder, target, dpi=DOTS, tell=tell)


def sheet(
    folder: Path,
    target: Path,
    registry: Registry,
    *,
    page: PageShape | None = None,
    everything: bool = False,
    empty: bool = False,
    lang: str = "",
    tell: Tell,
) -> None:
    """The field sheet of a job folder, a form to be filled in; on the job's own paper where none is asked for."""
    from reporter.outline.field_sheet import field_sheet

    pipeline.refuse_early(target, folder)
    job = pipeline.collect(folder, registry, lang)
    own: PageShape = "A4" if job.sheet.page == "phone" else job.sheet.page
    with speaking(job.sheet.lang):
        document = field_sheet(
            job,
            registry.template(job.sheet.purpose),
            registry.in_language(job.sheet.lang),
            page=page or own,
            everything=everything,
            empty=empty,
        )
        write(document, folder, target, dpi=DOTS, tell=tell)


def take(folder: Path, filled: Path, registry: Registry, *, replace: bool = False) -> SheetTaken:
    """A filled sheet into its folder: what is new is written there, what differs only where `replace` says so."""
    from reporter.archive import read_form
    from reporter.editing import JobFiles
    from reporter.taking import folder_data, take
    from reporter.wording import catalogue

    form, files = read_form(filled), JobFiles(folder)
    data = folder_data(files)
    lang = str(form.meaning.get("lang")) if form.meaning.get("lang") in languages() else "en"
    words = catalogue(lang, "us" if data.job["terms"] == "us" else "uk")
    with speaking(lang):
        taken = take(form, data, registry.in_language(lang), words, replace=replace)
        if taken.edits:
            with held():
                files.accept(words("take.label", sheet=filled.name), taken.edits)
                written.append(folder)
    return taken
