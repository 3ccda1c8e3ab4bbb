"""measurements.csv to `Reading`s, each with its line.

In: the rows of the table, the components and what their kinds declare, the instruments of the job. Out: the readings
that could be read; everything else is told. Values stay as the gauge said; nothing is merged, judged or filled in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from reporter.collect.check_components import left_without_work
from reporter.collect.csv_table import CsvRow, mangled, serial
from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.plausible import implausible
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import has_unit, read_quantity, read_uncertainty
from reporter.model.findings import Component
from reporter.model.job import Reading
from reporter.model.plugin import Plugin, Quantity
from reporter.model.quantity import Value
from reporter.model.sheet import Instrument
from reporter.model.terms import Dimension, Extent, State

NEEDED = ("component", "quantity", "value")
SIDES = ("port", "starboard")
STATES = tuple(state.value for state in State)
LONGEST_CELL = 200
LONGER = {"at": 80, "note": 800}
"""How long a cell may be where its place in a document holds another length."""


@dataclass(frozen=True)
class Aboard:
    """What a line may refer to: kinds by component id (readable or not), components, plugins, instruments."""

    kinds: dict[str, str]
    components: dict[str, Component]
    plugins: Mapping[str, Plugin]
    instruments: dict[str, Instrument | None] | None


@dataclass
class RowReader:
    """Reads the lines of one file, one after the other."""

    file: str
    aboard: Aboard
    ledger: Ledger

    def readings(self, rows: list[CsvRow]) -> tuple[Reading, ...]:
        """The readings of all rows that are in order; each fault is told at its line."""
        self._ask_about_twins(rows)
        read = [self._reading(row) for row in rows]
        return tuple(each for each in read if each is not None)

    def _ask_about_twins(self, rows: list[CsvRow]) -> None:
        """Rows that say the same in every cell: each counts as a repeat, and makes the mean look better known."""
        seen: set[tuple[tuple[str, str], ...]] = set()
        twins = []
        for row in rows:
            cells = tuple(sorted((name, cell) for name, cell in row.cells.items() if cell))
            if cells in seen:
                twins.append(str(row.line))
            seen.add(cells)
        if twins:
            self.ledger.remark(
                f"{self.file}, line {listed(twins)}: the same in every cell as a row above: pasted twice? "
                "Each row counts as a reading of its own, and narrows the uncertainty."
            )

    def _tell(self, row: CsvRow, key: str, what: str, do: str) -> None:
        self.ledger.tell(self.file, row.line, key, what, do, part=row["component"])

    def _reading(self, row: CsvRow) -> Reading | None:
        told = len(self.ledger.problems)
        self._check_words(row)
        quantity = self._quantity(row)
        value = self._value(row, quantity) if quantity else None
        if value is None or len(self.ledger.problems) > told:
            return None
        return Reading(
            component=row["component"],
            quantity=row["quantity"],
            at=row["at"],
            side=row["side"].casefold(),  # type: ignore[arg-type]  # checked by _check_words
            state=State(row["state"].casefold() or State.FOUND),
            value=value,
            resolution=self._resolution(row["instrument"], value.dimension),
            instrument=row["instrument"],
            note=row["note"],
            line=row.line,
        )

    def _check_words(self, row: CsvRow) -> None:
        """Side, state and instrument are known words; no cell is absurdly long."""
        for column, words in (("side", SIDES), ("state", STATES)):
            if row[column] and row[column].casefold() not in words:
                do = meant(row[column], words, f"Choices: {listed(words)}, or nothing.")
                self._tell(row, column, f"'{row[column]}' is no {column}.", do)
        instrument, names = row["instrument"], self.aboard.instruments
        if instrument and names is not None and instrument not in names:
            do = meant(instrument, names, f"Instruments in job.yaml: {listed(names)}.")
            self._tell(row, "instrument", f"There is no instrument '{instrument}' in job.yaml.", do)
        for column, cell in row.cells.items():
            if len(cell) > (most := LONGER.get(column, LONGEST_CELL)):
                what = f"This cell has {len(cell)} characters; {most} is the most."
                self._tell(row, column, what, "Shorten it; long texts go to findings.yaml.")

    def _quantity(self, row: CsvRow) -> Quantity | None:
        """What the kind of the component declares for this line; faults of component and quantity are told."""
        ident, name = row["component"], row["quantity"]
        if ident not in self.aboard.kinds:
            what = (
                f"There is no component '{ident}' in findings.yaml."
                if ident
                else "This line names no component."
            )
            self._tell(
                row,
                "component",
                what,
                meant(ident, self.aboard.kinds, f"Components: {listed(self.aboard.kinds)}."),
            )
            return None
        plugin = self.aboard.plugins.get(self.aboard.kinds[ident])
        if plugin is None:
            return None  # the unknown kind has been told where it is written
        quantity = plugin.quantity(name)
        known = [each.id for each in plugin.readings]
        if quantity is None:
            what = (
                f"A {plugin.title.lower()} has no reading '{name}'."
                if name
                else "This line names no quantity."
            )
            self._tell(row, "quantity", what, meant(name, known, f"Readings of this kind: {listed(known)}."))
            return None
        self._check_fits(row, quantity)
        return quantity

    def _check_fits(self, row: CsvRow, quantity: Quantity) -> None:
        """The reading makes sense for this very part."""
        component = self.aboard.components.get(row["component"])
        if component is None:
            return
        extent = component.examined.extent
        if extent in {Extent.NOT_SEEN, Extent.NOT_FITTED, Extent.NOT_FOUND}:
            said = extent.value.replace("not_", "was not ")
            what = f"By findings.yaml '{component.id}' {said}, yet a reading of it is given."
            self._tell(row, "component", what, "Correct 'examined' there, or take this line out.")
        if row["state"].casefold() == State.LEFT and not component.done:
            self._tell(row, "state", *left_without_work(component.id))
        for detail, choices in quantity.only_if.items():
            have = component.details.get(detail)
            if have and have.value not in choices:
                what = f"'{quantity.id}' is for {detail} {' or '.join(choices)} only; '{component.id}' has {have.value}."
                self._tell(
                    row, "quantity", what, f"Correct the {detail} in findings.yaml, or take this line out."
                )
        if quantity.per_side and not row["side"] and not component.hand:
            self._tell(
                row, "side", f"'{quantity.id}' is read on each side.", "Write port or starboard under 'side'."
            )

    def _value(self, row: CsvRow, quantity: Quantity) -> Value | None:
        """The value with its uncertainty, or None with the fault told."""
        text = row["value"]
        if not text:
            self._tell(
                row, "value", "There is no value in this line.", "Write the value, or take the line out."
            )
            return None
        fault = mangled(text) or (serial(text) if _absurd(text, quantity) else None)
        if fault:
            self._tell(row, "value", *fault)
            return None
        column = "value"
        try:
            value = _read(text, row["unit"], quantity)
            column = "uncertainty"
            value = _with_uncertainty(row["uncertainty"], value)
        except UnreadableError as error:
            self._tell(row, column, error.what, error.do)
            return None
        return self._plausible(row, value, quantity)

    def _plausible(self, row: CsvRow, value: Value, quantity: Quantity) -> Value | None:
        fault = implausible(value, quantity.title, quantity.plausible, quantity.unit)
        if fault:
            self._tell(row, "value", *fault)
        if value.note:
            self.ledger.remark(f"{self.file}, line {row.line}: {value.note}.")
        return None if fault else value

    def _resolution(self, instrument: str, dimension: Dimension) -> float:
        known = (self.aboard.instruments or {}).get(instrument)
        try:
            return read_quantity(known.resolution, dimension).value if known and known.resolution else 0.0
        except UnreadableError:
            return 0.0  # a gauge that shows something else as well, such as a tension gauge's scale


def _read(text: str, unit: str, quantity: Quantity) -> Value:
    """The value of a line whose unit stands beside the number or in its own column."""
    own = has_unit(text)
    if (
        own
        and unit
        and read_quantity(f"1 {unit}", quantity.dimension).unit
        != read_quantity(text, quantity.dimension).unit
    ):
        raise UnreadableError(
            f"The value '{text}' has a unit, and the column 'unit' says '{unit}'.", "Keep the right one."
        )
    if unit and not own:
        return read_quantity(f"{text} {unit}", quantity.dimension)
    return read_quantity(text, quantity.dimension, bare=quantity.unit if _may_be_bare(quantity) else None)


def _may_be_bare(quantity: Quantity) -> bool:
    return quantity.dimension is Dimension.COUNT or (
        quantity.dimension is Dimension.RATIO and quantity.unit in {"", "1"}
    )


def _with_uncertainty(text: str, value: Value) -> Value:
    if not text:
        return value
    if value.u:
        raise UnreadableError(
            "The uncertainty is given twice: after ± and in its own column.", "Keep one of them."
        )
    fault = mangled(text)
    if fault:
        raise UnreadableError(*fault)
    return read_uncertainty(text, value)


def _absurd(text: str, quantity: Quantity) -> bool:
    """Whether a bare number is far above everything that the quantity could be."""
    try:
        return float(text.replace(",", ".")) > 10 * quantity.plausible[1]
    except ValueError:
        return False
