"""The files of a job folder, edited on disk: under the lock, on the files as they are now, journal first.

In: edits. Out: the entry that holds them, once they are on the disk. The entry is written before the files, so that a
run that ends in between leaves a trace: what is then missing in a file is offered like anything else that was lost.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path

from reporter.editing.edit import Address, Conflict, ConflictError, Edit, EditError, Plain
from reporter.editing.journal import Doing, Entry, Journal, stacks, standing, turned
from reporter.editing.plain_data import applied, built, value_at
from reporter.editing.planning import plan
from reporter.editing.saving import folder_locked, save
from reporter.editing.texts import edited, is_table, value_in
from reporter.editing.turning import Change, done_to_all
from reporter.errors import CannotWriteError

FILES = ("job.yaml", "findings.yaml", "measurements.csv")
LARGEST = 2_000_000
"""The reader of a job folder takes no larger file."""


@dataclass(frozen=True)
class Lost:
    """An accepted edit that an outside change took away: what was put there, and what stands there now."""

    entry: int
    label: str
    file: str
    address: Address
    wanted: Plain
    now: Plain


class JobFiles:
    """The three files of one job folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.journal = Journal(folder)

    def text(self, file: str) -> str:
        """The text of a file as it is now, its byte order mark and line breaks kept; "" when it is not there."""
        if file not in FILES:
            raise EditError(f"'{file}' is no file of a job.", f"Files: {', '.join(FILES)}.")
        path = self.folder / file
        if path.is_symlink():
            raise EditError(f"{file} is a link, not a file.", "Put the file itself into the folder.")
        try:
            return path.read_bytes().decode("utf-8") if path.exists() else ""
        except (OSError, UnicodeDecodeError) as error:
            msg = f"{file} cannot be read, so nothing is changed in it."
            raise EditError(msg, "'gudgeon check' tells what is wrong.") from error

    def value(self, file: str, address: Address) -> Plain:
        """What stands at `address` of a file; None where there is nothing."""
        return value_in(self.text(file), address, table=is_table(file))

    def accept(self, label: str, edits: Sequence[Edit]) -> Entry | None:
        """Carry out all of `edits` or none; None when everything stood there already.

        Raises ConflictError with every edit that meets another value, EditError, CannotWriteError.
        """
        with self._held():
            return self._accept(label, edits)

    @contextmanager
    def _held(self) -> Iterator[None]:
        """The folder's lock; CannotWriteError where there can be none."""
        with ExitStack() as stack:
            try:
                stack.enter_context(folder_locked(self.folder))
            except OSError as error:
                raise _cannot_write(error) from error
            yield

    def _accept(self, label: str, edits: Sequence[Edit], did: Doing = "edit", of: int = 0) -> Entry | None:
        before = {file: self.text(file) for file in {edit.file for edit in edits}}
        after, conflicts = dict(before), list[Conflict]()
        kept: list[Edit] = []
        for edit in edits:
            table = is_table(edit.file)
            old = after[edit.file]
            try:
                after[edit.file] = edited(old, [edit], table=table)
            except ConflictError as error:
                conflicts += error.conflicts
                continue
            if after[edit.file] != old:
                kept.append(_as_kept(edit, old, after[edit.file]))
        if conflicts:
            raise ConflictError(conflicts)
        if not kept and did == "edit":
            return None
        for file, text in after.items():
            if len(text.encode()) > LARGEST:
                raise EditError(f"{file} would become larger than 2 MB.", "Shorten it.")
        return self._write(label, kept, did, of, {f: text for f, text in after.items() if text != before[f]})

    def _write(self, label: str, kept: Iterable[Edit], did: Doing, of: int, texts: dict[str, str]) -> Entry:
        changes = [Change.of(file, self.text(file), text) for file, text in texts.items()]
        try:
            entry = self.journal.add(label, kept, did, of, changes)
            for file, text in texts.items():
                save(self.folder / file, text.encode("utf-8"))
        except OSError as error:
            raise _cannot_write(error) from error
        return entry

    def can(self) -> tuple[str | None, str | None]:
        """What undo would take back and redo would do again, by label."""
        done, undone = stacks(self.journal.entries())
        return (done[-1].label if done else None, undone[-1].label if undone else None)

    def undo(self) -> Entry:
        """Take the last edit back. ConflictError where its values have moved on; it is then passed over for good."""
        return self._again("undo")

    def redo(self) -> Entry:
        """Do again what was last taken back; ConflictError as with `undo`."""
        return self._again("redo")

    def _again(self, did: Doing) -> Entry:
        with self._held():
            done, undone = stacks(self.journal.entries())
            waiting = done if did == "undo" else undone
            if not waiting:
                raise EditError("There is nothing to take back or do again.", "Nothing has changed.")
            last = waiting[-1]
            edits = turned(last.edits) if did == "undo" else last.edits
            changes = [each.turned() for each in last.changes] if did == "undo" else last.changes
            # To the letter while the files are as that entry left them; else by its values, as any other edit.
            if texts := done_to_all(changes, self.text):
                return self._write(last.label, edits, did, last.entry, texts)
            try:
                entry = self._accept(last.label, edits, did, last.entry)
            except ConflictError:
                # It would stand in the way of all before it for ever.
                self.journal.add(last.label, (), "passed", last.entry)
                raise
        assert entry is not None  # noqa: S101 - an undo is always written down
        return entry

    def lost(self) -> list[Lost]:
        """Accepted edits that are not there now, where what stands there is what they had replaced.

        A value that was never there before is a person's later word, and is left alone.
        """
        lost: list[Lost] = []
        texts = self._readable()
        for each in standing(self.journal.entries()):
            edit = each.edit
            if edit.file not in texts:
                continue
            now = value_in(texts[edit.file], edit.address, table=is_table(edit.file))
            whole = next((other for other in lost if _covers(other, edit)), None)
            if whole:
                # It cannot be put back alone, since what it was inside of is gone: it joins that.
                lost[lost.index(whole)] = replace(whole, wanted=_within(whole, edit))
            elif now != each.wanted and now in each.earlier:
                lost.append(
                    Lost(each.entry.entry, each.entry.label, edit.file, edit.address, each.wanted, now)
                )
        return lost

    def _readable(self) -> dict[str, str]:
        """The texts of the files that can be read; of the others nothing can be said."""
        texts: dict[str, str] = {}
        for file in FILES:
            with suppress(EditError):
                text = self.text(file)
                value_in(
                    text, ({"rows": ["", "", ""]},) if is_table(file) else ("format",), table=is_table(file)
                )
                texts[file] = text
        return texts

    def put_back(self, entries: Iterable[int]) -> Entry | None:
        """Put back what was lost of these entries, as an edit that can be undone."""
        wanted = set(entries)
        lost = [each for each in self.lost() if each.entry in wanted]
        label = lost[0].label if lost else ""
        return self.accept(label, [Edit(each.file, each.address, each.now, each.wanted) for each in lost])


