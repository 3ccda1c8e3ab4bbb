"""The journal of accepted edits: one line of JSON each, only ever added to, kept beside the job's own files.

In: entries. Out: the entries again, whatever cut the last line short; what can be undone and done again; what is to
stand in the files by now. A line that cannot be read is passed over, never removed.
"""

from __future__ import annotations

import datetime as dt
import json
import os
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path
from threading import Lock
from typing import Any, BinaryIO, Literal

from reporter.editing.edit import Address, Edit, Plain
from reporter.editing.saving import KEPT, settle
from reporter.editing.turning import Change

Doing = Literal["edit", "undo", "redo", "passed"]
"""`passed`: an entry that could not be undone or done again, since its values have moved on."""


@dataclass(frozen=True)
class Entry:
    """What was accepted in one go. `of` is the entry that an undo or redo is of; `edits` hold before and after.

    `changes` say the same to the letter, for an undo while the files are as this entry left them.
    """

    entry: int
    time: str
    label: str
    edits: tuple[Edit, ...] = ()
    did: Doing = "edit"
    of: int = 0
    changes: tuple[Change, ...] = ()


@dataclass
class LastPut:
    """What the journal last put at one address, and what stood there before, at any time."""

    entry: Entry
    edit: Edit
    wanted: Plain
    earlier: list[Plain] = field(default_factory=list)


class Journal:
    """The journal of one job folder. What was read of it is kept; another process may have added to it meanwhile."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / KEPT / "journal.jsonl"
        self._lock = Lock()
        self._known: list[Entry] = []
        self._read = (0, 0)
        """Which file was read, and how far."""

    def entries(self) -> list[Entry]:
        """All entries in order."""
        with self._lock:
            try:
                with self.file.open("rb") as file:
                    self._read_on(file)
            except FileNotFoundError:
                self._known, self._read = [], (0, 0)
            return list(self._known)

    def _read_on(self, file: BinaryIO) -> None:
        """Take up what was added; a line that has no end yet waits."""
        status = os.fstat(file.fileno())
        which, place = self._read
        # Another file, or a shorter one: the folder was restored from a copy, and is read from its beginning.
        if which != status.st_ino or status.st_size < place:
            self._known, place = [], 0
        file.seek(place)
        added = file.read()
        whole = added[: added.rfind(b"\n") + 1]
        self._known += _entries(whole.split(b"\n"))
        self._read = (status.st_ino, place + len(whole))

    def add(
        self,
        label: str,
        edits: Iterable[Edit],
        did: Doing = "edit",
        of: int = 0,
        changes: Iterable[Change] = (),
    ) -> Entry:
        """Write an entry to the disk and return it."""
        last = self.entries()[-1:]
        now = dt.datetime.now(dt.UTC).isoformat(timespec="seconds")
        entry = Entry((last[0].entry if last else 0) + 1, now, label, tuple(edits), did, of, tuple(changes))
        # A line cut short by a power cut is closed first, so that this one stands alone.
        line = b"\n" + json.dumps(asdict(entry), ensure_ascii=False).encode() + b"\n"
        self.file.parent.mkdir(exist_ok=True)
        with self.file.open("ab") as file:
            file.write(line)
            file.flush()
            os.fsync(file.fileno())
        settle(self.file.parent)
        return entry


def _entries(lines: Iterable[bytes]) -> Iterator[Entry]:
    for line in lines:
        if not line.strip():
            continue
        try:
            raw = json.loads(line)
            edits = tuple(_edit(each) for each in raw["edits"])
            changes = tuple(Change(**each) for each in raw.get("changes", ()))
            yield Entry(
                int(raw["entry"]), raw["time"], raw["label"], edits, raw["did"], int(raw["of"]), changes
            )
        except (ValueError, KeyError, TypeError):
            continue


def _edit(raw: dict[str, Any]) -> Edit:
    return Edit(raw["file"], tuple(raw["address"]), raw["seen"], raw["wanted"])


def stacks(entries: Iterable[Entry]) -> tuple[list[Entry], list[Entry]]:
    """What can be undone and what can be done again, the next one last."""
    done: list[Entry] = []
    undone: list[Entry] = []
    for each in entries:
        if each.did == "edit":
            done.append(each)
            undone.clear()
        elif each.did == "undo" and done:
            undone.append(done.pop())
        elif each.did == "redo" and undone:
            done.append(undone.pop())
        elif each.did == "passed":
            done = [entry for entry in done if entry.entry != each.of]
            undone = [entry for entry in undone if entry.entry != each.of]
    return done, undone


def turned(edits: Iterable[Edit]) -> tuple[Edit, ...]:
    """The edits that take `edits` back."""
    return tuple(Edit(e.file, e.address, e.wanted, e.seen) for e in reversed(tuple(edits)))


def standing(entries: Iterable[Entry]) -> list[LastPut]:
    """What the journal last put at each address, in the order in which it is to be put back."""
    last: dict[str, LastPut] = {}
    for entry in entries:
        for edit in entry.edits:
            key = _key(edit.file, edit.address)
            # Taken out and set anew, so that the order is that of the last edits.
            before = last.pop(key, None)
            earlier = [*(before.earlier if before else []), edit.seen]
            if not (isinstance(edit.seen, str) and isinstance(edit.wanted, str)):
                # Only what holds something can be set over edits inside it.
                last = {each: value for each, value in last.items() if not _lies_within(value.edit, edit)}
            last[key] = LastPut(entry, edit, edit.wanted, earlier)
    return list(last.values())


def _key(file: str, address: Address) -> str:
    return json.dumps([file, *address], sort_keys=True)


def _lies_within(edit: Edit, other: Edit) -> bool:
    """Whether `edit` is of something inside what `other` sets as a whole."""
    return edit.file == other.file and edit.address[: len(other.address)] == other.address
