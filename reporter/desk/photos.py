"""Photos: taken in as they came, and shown as upright copies; both through the door's workers.

In: the bytes of a file and what it is called; a photo's name and a width. Out: the file in the photos folder, unchanged,
under a safe name, once; a JPEG without metadata in a folder of this run. Nothing is decoded in this process.
"""

from __future__ import annotations

import hashlib
import os
import re
import unicodedata
from collections.abc import AsyncIterator
from dataclasses import dataclass
from pathlib import Path
from threading import Lock

from reporter import door
from reporter.desk.standing import DOOR, Standing
from reporter.desk.store import Store
from reporter.develop.copying import Copy, InsetOrder, Order, copy
from reporter.editing.saving import KEPT, settle
from reporter.errors import CannotWriteError, NoSuchError, UsageError
from reporter.machine import leavings
from reporter.model.photo import PICTURES, PhotoFile

THUMB = 320
WIDEST, NARROWEST = 4000, 40
LONGEST_NAME = 80
_UNSAFE = re.compile(r"[^\w.()-]+")


@dataclass(frozen=True)
class Arrival:
    """A photo as it was taken in, or found to be there already."""

    photo: PhotoFile
    already: bool


async def take(store: Store, name: str, body: AsyncIterator[bytes]) -> tuple[Path, str, str]:
    """The bytes of a photo in a file of the folder that the program keeps; the file, its digest and its safe name."""
    safe = safe_name(name)
    return *await receive(store, Path(safe).suffix, body), safe


async def receive(store: Store, suffix: str, body: AsyncIterator[bytes]) -> tuple[Path, str]:
    """What comes, in a file of the folder that the program keeps; the file and its digest. CannotWriteError when it is full."""
    coming = store.folder / KEPT / "coming"
    digest = hashlib.sha256()
    try:
        # One by one: a job folder that is gone must not come back with nothing but this in it.
        for folder in (coming.parent, coming):
            folder.mkdir(exist_ok=True)
        leavings.begin_in(coming)
        path = coming / os.urandom(4).hex().join(leavings.draft_name())
        path = path.with_name(f"{path.name}{suffix}")
        try:
            with path.open("xb") as file:
                async for piece in body:
                    digest.update(piece)
                    file.write(piece)
                file.flush()
                os.fsync(file.fileno())
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise _full(error) from error
    return path, digest.hexdigest()


def put_away(store: Store, path: Path, digest: str, safe: str) -> Arrival:
    """The file in the photos folder, unless its very bytes are there already; UsageError for what cannot be shown."""
    try:
        known = _same(store.standing(), digest)
        if known:
            return Arrival(known, already=True)
        with DOOR:
            photo = door.read_photos([path], store.folder, time_zone="UTC")[0]
        if photo.problem:
            what, _, do = photo.problem.partition(": ")
            msg = f"This file cannot be shown: {what}."
            raise UsageError(msg, f"{(do or 'take another photo').capitalize()}.")
        target = _put(path, store.folder / "photos", safe)
    except OSError as error:
        raise _full(error) from error
    finally:
        path.unlink(missing_ok=True)
    found = store.standing().photo(target.name)
    if found is None:
        msg = f"{target.name} was taken in, and is not there any more."
        raise NoSuchError(msg, "Send it again.")
    return Arrival(found, already=False)


_putting = Lock()


def _put(path: Path, folder: Path, safe: str) -> Path:
    """Move the file to a name that is free."""
    with _putting:
        folder.mkdir(exist_ok=True)
        if folder.is_symlink():
            msg = "'photos' is a link, not a folder."
            raise UsageError(msg, "Make a folder 'photos' inside the job folder.")
        there = {each.name.casefold() for each in folder.iterdir()}
        stem, suffix = Path(safe).stem, Path(safe).suffix
        names = (safe if not number else f"{stem}-{number + 1}{suffix}" for number in range(len(there) + 1))
        target = folder / next(name for name in names if name.casefold() not in there)
        path.replace(target)
        settle(folder)
        return target


def _same(standing: Standing, digest: str) -> PhotoFile | None:
    return next((each for each in standing.job.photos if each.sha256 == digest), None)


def _full(error: OSError) -> CannotWriteError:
    msg = f"The photo cannot be kept: {error.strerror}"
    return CannotWriteError(msg, "Make room on the disk, then send it again.")


def safe_name(name: str) -> str:
    """A file name of letters, digits and a few signs, of the kind that was sent; UsageError for what is no picture."""
    bare = unicodedata.normalize("NFC", name.replace("\\", "/").rsplit("/", 1)[-1])
    suffix = Path(bare).suffix.lower()
    if suffix not in PICTURES:
        msg = f"'{bare[:LONGEST_NAME]}' is no picture by its name."
        raise UsageError(msg, f"Send one of: {', '.join(sorted(each[1:] for each in PICTURES))}.")
    stem = _UNSAFE.sub("_", bare[: -len(suffix)]).strip("._")[:LONGEST_NAME]
    return f"{stem or 'photo'}{suffix}"


@dataclass
class Copies:
    """Upright copies of one run, by what they are copies of."""

    scratch: Path

    def wide(self, standing: Standing, file: str, width: int) -> Path:
        """The whole photo, at most `width` pixels wide; NoSuchError when there is none of that name."""
        width = min(max(width, NARROWEST), WIDEST)
        return self._copy(standing, file, (width, 2 * width), ())

    def piece(self, standing: Standing, file: str, inset: InsetOrder) -> Path:
        """A square piece of the photo."""
        return self._copy(standing, file, (NARROWEST, 2 * NARROWEST), (inset,))

    def _copy(
        self, standing: Standing, file: str, box: tuple[int, int], insets: tuple[InsetOrder, ...]
    ) -> Path:
        photo = standing.photo(file)
        if photo is None or photo.problem:
            msg = f"There is no photo '{file}' that can be shown."
            raise NoSuchError(msg, "Look at the photos again.")
        key = hashlib.sha256(repr((photo.sha256, box, insets)).encode()).hexdigest()[:32]
        kept = self.scratch / f"{key}.jpg"
        if not kept.exists():
            folder = standing.folder
            order = Order(
                str(folder / photo.name), str(folder), str(self.scratch), photo.sha256, box, (), insets
            )
            with DOOR:
                answer = door.run(copy, [(order,)])[0]
            if not isinstance(answer, Copy):
                msg = f"{file} cannot be shown: {answer}"
                raise NoSuchError(msg, "Take another photo.")
            made = self.scratch / (answer.insets[0] if insets else answer.name)
            made.replace(kept)
        return kept
