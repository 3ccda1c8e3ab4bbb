"""What lies in the photos and documents folders, and whether what a sheet names is there.

In: a job folder. Out: plain files that may be read, by their name relative to the job folder; the hash of each paper.
Links, pipes and devices are refused before they are opened; what systems leave behind is passed over.
"""

from __future__ import annotations

import hashlib
import os
import stat
import unicodedata
from collections.abc import Iterator
from pathlib import Path

from reporter.collect.ledger import Ledger, listed, nearest
from reporter.collect.letters import tell_unseen
from reporter.collect.text_file import Place, what_is
from reporter.model.job import StoredFile

MOST_FILES = 20_000
DEEPEST = 8
LEFT_BEHIND = {".ds_store", "thumbs.db", "desktop.ini", ".directory", ".gitkeep"}
"""Files that desktop systems write into every folder they show."""


def plain_files(place: Place, sub: str, ledger: Ledger) -> list[Path]:
    """Every plain file below the folder `sub` of the job, sorted; what else lies there is told or passed over."""
    root = place.folder / sub
    try:
        mode = root.lstat().st_mode
    except OSError:
        return []
    if not stat.S_ISDIR(mode):
        kind = "a file" if stat.S_ISREG(mode) else what_is(mode)
        ledger.tell_file(
            place.named(sub),
            f"'{sub}' is {kind}, not a folder.",
            f"Make a folder '{sub}' inside the job folder.",
        )
        return []
    passed: list[str] = []
    found = list(_walk(root, place, passed, ledger, DEEPEST))
    if passed:
        ledger.remark(
            f"{place.named(sub)}: passed over what the system left there ({listed(sorted(passed))})."
        )
    return sorted(found)


def _walk(folder: Path, place: Place, passed: list[str], ledger: Ledger, deep: int) -> Iterator[Path]:
    try:
        entries = [(path, path.lstat().st_mode) for path in sorted(folder.iterdir())[:MOST_FILES]]
    except OSError:
        name = place.named(folder.relative_to(place.folder).as_posix())
        ledger.tell_file(name, "This folder cannot be read.", "Check its permissions.")
        return
    for path, mode in entries:
        name = path.name.casefold()
        if name in LEFT_BEHIND or name.startswith("._"):
            passed.append(path.name)
        elif stat.S_ISREG(mode):
            shown = place.named(path.relative_to(place.folder).as_posix())
            if not tell_unseen(path.name, ledger, shown, 0, "", rename=True):
                yield path
        elif stat.S_ISDIR(mode) and not path.suffix and deep:
            yield from _walk(path, place, passed, ledger, deep - 1)
        else:
            shown = place.named(path.relative_to(place.folder).as_posix())
            ledger.tell_file(
                shown, f"This is {what_is(mode)}, not a file.", "Put the file itself there, or take it out."
            )


def lacks_folder(place: Place, sub: str, ledger: Ledger, *, elsewhere: bool) -> bool:
    """Tell once that there is no folder `sub` at all, in which something is named."""
    if elsewhere or (place.folder / sub).exists():
        return False
    what = f"There is no folder '{sub}' here, and files in it are named."
    ledger.tell_file(place.named(sub), what, "Put the folder into the job folder, with its files.")
    return True


def kept_elsewhere(place: Place, sub: str, ledger: Ledger) -> bool:
    """Whether nothing is to be missed there: the folder is none, which is told itself, or the files stayed behind.

    Data taken out of a report have a register that names the photos, and no photos.
    """
    root = place.folder / sub
    try:
        mode = root.lstat().st_mode
    except OSError:
        mode = 0
    if mode and not (stat.S_ISDIR(mode) and os.access(root, os.R_OK | os.X_OK)):
        return True
    elsewhere = (place.folder / "photo_register.csv").is_file() and not (place.folder / sub).exists()
    if elsewhere and sub == "photos":
        ledger.remark(f"{place.named(sub)}: no photos here; photo_register.csv tells which files they were.")
    return elsewhere


class Shelf:
    """The files of one folder of the job, found by the names that sheets use for them."""

    def __init__(self, sub: str, names: list[str], *, elsewhere: bool = False) -> None:
        """`sub` is "photos" or "documents"; `names` are relative to the job folder. `elsewhere` misses nothing."""
        self.sub = sub
        self.elsewhere = elsewhere
        self._names = {_plain(name): name for name in names}
        self._folded = {key.casefold(): name for key, name in self._names.items()}

    def find(self, written: str) -> str:
        """The file's name relative to the job folder, or "" when it is not there."""
        return self._names.get(self._key(written), "")

    def fault(self, written: str) -> tuple[str, str] | None:
        """Why `written` names no file here, and what to do; None when it does."""
        key = self._key(written)
        if key in self._names:
            return None
        if _leaves(written):
            return (
                f"'{written}' lies outside the {self.sub} folder.",
                f"Copy the file into {self.sub}/ and write its name.",
            )
        if self.elsewhere:
            return None
        if key.casefold() in self._folded:
            have = self._shown(self._folded[key.casefold()])
            return f"You wrote '{written}', the folder has '{have}'.", f"Write '{have}'; capitals count."
        near = nearest(written, [self._shown(name) for name in self._names.values()], 0.8)
        hint = f"Did you mean '{near}'? " if near else ""
        return (
            f"'{written}' is not in the {self.sub} folder.",
            f"{hint}Put the file into {self.sub}/, or correct the name.",
        )

    def _key(self, written: str) -> str:
        tidy = _plain(written.strip().replace("\\", "/")).removeprefix("./")
        return tidy if tidy.startswith(f"{self.sub}/") else f"{self.sub}/{tidy}"

    def _shown(self, name: str) -> str:
        return name.removeprefix(f"{self.sub}/")


def _plain(name: str) -> str:
    # one system stores é as one character, another as two
    return unicodedata.normalize("NFC", name)


def _leaves(written: str) -> bool:
    tidy = written.strip().replace("\\", "/")
    return tidy.startswith(("/", "~")) or ".." in tidy.split("/") or tidy[1:2] == ":"


def read_papers(place: Place, ledger: Ledger) -> tuple[StoredFile, ...]:
    """Name, size and SHA-256 of every paper in the documents folder."""
    papers = (_paper(path, place, ledger) for path in plain_files(place, "documents", ledger))
    return tuple(each for each in papers if each is not None)


def _paper(path: Path, place: Place, ledger: Ledger) -> StoredFile | None:
    name = path.relative_to(place.folder).as_posix()
    try:
        with path.open("rb") as file:
            digest = hashlib.file_digest(file, "sha256").hexdigest()
            return StoredFile(name=name, sha256=digest, size_bytes=file.tell())
    except OSError:
        ledger.tell_file(place.named(name), "This file cannot be opened.", "Check its permissions.")
        return None
