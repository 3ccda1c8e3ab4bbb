"""Headsail furler: drum, foil, swivel and halyard lead, with the toggle beneath; the stay inside is a standing wire.

Comes in: Evidence of one furler. Goes out: what was not seen from close by. A furler hides the stay it turns on.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
    not_close,
)


def assess(evidence: Evidence) -> Assessment:
    """Swivel and the foil's top are missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence)))
