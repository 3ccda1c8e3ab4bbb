"""The readings of the folder while a sheet is taken: rows as they are, and the edits that add to them.

Comes in: rows as column -> text. Goes out: edits of single rows. Which is which is told by part, reading, place and count.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from reporter.editing import Edit

FILE = "measurements.csv"
Row = dict[str, str]


@dataclass
class Rows:
    """Every row in the order of the file, as it is to stand; `edits` lead from the file to there."""

    rows: list[Row]
    edits: list[Edit] = field(default_factory=list)

    def of(self, part: str, quantity: str) -> list[Row]:
        """The rows of one reading as found."""
        return [
            each for each in self._alike(part, quantity) if each.get("state", "found").casefold() == "found"
        ]

    def at(self, part: str, quantity: str, at: str, side: str) -> list[Row]:
        """Those of one place and side, in their order."""
        told = [each for each in self.of(part, quantity) if each.get("at", "") == at]
        return [each for each in told if each.get("side", "").casefold() == side]

    def add(self, row: Mapping[str, str]) -> None:
        """One more row behind those of its kind."""
        made = {column: text for column, text in row.items() if text}
        self.edits.append(Edit(FILE, (self._step(made, len(self._same(made))),), None, made))
        self.rows.append(made)

    def change(self, row: Row, cells: Mapping[str, str]) -> None:
        """The row with other cells; an empty text takes a cell out."""
        changed = {column: text for column, text in {**row, **cells}.items() if text}
        self.edits.append(Edit(FILE, (self._step(row, self._number(row)),), dict(row), changed))
        self.rows[self._index(row)] = changed

    def remove(self, row: Row) -> None:
        """The row goes."""
        self.edits.append(Edit(FILE, (self._step(row, self._number(row)),), dict(row), None))
        del self.rows[self._index(row)]

    def _alike(self, part: str, quantity: str) -> list[Row]:
        return [
            each for each in self.rows if (each.get("component"), each.get("quantity")) == (part, quantity)
        ]

    def _same(self, row: Row) -> list[Row]:
        alike = self._alike(row.get("component", ""), row.get("quantity", ""))
        return [each for each in alike if each.get("at", "") == row.get("at", "")]

    def _number(self, row: Row) -> int:
        return next(number for number, each in enumerate(self._same(row)) if each is row)

    def _index(self, row: Row) -> int:
        return next(number for number, each in enumerate(self.rows) if each is row)

    @staticmethod
    def _step(row: Row, number: int) -> dict[str, list[str | int]]:
        return {"row": [row.get("component", ""), row.get("quantity", ""), row.get("at", ""), number]}
