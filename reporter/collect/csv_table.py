"""A CSV text to rows: whatever a spreadsheet or an editor made of it.

In: the text and the columns there may be. Out: rows with their line and their cells by column name, all as text; faults
of the table itself are told. Comma, semicolon and tab are recognised by the header; columns may stand in any order.
What a spreadsheet makes of a value is recognised: it takes 3/16 for a date and stores it as 16-Mar, 03/16/2026 or a day
number, and shortens numbers to 1,27E+02.
"""

from __future__ import annotations

import csv
import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.letters import tell_unseen
from reporter.model.cell import plain

SEPARATORS = (",", ";", "\t")
_SPOKEN = {",": "comma", ";": "semicolon", "\t": "tab"}


@dataclass(frozen=True)
class CsvRow:
    """One line of the table: its line number and its cells, stripped, by column."""

    line: int
    cells: dict[str, str]

    def __getitem__(self, column: str) -> str:
        return self.cells.get(column, "")


def read_table(
    text: str, file: str, columns: tuple[str, ...], needed: tuple[str, ...], ledger: Ledger
) -> list[CsvRow]:
    """The rows of a CSV text; what is wrong with the table is told, with its line."""
    separator = _separator(text, columns)
    records = _records(text, separator, file, ledger)
    header_line, header = next(records, (1, []))
    if not header:
        ledger.tell(file, 1, "", "This file is empty.", f"Begin it with the line '{','.join(columns)}'.")
        return []
    names = [_column(cell) for cell in header]
    _check_header(names, header, header_line, (file, columns, needed), ledger)
    if any(column not in names for column in needed):
        return []
    rows = [_row(line, cells, names, separator, file, ledger) for line, cells in records]
    return [row for row in rows if row is not None]


def _separator(text: str, columns: tuple[str, ...]) -> str:
    """The separator that makes most known columns of the first line with words in it."""
    lines = (line for line in text.splitlines() if line.strip() and not line.lower().startswith("sep="))
    header = next(lines, "")

    def known(separator: str) -> int:
        return sum(_column(cell) in columns for cell in header.replace('"', "").split(separator))

    return max(SEPARATORS, key=known)


def _column(cell: str) -> str:
    return re.sub(r"\s+", "_", cell.strip().casefold())


def _records(text: str, separator: str, file: str, ledger: Ledger) -> Iterator[tuple[int, list[str]]]:
    """Line number and cells of every line that is not blank."""
    reader = csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True)
    while True:
        line = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            ledger.tell(file, line, "", *_fault(str(error)))
            return
        if any(cell.strip() for cell in cells) and not (line == 1 and cells[0].lower().startswith("sep=")):
            yield line, cells


def _fault(said: str) -> tuple[str, str]:
    """What the library's own fault means, and what to do."""
    if "field limit" in said:
        return (
            f"A cell that begins here is longer than {csv.field_size_limit()} characters.",
            "Close the double quote in this line, or shorten the cell; long texts go to findings.yaml.",
        )
    if "unexpected end" in said:
        return "A double quote is opened here and never closed.", "Close it at the end of the cell."
    return (
        "A double quote is out of place.",
        "Put the whole cell in double quotes, and double each quote inside it.",
    )


def _check_header(
    names: list[str],
    header: list[str],
    line: int,
    table: tuple[str, tuple[str, ...], tuple[str, ...]],
    ledger: Ledger,
) -> None:
    file, columns, needed = table
    if not set(names) & set(columns):
        what = "The first line does not name the columns."
        ledger.tell(file, line, "", what, f"Begin the file with the line '{','.join(columns)}'.")
        return
    for name, cell in zip(names, header, strict=True):
        if name and name not in columns:
            do = meant(name, columns, f"Columns: {listed(columns)}.")
            ledger.tell(file, line, cell.strip(), f"There is no column '{cell.strip()}'.", do)
        elif name and names.count(name) > 1:
            ledger.tell(file, line, name, f"The column '{name}' is there twice.", "Keep one of them.")
    for name in needed:
        if name not in names:
            ledger.tell(file, line, name, f"The column '{name}' is missing.", f"Columns: {listed(columns)}.")


