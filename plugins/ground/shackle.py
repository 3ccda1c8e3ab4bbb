"""Shackles of the ground tackle: between anchor, swivel, chain and rope.

Comes in: Evidence of one shackle or of all of one rode. Goes out: wear of its diameter. The limit stands in
shackle.toml; whether the pin can unscrew is an observation.
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
