"""Boom and vang: gooseneck, tube, vang, sheet and reefing fittings.

Comes in: Evidence of one boom. Goes out: a caution where two metals meet. It does not hold the mast up, so that it is
off the load path; what breaks on it still hurts people.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
)

from .metals import pair


def assess(evidence: Evidence) -> Assessment:
    """A pair of metals becomes a caution; observations decide the rest."""
    return pair(evidence)
