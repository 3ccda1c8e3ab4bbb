"""Emergency tiller with its deck plate and its place on the stock.

Comes in: Evidence of one emergency tiller. Goes out: nothing by default; on request the force at the hand
(`sizing`). An emergency tiller that was looked for and not found is a defect, by the core. Figures stand in
emergency_tiller.toml.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
)

from .sizing import sizing


def assess(evidence: Evidence) -> Assessment:
    """The sizing check, when its readings were given; nothing else needs arithmetic."""
    return sizing(evidence)
