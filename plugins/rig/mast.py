"""The mast above its foot: tube, line, tangs, fittings, sheaves and masthead.

Comes in: Evidence of one mast, with the sizes its drawing is made of. Goes out: what was not seen from close by, and a
caution where two metals meet. No published figure was read for dents, wall loss or bend: observation decides.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, not_close

from .metals import pair


def assess(evidence: Evidence) -> Assessment:
    """Tangs and masthead are missing while seen from deck; a pair of metals becomes a caution."""
    metals = pair(evidence)
    missing = tuple(not_close(evidence))
    return Assessment(checks=metals.checks, remarks=metals.remarks, missing=missing)
