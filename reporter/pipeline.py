"""The whole run in six calls. Read this first.

job folder ─collect→ Job ─grade→ Assessments ─outline→ Report ─develop→ pictures ─typeset→ pages ─archive→ PDF
                                                                                 └─web→ HTML
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from reporter.errors import UsageError
from reporter.finishing import Tell, write
from reporter.machine.scratch import scratch
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.template import Template
from reporter.registry import Registry
from reporter.wording import languages, speaking

if TYPE_CHECKING:
    from reporter.collect import PhotoReader
    from reporter.collect.in_language import Translator
    from reporter.door.workers import Progress
    from reporter.errors import JobError, Problem

Miss = Callable[["JobError"], None]
_PROMISES = {
    ".csv", ".doc", ".docx", ".html", ".ics", ".jpeg", ".jpg", ".json", ".md", ".odt", ".pdf", ".png", ".rtf", ".txt",
    ".xls", ".xlsx", ".yaml", ".zip",
}  # fmt: skip
"""Endings that promise a sort of file."""
_DOCUMENT, _CALENDAR = (".pdf", ".html"), (".ics",)


def collect(
    folder: Path,
    registry: Registry,
    lang: str = "",
    *,
    keep_going: bool = False,
    told: Progress | None = None,
) -> Job:
    """Step 1: a job folder to a Job. JobError carries everything that is wrong with it.

    `lang` stands above the language that the folder asks for. `keep_going` bears photos that cannot be shown. `told` is
    called with the number of photos read, and of how many.
    """
    job, wrong = collect_parts(folder, registry, lang, keep_going=keep_going, told=told)
    if wrong:
        raise wrong
    return job


def collect_parts(
    folder: Path,
    registry: Registry,
    lang: str = "",
    *,
    keep_going: bool = False,
    told: Progress | None = None,
) -> tuple[Job, JobError | None]:
    """Step 1 where a fault of one part is not to silence the others: the Job, and what is wrong if anything is.

    JobError where nothing can be graded. What is at fault stands in the Job as incomplete, and is never graded.
    """
    from reporter.collect import collect_parts as read
    from reporter.collect.in_language import written_language
    from reporter.door import read_photos
    from reporter.errors import JobError
    from reporter.wording import catalogue

    try:
        job, problems = read(folder, registry, photos=partial(read_photos, told=told), keep_going=keep_going)
    except JobError as error:
        raise _told(error, lang or written_language(folder), registry) from None
    job = _spoken(job, registry, lang)
    why = catalogue(job.sheet.lang)("check_told.incomplete")
    job = job.model_copy(update={"incomplete": dict.fromkeys(job.incomplete, why)})
    return job, _told(JobError(problems), job.sheet.lang, registry) if problems else None


def _spoken(job: Job, registry: Registry, lang: str) -> Job:
    """The job in the language that is asked for above its own, remarks as well."""
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update={"lang": lang})}) if lang else job
    if job.sheet.lang == "en" or not job.remarks:
        return job
    say = translator(job.sheet.lang, registry)
    return job.model_copy(update={"remarks": tuple(say.text(each) for each in job.remarks)})


def _told(error: JobError, lang: str, registry: Registry) -> JobError:
    """What is wrong with a folder, in the language asked for or written in it."""
    return translator(lang, registry).error(error) if lang in languages()[1:] else error


def translator(lang: str, registry: Registry) -> Translator:
    """What tells the faults of a folder in another language than English."""
    from reporter.collect.in_language import translator as read

    return read(lang, registry.plugins, registry.in_language(lang).plugins)


def read_begun(
    folder: Path, registry: Registry, texts: Mapping[str, str], photos: PhotoReader
) -> tuple[Job, list[Problem]]:
    """Step 1 of a folder that is still being filled, held in memory: the Job as far as it goes, and what is wrong."""
    from reporter.collect import collect_begun

    return collect_begun(folder, registry, photos=photos, texts=texts)


def not_shown(folder: Path, job: Job, *, decode: bool) -> list[Problem]:
    """The photos used that no report could show, by their headers; with `decode` every pixel is looked at."""
    from reporter.door import decode_check, named

    used = {use.file for component in job.components for use in component.photos}
    used |= set(job.sheet.vessel.photos.values())
    files = [file for name in sorted(used) if (file := job.photo(name))]
    if decode:
        return decode_check([folder / file.name for file in files], folder)
    return named((file.name, file.problem) for file in files if file.problem)


def with_lost(wrong: JobError | None, lost: list[Problem], job: Job, registry: Registry) -> JobError | None:
    """What is wrong with a folder, and the photos that do not decode; of the others their place in the folder tells."""
    from reporter.errors import JobError

    more = [each for each in lost if not ((file := job.photo(each.file)) and file.problem)]
    if not more:
        return wrong
    told = _told(JobError(more), job.sheet.lang, registry)
    return JobError([*(wrong.problems if wrong else ()), *told.problems], told.frame)


def photos_lost(problems: list[Problem], job: Job, registry: Registry) -> JobError:
    """What is said of photos that plates stand in for, in the language of the job."""
    from reporter.errors import Frame, JobError
    from reporter.wording import catalogue

    words = catalogue(job.sheet.lang)
    frame = Frame(one=words("photo.lost_one"), many=words("photo.lost", count="{count}"))
    error = JobError(problems)
    if job.sheet.lang != "en":
        error = translator(job.sheet.lang, registry).error(error)
    return JobError(error.problems, frame)


def grade(job: Job, registry: Registry, template: Template, *, keep_going: bool = False) -> Assessments:
    """Step 2: a Job to Assessments. A failing plugin raises PluginError unless `keep_going`."""
    from reporter.errors import JobError
    from reporter.grade import grade as judge

    try:
        return judge(job, registry, template, keep_going=keep_going)
    except JobError as error:
        raise _told(error, job.sheet.lang, registry) from None


def report(
    folder: Path,
    target: Path,
    registry: Registry,
    template: Template | None = None,
    *,
    lang: str = "",
    audience: str = "",
    miss: Miss | None = None,
    keep: bool = False,
    tell: Tell,
    told: Progress | None = None,
) -> Assessments:
    """Steps 1 to 6: a job folder to a PDF, or to HTML when `target` ends so; returns what was graded.

    Where somebody is to be told what is amiss (`miss`), a part at fault is not graded and a plate stands for each photo that
    cannot be shown. For an `audience`, or as the template says, the job is cut before anything is made of it. With `keep`
    pictures are kept for later runs. `tell` hears of each step, `told` how many of its photos are done, and of how many.
    """
    from reporter.disclose import must_be_absent
    from reporter.outline import outline

    refuse_early(target, folder)
    tell("1 collect")
    keep_going = miss is not None
    whole, wrong = collect_parts(folder, registry, lang, keep_going=keep_going, told=told)
    _bear(wrong, miss)
    template = template or registry.template(whole.sheet.purpose)
    job = _cut(whole, template, audience)
    tell("2 grade")
    assessments = grade(job, registry, template, keep_going=keep_going)
    tell("3 outline")
    with speaking(job.sheet.lang):
        document = outline(job, assessments, template, registry.in_language(job.sheet.lang))
        must_be_absent(document, whole, job.left_out)
        made = partial(write, document, folder, target, dpi=template.dots_per_inch, keep=keep)
        say = str if job.sheet.lang == "en" else translator(job.sheet.lang, registry).text
        lost = made(keep_going=keep_going, tell=tell, told=told, say=say)
    # Each once, and also those for which no page has a place: the exit code stays.
    once = {each.file: each for each in (*not_shown(folder, whole, decode=False), *lost)} if miss else {}
    if miss and once:
        miss(photos_lost(list(once.values()), job, registry))
    return assessments


def _bear(wrong: JobError | None, miss: Miss | None) -> None:
    """Tell what is wrong and go on, where somebody is to be told and it is not what everything rests on; else raise it."""
    if wrong and (miss is None or any(each.file == "job.yaml" for each in wrong.problems)):
        raise wrong
    if wrong and miss:
        miss(wrong)


def refuse_early(target: Path, folder: Path, endings: tuple[str, ...] = _DOCUMENT) -> None:
    """What can be known before the work begins: that nothing of somebody's is replaced, and that there is a place to work in.

    A name that promises another sort of file than one with these `endings` is refused.
    """
    from reporter.archive import may_write

    may_write(target, folder)
    if target.suffix.lower() in _PROMISES.difference(endings):
        raise UsageError(
            f"{target.name} would be named for what it is not.", f"Let the name end in: {', '.join(endings)}."
        )
    with scratch():
        pass


def _cut(job: Job, template: Template, audience: str) -> Job:
    """The job as its readers may have it: without what the template leaves out, and what the audience must not know."""
    from reporter.disclose import leave_out
    from reporter.model.template import AUDIENCES

    rules = {*template.leaves_out, *AUDIENCES.get(audience, ())}
    return leave_out(job, rules).model_copy(update={"audience": audience}) if rules else job


def work(folder: Path, target: Path, registry: Registry, *, lang: str = "", tell: Tell) -> None:
    """The yard's list of a job folder, as CSV or HTML when `target` ends so, else as PDF."""
    from reporter.outline.work_list import work_list
    from reporter.outputs.yard_csv import work_csv

    refuse_early(target, folder, (*_DOCUMENT, ".csv"))
    job = collect(folder, registry, lang)
    template = registry.template(job.sheet.purpose)
    assessments, told = grade(job, registry, template), registry.in_language(job.sheet.lang)
    with speaking(job.sheet.lang):
        if target.suffix.lower() == ".csv":
            from reporter.archive import write_text

            write_text(work_csv(job, assessments, template, told), target)
        else:
            document = work_list(job, assessments, template, told)
            write(document, folder, target, dpi=template.dots_per_inch, tell=tell)


