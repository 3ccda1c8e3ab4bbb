"""Cells with numbers against the rows of measurements.csv: a new number is a new row, another one is told.

Comes in: the fields of a part, rows as column -> text. Goes out: edits of single rows; which is which is told by part,
reading, place and count.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from dataclasses import field as held

from reporter.asking.naming import FREE, NO_PLACE, NO_SIDE, PLACE, WHERE, WITH
from reporter.collect.quantity_slips import UnreadableError
from reporter.editing import Edit
from reporter.model.form import Filled, Option
from reporter.model.plugin import Quantity
from reporter.model.quantity import Value
from reporter.taking.answers import one_of, reading, row_value
from reporter.taking.entries import Entries, Steps

FILE = "measurements.csv"
Row = dict[str, str]


@dataclass
class Rows:
    """Every row in the order of the file, as it is to stand; `edits` lead from the file to there."""

    rows: list[Row]
    edits: list[Edit] = held(default_factory=list)

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


def take_readings(entries: Entries, rows: Rows) -> None:
    """Every reading of the part that has a changed cell."""
    for ident in entries.tables("readings"):
        fields = entries.under("readings", ident)
        declared = entries.plugin.quantity(ident)
        question = entries.question("readings", ident)
        if declared is None or question is None:
            entries.gone(fields)
            continue
        instrument = _instrument(entries, fields.get((WITH,)))
        taking = _Taking(entries, rows, declared, question.unit, instrument)
        # What is cleared goes last and from the end, so that the rows before keep their number.
        cells = sorted(_numbered(fields, taking), key=lambda each: -each.row if each.read is None else -1000)
        for cell in cells:
            side = "" if cell.steps[1] == NO_SIDE else cell.steps[1]
            taking.cell(_place(fields, cell.steps[0]), side, cell)
        taking.with_instrument(fields.get((WITH,)))


def _place(fields: dict[Steps, Filled], step: str) -> str:
    if step.startswith(FREE):
        where = fields.get((step, WHERE))
        return where.value if where else ""
    return "" if step == NO_PLACE else step.removeprefix(PLACE)


def _instrument(entries: Entries, field: Filled | None) -> str:
    """The gauge that is named, as job.yaml calls it."""
    if field is None or not field.value:
        return ""
    # One that was printed so and is not known here is no news.
    with entries.taken.told(field) if field.changed else suppress(UnreadableError):
        return one_of(field.value, [Option(id=each, words=each) for each in entries.instruments])
    return ""


@dataclass(frozen=True)
class _Cell:
    """A cell that was filled in, the number of its row from 1, and the number that it holds; None where it was cleared."""

    steps: Steps
    field: Filled
    row: int
    read: tuple[Row, Value] | None


def _numbered(fields: dict[Steps, Filled], taking: _Taking) -> Iterator[_Cell]:
    """The cells that were filled in: one before them that was left empty, or cannot be read, has no row."""
    rows: Counter[Steps] = Counter()
    for steps, field in fields.items():
        if not steps[-1].isdigit():
            continue
        read = taking.read(field) if field.changed else None
        rows[steps[:-1]] += bool(field.printed or read)
        if field.changed and (read or not field.value):
            yield _Cell(steps, field, rows[steps[:-1]], read)


@dataclass(frozen=True)
class _Taking:
    """One reading of one part."""

    entries: Entries
    rows: Rows
    declared: Quantity
    unit: str
    instrument: str

    def read(self, field: Filled) -> tuple[Row, Value] | None:
        """The number in a cell; None where there is none or, which is told, no number can be read."""
        if not field.value:
            return None
        with self.entries.taken.told(field):
            return reading(field.value, self.declared, self.unit)
        return None

    def cell(self, at: str, side: str, cell: _Cell) -> None:
        """One cell against the row of its number at that place and side."""
        field = cell.field
        there = self.rows.at(self.entries.part.ident, self.declared.id, at, side)
        row = there[cell.row - 1] if cell.row <= len(there) else None
        if cell.read is None:
            # Where the printed reading has gone already, another one has moved up to its number.
            if row is None or not self._stands_in(row, field.printed):
                return
            if self.entries.taken.may_replace(field, _shown(row), ""):
                self.rows.remove(row)
            return
        cells, value = cell.read
        if row is None:
            self._add(at, side, cells, field)
        elif not _equal(row_value(row, self.declared), value) and self.entries.taken.may_replace(
            field, _shown(row), _shown(cells)
        ):
            self.rows.change(row, {"unit": "", "uncertainty": "", **cells})

    def _stands_in(self, row: Row, printed: str) -> bool:
        try:
            _, value = reading(printed, self.declared, self.unit)
        except UnreadableError:
            return printed == _shown(row)
        return _equal(row_value(row, self.declared), value)

    def _add(self, at: str, side: str, cells: Row, field: Filled) -> None:
        named = {"component": self.entries.part.ident, "quantity": self.declared.id, "at": at, "side": side}
        self.rows.add({**named, **cells, "instrument": self.instrument})
        self.entries.taken.added(field, _shown(cells))

    def with_instrument(self, field: Filled | None) -> None:
        """The gauge, put to the rows that name none."""
        if field is None or not field.changed or not self.instrument:
            return
        for row in self.rows.of(self.entries.part.ident, self.declared.id):
            there = row.get("instrument", "")
            if there != self.instrument and (
                not there or self.entries.taken.may_replace(field, there, self.instrument)
            ):
                self.rows.change(row, {"instrument": self.instrument})


def _equal(there: Value | None, value: Value) -> bool:
    """The same number; an uncertainty that only the folder tells is no difference."""
    return there is not None and there.value == value.value and value.u in {0.0, there.u}


def _shown(row: Row) -> str:
    return " ".join(filter(None, (row.get("value", ""), row.get("unit", ""))))