def _cannot_write(error: OSError) -> CannotWriteError:
    msg = f"The job folder cannot be written to: {error.strerror}"
    return CannotWriteError(msg, "Make room there, or choose a folder that you may write to.")


def _covers(lost: Lost, edit: Edit) -> bool:
    """Whether what an edit is inside of is gone as a whole."""
    inside = edit.file == lost.file and edit.address[: len(lost.address)] == lost.address
    return inside and lost.now is None


def _within(lost: Lost, edit: Edit) -> Plain:
    """What was lost as a whole, with a later edit inside it."""
    data = built(lost.address, lost.wanted)
    for op in plan(data, edit.address, edit.wanted):
        data = applied(data, op)
    return value_at(data, lost.address)


def _as_kept(edit: Edit, old: str, new: str) -> Edit:
    """The edit as the journal keeps it: entries that are only counted are kept with their whole list."""
    stable = _stable(edit)
    table = is_table(edit.file)
    return replace(
        edit,
        address=stable,
        seen=value_in(old, stable, table=table),
        wanted=value_in(new, stable, table=table),
    )


def _stable(edit: Edit) -> Address:
    for number, step in enumerate(edit.address):
        if isinstance(step, int):
            return edit.address[:number]
        if isinstance(step, dict) and "row" in step:
            return ({"rows": step["row"][:3]},)
        # A photo that comes or goes leaves no name by which its place could be found again.
        comes_or_goes = number == len(edit.address) - 1 and (edit.seen is None or edit.wanted is None)
        if isinstance(step, dict) and "photo" in step and comes_or_goes:
            return edit.address[:number]
    return edit.address
