"""The trade's arithmetic: pure functions on plain SI floats, each declared with its formula text and source.

In: metres, newtons, radians, ratios as fractions, ages in years. Out: floats of the same kind, or through
`work` a `Value` with its uncertainty and the `Working` a report prints. Reference tables stand in
`tables/*.toml` and come as typed rows through `table`. `verdict` holds a value against a limit. Nothing here formats,
reads a job or knows the clock.
"""

from __future__ import annotations

from reporter.engineering.declaration import Declaration, Formula, Symbol, formula, work
from reporter.engineering.reference import cited, table

__all__ = ["Declaration", "Formula", "Symbol", "cited", "formula", "table", "work"]
