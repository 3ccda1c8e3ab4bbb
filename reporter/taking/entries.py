"""The fields of one part on a sheet, with what they are to be held against: its entry in findings.yaml, changed in a copy.

Comes in: the plain data of the entry, or what is known of a part that is not listed yet. Goes out: one edit.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

from reporter.editing import Edit
from reporter.editing.plain_data import short_for
from reporter.model.form import Filled, Form, Question
from reporter.model.plugin import Plugin
from reporter.taking.taken import SheetTaken

FILE = "findings.yaml"
ABSENT = {"not_seen", "not_fitted", "not_found"}


@dataclass
class PartEntry:
    """`before` is what stands in the folder, None for a part that is new; `now` is what is to stand there."""

    ident: str
    kind: str
    before: dict[str, Any] | None
    now: dict[str, Any] = field(default_factory=dict)

    @classmethod
    def of(cls, ident: str, kind: str, entry: dict[str, Any] | None, known: dict[str, str]) -> PartEntry:
        """The entry that is there, or the beginnings of one."""
        if entry is not None:
            return cls(ident, kind, entry, deepcopy(entry))
        begun = {"id": ident, "kind": kind, **{key: text for key, text in known.items() if text}}
        return cls(ident, kind, None, begun)

    def get(self, *path: str) -> Any:
        """What is to stand at `path`; None where there is nothing."""
        here: Any = self.now
        for number, step in enumerate(path):
            here = short_for(("components", 0, *path[:number]), here)
            if not isinstance(here, dict):
                return None
            here = here.get(step)
        return here

    def put(self, value: Any, *path: str) -> None:
        """Let `value` stand at `path`; None takes it out."""
        here: Any = self.now
        for number, step in enumerate(path[:-1], start=1):
            inner = here.get(step)
            whole = short_for(("components", 0, *path[:number]), inner)
            if not isinstance(whole, dict):
                whole = {}
            here[step] = whole
            here = whole
        if value is None:
            here.pop(path[-1], None)
        else:
            here[path[-1]] = value

    @property
    def is_changed(self) -> bool:
        """Whether the sheet adds anything to the entry."""
        known = {"id", "kind", "name", "place", "side", "group"}
        return self.now != self.before if self.before is not None else bool(set(self.now) - known)

    @property
    def extent(self) -> str:
        """How much of it was seen, by its id; empty where nothing says so."""
        return str(self.get("examined", "extent") or "")

    def edit(self) -> Edit:
        """From what is there to what is to stand there."""
        return Edit(FILE, ("components", {"id": self.ident}), self.before, self.now)


Steps = tuple[str, ...]


@dataclass(frozen=True)
class Entries:
    """`fields` by the steps behind the part: `("observed", "cracks", "1", "bent")`."""

    part: PartEntry
    plugin: Plugin
    form: Form
    fields: Mapping[Steps, Filled]
    taken: SheetTaken
    instruments: tuple[str, ...]
    today: dt.date | None

    def under(self, *steps: str) -> dict[Steps, Filled]:
        """The fields under these steps, by what comes behind them."""
        return {name[len(steps) :]: each for name, each in self.fields.items() if name[: len(steps)] == steps}

    def changed(self, *steps: str) -> list[Filled]:
        """Those that somebody filled in."""
        return [each for each in self.under(*steps).values() if each.changed]

    def question(self, *steps: str) -> Question | None:
        """The question that the fields under these steps answer; None where the kind does not ask it any more."""
        return self.form.question(".".join(steps))

    def gone(self, fields: Mapping[Steps, Filled]) -> None:
        """Tell that the kind does not ask this any more."""
        for each in fields.values():
            if each.changed:
                self.taken.refuse(each, "take.no_question", "take.by_hand")

    def tables(self, name: str) -> list[str]:
        """The questions of one table that have a changed field."""
        return list(
            dict.fromkeys(
                steps[1]
                for steps, each in self.fields.items()
                if each.changed and steps[:1] == (name,) and len(steps) > 1
            )
        )
