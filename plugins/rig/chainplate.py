"""Chainplates with what is behind them: deck, fasteners, knees and bulkheads, tie rods, and the stem fitting.

Comes in: Evidence of one chainplate or of a like set. Goes out: the hole beside its pin, and on request the strength of
plate, hole and pin and the torque of its bolts. Limits stand in chainplate.toml.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence

from .bolt_torque import torque_remarks
from .metals import pair
from .plate_strength import plate_strength


def assess(evidence: Evidence) -> Assessment:
    """The hole, and what was asked for on request; a pair of metals becomes a caution."""
    plate, metals = plate_strength(evidence), pair(evidence)
    return Assessment(
        checks=(*plate.checks, *metals.checks),
        missing=plate.missing,
        remarks=(*metals.remarks, *torque_remarks(evidence)),
    )
