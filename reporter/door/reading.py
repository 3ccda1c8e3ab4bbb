"""Reading a folder's photos: identity, upright size, time; and on request whether the pixels decode.

Comes in: paths, the job's time zone and camera clocks. Goes out: one `PhotoFile` for each path, in order, or
problems. Nothing is decoded by `read_photos`. Positions, serials and owners' names never leave the worker.
"""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from reporter.door import workers
from reporter.door.clocks import Clocks
from reporter.door.header import Header, decode, read_header
from reporter.door.refusal import Refusal
from reporter.door.taken import taken, zone
from reporter.door.workers import Progress
from reporter.errors import JobError, Problem
from reporter.model.photo import PhotoFile
from reporter.model.sheet import CameraClock

_READERS = 1
"""Headers take a few milliseconds each; a second worker costs more to start than it saves."""


def read_photos(
    files: list[Path],
    folder: Path,
    *,
    time_zone: str,
    clocks: Sequence[CameraClock] = (),
    told: Progress | None = None,
) -> list[PhotoFile]:
    """Reads header, EXIF and hash of each file; `folder` is the job folder that names are relative to.

    Every file gets a `PhotoFile`; one that cannot be shown says why in `problem`. Raises JobError when the
    time zone or a camera correction cannot be understood. `told` is called with (done, all).
    """
    try:
        job_zone = zone(time_zone)
    except ValueError as fault:
        what, _, do = str(fault).partition(": ")
        raise JobError([Problem("job.yaml", 0, "inspection.time_zone", what, do)]) from None
    corrections = Clocks(clocks)
    answers = workers.run_on_files(read_header, files, folder, workers=_READERS, told=told)
    pairs = zip(files, answers, strict=True)
    return [_photo(file, folder, answer, job_zone, corrections) for file, answer in pairs]


def decode_check(files: list[Path], folder: Path, *, told: Progress | None = None) -> list[Problem]:
    """Decodes every file completely and tells which do not decode; changes and keeps nothing."""
    answers = workers.run_on_files(decode, files, folder, told=told)
    return [
        Problem(_name(file, folder)[0], 0, "", answer.what, answer.do)
        for file, answer in zip(files, answers, strict=True)
        if isinstance(answer, Refusal)
    ]


def named(problems: Iterable[tuple[str, str]]) -> list[Problem]:
    """Names of photos with what the door says of them (what is wrong, a colon, what to do), as problems."""
    parts = [(name, problem.partition(": ")) for name, problem in problems]
    return [Problem(name, 0, "", what, do) for name, (what, _, do) in parts]


def group_by_gaps(photos: list[PhotoFile], gap_minutes: float) -> list[list[PhotoFile]]:
    """Groups in order of the (corrected) time; a pause longer than `gap_minutes` begins a new group.

    Photos without a time come last, as one group, by name. No group is empty.
    """
    timed = sorted((photo for photo in photos if photo.taken), key=_when)
    groups: list[list[PhotoFile]] = []
    for photo in timed:
        if groups and _when(photo)[0] - _when(groups[-1][-1])[0] <= dt.timedelta(minutes=gap_minutes):
            groups[-1].append(photo)
        else:
            groups.append([photo])
    untimed = sorted((photo for photo in photos if not photo.taken), key=lambda photo: photo.name)
    return [*groups, untimed] if untimed else groups


def _photo(
    file: Path, folder: Path, answer: Header | Refusal, job_zone: dt.tzinfo, corrections: Clocks
) -> PhotoFile:
    header = Header(problem=str(answer)) if isinstance(answer, Refusal) else answer
    name, misfit = _name(file, folder)
    return PhotoFile(
        name=name,
        sha256=header.sha256,
        size_bytes=header.size_bytes,
        format=header.format,
        width=header.width,
        height=header.height,
        camera=header.tags.camera,
        taken=taken(header.tags, job_zone, corrections.of(header.tags.camera)),
        has_position=header.tags.has_position,
        turned=header.turned,
        problem=misfit or header.problem,
    )


def _name(file: Path, folder: Path) -> tuple[str, str]:
    """The name that files use for it, and what is wrong with that name."""
    file, root = file.absolute(), folder.absolute()
    relative = file.relative_to(root).as_posix() if file.is_relative_to(root) else file.name
    try:
        relative.encode()
    except UnicodeEncodeError:
        shown = os.fsencode(relative).decode("utf-8", "backslashreplace")
        return shown, "its name is not valid text: rename it, with plain letters and digits"
    return relative, ""


def _when(photo: PhotoFile) -> tuple[dt.datetime, str]:
    assert photo.taken is not None  # noqa: S101 - only asked of photos with a time
    return photo.taken.time, photo.name
