"""Terminals of standing rigging: swaged, compression or spliced, with the pin that holds them.

Comes in: Evidence of one end, or of a set of like ends (say `at`: cap shroud port, lower). Goes out: what was not seen
from close by. A crack decides at once; no published figure was read for how far a swage may be out of line.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
    not_close,
)


def assess(evidence: Evidence) -> Assessment:
    """Observations decide; ends aloft that were seen from deck are missing."""
    return Assessment(missing=tuple(not_close(evidence)))
