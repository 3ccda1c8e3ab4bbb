"""Rod rigging: a solid stay with a cold-formed head at each end.

Comes in: Evidence of one rod, or of a pair. Goes out: tension beside a breaking force that its papers give, and what was
not seen. No breaking force of rod is published here, and the printed folding-rule figure for rod is a misprint that is
refused. Limits stand in rod.toml.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, not_close

from .stay_tension import tension
from .stay_wear import by_vessel


def assess(evidence: Evidence) -> Assessment:
    """Tension where it was asked for; the heads and bends aloft are missing while seen from deck."""
    taut = tension(evidence)
    return Assessment(
        checks=(*taut.checks, *by_vessel(evidence)),
        missing=(*not_close(evidence), *taut.missing),
    )
