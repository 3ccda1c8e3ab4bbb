"""Strength of an undamaged anchor chain by size and grade, beside what tables print and what wind asks for.

Comes in: Evidence of one anchor chain. Goes out: checks for information; withheld once the chain is worn or damaged.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Check,
    Dimension,
    Evidence,
    SourceFigure,
    Text,
    Value,
    Working,
    chosen,
    either,
    say,
    series,
    stated,
    withheld,
    worked_out,
)
from reporter.engineering import table, units, work
from reporter.engineering.constants import INCH
from reporter.engineering.rows import WorkingChain
from reporter.engineering.tackle import chain_breaking_load, ground_chains

from .wind_load import against_strength

_PER_GRADE = 10
"""A grade is a tenth of the stress at the breaking load in N/mm²: grade 40 is 400 N/mm²."""
_INCH_SIZE = 0.002


def strength(evidence: Evidence, *, spent: bool) -> Iterator[Check]:
    """Breaking load as marked, or by grade and size; then the load by wind, where one was asked about."""
    found = _breaking(evidence)
    if found is None:
        return
    if spent:
        yield withheld("anchor_chain", "breaking_load")
        return
    force, sums, note = found
    yield worked_out("anchor_chain", "breaking_load", force, sums, note=note)
    yield from against_strength(evidence, force, sums)


def _breaking(evidence: Evidence) -> tuple[Value, tuple[Working, ...], Text] | None:
    marked, size, grade = (
        stated(evidence, "marked_breaking"),
        stated(evidence, "size"),
        chosen(evidence, "grade"),
    )
    if marked:
        return marked, (), say("marked", kind="anchor_chain")
    if size is None or not grade.isdigit():
        return None
    pascals = Value(
        dimension=Dimension.PRESSURE, value=units.to_base(float(grade) * _PER_GRADE, "N/mm²"), unit="N/mm²"
    )
    force, sum_ = work(chain_breaking_load, {"size": size, "grade": pascals})
    note = series((*_metric(size.value, int(grade)), *_inch(size.value, grade)), by="; ")
    printed = min((row.min_break_kn for row in ground_chains(size.value, int(grade))), default=None)
    if printed is not None and units.to_base(printed, "kN") < force.value:
        # Two rows print less than grade and section give (6 and 14 mm, grade 40): the lower figure stands.
        return Value(dimension=Dimension.FORCE, value=units.to_base(printed, "kN"), unit="kN"), (), note
    return force, (sum_,), note


def _metric(size: float, grade: int) -> Iterator[Text]:
    rows = ground_chains(size, grade)
    printed = sorted({row.min_break_kn for row in rows})
    if printed:
        forces = either([SourceFigure(figure=figure, unit="kN") for figure in printed])
        yield say("printed", kind="anchor_chain", forces=forces, source=rows[0].cited)


def _inch(size: float, grade: str) -> Iterator[Text]:
    for row in table(WorkingChain):
        if row.grade == f"G{grade}" and abs(size / INCH / row.size_in - 1) <= _INCH_SIZE:
            force = SourceFigure(figure=row.working_lbf, unit="lbf")
            yield say(
                "printed_limit",
                kind="anchor_chain",
                size=row.size,
                grade=row.grade,
                force=force,
                source=row.cited,
            )
