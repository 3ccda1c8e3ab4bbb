"""Photos of earlier records beside today's, of the same part and of the same kind, in date order.

Comes in: what was graded, and the earlier jobs. Goes out: photo pairs with plate numbers that go on after today's own.
An earlier photo keeps every blur that its own record laid on it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reporter.model.assessment import Graded
from reporter.model.findings import Component
from reporter.model.history import Changed, PartChange, Record
from reporter.model.job import Job
from reporter.model.photo import Blur, PhotoFile, PhotoUse
from reporter.model.report import Block, Photo, PhotoPair
from reporter.outline.context import Context
from reporter.outline.photos import photo_block, photo_of, small, taken_words
from reporter.wording import date

KINDS = ("context", "close_up")
SHOWN = frozenset({Changed.WORSE, Changed.BETTER, Changed.MIXED, Changed.DONE, Changed.RENEWED})
"""Changes that a pair of photos is shown for."""


@dataclass(frozen=True)
class Old:
    """A photo of an earlier record: its plate in this report, its job, its use and its file."""

    plate: int
    job: Job
    use: PhotoUse
    file: PhotoFile
    title: str


def old_photos(context: Context) -> dict[tuple[str, str], list[Old]]:
    """(component, kind of view) -> photos of earlier records, oldest first; only where today has one to stand beside."""
    found: dict[tuple[str, str], list[Old]] = {}
    if "history" not in context.template.sections:
        return found
    plate = max(context.plates.values(), default=0)
    for change in context.assessments.history.changes:
        part = context.assessments.part(change.component)
        if part is None or change.changed not in SHOWN:
            continue
        for kind in KINDS:
            if _first(part.component, kind) is None:
                continue
            for job, use, file in _earlier(context, change, kind):
                plate += 1
                found.setdefault((change.component, kind), []).append(Old(plate, job, use, file, part.title))
    return found


def _earlier(context: Context, change: PartChange, kind: str) -> Iterator[tuple[Job, PhotoUse, PhotoFile]]:
    for record in change.records:
        job = _job(context, record)
        component = job.by_id.get(record.ident) if job else None
        use = _first(component, kind) if component else None
        file = job.photo(use.file) if job and use else None
        if job and use and file and not file.problem:
            yield job, use, file


def _job(context: Context, record: Record) -> Job | None:
    told = (record.number, record.day)
    visits = context.job.earlier
    return next(
        (job for job in visits if (job.sheet.report.number, job.sheet.inspection.last_day) == told), None
    )


def _first(component: Component, kind: str) -> PhotoUse | None:
    return next((use for use in component.photos if use.shows == kind), None)


def pairs(context: Context) -> list[Block]:
    """Earlier photos two by two, today's last; an odd one stands alone before the pair."""
    blocks: list[Block] = []
    for (ident, kind), old in old_photos(context).items():
        part = context.assessments.part(ident)
        today = _today(context, part, kind) if part else None
        if today is None:
            continue
        row = [*(_photo(context, each) for each in old), today]
        if len(row) % 2:
            blocks.append(row.pop(0))
        blocks += [PhotoPair(left=left, right=right) for left, right in zip(row[::2], row[1::2], strict=True)]
    return blocks


def _today(context: Context, part: Graded, kind: str) -> Photo | None:
    place = next(place for place, use in enumerate(part.component.photos) if use.shows == kind)
    photo = photo_of(context, part, place, part.component.photos[place])
    return small(photo) if photo else None


def _photo(context: Context, old: Old) -> Photo:
    """With every blur that any of its uses in its own record laid on it."""
    sheet, words = old.job.sheet, context.words
    uses = [use for each in old.job.components for use in each.photos if old.job.photo(use.file) == old.file]
    blurs = [
        mark for use in uses for mark in use.marks if isinstance(mark, Blur) and mark not in old.use.marks
    ]
    caption = (old.use.caption or words("photo.no_caption")).strip().rstrip(".")
    said = f"{caption}. {taken_words(context, old.file)}"
    told = words(
        "history.photo", number=sheet.report.number, date=date(sheet.inspection.last_day), caption=said
    )
    photo = photo_block(words, old.file, old.plate, told, alt=told)
    name = f"{old.job.folder}/{old.file.name}" if old.job.folder else old.file.name
    marks = (*old.use.marks, *blurs)
    return photo.model_copy(update={"file": name, "folder": old.job.folder, "marks": marks, "size": "half"})
