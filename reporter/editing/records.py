"""Edits of a table of readings: whole records are replaced, put in or taken out; no other record is touched.

In: the text of a CSV file, as a spreadsheet or an editor left it, and an edit. Out: the new text. A row is found by its
part, reading and place, and counted among those from 0, since rows have no names.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from io import StringIO

from reporter.editing.edit import Address, Edit, EditError, Plain
from reporter.model.cell import inert, plain
from reporter.model.job import COLUMNS

KEYS = COLUMNS[:3]
SEPARATORS = (",", ";", "\t")


@dataclass(frozen=True)
class CsvRecord:
    """One record: where it stands in the text, and its raw cells, quotes and all."""

    start: int
    end: int
    raw: tuple[str, ...]

    @property
    def cells(self) -> tuple[str, ...]:
        """The cells as read."""
        return tuple(
            plain((each[1:-1].replace('""', '"') if each.startswith('"') else each).strip())
            for each in self.raw
        )


@dataclass
class CsvTable:
    """A table's text, with its records in order."""

    text: str
    separator: str
    names: list[str]
    header: CsvRecord
    rows: list[CsvRecord]

    def mapping(self, row: CsvRecord) -> dict[str, str]:
        """A row as column -> text, without what is empty."""
        pairs = zip(self.names, row.cells, strict=False)
        return {name: cell for name, cell in pairs if name and cell}

    def found(self, key: tuple[str, ...]) -> list[CsvRecord]:
        """The rows of one part, reading and place."""
        return [row for row in self.rows if tuple(self.mapping(row).get(name, "") for name in KEYS) == key]

    def line(self, wanted: dict[str, str], old: CsvRecord | None = None) -> str:
        """The record for `wanted`; cells of `old` that say the same stay as they are written."""
        raw = list(old.raw) if old else []
        raw += [""] * (len(self.names) - len(raw))
        cells = old.cells if old else ()
        quoted = bool(old) and all(each.startswith('"') for each in (old.raw if old else ()))
        for number, name in enumerate(self.names):
            value = wanted.get(name, "") if name else ""
            if value != (cells[number] if number < len(cells) else ""):
                raw[number] = self._cell(value, quoted=quoted)
        return self.separator.join(raw)

    def _cell(self, value: str, *, quoted: bool) -> str:
        value = inert(value)
        bare = not any(each in value for each in (self.separator, '"', "\n", "\r"))
        return value if bare and not quoted else '"' + value.replace('"', '""') + '"'


def value(text: str, address: Address) -> Plain:
    """What stands at `address`: a row as a mapping, one cell as a text, or all rows of a reading as a list."""
    key, number, column = _parts(address)
    table = _table(text)
    rows = [table.mapping(row) for row in table.found(key)] if table else []
    if number is None:
        return rows or None
    row = rows[number] if number < len(rows) else None
    return row.get(column) if row and column else row


def rows_of(text: str, part: str, reading: str) -> list[tuple[Address, dict[str, str]]]:
    """All rows of one reading of a part, each with its address, in the order of the file."""
    table = _table(text)
    counted: dict[str, int] = {}
    found: list[tuple[Address, dict[str, str]]] = []
    for row in map(table.mapping, table.rows) if table else ():
        if (row.get("component"), row.get("quantity")) == (part, reading):
            at = row.get("at", "")
            found.append((({"row": [part, reading, at, counted.get(at, 0)]},), row))
            counted[at] = counted.get(at, 0) + 1
    return found


def row_at(text: str, line: int) -> dict[str, str]:
    """The row that begins on a line, counted from 1; nothing where none does."""
    table = _table(text)
    rows = table.rows if table else []
    found = (row for row in rows if text.count("\n", 0, row.start) + 1 == line)
    return next((table.mapping(row) for row in found if table), {})


def edited(text: str, edit: Edit) -> str:
    """`text` with one edit done, which reads back as meant; EditError when it cannot be."""
    key, number, column = _parts(edit.address)
    if not text.strip():
        text = ",".join(COLUMNS) + "\n"
    before = _others(text, key)
    if number is None:
        new = _all(text, key, edit.wanted or [])
    else:
        new = _one(text, key, number, _wanted_row(text, key, number, column, edit.wanted))
    _check(before, new, key, edit)
    return new


def _parts(address: Address) -> tuple[tuple[str, ...], int | None, str]:
    """Part, reading and place; which of these rows (None: all); which column ("": all)."""
    first, *rest = address
    asked = next(iter(first.items())) if isinstance(first, dict) else ("", [])
    name, words = asked
    if (
        name not in {"row", "rows"}
        or not isinstance(words, list)
        or len(words) != len(KEYS) + (name == "row")
    ):
        raise EditError("This is no address of a row.", "Give part, reading, place and number.")
    key = tuple(str(each or "").strip() for each in words[: len(KEYS)])
    number = words[-1] if name == "row" else None
    column = rest[0] if rest else ""
    if not isinstance(number, int | None) or len(rest) > 1 or (rest and column not in COLUMNS):
        raise EditError("This is no address of a row.", "Give part, reading, place and number.")
    return key, number, str(column)


def _wanted_row(text: str, key: tuple[str, ...], number: int, column: str, wanted: Plain) -> Plain:
    """The whole row that is to stand there."""
    if not column:
        return wanted
    now = value(text, ({"row": [*key, number]},)) or {}
    row = {**now, column: wanted or ""}
    return {name: cell for name, cell in row.items() if cell} or None


