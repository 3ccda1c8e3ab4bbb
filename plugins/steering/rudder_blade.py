"""Rudder blade, with skeg, pintles and gudgeons where there are any; seen ashore for the most part.

Comes in: Evidence of one blade, with the play of its rudder's bearings. Goes out: how much of the movement at the tip
the bearings' play accounts for, and on request the load into the stock, for information: an estimate judges no rudder. Its
force is a seminar's for an emergency rudder worked hard; a standard's own formula is not held here. The limit stands in
rudder_blade.toml; the rest is observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Missing,
    State,
    Text,
    Value,
    Working,
    say,
    stated,
    worked_out,
)
from reporter.engineering import cited, work
from reporter.engineering.stock import (
    combined_moment,
    emergency_rudder_force,
    moment,
    stock_stress,
    tip_movement,
)

from .drive import needed_value

KIND = "rudder_blade"


def assess(evidence: Evidence) -> Assessment:
    """The tip movement that the bearings' play gives, beside the one measured."""
    return Assessment(
        checks=(*_by_bearings(evidence), *rudder_load(evidence)), missing=tuple(_lacking(evidence))
    )


def _lacking(evidence: Evidence) -> Iterator[Missing]:
    """What the sum lacks, named once the movement at the tip was measured."""
    if evidence.at("tip_play"):
        for ident in (each for each in evidence.unmet if each != "stock_diameter"):
            yield Missing(id=ident, title=evidence.unmet[ident], needed=False)


def _by_bearings(evidence: Evidence) -> Iterator[Check]:
    lower, upper = (_worst(evidence, ident) for ident in ("lower_play", "upper_play"))
    distance, overhang = (needed_value(evidence, ident) for ident in ("bearing_distance", "overhang"))
    measured = evidence.at("tip_play")
    if lower and upper and distance and overhang and measured:
        inputs = {"lower": lower, "upper": upper, "bearing_distance": distance, "overhang": overhang}
        moved, sum_ = work(tip_movement, inputs)
        yield worked_out(
            "rudder_blade", "by_bearings", moved, (sum_,), note=say("elsewhere", kind="rudder_blade")
        )


def _worst(evidence: Evidence, ident: str) -> Value | None:
    """The largest play found; one read again after work on the bearing counts in place of it."""
    spots = evidence.needed.get(ident)
    if not isinstance(spots, tuple):
        return None
    left = tuple(spot for spot in spots if spot.state is State.LEFT)
    return max((left or spots), key=lambda spot: spot.value.value).value


def rudder_load(evidence: Evidence) -> Iterator[Check]:
    """Force at the speed asked for; bending and torsion where their levers are known; stress of a solid stock."""
    area, speed = stated(evidence, "area"), _first(evidence, "speed_asked")
    if area is None or speed is None or evidence.damaged:
        return
    force, sum_ = work(emergency_rudder_force, {"area": area, "speed": speed})
    yield _told("rudder_force", force, (sum_,), cited(sum_.source))
    below, aft = (_first(evidence, name) for name in ("pressure_below", "pressure_aft"))
    bending = work(moment, {"force": force, "arm": below}) if below else None
    torsion = work(moment, {"force": force, "arm": aft}) if aft else None
    for name, found in (("stock_bending", bending), ("stock_torsion", torsion)):
        if found:
            yield _told(name, found[0], (sum_, found[1]))
    stock = needed_value(evidence, "stock_diameter")
    if bending and torsion and stock:
        both, third = work(combined_moment, {"bending": bending[0], "torque": torsion[0]})
        stress, fourth = work(stock_stress, {"moment": both, "diameter": stock})
        yield _told("stock_stress", stress, (third, fourth), say("hollow", kind="rudder_blade"))


def _told(name: str, value: Value, sums: tuple[Working, ...], note: Text = "") -> Check:
    return worked_out(KIND, name, value, sums, note=note)


def _first(evidence: Evidence, name: str) -> Value | None:
    return next((spot.value for spot in evidence.at(name)), None)
