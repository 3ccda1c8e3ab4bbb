"""A system's grade, and its score: the weakest link of its load path, or the reason why there is none."""

from __future__ import annotations

from collections.abc import Sequence

from reporter.model.assessment import Graded, PathGrade, SystemGrade
from reporter.model.findings import LoadPath
from reporter.model.job import Job
from reporter.model.plugin import System
from reporter.model.template import Template
from reporter.model.terms import Extent, Grade, worst

GONE = frozenset({Extent.NOT_FITTED, Extent.NOT_FOUND})


def grade_system(system: System, parts: Sequence[Graded], job: Job, template: Template) -> SystemGrade:
    """The system's worst grade, the weakest link of its load path, and its coverage against the template's list."""
    own = [part for part in parts if part.system == system.id]
    fitted = [part for part in own if part.component.examined.extent is not Extent.NOT_FITTED]
    expected = _expected(system, job, template)
    listed = {part.component.kind for part in own}
    weakest, unseen = _ends([part for part in fitted if part.load_path])
    absent = [kind for kind in expected if kind not in listed]
    return SystemGrade(
        id=system.id,
        title=system.title,
        grade=_grade(fitted),
        score=None if unseen or absent or weakest is None else weakest.score,
        weakest=weakest.title if weakest else "",
        withheld=unseen.title if unseen else "",
        components=tuple(part.component.id for part in own),
        listed=sum(kind in listed for kind in expected),
        expected=len(expected),
        not_listed=tuple(absent),
        paths=_paths(own, job),
    )


def _ends(path: Sequence[Graded]) -> tuple[Graded | None, Graded | None]:
    """The weakest link of parts that carry one after another, and the first that was not seen."""
    unseen = next((part for part in path if part.grade is Grade.UNSEEN), None)
    scored = (part for part in path if part.score is not None)
    return min(scored, key=lambda part: part.score or 0.0, default=None), unseen


def _paths(own: Sequence[Graded], job: Job) -> tuple[PathGrade, ...]:
    """The job's load paths that run through these parts; one with a part that is not aboard carries nothing."""
    by_id = {part.component.id: part for part in own}
    return tuple(
        _path(path, [by_id[ident] for ident in path.parts])
        for path in job.paths
        if all(ident in by_id for ident in path.parts)
    )


def _path(path: LoadPath, parts: Sequence[Graded]) -> PathGrade:
    weakest, unseen = _ends(parts)
    gone = next((part for part in parts if part.component.examined.extent in GONE), None)
    withheld = gone or unseen
    return PathGrade(
        id=path.id,
        title=path.name,
        grade=Grade.UNSEEN if gone and not gone.grade.rank > 0 else _grade(parts),
        score=None if withheld or weakest is None else weakest.score,
        weakest=weakest.title if weakest else "",
        withheld=withheld.title if withheld else "",
        parts=path.parts,
        lost=path.lost,
    )


def _grade(parts: Sequence[Graded]) -> Grade:
    """A bad part decides; else one unseen part leaves the system unseen."""
    reached = worst([part.grade for part in parts])
    unseen = any(part.grade is Grade.UNSEEN for part in parts) or not parts
    return Grade.UNSEEN if unseen and reached in {Grade.CLEAR, Grade.UNSEEN} else reached


def _expected(system: System, job: Job, template: Template) -> tuple[str, ...]:
    """The kinds that the template wants listed for this steering gear and rig, each once, in the template's order."""
    true = job.sheet.vessel.gears
    kinds = [
        kind
        for expectation in template.expects
        if expectation.system == system.id and true & set(expectation.when)
        for kind in expectation.kinds
    ]
    return tuple(dict.fromkeys(kinds))
