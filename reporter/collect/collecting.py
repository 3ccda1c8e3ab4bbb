"""Step 1 of the run: a job folder to a `Job`, or everything that is wrong with it at once.

In: the folder, the installed plugins and templates, the reader of photo files. Out: a frozen `Job` with facts, readings,
photos, papers and the limits in force. Nothing is graded, merged or written; nothing of the folder is ever run.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from reporter.collect.begun import ROUNDS, parts_at_fault, touches_all, without_faults
from reporter.collect.check_job import Installed
from reporter.collect.ledger import Ledger
from reporter.collect.one_folder import FolderReading, folder_fault
from reporter.collect.photo_files import PhotoReader
from reporter.collect.text_file import Place
from reporter.collect.yaml_file import YamlFile
from reporter.errors import JobError, Problem
from reporter.model.job import Job
from reporter.model.photo import PhotoFile
from reporter.model.sheet import CameraClock


def collect(
    folder: Path,
    registry: Installed,
    *,
    photos: PhotoReader,
    texts: Mapping[str, str] | None = None,
    keep_going: bool = False,
) -> Job:
    """The job that `folder` holds, with the jobs under its `earlier:`.

    `photos` reads header, EXIF and hash of photo files; `texts` are the folder's text files where they are held in
    memory. Raises JobError with every problem of every file; with `keep_going` a photo that is there but cannot be
    shown is a remark.
    """
    reading = _reading(folder, registry, photos, texts)
    reading.ledger.bears_photos = keep_going
    job = _read(reading)
    if reading.ledger.problems or job is None:
        raise JobError(reading.ledger.problems)
    return job


def collect_begun(
    folder: Path, registry: Installed, *, photos: PhotoReader, texts: Mapping[str, str] | None = None
) -> tuple[Job, list[Problem]]:
    """The job that a half-filled folder holds as far as it goes, and everything that is wrong with it.

    An entry at fault is left out, the rest of its part stays. What a job cannot be without has a stand-in, and is
    among the problems. Raises JobError only when `folder` is none.
    """
    job, first = _begun(_reading(folder, registry, photos, texts))
    return job, sorted(set(first.problems))


def collect_parts(
    folder: Path, registry: Installed, *, photos: PhotoReader, keep_going: bool = False
) -> tuple[Job, list[Problem]]:
    """The job with every part that is whole, the others among its `incomplete`, and everything that is wrong.

    Raises JobError when nothing can be graded: a fault touches what every grade rests on.
    """
    reading = _reading(folder, registry, _remembering(photos), None)
    reading.ledger.bears_photos = keep_going
    job, first = _begun(reading)
    if first.problems and (
        not job.components or any(touches_all(each, first.parts) for each in first.problems)
    ):
        raise JobError(first.problems)
    at_fault = parts_at_fault(first.problems, first.parts) & {each.id for each in job.components}
    return job.model_copy(update={"incomplete": dict.fromkeys(sorted(at_fault), "")}), sorted(
        set(first.problems)
    )


def _remembering(photos: PhotoReader) -> PhotoReader:
    """A reader that opens each file once, however often the sheets are read."""
    known: dict[object, list[PhotoFile]] = {}

    def read(
        files: list[Path], folder: Path, *, time_zone: str, clocks: Sequence[CameraClock] = ()
    ) -> list[PhotoFile]:
        key = (tuple(files), time_zone, tuple(clocks))
        if key not in known:
            known[key] = photos(files, folder, time_zone=time_zone, clocks=clocks)
        return known[key]

    return read


def _begun(reading: FolderReading) -> tuple[Job, Ledger]:
    """The job as far as it goes, and the ledger of the first reading with what the later ones found added."""
    place, registry, photos, first = reading.place, reading.registry, reading.photos, reading.ledger
    job, dated = _read(reading), True
    for depth in ROUNDS:
        if job is not None and not reading.ledger.bad:
            break
        dated = dated and _is_dated(reading)
        again = Ledger(bears_photos=first.bears_photos)
        reading = FolderReading(place, registry, photos, again, sheets=_cleaned(reading, depth))
        job = _read(reading)
        first.problems += _further(again.problems, first.problems) if dated else []
    if job is None:
        raise JobError(first.problems)
    # The first reading alone has the lines of the files, and what YAML left out of them.
    return job.model_copy(update={"remarks": tuple(first.remarks)}), first


def _cleaned(reading: FolderReading, depth: int) -> dict[str, YamlFile]:
    """The sheets of a reading without what was wrong in them."""
    bad, templates = reading.ledger.bad, reading.registry.templates
    return {
        name: without_faults(name, reading.sheets.get(name), bad.get(name, set()), templates, depth)
        for name in ("job.yaml", "findings.yaml")
    }


def _is_dated(reading: FolderReading) -> bool:
    """Whether the day of the visit is told, and no stand-in that other dates would lie after."""
    bad = reading.ledger.bad.get("job.yaml", ())
    return "job.yaml" in reading.sheets and not any(loc[:1] == ("inspection",) for loc in bad)


def _further(later: list[Problem], told: list[Problem]) -> list[Problem]:
    """What could only be seen of a part when another fault of it was out of the way.

    Where a part was left out for its id or kind, what names that part is at no fault.
    """
    keys = [each.key for each in told if each.file == "findings.yaml"]
    if any(key.endswith((" › id", " › kind")) for key in keys):
        later = [
            each
            for each in later
            if not each.key.startswith("paths › ") and not each.key.endswith(" › part_of")
        ]
    return [
        each
        for each in later
        if each.file == "findings.yaml" and not any(f"{each.key} ".startswith(f"{key} ") for key in keys)
    ]


def _reading(
    folder: Path,
    registry: Installed,
    photos: PhotoReader,
    texts: Mapping[str, str] | None,
    sheets: Mapping[str, YamlFile] | None = None,
) -> FolderReading:
    fault = folder_fault(folder)
    if fault:
        raise JobError([Problem(str(folder), 0, "", *fault)])
    return FolderReading(Place(folder, texts=texts), registry, photos, Ledger(), sheets=dict(sheets or {}))


def _read(reading: FolderReading) -> Job | None:
    """The job with its earlier ones, as far as it could be read; what was wrong is in the reading's ledger."""
    job, earlier = reading.job(), reading.earlier_jobs()
    return job and job.model_copy(update={"earlier": earlier, "remarks": tuple(reading.ledger.remarks)})
