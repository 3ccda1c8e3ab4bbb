"""Wear of a single link of the ground tackle, a shackle or a swivel: the least diameter against that when new.

Comes in: Evidence of one of them, with the readings `worn` and the detail `size`. Goes out: checks.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Check, Evidence, compare, stated
from reporter.engineering import work
from reporter.engineering.tackle import chain_wear


def link_wear(evidence: Evidence) -> Iterator[Check]:
    """Loss of diameter wherever it was measured; nothing where the size when new is not known."""
    size = stated(evidence, "size")
    if size is None:
        return
    for spot in evidence.at("worn"):
        wear, sum_ = work(chain_wear, {"size": size, "worn": spot.value})
        for limit in evidence.limits.values():
            if limit.quantity == "wear":
                yield compare(evidence, wear, limit, like=spot, working=(sum_,))
