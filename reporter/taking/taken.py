"""What became of a sheet's fields: the edits, and a notice for everything that a person should know of."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Literal

from reporter.collect.quantity_slips import UnreadableError
from reporter.editing import Edit
from reporter.model.form import Filled
from reporter.wording import Catalogue


@dataclass(frozen=True)
class Notice:
    """One field: its page and label; added, different from the folder, replaced, or not to be read; and what of it."""

    kind: Literal["added", "differs", "replaced", "unreadable"]
    page: int
    label: str
    text: str
    do: str = ""

    def line(self, words: Catalogue) -> str:
        """The notice on one line of a terminal, or on two where there is something to do."""
        told = words(f"take.{self.kind}", page=self.page, label=self.label, text=self.text)
        return f"{told}\n    → {self.do}" if self.do else told


@dataclass
class SheetTaken:
    """Everything that a sheet brings: edits in the order of the sheet, notices, remarks on the sheet as a whole."""

    words: Catalogue
    replace: bool = False
    edits: list[Edit] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)

    def added(self, entry: Filled, text: str) -> None:
        """The folder said nothing of it."""
        self.notices.append(Notice("added", entry.page, entry.label, text))

    def may_replace(self, entry: Filled, there: str, text: str) -> bool:
        """Tells that the folder says something else, and whether the sheet's word is to stand in its place."""
        kind: Literal["replaced", "differs"] = "replaced" if self.replace else "differs"
        none = self.words("take.nothing")
        told = self.words("take.both", there=there or none, sheet=text or none)
        self.notices.append(Notice(kind, entry.page, entry.label, told))
        return self.replace

    def settles(self, entry: Filled, there: str, wanted: str) -> bool:
        """Whether the sheet's word is to stand: where the folder says nothing, and else where replacing is asked for."""
        if there:
            return self.may_replace(entry, there, wanted)
        self.added(entry, wanted)
        return True

    def refuse(self, entry: Filled, what: str, do: str, **put: object) -> None:
        """Nothing of it is taken: what is wrong, and what to do, as the catalogue has them."""
        self.notices.append(
            Notice("unreadable", entry.page, entry.label, self.words(what, **put), self.words(do))
        )

    @contextmanager
    def told(self, entry: Filled) -> Iterator[None]:
        """What cannot be read within is told, and nothing of it taken."""
        try:
            yield
        except UnreadableError as error:
            self.notices.append(Notice("unreadable", entry.page, entry.label, error.what, error.do))

    def of(self, kind: str) -> list[Notice]:
        """The notices of one kind."""
        return [each for each in self.notices if each.kind == kind]

    def lines(self) -> Iterator[str]:
        """What to tell at a terminal: every entry that needs a person's eye, then how many were added."""
        yield from self.remarks
        for kind in ("unreadable", "differs", "replaced"):
            yield from (each.line(self.words) for each in self.of(kind))
        counts = {kind: len(self.of(kind)) for kind in ("added", "differs", "replaced", "unreadable")}
        yield self.words("take.count", **counts)
        if counts["differs"]:
            yield self.words("take.to_replace")
