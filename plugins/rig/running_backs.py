"""Running backstays and check stays: pendant, tail, blocks, levers, and where they are made fast.

Comes in: Evidence of one pair. Goes out: what was not seen from close by. Limits stand in running_backs.toml: any one
broken wire in the pendant condemns.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
    not_close,
)


def assess(evidence: Evidence) -> Assessment:
    """The upper ends are missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence)))
