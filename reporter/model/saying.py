"""Sentences that are yet to be made: what is to be said, as an id with what is put into it, in no language.

Grading says things by id; outlining turns them into words (`reporter.outline.speaking`), in the language, terms and units
of the report. A person's own words are plain strings and stay as they were written.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import lru_cache, reduce
from typing import TYPE_CHECKING, Any, Literal, cast

from pydantic import Field

from reporter.model.base import Noun
from reporter.model.quantity import PartialDate


class Named(Noun):
    """A word that a kind's declaration holds: `path` as ("observation", "corrosion", "title")."""

    named: str
    path: tuple[str, ...]


class Amount(Noun):
    """A number to be printed: base unit of its dimension in, `unit` (or `imperial`) out, with U where it is not 0."""

    amount: float
    unit: str
    imperial: str = ""
    expanded: float = 0.0
    decimals: int | None = None


class SourceFigure(Noun):
    """A figure as its source gives it, with its unit; followed by its conversion where the report's unit is another.

    `metric` and `imperial` are the units that values beside it are printed in; none asks for no conversion.
    """

    figure: float
    unit: str = ""
    metric: str = ""
    imperial: str = ""


class Either(Noun):
    """Two ways to say one thing, by the report's system of units."""

    in_metric: Part
    in_imperial: Part


class Series(Noun):
    """Several things said one after the other: as a list with "and", or apart; what is said twice is said once."""

    parts: tuple[Part, ...]
    by: Literal["and", "; ", ", "] = "and"


class Saying(Noun):
    """One message of the catalogue; of a kind's own words where `kind` is given."""

    say: str
    kind: str = ""
    put: dict[str, Part] = Field(default_factory=dict)

    def __hash__(self) -> int:
        return hash((self.say, self.kind, tuple(self.put.items())))


class Material(Noun):
    """What a task of a kind says to bring, the `place`-th of its list: `known` stands for its braces.

    A phrase between commas whose detail is not known is left out.
    """

    kind: str
    task: str
    place: int
    known: dict[str, Part] = Field(default_factory=dict)

    def __hash__(self) -> int:
        return hash((self.kind, self.task, self.place))


Part = (
    str
    | int
    | float
    | dt.date
    | PartialDate
    | Named
    | Amount
    | SourceFigure
    | Either
    | Series
    | Saying
    | Material
)
Either.model_rebuild()
Series.model_rebuild()
Saying.model_rebuild()
Material.model_rebuild()

if TYPE_CHECKING:
    Text = str
    """Statically a string, which it is once outlining has spoken it; before that it may be any of `Part`."""
else:
    Text = str | Named | Amount | SourceFigure | Series | Saying | Material

UNSPOKEN = (Named, Amount, SourceFigure, Either, Series, Saying, Material)


def say(ident: str, /, *, kind: str = "", **put: Any) -> Text:
    """The message `ident` of the catalogue (or of a kind's own words), with what is put into it."""
    return cast("Text", Saying.unchecked(say=ident, kind=kind, put=put))


@lru_cache(maxsize=4096)
def named(kind: str, *path: str) -> Text:
    """A word of a kind's declaration: `named("chain", "observation", "corrosion", "title")`."""
    return cast("Text", Named(named=kind, path=path))


def series(parts: list[str] | tuple[str, ...], by: Literal["and", "; ", ", "] = "and") -> Text:
    """A list of things said."""
    return cast("Text", Series.unchecked(parts=tuple(parts), by=by))


def either(parts: Sequence[Any]) -> Text:
    """One of several things: `a or b`, `a or b or c`."""
    return cast("Text", reduce(lambda one, other: say("said.or", one=one, other=other), parts))
