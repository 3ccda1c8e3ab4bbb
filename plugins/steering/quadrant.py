"""Quadrant, radial drive or tiller arm on the rudder stock, with the rudder stops.

Comes in: Evidence of one quadrant, with the wheel's diameter and the chain of the same helm. Goes out: the arc kept on
each side, the shorter side, and the leverage from rim to stock, all for information; friction is left out, of which each
sheave costs a few per cent. Limits stand in quadrant.toml; what moves, and what stops the rudder first, is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Missing,
    Value,
    Working,
    against,
    both_sides,
    say,
    stated,
    sums,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.mechanics import arc_kept, chain_pull, equivalent_tiller, shorter_side, stock_torque

from .drive import half, kept_up, largest, needed_value, sprocket

KIND = "quadrant"


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


def leverage(evidence: Evidence) -> Assessment:
    """Chain pull, stock torque and equivalent tiller; nothing when wheel, chain or radius is not known.

    The force at the rim is the measured one, else the helm force of the limits file that can be kept up.
    """
    wheel, radius = needed_value(evidence, "wheel_diameter"), stated(evidence, "radius")
    try:
        driven = sprocket(evidence)
        if wheel is None or driven is None:
            return Assessment()
        if radius is None:
            return Assessment(
                missing=(Missing(id="radius", title=say("radius", kind="quadrant"), needed=False),)
            )
        return _sums(evidence, wheel, driven, radius)
    except ValueError:
        title, why = say("leverage", kind="quadrant"), say("impossible", kind="quadrant")
        return Assessment(missing=(Missing(id="leverage", title=title, needed=False, why=why),))


def _sums(evidence: Evidence, wheel: Value, driven: tuple[Value, Working], radius: Value) -> Assessment:
    radii = {"wheel_radius": half(wheel), "sprocket_radius": driven[0]}
    pull, pulled = work(chain_pull, {"rim_force": _rim_force(evidence), **radii})
    torque, turned = work(stock_torque, {"pull": pull, "quadrant_radius": radius})
    tiller, levered = work(equivalent_tiller, {**radii, "quadrant_radius": radius})
    return Assessment(
        checks=(
            worked_out(KIND, "chain_pull", pull, (driven[1], pulled)),
            worked_out(KIND, "stock_torque", torque, (turned,)),
            worked_out(KIND, "equivalent_tiller", tiller, (levered,)),
        )
    )


def _rim_force(evidence: Evidence) -> Value:
    """The largest force read at the rim; without one, the handbook's helm force."""
    return largest(evidence.at("rim_force")) or kept_up(evidence.limit("quadrant.rim_force.kept_up"))
