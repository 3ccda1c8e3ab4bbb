"""From the hand on the rim to the rudder stock: pull in chain and wire, torque at the stock, tiller of equal leverage.

Comes in: the Evidence of a quadrant, with wheel and chain resolved as its needs. Goes out: checks for information, or
the reason why the sum could not be made. Friction is left out: each sheave costs a few per cent.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Dimension,
    Evidence,
    Missing,
    Value,
    Working,
    say,
    stated,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.mechanics import chain_pull, equivalent_tiller, stock_torque

from .drive import half, needed_value, sprocket

KIND = "quadrant"


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
    measured = max(
        (spot.value for spot in evidence.at("rim_force")), key=lambda value: value.value, default=None
    )
    if measured:
        return measured
    limit = evidence.limit("quadrant.rim_force.kept_up")
    return Value(dimension=Dimension.FORCE, value=units.to_base(limit.value, limit.unit), unit=limit.unit)
