"""The fields of one part on a sheet, with what they are to be held against."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from reporter.model.filled import Filled
from reporter.model.form import Form, Question
from reporter.model.plugin import Plugin
from reporter.taking.part import PartEntry
from reporter.taking.taken import SheetTaken

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
