"""A heap of photos and what is known of the boat to the beginnings of a job folder: the only code that writes one.

Comes in: answers, the installed kinds, a folder of photos and the name of a job folder that does not exist yet. Goes out:
that folder, with the photos copied byte for byte and three files to be filled in. Nothing is ever overwritten; a run that is
interrupted leaves no job folder at all.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import os
import re
import shutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from reporter.begin.answers import Answers, stops_of
from reporter.begin.job_sheet import days_of, job_text
from reporter.begin.proposing import Proposal, proposed, words_of
from reporter.begin.stubs import findings_text
from reporter.door import read_captions, read_photos
from reporter.errors import CannotWriteError, UsageError
from reporter.machine.shortage import unwritable
from reporter.model.job import COLUMNS
from reporter.model.photo import PICTURES, PhotoFile
from reporter.model.plugin import Kinds
from reporter.model.template import Template

GAP_MINUTES = 5
"""A pause that long usually means that the inspector went on to another part."""
_PASSED_OVER = re.compile(r"\..*|thumbs\.db|desktop\.ini", re.IGNORECASE)


@dataclass(frozen=True)
class Begun:
    """What came of it: remarks on photos, and how many of them are proposed to a part, and how many not."""

    remarks: tuple[str, ...]
    proposed: int = 0
    waiting: int = 0


def refuse_if_taken(folder: Path, photos_dir: Path | None = None) -> None:
    """CannotWriteError when `folder` holds anything already, UsageError when `photos_dir` is none."""
    if photos_dir is not None and not photos_dir.is_dir():
        raise UsageError(f"There is no folder {photos_dir}.", "Give the folder that the photos are in.")
    if folder.is_symlink() or (folder.exists() and (not folder.is_dir() or any(folder.iterdir()))):
        raise _taken(folder)


def begin(
    folder: Path,
    photos_dir: Path | None,
    answers: Answers,
    kinds: Sequence[Kinds],
    template: Template,
    *,
    gap_minutes: float = GAP_MINUTES,
    told: Callable[[str], str] = str,
) -> Begun:
    """Makes `folder`, with the photos directly inside `photos_dir` where one is named.

    `kinds` are the installed ones in each language that captions may be written in, the folder's own first. `told` puts
    what is said of a photo into its language. Raises CannotWriteError when `folder` holds anything already, UsageError when
    there is no `photos_dir`.
    """
    refuse_if_taken(folder, photos_dir)
    photos, captions = _read(photos_dir) if photos_dir else ([], {})
    faults = {photo.name: photo.problem or _misnamed(photo) for photo in photos}
    good = [photo for photo in photos if not faults[photo.name]]
    days, strange = days_of(good, _today())
    remarks = [f"{name}: {told(fault)}" for name, fault in faults.items() if fault]
    remarks += [f"{each.name}: {told(_clock(each))}" for each in strange]
    stops = stops_of(answers, kinds[0], template)
    made = proposed(
        good, captions, words_of(kinds), [part.kind for stop in stops for part in stop.parts], gap_minutes
    )
    texts = {
        "job.yaml": job_text(answers, template, days, good),
        "findings.yaml": findings_text(kinds[0], stops, made, remarks, gap_minutes, answers.lang),
    }
    _put_in_place(folder, lambda unfinished: _fill(unfinished, photos_dir or folder, good, texts))
    return Begun(tuple(remarks), *_counted(made))


def empty_job(folder: Path, answers: Answers, kinds: Kinds, template: Template) -> None:
    """Makes `folder` without photos and without stubs of parts; CannotWriteError when it is there already."""
    if folder.is_symlink() or folder.exists():
        raise _taken(folder)
    texts = {
        "job.yaml": job_text(answers, template, [_today()], []),
        "findings.yaml": findings_text(kinds, [], Proposal({}, []), [], GAP_MINUTES, answers.lang),
    }
    _put_in_place(folder, lambda unfinished: _fill(unfinished, folder, [], texts))


def _taken(folder: Path) -> CannotWriteError:
    message = f"{folder} exists already, and nothing is ever overwritten."
    return CannotWriteError(message, "Give the name of a folder that does not exist yet.")


def _today() -> dt.date:
    return dt.datetime.now().astimezone().date()


def _read(photos_dir: Path) -> tuple[list[PhotoFile], dict[str, str]]:
    files = sorted(each for each in photos_dir.iterdir() if not _PASSED_OVER.fullmatch(each.name))
    photos = read_photos(files, photos_dir, time_zone="UTC")
    good = {photo.name for photo in photos if not photo.problem}
    return photos, read_captions([file for file in files if file.name in good], photos_dir)


def _misnamed(photo: PhotoFile) -> str:
    """What is wrong with the ending of a photo's name: a job folder knows photos by theirs."""
    if Path(photo.name).suffix.lower() in PICTURES:
        return ""
    fitting = {"JPEG": ".jpg", "MPO": ".mpo", "HEIF": ".heic", "TIFF": ".tif"}
    ending = fitting.get(photo.format, f".{photo.format.lower()}")
    return f"it is a photo, but its name does not say so: rename it so that it ends in {ending}, and put it into photos"


def _clock(photo: PhotoFile) -> str:
    day = f"{photo.taken.time:%Y-%m-%d}" if photo.taken else ""
    return f"its camera says {day}: taken for a wrong clock, and not for a day of the visit"


def _counted(made: Proposal) -> tuple[int, int]:
    return sum(len(each) for each in made.by_kind.values()), sum(len(group) for group in made.waiting)


def _fill(folder: Path, source: Path, photos: Sequence[PhotoFile], texts: Mapping[str, str]) -> None:
    (folder / "photos").mkdir()
    (folder / "documents").mkdir()
    for photo in photos:
        _copy(source / photo.name, folder / "photos" / photo.name, photo.sha256)
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "measurements.csv").write_text(f"{','.join(COLUMNS)}\n", encoding="utf-8")


def _copy(source: Path, target: Path, sha256: str) -> None:
    """Byte for byte, with its time of change; what was copied is what was read."""
    data = source.read_bytes()
    if hashlib.sha256(data).hexdigest() != sha256:
        message = f"{source.name} changed while it was copied."
        raise CannotWriteError(message, "Leave the folder alone meanwhile, and start again.")
    target.write_bytes(data)
    about = source.stat()
    os.utime(target, ns=(about.st_atime_ns, about.st_mtime_ns))


def _put_in_place(folder: Path, fill: Callable[[Path], None]) -> None:
    """Fills a folder beside the wanted one and renames it at the end."""
    unfinished = folder.absolute().with_name(folder.absolute().name + ".unfinished")
    try:
        unfinished.mkdir()
        try:
            fill(unfinished)
            if folder.exists():
                folder.rmdir()
            unfinished.rename(folder)
        except BaseException:
            shutil.rmtree(unfinished, ignore_errors=True)
            raise
    except OSError as fault:
        raise unwritable(folder, fault) from fault
