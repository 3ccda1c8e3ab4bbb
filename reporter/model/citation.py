"""Where a figure comes from, and how well it is known."""

from __future__ import annotations

from typing import Literal

from pydantic import model_validator

from reporter.model.base import Noun
from reporter.model.terms import Grade, LimitBasis, LimitKind, Sense, SourceStatus


class Citation(Noun):
    """A source as the report prints it: title, clause, edition, and its status."""

    title: str
    clause: str = ""
    edition: str = ""
    status: SourceStatus = SourceStatus.READ
    basis: LimitBasis = LimitBasis.HANDBOOK


class Override(Noun):
    """A limit that the job's author replaced, with the reason; the report shows both values."""

    original: float
    reason: str
    by: str


class Limit(Noun):
    """One published or customary figure that a reading is held against.

    `value`, `unworn` and `upper` are in `unit`. `unworn` is where a new part stands (use 0). `upper` closes a
    `window`. `then` is the grade reached at the limit. `applies` names details and the choices it is
    meant for. `of` says what a percentage is a percentage of. A limit that does not `govern` is printed
    in the annex only. One `between` the sides is held against the difference of port and starboard, `relative` as a
    fraction of the larger of the two.
    """

    id: str
    quantity: str
    value: float
    unit: str
    sense: Sense
    then: Grade
    kind: LimitKind
    source: Citation
    unworn: float | None = None
    upper: float | None = None
    applies: dict[str, tuple[str, ...]] = {}
    of: str = ""
    written_for: str = ""
    governs: bool = True
    note: str = ""
    task: str = ""
    between: Literal["", "sides"] = ""
    relative: bool = False
    override: Override | None = None

    @model_validator(mode="after")
    def _sides_make_sense(self) -> Limit:
        if self.relative and not self.between:
            msg = f"limit {self.id}: 'relative' needs 'between'"
            raise ValueError(msg)
        return self
