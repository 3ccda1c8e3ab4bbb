"""Reading a folder's photos: identity, upright size, time; and on request whether the pixels decode.

Comes in: paths, the job's time zone and camera clocks. Goes out: one `PhotoFile` for each path, in order, or
problems. Nothing is decoded by `read_photos`. Positions, serials and owners' names never leave the worker.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from reporter.door import formats, metadata, pixels, workers
from reporter.door.clocks import Clocks
from reporter.door.refusal import Refusal, damaged
from reporter.door.taken import taken, zone
from reporter.door.workers import Told
from reporter.errors import JobError, Problem
from reporter.model.job import CameraClock
from reporter.model.photo import PhotoFile

_READERS = 1
"""Headers take a few milliseconds each; a second worker costs more to start than it saves."""
_NO_TAGS = metadata.Tags()


@dataclass(frozen=True, slots=True)
class _Header:
    """What a worker found out about one file."""

    sha256: str = ""
    size_bytes: int = 0
    format: str = ""
    width: int = 0
    height: int = 0
    tags: metadata.Tags = _NO_TAGS
    turned: str = ""
    problem: str = ""


def read_photos(
    files: list[Path],
    folder: Path,
    *,
    time_zone: str,
    clocks: Sequence[CameraClock] = (),
    told: Told | None = None,
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
    root = folder.absolute()
    tasks = [(str(file.absolute()), str(root)) for file in files]
    headers = workers.run(_header, tasks, workers=_READERS, told=told)
    photos = []
    for file, answer in zip(files, headers, strict=True):
        header = _Header(problem=str(answer)) if isinstance(answer, Refusal) else answer
        name, misfit = _name(file.absolute(), root)
        photos.append(
            PhotoFile(
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
        )
    return photos


def decode_check(files: list[Path], folder: Path, *, told: Told | None = None) -> list[Problem]:
    """Decodes every file completely and tells which do not decode; changes and keeps nothing."""
    root = folder.absolute()
    tasks = [(str(file.absolute()), str(root)) for file in files]
    answers = workers.run(_decode, tasks, told=told)
    return [
        Problem(_name(file.absolute(), root)[0], 0, "", answer.what, answer.do)
        for file, answer in zip(files, answers, strict=True)
        if isinstance(answer, Refusal)
    ]


def _name(file: Path, root: Path) -> tuple[str, str]:
    """The name that files use for it, and what is wrong with that name."""
    relative = file.relative_to(root).as_posix() if file.is_relative_to(root) else file.name
    try:
        relative.encode()
    except UnicodeEncodeError:
        shown = os.fsencode(relative).decode("utf-8", "backslashreplace")
        return shown, "its name is not valid text: rename it, with plain letters and digits"
    return relative, ""


def _inside(path: Path, root: Path) -> bytes:
    """The file's bytes, provided that no link leads out of the job folder."""
    if not path.parent.resolve().is_relative_to(root.resolve()):
        raise Refusal("it lies outside the job folder", "copy it into the folder")
    return formats.take(path)


def _header(path: str, root: str) -> _Header:
    """Runs in a worker. A file that is no photo still gets its hash, so that it can be named."""
    file = Path(path)
    data = _inside(file, Path(root))
    identity = {"sha256": hashlib.sha256(data).hexdigest(), "size_bytes": len(data)}
    try:
        opened = pixels.open_photo(data, file)
    except Refusal as refusal:
        return _Header(**identity, tags=_tags_of_refused(data), problem=str(refusal))  # type: ignore[arg-type]
    except Exception as fault:  # noqa: BLE001 - readers of damaged files raise nearly everything
        tags = metadata.read_tags(data, None)
        return _Header(**identity, tags=tags, problem=str(damaged(fault)))  # type: ignore[arg-type]
    width, height = opened.size
    return _Header(
        **identity,  # type: ignore[arg-type]
        format=opened.image.format or "",
        width=width,
        height=height,
        tags=opened.tags,
        turned=opened.turned,
    )


def _tags_of_refused(data: bytes) -> metadata.Tags:
    """A photo too large to render, or a raw file, still tells its time."""
    try:
        return metadata.read_tags(data, formats.open_image(data))
    except Refusal:
        return metadata.read_tags(data, None)


def _decode(path: str, root: str) -> None:
    file = Path(path)
    pixels.upright(pixels.open_photo(_inside(file, Path(root)), file), None)
