"""Jackstays: the lines along the deck that people clip on to.

Comes in: Evidence of one jackstay or a pair. Goes out: what a wire breaks at by its diameter. Limits stand in
jackstay.toml and are rules for racing; stitching, sun, chafe and anchorages are observations.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Value,
    Working,
    chosen,
    compare,
    is_spent,
    say,
    stated,
    withheld,
)
from reporter.engineering.strand import reckoned_strength

from .coated import coated


def assess(evidence: Evidence) -> Assessment:
    """What a wire breaks at, while it is undamaged, and whether it is coated."""
    wire = chosen(evidence, "material") == "wire"
    hidden, bare = coated(evidence, say("clause", kind="jackstay"))
    return Assessment(checks=(*_strength(evidence), *hidden) if wire else hidden, actions=bare)


def _strength(evidence: Evidence) -> Iterator[Check]:
    marked, diameter = stated(evidence, "marked_strength"), stated(evidence, "diameter")
    if is_spent(evidence, (), ("broken_wires",)):
        yield withheld("jackstay", "wire_strength")
        return
    force: Value | None = marked
    sums: tuple[Working, ...] = ()
    if force is None and diameter:
        force, sum_ = reckoned_strength(diameter)
        sums = (sum_,)
    if force:
        yield compare(evidence, force, evidence.limit("jackstay.strength.wire"), working=sums)
