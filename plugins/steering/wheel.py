"""Wheel and its shaft: what the hands at the rim feel, and what gives when the rim is pulled hard.

Comes in: Evidence of one wheel, with chain and quadrant of the same helm. Goes out: play at the rim as rudder angle, and
the turns that the drive should take. No limit for a yacht's wheel is published: an eighth of the wheel, the road's own
proportion, plans, and twice that comes first; the road's rows for small wheels are for information. Limits stand in
wheel.toml.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    MeasurementPoint,
    State,
    Value,
    against,
    compare,
    stated,
    sums,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.mechanics import (
    lash_limits,
    play_angle,
    rim_play_as_rudder,
    rudder_per_turn,
    turns_lock_to_lock,
)

from .drive import chain_pitch, half, needed_value, sprocket


def assess(evidence: Evidence) -> Assessment:
    """Rim play as wheel and rudder angle beside the road's yardsticks; turns predicted beside turns counted."""
    play = tuple(check for spot in evidence.at("rim_play") for check in _play(evidence, spot))
    return Assessment(checks=(*play, *_turns(evidence)))


def _play(evidence: Evidence, spot: MeasurementPoint) -> Iterator[Check]:
    wheel = stated(evidence, "diameter")
    if wheel is None:
        return
    angle, sum_ = work(play_angle, {"rim_play": spot.value, "wheel": wheel})
    yield worked_out("wheel", "play_angle", angle, (sum_,), like=spot)
    yield from _as_rudder(evidence, spot, wheel)
    yield from _road(evidence, spot, wheel)


def _as_rudder(evidence: Evidence, spot: MeasurementPoint, wheel: Value) -> Iterator[Check]:
    """The rudder angle that the play hides, where chain and quadrant are known."""
    driven, radius = sprocket(evidence), needed_value(evidence, "quadrant_radius")
    if driven is None or radius is None:
        return
    inputs = {
        "rim_play": spot.value, "wheel_radius": half(wheel), "sprocket_radius": driven[0], "quadrant_radius": radius,
    }  # fmt: skip
    angle, sum_ = work(rim_play_as_rudder, inputs)
    yield worked_out("wheel", "rudder_play", angle, (driven[1], sum_), like=spot)


def _road(evidence: Evidence, spot: MeasurementPoint, wheel: Value) -> Iterator[Check]:
    """The rows of the road rules that name a wheel of this size, and the proportion that the oldest of them keep."""
    for yardstick in lash_limits(wheel.value):
        row = yardstick.row
        rule = "us" if row.rule.startswith("49 CFR") else row.rule.lower().replace(" ", "_")
        size = f"up_to_{row.up_to_in:g}" if row.up_to_in is not None else f"over_{row.over_in:g}"
        yield compare(evidence, spot.value, evidence.limit(f"wheel.lash.{rule}_{size}"), like=spot)
    share = Value(
        dimension=Dimension.RATIO,
        value=spot.value.value / wheel.value,
        u=spot.value.u / wheel.value,
        unit="%",
    )
    yield from against(evidence, "lash_share", share, like=spot)


def _turns(evidence: Evidence) -> Iterator[Check]:
    """Turns that the drive should take, and rudder angle per turn as counted."""
    angle = _total_angle(evidence)
    if angle is None:
        return
    radius, pitch, teeth = (
        needed_value(evidence, "quadrant_radius"),
        chain_pitch(evidence),
        needed_value(evidence, "teeth"),
    )
    if radius and pitch and teeth:
        inputs = {"rudder_angle": angle, "quadrant_radius": radius, "teeth": teeth, "pitch": pitch}
        turns, sum_ = work(turns_lock_to_lock, inputs)
        yield worked_out("wheel", "turns_predicted", turns, (sum_,))
    for spot, per_turn, sum_ in sums(evidence, rudder_per_turn, {"turns": "turns"}, {"rudder_angle": angle}):
        yield from against(evidence, "rudder_per_turn", per_turn, like=spot, working=(sum_,))


def _total_angle(evidence: Evidence) -> Value | None:
    """Both sides of the rudder's travel together, as found; one side alone tells nothing of the other."""
    spots = evidence.needed.get("rudder_angle")
    if not isinstance(spots, tuple):
        return None
    sides = {spot.side: spot.value for spot in spots if spot.state is State.FOUND}
    if not {"port", "starboard"} <= set(sides):
        return None
    port, starboard = sides["port"], sides["starboard"]
    both = port.value + starboard.value
    return Value(dimension=Dimension.ANGLE, value=both, u=math.hypot(port.u, starboard.u), unit="°")
