"""Bobstay and bowsprit: wire, rod or chain from sprit to stem, with the fitting near the waterline.

Comes in: Evidence of one bobstay. Goes out: what was not seen from close by: its lower end is looked at from a dinghy or
ashore. Limits stand in bobstay.toml: any one broken wire condemns.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Evidence,
    Missing,
)


def assess(evidence: Evidence) -> Assessment:
    """The lower fitting is missing while it was looked at from deck."""
    return Assessment(missing=tuple(_lower_end(evidence)))


def _lower_end(evidence: Evidence) -> Iterator[Missing]:
    if any(each.choice == "from_deck" for each in evidence.observed.get("seen_from", ())):
        title = "the lower fitting from close by, from a dinghy or ashore"
        yield Missing(id="close_up", title=title, needed=True, why="Looked at from deck only: part seen.")
