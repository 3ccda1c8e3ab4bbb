"""Every figure of every table and limit stands as it was read a second time, and no changed digit stays hidden.

The figures were keyed anew from the sources named in `tests/keyed/tables/*.csv` and `tests/keyed/limits.csv`, in the
source's own form (per cents, inches, "more than 5 % of 133 wires") where the program holds another. Rows marked MEMORY
are held against a slip of the pen only: they prove nothing about the trade.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from reporter.engineering import table
from reporter.engineering.reference import Row
from reporter.model.citation import Limit
from reporter.registry import find, load
from tests.keyed.holding import (
    HERE,
    LIMIT_FIELDS,
    TABLES,
    Cell,
    held,
    keyed,
    limit_slips,
    plain,
    second_limits,
    slips,
)

LIMITS = {limit.id: limit for plugin in load(find()).plugins.values() for limit in plugin.limits}


def altered(cell: Cell) -> Iterator[Cell]:
    """A cell with one digit changed, each in turn, or its sign; another word, a yes for a no, something for nothing."""
    if isinstance(cell, bool):
        yield not cell
    elif isinstance(cell, float):
        yield -cell or 1.0
        text = f"{cell:.12f}".rstrip("0").rstrip(".")
        for place, sign in enumerate(text):
            if sign.isdigit():
                yield float(text[:place] + str((int(sign) + 1) % 10) + text[place + 1 :])
    else:
        yield 1.0 if cell is None else f"{cell}x"


@pytest.mark.parametrize("kind", TABLES, ids=lambda kind: kind.table_name)
def test_a_table_stands_as_keyed_a_second_time(kind: type[Row]) -> None:
    assert slips(kind, table(kind)) == []


def test_every_table_and_nothing_else_is_keyed() -> None:
    assert {file.stem for file in (HERE / "tables").glob("*.csv")} == {kind.table_name for kind in TABLES}


@pytest.mark.parametrize("kind", TABLES, ids=lambda kind: kind.table_name)
def test_no_changed_digit_of_a_table_stays_hidden(kind: type[Row]) -> None:
    rows = list(table(kind))
    for place, row in enumerate(rows):
        for field in held(kind):
            for cell in altered(plain(getattr(row, field))):
                wrong = row.model_copy(update={field: cell})
                assert slips(kind, [*rows[:place], wrong, *rows[place + 1 :]]), (field, cell, row)
    assert slips(kind, rows[1:])
    assert slips(kind, [*rows, rows[0]])


@pytest.mark.parametrize("ident", sorted(LIMITS))
def test_a_limit_stands_as_keyed_a_second_time(ident: str) -> None:
    assert limit_slips(LIMITS[ident]) == []


def test_every_limit_and_nothing_else_is_keyed() -> None:
    assert sorted(line["id"] for line in keyed("limits")) == sorted(LIMITS)
    assert len(second_limits()) == len(LIMITS)


@pytest.mark.parametrize("ident", sorted(LIMITS))
def test_no_changed_digit_of_a_limit_stays_hidden(ident: str) -> None:
    limit = LIMITS[ident]
    for field in LIMIT_FIELDS:
        for cell in altered(plain(getattr(limit, field))):
            assert len(limit_slips(limit.model_copy(update={field: cell}))) == 1, (field, cell)


def test_a_limit_that_nobody_keyed_is_told() -> None:
    limit: Limit = next(iter(LIMITS.values()))
    assert limit_slips(limit.model_copy(update={"id": "chain.made.up"}))
