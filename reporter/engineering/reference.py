"""Shared reference tables: typed rows out of `tables/*.toml`, every row with its own source and status.

In: the row type of a table. Out: frozen rows, with figures in the unit that a field's name
ends in, as the source prints them. A row whose status is MEMORY says "from memory, unverified" wherever it is
cited. Nothing here converts, compares or chooses between sources.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from importlib import resources
from typing import Any, ClassVar, ParamSpec, TypeVar

import tomli

from reporter.model.base import Noun
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis, SourceStatus

P = ParamSpec("P")
T = TypeVar("T")

UNVERIFIED = "from memory, unverified"
SECOND_HAND = "as quoted in a secondary text"
RECKONED = "reckoned from the source named"


class Row(Noun):
    """What every row of every table has: a source of its own, and how well it is known."""

    table_name: ClassVar[str] = ""

    source: str
    clause: str = ""
    edition: str = ""
    status: SourceStatus
    basis: LimitBasis = LimitBasis.HANDBOOK
    note: str = ""

    def __init_subclass__(cls, *, table: str = "", **kwargs: Any) -> None:
        super().__init_subclass__(**kwargs)
        cls.table_name = table

    @property
    def citation(self) -> Citation:
        """The row's source as the report's own value."""
        return Citation(
            title=self.source,
            clause=self.clause,
            edition=self.edition,
            status=self.status,
            basis=self.basis,
        )

    @property
    def cited(self) -> str:
        """The row's source in words."""
        return cited(self.citation)


def cited(citation: Citation) -> str:
    """A citation in words; anything that was not read in the source itself says so."""
    doubt = {
        SourceStatus.MEMORY: UNVERIFIED,
        SourceStatus.READ_2: SECOND_HAND,
        SourceStatus.DERIVED: RECKONED,
    }.get(citation.status, "")
    return ", ".join(part for part in (citation.title, citation.edition, citation.clause, doubt) if part)


R = TypeVar("R", bound=Row)


def table(kind: type[R]) -> tuple[R, ...]:
    """The rows of a table, in the order of its file."""
    return _read(kind)  # type: ignore[return-value]  # a cached function forgets which type it was asked for


@functools.cache
def _read(kind: type[Row]) -> tuple[Row, ...]:
    """The file of a table, checked row by row; `[source.<name>]` saves writing one source many times."""
    file = resources.files("reporter.engineering") / "tables" / f"{kind.table_name}.toml"
    data = tomli.loads(file.read_text("utf-8"))
    sources: dict[str, dict[str, str]] = data.get("source", {})
    return tuple(
        kind.model_validate({**sources.get(row.get("from", ""), {}), **_without_from(row)})
        for row in data["row"]
    )


def row_with(kind: type[R], refusal: str, **wanted: object) -> R:
    """The first row of a table whose fields are as wanted; ValueError with the refusal where there is none."""
    for row in table(kind):
        if all(getattr(row, field) == value for field, value in wanted.items()):
            return row
    raise ValueError(refusal)


def listed(kind: type[Row], field: str) -> str:
    """What the rows of a table hold in one field, for a refusal to name."""
    return ", ".join(str(getattr(row, field)) for row in table(kind))


def _without_from(row: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in row.items() if key != "from"}


def lookup(kind: type[Row]) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Mark a function as one that reads a table: its source is that of the row it finds."""

    def mark(function: Callable[P, T]) -> Callable[P, T]:
        function.reads = kind  # type: ignore[attr-defined]
        return function

    return mark
