"""One text file of a job folder: bytes off the disk to text, or a problem in plain words.

In: the folder and a file's name. Out: its text without a byte order mark, or None with a problem in the ledger. Only
plain files are opened: a link, a pipe or a device is refused before it is touched.
"""

from __future__ import annotations

import stat
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from reporter.collect.ledger import Ledger, listed

LARGEST = 2_000_000
_MOST_FOLDERS = 5
_SHEETS = {
    "job.yaml": frozenset({"yaml"}),
    "findings.yaml": frozenset({"yaml"}),
    "measurements.csv": frozenset({"csv", "xlsx", "xls", "ods", "numbers"}),
}
"""The sheets of a folder, and how the names of their copies end."""
_ARCHIVE = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How office documents begin: archives, and the containers of older programs."""


@dataclass(frozen=True)
class Place:
    """A job folder, and what its files are called in messages ("" or the path written under `earlier:`).

    With `texts` the folder's own text files are held in memory, by name, and not read from the disk.
    """

    folder: Path
    prefix: str = ""
    texts: Mapping[str, str] | None = None

    def named(self, name: str) -> str:
        """How messages call the file `name` of this folder."""
        return f"{self.prefix}/{name}" if self.prefix else name


def read_text(place: Place, name: str, ledger: Ledger, *, needed: bool) -> str | None:
    """The text of the file `name`; None when it is absent or cannot be read (told, if it is `needed` or at fault)."""
    told = place.named(name)
    path = place.folder / name
    if place.texts is not None and name in place.texts:
        return place.texts[name].removeprefix("\ufeff")
    try:
        status = path.lstat()
    except FileNotFoundError:
        if needed:
            ledger.tell_file(told, "This file is missing.", _where_is(path))
        return None
    except OSError as error:
        ledger.tell_file(
            told, f"This file cannot be reached: {_reason(error)}.", "Check the folder and its permissions."
        )
        return None
    if not stat.S_ISREG(status.st_mode):
        kind = what_is(status.st_mode)
        ledger.tell_file(told, f"This is {kind}, not a file.", "Put the file itself into the folder.")
        return None
    if status.st_size > LARGEST:
        ledger.tell_file(told, "This file is larger than 2 MB.", "Take out what does not belong in it.")
        return None
    _tell_twin(path, told, ledger)
    return _decoded(path, told, ledger)


def remark_copies(place: Place, ledger: Ledger) -> None:
    """Copies of a sheet, such as a spreadsheet or a service that shares folders leaves: somebody may be writing there for nothing."""
    try:
        names = sorted(each.name for each in place.folder.iterdir())
    except OSError:
        return
    for name in names:
        stem, _, ending = name.casefold().rpartition(".")
        for sheet, endings in _SHEETS.items():
            if name not in _SHEETS and sheet.partition(".")[0] in stem and ending in endings:
                ledger.remark(f"{place.named(name)}: not read; what counts stands in {sheet}.")


def _tell_twin(path: Path, told: str, ledger: Ledger) -> None:
    """A file of the same name with the other ending, in which somebody may be writing for nothing."""
    other = path.with_suffix(".yml")
    if path.suffix == ".yaml" and other.exists():
        what = f"'{other.name}' lies beside this file, and nobody reads it."
        ledger.tell_file(told, what, f"Keep the one that is meant, under the name '{path.name}'.")


def _decoded(path: Path, told: str, ledger: Ledger) -> str | None:
    try:
        raw = path.read_bytes()
    except OSError as error:
        ledger.tell_file(told, f"This file cannot be opened: {_reason(error)}.", "Check its permissions.")
        return None
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if raw[:2] in {b"\xff\xfe", b"\xfe\xff"}:
            ledger.tell_file(told, "This file is saved as UTF-16.", "Save it again with the encoding UTF-8.")
            return None
        if raw.startswith(_ARCHIVE):
            what = "This is a spreadsheet or an office document under this name."
            ledger.tell_file(
                told, what, f"Save it as '{path.suffix.removeprefix('.').upper()}' from that program."
            )
            return None
        line = raw[: error.start].count(b"\n") + 1
        what = "A character here is not stored as UTF-8."
        ledger.tell(
            told,
            line,
            "",
            what,
            "Save the file again with the encoding UTF-8 (in a spreadsheet: 'CSV UTF-8').",
        )
        return None


def _where_is(path: Path) -> str:
    """A hint at a file that differs in capitals or in its ending only."""
    try:
        near = [each.name for each in path.parent.iterdir() if _alike(each.name) == _alike(path.name)]
    except OSError:
        near = []
    if near:
        return f"The folder has '{min(near)}': rename it to '{path.name}'."
    inside = sorted(each.parent.name for each in path.parent.glob("*/job.yaml"))
    if inside and not (path.parent / "job.yaml").exists():
        return f"Name a job folder; in this one lie: {listed(inside, _MOST_FOLDERS)}."
    folder = path.absolute().parent
    if folder.name in {"photos", "documents"} and (folder.parent / "job.yaml").exists():
        return "This folder lies in a job folder: name that one."
    return "Put it into the job folder."


def _alike(name: str) -> str:
    return name.casefold().removesuffix(".txt").replace(".yml", ".yaml")


def what_is(mode: int) -> str:
    """What an entry of a folder is, in plain words, from its `st_mode`."""
    if stat.S_ISLNK(mode):
        return "a link"
    if stat.S_ISDIR(mode):
        return "a folder"
    return "a pipe or a device"


def _reason(error: OSError) -> str:
    return (error.strerror or "unknown reason").lower()
