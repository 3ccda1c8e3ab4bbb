"""Wear of a single link of the ground tackle, a shackle or a swivel: the least diameter against that when new.

Comes in: Evidence of one of them, with the readings `worn` and the detail `size`. Goes out: checks. Limits
stand in shackle.toml and swivel.toml; side load, cracks, and whether a pin can unscrew are observations.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, against, stated, sums
from reporter.engineering.tackle import chain_wear


def assess(evidence: Evidence) -> Assessment:
    """Loss of diameter wherever it was measured; nothing where the size when new is not known."""
    worn = sums(evidence, chain_wear, {"worn": "worn"}, {"size": stated(evidence, "size")})
    checks = [against(evidence, "wear", wear, like=spot, working=(working,)) for spot, wear, working in worn]
    return Assessment(checks=tuple(check for held in checks for check in held))
