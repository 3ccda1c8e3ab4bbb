"""Whether a file may be written: a new name, or one that this program wrote and nobody has changed since.

Comes in: the path to write. Goes out: nothing, or CannotWriteError with the reason. It is asked before the work begins and
again when the work is done, so that a slip of the finger costs nobody a photo, a filled sheet or another program's file.
"""

from __future__ import annotations

import csv
import errno
import os
import re
import stat
from pathlib import Path
from typing import BinaryIO

from reporter.archive import noted
from reporter.errors import CannotWriteError, GudgeonError
from reporter.machine.shortage import unwritable

_OTHER = "Nothing was changed. Choose another name."
_BROUGHT = ("photos", "documents")
"""Folders of a job that hold what was brought from aboard, and nothing else."""
_MARKS = (
    b"<pdf:Producer>gudgeon ",
    b'<meta name="generator" content="gudgeon ',
    b"PRODID:-//gudgeon//",
    b'"Written by gudgeon ',
    b"<!-- Written by gudgeon ",
)
"""By which a file of each sort is known: PDF (in its XMP packet), HTML, calendar, schema, a page of the guides."""
YARDS_HEAD = "number,precedence,trade,place,part,size,what,"
YARDS_OWN = ("hours", "done_by", "done_on", "checked_by")
"""Columns of the yard's table that the yard fills in: once it did, the table is theirs."""
TABLE = ".csv"
_HEAD = 4096
_PIECE = 1024 * 1024


def may_write(target: Path, job: Path | None = None, *, over: Path | None = None) -> None:
    """CannotWriteError unless `target` is a new name or a file that this program wrote and nobody has changed.

    Nothing is written among the photos and documents of the `job`. `over` is the file that is read and replaced by its own next
    version: it may be written whatever it holds.
    """
    _reachable(target)
    _not_among(target, job)
    try:
        about = target.lstat()
    except FileNotFoundError:
        return
    except OSError as error:
        raise unwritable(target, error) from error
    if stat.S_ISLNK(about.st_mode):
        raise CannotWriteError(f"{target} is a link: it may lead to something of yours.", _OTHER)
    if stat.S_ISDIR(about.st_mode):
        raise CannotWriteError(f"{target} is a folder.", "Name a file in it.")
    if not stat.S_ISREG(about.st_mode):
        raise CannotWriteError(f"{target} is no ordinary file.", _OTHER)
    if not (over is not None and over.exists() and target.samefile(over)):
        _ours_untouched(target)


def _reachable(target: Path) -> None:
    """The folder that is written to is there, and open to this user."""
    folder = target.parent
    try:
        number = _closed(folder)
    except OSError as error:
        raise unwritable(target, error) from error
    if number:
        raise unwritable(target, OSError(number, ""))


def _closed(folder: Path) -> int:
    """The number of the system's error that writing to the folder would give; 0 for none."""
    if not stat.S_ISDIR(folder.stat().st_mode):
        return errno.ENOTDIR
    if hasattr(os, "statvfs") and os.statvfs(folder).f_flag & os.ST_RDONLY:
        return errno.EROFS
    return 0 if os.access(folder, os.W_OK | os.X_OK) else errno.EACCES


def _not_among(target: Path, job: Path | None) -> None:
    place = target.resolve().parent
    for name in _BROUGHT if job else ():
        if place.is_relative_to(Path(job or "").resolve() / name):
            raise CannotWriteError(f"{target} lies among the {name} of the job.", _OTHER)


def _ours_untouched(target: Path) -> None:
    try:
        ours, changed = _looked_at(target)
    except OSError as error:
        raise unwritable(target, error) from error
    if not ours:
        raise CannotWriteError(f"{target} is there already, and this program did not write it.", _OTHER)
    if changed:
        raise CannotWriteError(f"{target} was filled in, signed or changed after it was written.", _OTHER)


def _looked_at(target: Path) -> tuple[bool, bool]:
    """Whether this program wrote the file, and whether somebody changed it afterwards."""
    with target.open("rb") as file:
        head = file.read(_HEAD)
        if not head.startswith(b"%PDF-"):
            table = head.startswith(YARDS_HEAD.encode())
            changed = table and (_filled_table(target) or noted.changed(target))
            return table or any(mark in head for mark in _MARKS[1:]), changed
        ours = _holds(file, _MARKS[0])
        changed = ours and not _single(file)
    return ours, ours and (changed or _filled_form(target))


def _holds(file: BinaryIO, mark: bytes) -> bool:
    """Whether the mark stands in the file, read piece by piece and no further than to it: ours stands before the pictures."""
    file.seek(0)
    held = b""
    while piece := file.read(_PIECE):
        held = held[1 - len(mark) :] + piece
        if mark in held:
            return True
    return False


def _single(file: BinaryIO) -> bool:
    """Whether a PDF ends as it was first written: with its one table of objects, which leads on to no other.

    Whatever is added later, a signature or what was filled in, has a table of its own (ISO 32000-1, 7.5.6 and 7.5.8).
    """
    file.seek(max(0, file.seek(0, os.SEEK_END) - _HEAD))
    ends = re.findall(rb"startxref\s+(\d+)\s", file.read())
    if not ends:
        return True  # cut short, but nothing was added
    file.seek(int(ends[-1]))
    table = file.read()
    described = re.match(rb"\d+ 0 obj\s*<<.*?>>\s*stream", table, re.DOTALL)
    return described is not None and b"/Prev" not in described[0] and table.count(b"startxref") == 1


def _filled_table(target: Path) -> bool:
    with target.open(encoding="utf-8", errors="replace", newline="") as file:
        return any(row.get(name) for row in csv.DictReader(file) for name in YARDS_OWN)


def _filled_form(target: Path) -> bool:
    """True for a field sheet in which something else stands than was printed; some readers write the whole file anew."""
    from reporter.archive.filled import read_form

    try:
        return any(field.changed for field in read_form(target).fields)
    except GudgeonError:
        return False
