"""Quadrant, radial drive or tiller arm on the rudder stock, with the rudder stops.

Comes in: Evidence of one quadrant, with the wheel's diameter and the chain of the same helm. Goes out: the arc kept on
each side, the shorter side, and the leverage from rim to stock, all for information. Limits stand in quadrant.toml;
what moves, and what stops the rudder first, is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, against, both_sides, stated, sums, worked_out
from reporter.engineering import work
from reporter.engineering.mechanics import arc_kept, shorter_side

from .leverage import leverage


def assess(evidence: Evidence) -> Assessment:
    """Rudder travel side by side, and the leverage; both for information."""
    levered = leverage(evidence)
    return Assessment(
        checks=(*_arcs(evidence), *_shorter(evidence), *levered.checks), missing=levered.missing
    )


def _arcs(evidence: Evidence) -> Iterator[Check]:
    """How much of the arc as built is reached, each side by itself: a total would hide a short side."""
    built = {"full": stated(evidence, "designed_angle")}
    for spot, share, sum_ in sums(evidence, arc_kept, {"reached": "rudder_angle"}, built):
        yield from against(evidence, "arc_kept", share, like=spot, working=(sum_,))


def _shorter(evidence: Evidence) -> Iterator[Check]:
    """The shorter side, wherever both sides were read at one place in one state."""
    for port, starboard in both_sides(evidence, "rudder_angle"):
        least, sum_ = work(shorter_side, {"to_port": port.value, "to_starboard": starboard.value})
        shorter = port if port.value.value <= starboard.value.value else starboard
        yield worked_out("quadrant", "shorter_side", least, (sum_,), like=shorter)
