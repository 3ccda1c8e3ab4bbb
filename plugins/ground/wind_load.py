"""The load that wind puts on ground tackle, by length of boat: an estimate on request, which decides nothing.

Comes in: Evidence with the vessel's length and the wind asked about. Goes out: the load and where it comes from.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Check,
    Dimension,
    Evidence,
    SourceFigure,
    Value,
    Working,
    against,
    chosen,
    say,
    vessel,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.tackle import wind_load, wind_share


def by_wind(evidence: Evidence) -> tuple[Value, Check] | None:
    """Load and its check for information; None where no wind was asked about or the table does not reach so far."""
    length, wind = vessel(evidence, "length_overall"), chosen(evidence, "sizing_wind")
    if length is None or not wind:
        return None
    try:
        row = wind_load(length.value, units.to_base(float(wind), "kn"))
    except ValueError:
        return None
    load = Value(dimension=Dimension.FORCE, value=units.to_base(row.load_lbf, "lbf"), unit="kN")
    length_ft, lbf = (
        SourceFigure(figure=row.length_ft, unit="ft"),
        SourceFigure(figure=row.load_lbf, unit="lbf"),
    )
    note = say("said.wind_row", length=length_ft, load=lbf, source=row.cited)
    return load, worked_out(evidence.component.kind, "wind_load", load, (), note=note)


def against_strength(evidence: Evidence, breaking: Value, before: tuple[Working, ...]) -> Iterator[Check]:
    """The load by wind, and in parts of the breaking load beside the limits that speak of it."""
    found = by_wind(evidence)
    if found is None:
        return
    load, told = found
    yield told
    share, sum_ = work(wind_share, {"load": load, "breaking": breaking})
    yield from against(evidence, "wind_share", share, working=(*before, sum_))
