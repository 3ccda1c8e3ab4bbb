"""A heap of photos to the beginnings of a job folder: the only code that writes one.

Comes in: a folder of photos and the name of a job folder that does not exist yet. Goes out: that folder, with
the photos copied byte for byte and three files to be filled in. Nothing is ever overwritten; a run that is
interrupted leaves no job folder at all.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import os
import re
import shutil
from collections.abc import Callable, Sequence
from pathlib import Path

from reporter.door.grouping import group_by_gaps
from reporter.door.reading import read_photos
from reporter.errors import CannotWriteError, UsageError
from reporter.model.photo import PICTURES, PhotoFile

GAP_MINUTES = 5
"""A pause that long usually means that the inspector went on to another part."""
_PASSED_OVER = re.compile(r"\..*|thumbs\.db|desktop\.ini", re.IGNORECASE)
_MOST_DAYS = 14
HEADER = "component,quantity,at,state,side,value,unit,uncertainty,instrument,note\n"

_JOB = """\
# Fill this in; lines that begin with # are notes to yourself and are never printed.
format: 1
purpose: pre_purchase        # or handover, or insurance

report:
  number: "1"

vessel:
  name: name to be filled in

people:
  - role: author
    name: name to be filled in

inspection:
  dates: [{dates}]
  place: place to be filled in
  time_zone: UTC             # where you were, for example Europe/Lisbon or +02:00
"""
_FINDINGS = """\
# One entry for each part that you looked at (or could not look at, and why).
# The photos below stand in the order they were taken, parted where you paused for more than {gap:g} minutes.
# For each group: remove the # signs, say which part it is, and move photos that belong elsewhere.
# With the first entry, take the [] after "components:" away. `kind: chain` is an example.
format: 1
components: []
"""


def new_job(folder: Path, photos_dir: Path, *, gap_minutes: float = GAP_MINUTES) -> tuple[str, ...]:
    """Makes `folder` from the photos directly inside `photos_dir`; returns what was not copied, and why.

    Raises CannotWriteError when `folder` holds anything already, UsageError when there is no `photos_dir`.
    """
    if not photos_dir.is_dir():
        message = f"There is no folder {photos_dir}"
        raise UsageError(message, "give the folder that the photos are in")
    if folder.is_symlink() or (folder.exists() and (not folder.is_dir() or any(folder.iterdir()))):
        message = f"{folder} exists already, and nothing is ever overwritten"
        raise CannotWriteError(message, "give the name of a folder that does not exist yet")
    files = sorted(each for each in photos_dir.iterdir() if not _PASSED_OVER.fullmatch(each.name))
    photos = read_photos(files, photos_dir, time_zone="UTC")
    faults = {photo.name: photo.problem or _misnamed(photo) for photo in photos}
    good = [photo for photo in photos if not faults[photo.name]]
    notes = tuple(f"{name}: {fault}" for name, fault in faults.items() if fault)
    _put_in_place(folder, lambda unfinished: _fill(unfinished, photos_dir, good, notes, gap_minutes))
    return notes


def _misnamed(photo: PhotoFile) -> str:
    """What is wrong with the ending of a photo's name: a job folder knows photos by theirs."""
    if Path(photo.name).suffix.lower() in PICTURES:
        return ""
    fitting = {"JPEG": ".jpg", "MPO": ".mpo", "HEIF": ".heic", "TIFF": ".tif"}
    ending = fitting.get(photo.format, f".{photo.format.lower()}")
    return f"it is a photo, but its name does not say so: rename it so that it ends in {ending}, and put it into photos"


def empty_job(folder: Path) -> None:
    """Makes `folder` with nothing in it yet; CannotWriteError when it is there already."""
    if folder.is_symlink() or folder.exists():
        message = f"{folder} exists already, and nothing is ever overwritten"
        raise CannotWriteError(message, "give the name of a folder that does not exist yet")
    _put_in_place(folder, lambda unfinished: _fill(unfinished, folder, [], (), GAP_MINUTES))


def job_text(photos: Sequence[PhotoFile], today: dt.date) -> str:
    """The first `job.yaml`: the days on which photos were taken, else `today`; the rest to be filled in."""
    days = sorted({photo.taken.time.date() for photo in photos if photo.taken})[-_MOST_DAYS:] or [today]
    return _JOB.format(dates=", ".join(map(str, days)))


def findings_text(photos: list[PhotoFile], notes: Sequence[str], gap_minutes: float) -> str:
    """The first `findings.yaml`: no component yet, and the photos as groups to be taken up."""
    groups = group_by_gaps(photos, gap_minutes)
    parts = [_group(number, group) for number, group in enumerate(groups, start=1)]
    left_out = ["", "# Not copied:", *(f"#   {_one_line(note)}" for note in notes)] if notes else []
    return "\n".join([_FINDINGS.format(gap=gap_minutes), *parts, *left_out]) + "\n"


def _group(number: int, group: list[PhotoFile]) -> str:
    times = [photo.taken.time for photo in group if photo.taken]
    when = f"{times[0]:%Y-%m-%d %H:%M} to {times[-1]:%H:%M}" if times else "photos without a time"
    lines = [
        f"# group {number}: {when}",
        f"#  - id: part_{number}",
        "#    kind: chain",
        "#    examined: seen",
        "#    photos:",
        *(f"#      - {_scalar(photo.name)}{_clock(photo)}" for photo in group),
    ]
    return "\n".join([*lines, ""])


def _clock(photo: PhotoFile) -> str:
    return f"   # {photo.taken.time:%H:%M:%S}" if photo.taken else ""


def _scalar(text: str) -> str:
    """A file name as YAML reads it back; JSON's strings are YAML's (YAML 1.2.2, 1.2)."""
    return text if re.fullmatch(r"[A-Za-z][\w.()-]*\.[A-Za-z]\w*", text, re.ASCII) else json.dumps(text)


def _one_line(text: str) -> str:
    return "".join(each if each.isprintable() else " " for each in text)


def _fill(
    folder: Path, source: Path, photos: list[PhotoFile], notes: tuple[str, ...], gap_minutes: float
) -> None:
    (folder / "photos").mkdir()
    (folder / "documents").mkdir()
    for photo in photos:
        _copy(source / photo.name, folder / "photos" / photo.name, photo.sha256)
    today = dt.datetime.now().astimezone().date()
    (folder / "job.yaml").write_text(job_text(photos, today), encoding="utf-8")
    (folder / "findings.yaml").write_text(findings_text(photos, notes, gap_minutes), encoding="utf-8")
    (folder / "measurements.csv").write_text(HEADER, encoding="utf-8")


def _copy(source: Path, target: Path, sha256: str) -> None:
    """Byte for byte, with its time of change; what was copied is what was read."""
    data = source.read_bytes()
    if hashlib.sha256(data).hexdigest() != sha256:
        message = f"{source.name} changed while it was copied"
        raise CannotWriteError(message, "leave the folder alone meanwhile, and start again")
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
        message = f"{folder} cannot be written ({fault.strerror or fault})"
        raise CannotWriteError(message, "choose another place, or make room there") from fault