def _part(cells: list[str], names: list[str]) -> str:
    """The part that a line is of, as far as it says so."""
    return next((cell.strip() for name, cell in zip(names, cells, strict=False) if name == "component"), "")


def _row(
    line: int, cells: list[str], names: list[str], separator: str, file: str, ledger: Ledger
) -> CsvRow | None:
    if any(cell.strip() for cell in cells[len(names) :]):
        what = f"This line has {len(cells)} cells, the header has {len(names)}."
        spoken = _SPOKEN[separator]
        ledger.tell(
            file,
            line,
            "",
            what,
            f"Put a cell that holds a {spoken} (a note, a decimal comma) in double quotes.",
            part=_part(cells, names),
        )
        return None
    part = _part(cells, names)
    if any(
        tell_unseen(cell, ledger, file, line, name, part=part)
        for name, cell in zip(names, cells, strict=False)
    ):
        return None
    return CsvRow(line, {name: plain(cell.strip()) for name, cell in zip(names, cells, strict=False) if name})


_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAY_MONTH = re.compile(r"(?P<number>[0-9]{1,4})[-. /]+(?P<month>[A-Za-z]{3,9})\.?(?:[-. /]+[0-9]{2,4})?")
_MONTH_DAY = re.compile(r"(?P<month>[A-Za-z]{3,9})[-. /]+(?P<number>[0-9]{1,4})")
_NUMERIC = re.compile(
    r"(?P<one>[0-9]{1,2})(?P<mark>[/.-])(?P<two>[0-9]{1,2})(?P=mark)[0-9]{2,4}(?: [0-9:]+)?"
)
_ISO = re.compile(r"[0-9]{4}-(?P<one>[0-9]{2})-(?P<two>[0-9]{2})(?:[ T][0-9:.]+)?")
_SHORTENED = re.compile(r"[-+]?[0-9]+(?:[.,][0-9]+)?E[-+]?[0-9]+", re.IGNORECASE)
_ERROR = re.compile(r"#+|#[A-Z/0!?]+[!?]?", re.IGNORECASE)
_SERIAL = re.compile(r"[0-9]{5}(?:[.,][0-9]+)?")
FIRST_SERIAL, LAST_SERIAL = 36526, 54788
"""Day numbers of 1 January 2000 and 31 December 2049, counted from 30 December 1899."""

AS_TEXT = "Set the column's format to 'text' and type the value again"


def mangled(text: str) -> tuple[str, str] | None:
    """What a spreadsheet did to the value, and what to do; None for a value that looks untouched."""
    if _ERROR.fullmatch(text):
        return f"'{text}' is a spreadsheet's error mark.", "Type the value itself."
    if _SHORTENED.fullmatch(text):
        return f"'{text}' is a number that a spreadsheet shortened.", f"{AS_TEXT}, in full."
    pair = _pair(text)
    if pair is None:
        return None
    fraction = " or ".join(
        dict.fromkeys(f"{over}/{under}" for over, under in (pair, pair[::-1]) if 0 < over < under)
    )
    instead = f"{AS_TEXT} ({fraction or 'the fraction'}, with its unit)."
    return f"'{text}' is a date: a spreadsheet probably made it of a fraction.", instead


def serial(text: str) -> tuple[str, str] | None:
    """The same for a day number such as 46097, which only makes sense to ask where such a value would be absurd."""
    if not _SERIAL.fullmatch(text) or not FIRST_SERIAL <= float(text.replace(",", ".")) <= LAST_SERIAL:
        return None
    day = dt.date(1899, 12, 30) + dt.timedelta(days=int(float(text.replace(",", "."))))
    what = f"'{text}' is absurd here; it may be the day number that a spreadsheet makes of {day.month}/{day.day}."
    return what, f"{AS_TEXT}, with its unit."


def _pair(text: str) -> tuple[int, int] | None:
    """Month and day of a date, the fraction it was made of; None when `text` is no date."""
    for pattern in (_DAY_MONTH, _MONTH_DAY):
        found = pattern.fullmatch(text)
        if found and found["month"][:3].lower() in _MONTHS:
            return _MONTHS.index(found["month"][:3].lower()) + 1, int(found["number"])
    found = _NUMERIC.fullmatch(text) or _ISO.fullmatch(text)
    return (int(found["one"]), int(found["two"])) if found else None