def compare(
    earlier: Path, later: Path, registry: Registry, lang: str = "", *, everything: bool = False
) -> list[str]:
    """What a later folder tells beside an earlier one of the same boat, as lines for a terminal: a screen, or all."""
    from reporter.outputs.comparison import compared

    past, job = collect(earlier, registry, lang), collect(later, registry, lang)
    if past.sheet.inspection.last_day > job.sheet.inspection.last_day:
        msg = f"The visit of {earlier} lies after that of {later}."
        raise UsageError(msg, "Name the earlier folder first.")
    job = job.model_copy(update={"earlier": (past,)})
    template = registry.template(job.sheet.purpose)
    with speaking(job.sheet.lang):
        told = registry.in_language(job.sheet.lang)
        return compared(job, grade(job, registry, template), template, told, everything=everything)


def due(
    folders: list[Path],
    registry: Registry,
    *,
    as_of: date | None,
    by: str,
    calendar: Path | None,
    lang: str = "",
) -> list[str]:
    """What is due aboard the boats of these folders, as lines; and, where asked for, as a calendar file.

    Today is `as_of`, else the day of the latest inspection among them.
    """
    from reporter.archive import write_text
    from reporter.outputs.due_list import boat_of, icalendar_text, latest, lines

    for each in folders if calendar else ():
        refuse_early(calendar or each, each, _CALENDAR)
    jobs = [collect(folder, registry, lang) for folder in folders]
    lang, terms = jobs[0].sheet.lang, jobs[0].sheet.terms
    with speaking(lang):
        told = registry.in_language(lang)
        boats = [
            boat_of(job, grade(job, registry, registry.template(job.sheet.purpose)), told) for job in jobs
        ]
        today = as_of or max(boat.day for boat in boats)
        boats = latest(boats)
        if calendar:
            write_text(icalendar_text(boats, today, lang, terms), calendar)
        return lines(boats, today, by, lang, terms)
