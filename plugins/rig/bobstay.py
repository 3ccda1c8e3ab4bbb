"""Bobstay and bowsprit: wire, rod or chain from sprit to stem, with the fitting near the waterline.

Comes in: Evidence of one bobstay. Goes out: what was not seen from close by: its lower end is looked at from a dinghy or
ashore. Limits stand in bobstay.toml: any one broken wire condemns.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, Missing, against, at_or_over, say, stated, sums
from reporter.engineering.tackle import chain_wear


def assess(evidence: Evidence) -> Assessment:
    """Wear of a chain's links; the lower fitting is missing while it was looked at from deck."""
    return Assessment(checks=tuple(_links(evidence)), missing=tuple(_lower_end(evidence)))


def _links(evidence: Evidence) -> Iterator[Check]:
    """Wear of the links where the stay is a chain; anchor chain's limits stand in for it."""
    size = {"size": stated(evidence, "diameter")}
    for spot, wear, sum_ in sums(evidence, chain_wear, {"worn": "link_diameter"}, size):
        for check in against(evidence, "wear", wear, like=spot, working=(sum_,)):
            planned = check.limit and check.limit.id == "bobstay.wear.plan"
            yield check if planned else at_or_over(check)


def _lower_end(evidence: Evidence) -> Iterator[Missing]:
    if any(each.choice == "from_deck" for each in evidence.observed.get("seen_from", ())):
        title, why = say("lower", kind="bobstay"), say("said.from_deck")
        yield Missing(id="close_up", title=title, needed=True, why=why)
