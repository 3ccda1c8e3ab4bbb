"""Swivels between chain and anchor.

Comes in: Evidence of one swivel. Goes out: wear of its pins. The limit stands in swivel.toml; side load, cracks and
pins that can unscrew are observations.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
)

from .link_wear import link_wear


def assess(evidence: Evidence) -> Assessment:
    """Wear where it was measured; observations decide the rest."""
    return Assessment(checks=tuple(link_wear(evidence)))
