"""The second keying: figures read a second time from their sources, and where the program's own differ from them.

In: rows of `reporter/engineering/tables`, or limits of the installed kinds. Out: lines that name each difference.
A keyed number may be a sum of what the source prints ("95/100", "25.4*3/32", "round(100/3,4)"): it is reckoned here.
"""

from __future__ import annotations

import csv
import functools
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from reporter.engineering import rows
from reporter.engineering.reference import Row
from reporter.model.citation import Limit

HERE = Path(__file__).parent
TABLES = sorted(
    (kind for kind in vars(rows).values() if getattr(kind, "table_name", "")),
    key=lambda kind: str(kind.table_name),
)
"""The row type of every table."""
WORDS = {"source", "clause", "edition", "basis", "note", "misprint", "words", "subject", "written_for"}
"""Fields of a row that are words about a figure and no figure."""
LIMIT_FIELDS = ("value", "upper", "unworn", "unit", "sense", "then", "kind", "governs")

Cell = str | float | bool | None


def keyed(name: str) -> list[dict[str, str]]:
    """The lines of one file under `tests/keyed`, without its remarks."""
    text = (HERE / f"{name}.csv").read_text("utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def held(kind: type[Row]) -> dict[str, Any]:
    """The fields of a row type that the second keying holds, with their types: all but words."""
    return {name: field.annotation for name, field in kind.model_fields.items() if name not in WORDS}


def reckoned(text: str) -> float:
    """The number that a keyed cell stands for."""
    return float(eval(text, {"__builtins__": {}}, {"round": round}))  # noqa: S307 - our own data only


def plain(value: object) -> Cell:
    """A field as the comparison sees it; numbers to twelve figures, beyond which only arithmetic speaks."""
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return float(f"{value:.12g}")
    return " ".join(value) if isinstance(value, tuple) else str(value)


def typed(text: str, kind: Any) -> Cell:
    """A keyed cell in the type of the field that it is held against."""
    if kind is bool:
        return {"yes": True, "no": False}[text]
    if kind in {int, float, int | None, float | None}:
        return plain(reckoned(text)) if text else None
    return text


@functools.cache
def second(kind: type[Row]) -> Counter[tuple[Cell, ...]]:
    """The rows of a table as keyed a second time."""
    fields = held(kind)
    return Counter(
        tuple(typed(line[field], fields[field]) for field in fields)
        for line in keyed(f"tables/{kind.table_name}")
    )


def slips(kind: type[Row], rows: Iterable[Row]) -> list[str]:
    """Rows of a table that stand in one keying only; a wrong cell shows as one row of each."""
    ours = Counter(tuple(plain(getattr(row, field)) for field in held(kind)) for row in rows)
    return [f"in the program only: {line}" for line in (ours - second(kind)).elements()] + [
        f"in the second keying only: {line}" for line in (second(kind) - ours).elements()
    ]


def cells(limit: Limit) -> dict[str, Cell]:
    """What the second keying holds of a limit."""
    found = {field: plain(getattr(limit, field)) for field in LIMIT_FIELDS}
    return {**found, "status": plain(limit.source.status)}


@functools.cache
def second_limits() -> dict[str, dict[str, Cell]]:
    """Every limit as keyed a second time."""
    kinds: dict[str, Any] = {"value": float, "upper": float, "unworn": float, "governs": bool}
    fields = (*LIMIT_FIELDS, "status")
    return {
        line["id"]: {field: typed(line[field], kinds.get(field, str)) for field in fields}
        for line in keyed("limits")
    }


def limit_slips(limit: Limit) -> list[str]:
    """Every cell of a limit that differs from its second keying."""
    theirs = second_limits().get(limit.id)
    if theirs is None:
        return [f"{limit.id}: not keyed a second time, see tests/keyed/limits.csv"]
    return [
        f"{limit.id}: {field} is {ours} in the program, {theirs[field]} in the second keying"
        for field, ours in cells(limit).items()
        if ours != theirs[field]
    ]