def _one(text: str, key: tuple[str, ...], number: int, wanted: Plain) -> str:
    table, wanted = _fitting(text, key, wanted)
    rows = table.found(key)
    if number > len(rows):
        raise EditError("A row can only be added behind the others of its reading.", "Look at them again.")
    old = rows[number] if number < len(rows) else None
    if old and wanted is None:
        return table.text[: old.start] + table.text[_next_line(table.text, old.end) :]
    if wanted is None:
        return table.text
    line = table.line(wanted, old)
    if old:
        return table.text[: old.start] + line + table.text[old.end :]
    return _put_in(table, line, key)


def _all(text: str, key: tuple[str, ...], wanted: list[Plain]) -> str:
    have = len(value(text, ({"rows": list(key)},)) or [])
    for number in reversed(range(len(wanted), have)):
        text = _one(text, key, number, None)
    for number, row in enumerate(wanted):
        text = _one(text, key, number, row)
    return text


def _fitting(text: str, key: tuple[str, ...], wanted: Plain) -> tuple[CsvTable, Plain]:
    """The table with every column that `wanted` needs, and the row with its own name in it."""
    table = _table(text)
    assert table is not None  # noqa: S101 - a text that is empty has been begun
    if wanted is None:
        return table, None
    if not isinstance(wanted, dict) or not all(isinstance(each, str) for each in wanted.values()):
        raise EditError("A row is columns with a text each.", "Give them by name.")
    row = {**{name: word for name, word in zip(KEYS, key, strict=True) if word}, **wanted}
    missing = [name for name in row if name not in table.names]
    if any(name not in COLUMNS for name in missing):
        raise EditError(f"There is no column '{missing[0]}'.", f"Columns: {', '.join(COLUMNS)}.")
    if missing:
        end = table.header.end
        more = "".join(table.separator + name for name in missing)
        table = _table(text[:end] + more + text[end:])
        assert table is not None  # noqa: S101 - it had a header before
    return table, row


def _put_in(table: CsvTable, line: str, key: tuple[str, ...]) -> str:
    """A new record: behind the last of its reading, else of its part, else of all."""
    text = table.text
    rows = [row for row in table.rows if table.mapping(row)]

    def alike(row: CsvRecord) -> int:
        told = table.mapping(row)
        words = [told.get(name, "") for name in KEYS]
        return next(
            (number for number, (a, b) in enumerate(zip(words, key, strict=True)) if a != b), len(KEYS)
        )

    best = max((alike(row) for row in rows), default=0)
    last = [row for row in rows if alike(row) == best][-1:] or [table.header]
    end = last[0].end
    newline = "\r\n" if "\r\n" in text else "\n"
    return text[:end] + newline + line + text[end:]


def _next_line(text: str, end: int) -> int:
    found = re.compile(r"\r\n|\n|\r").match(text, end)
    return found.end() if found else end


def _check(before: list[tuple[str, ...]], text: str, key: tuple[str, ...], edit: Edit) -> None:
    """The outcome reads as meant, and every other row is written as before."""
    _, number, column = _parts(edit.address)
    wanted = edit.wanted
    if isinstance(wanted, dict):
        wanted = {**{name: word for name, word in zip(KEYS, key, strict=True) if word}, **wanted}
    # Where a row or a cell was taken out, another may stand at its place.
    gone = wanted is None and number is not None and not column
    if (not gone and value(text, edit.address) != wanted) or _others(text, key) != before:
        raise EditError("This cannot be written into the table as it is.", "Edit the file by hand.")


def _others(text: str, key: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The raw cells of all rows but those of one reading and place."""
    table = _table(text)
    mine = table.found(key) if table else []
    return [row.raw for row in table.rows if row not in mine] if table else []


def _table(text: str) -> CsvTable | None:
    rows = _rows(text)
    if not rows:
        return None
    header = rows[0]
    names = [re.sub(r"\s+", "_", cell.casefold()) for cell in header.cells]
    if not set(KEYS[:2]) <= set(names):
        raise EditError(
            "The first line of the table does not name the columns.", f"Begin it with: {','.join(COLUMNS)}."
        )
    return CsvTable(text, _separator(text), names, header, rows[1:])


def _separator(text: str) -> str:
    lines = (line for line in text.splitlines() if line.strip() and not line.lower().startswith("sep="))
    header = next(lines, "").replace('"', "").casefold()
    return max(SEPARATORS, key=lambda each: sum(cell.strip() in COLUMNS for cell in header.split(each)))


def _rows(text: str) -> list[CsvRecord]:
    """Every record that is not blank, the header first; EditError where the table cannot be read."""
    separator = _separator(text)
    found = list(_split(text, separator))
    read = csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        told = [tuple(plain(cell.strip()) for cell in cells) for cells in read if cells]
    except csv.Error as error:
        raise EditError("A double quote is out of place in the table.", "Correct it there first.") from error
    if [row.cells for row in found] != told:
        raise EditError("The table cannot be read as it is written.", "Correct it by hand first.")
    rows = [row for row in found if any(row.cells)]
    return rows[1:] if rows and rows[0].cells[0].lower().startswith("sep=") else rows


def _split(text: str, separator: str) -> list[CsvRecord]:
    """The records of a text with their raw cells; blank lines are left out."""
    cell = re.compile(rf'"(?:[^"]|"")*"[^{separator}\r\n]*|[^{separator}\r\n]*')
    blank = re.compile(r"[\r\n]*")
    records: list[CsvRecord] = []
    place = 0
    while place < len(text):
        if passed := blank.match(text, place):
            place = passed.end()
        start, raw = place, []
        while True:
            found = cell.match(text, place)
            assert found is not None  # noqa: S101 - it matches nothing as well
            raw.append(found[0])
            place = found.end()
            if text[place : place + 1] != separator:
                break
            place += 1
        if place > start:
            records.append(CsvRecord(start, place, tuple(raw)))
        after = _next_line(text, place)
        place = after if after > place else place + 1
    return records
