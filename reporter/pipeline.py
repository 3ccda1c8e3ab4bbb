"""The whole run in six calls. Read this first.

    job folder ─collect→ Job ─grade→ Assessments ─outline→ Report ─develop→ pictures ─typeset→ pages ─archive→ PDF
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.template import Template
from reporter.registry import Registry

Tell = Callable[[str], None]


def read(folder: Path, registry: Registry) -> Job:
    """Step 1: a job folder to a Job. JobError carries everything that is wrong with it."""
    from reporter.collect import collect
    from reporter.door import read_photos

    return collect(folder, registry, photos=read_photos)


def judge(job: Job, registry: Registry, template: Template, *, keep_going: bool = False) -> Assessments:
    """Step 2: a Job to Assessments. A failing plugin raises PluginError unless `keep_going`."""
    from reporter.grade import grade

    return grade(job, registry, template, keep_going=keep_going)


def report(
    folder: Path, target: Path, registry: Registry, template: Template | None = None, *, keep_going: bool = False, tell: Tell
) -> Assessments:
    """Steps 1 to 6: a job folder to a PDF at `target`; returns what was graded."""
    from reporter.archive import archive
    from reporter.develop import develop
    from reporter.outline import outline
    from reporter.typeset import typeset

    tell("1 collect")
    job = read(folder, registry)
    template = template or registry.template(job.sheet.purpose)
    tell("2 grade")
    assessments = judge(job, registry, template, keep_going=keep_going)
    tell("3 outline")
    document = outline(job, assessments, template, registry)
    with TemporaryDirectory(prefix="gudgeon-") as scratch:
        tell("4 develop")
        pictures = develop(document, folder, Path(scratch), keep_going=keep_going)
        tell("5 typeset")
        pages = typeset(document, pictures, Path(scratch) / "pages.pdf")
        tell("6 archive")
        archive(document, pages, target)
    return assessments
