"""Sheets and control lines: what trims the sails, reefs them and holds the boom.

Comes in: Evidence of one line or of a pair. Goes out: wear and loads of a fibre rope, and on request the load of a
genoa sheet by sail area and wind, which is an estimate and decides nothing. Limits stand in sheet.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, sums, worked_out
from reporter.contract.ropes import rope_checks
from reporter.engineering.tackle import genoa_sheet


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope, and the estimate of the sheet's load where area and wind were given."""
    made = rope_checks(evidence)
    return made.model_copy(update={"checks": (*made.checks, *_by_wind(evidence))})


def _by_wind(evidence: Evidence) -> Iterator[Check]:
    for spot, load, sum_ in sums(evidence, genoa_sheet, {"area": "sail_area", "wind": "wind"}):
        yield worked_out("sheet", "sheet_load", load, (sum_,), like=spot)
