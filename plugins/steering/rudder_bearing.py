"""Rudder bearings, stock and gland.

Comes in: Evidence of one rudder's bearings. Goes out: clearances reckoned for the stock's diameter (for information: they
lie fifty times apart), and the tip movement that the play of both bearings gives. Limits stand in rudder_bearing.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, MeasurementPoint, Missing, against, say, worked_out
from reporter.engineering import cited, work
from reporter.engineering.stock import (
    light_craft_least,
    naval_greatest,
    new_allowance,
    new_tolerance,
    tip_movement,
)

PLAY = ("lower_play", "upper_play")
SIZED = {
    "new_clearance": new_allowance, "new_tolerance": new_tolerance, "light_craft_least": light_craft_least, "naval_greatest": naval_greatest,
}  # fmt: skip


def assess(evidence: Evidence) -> Assessment:
    """Clearances that this size of stock has when new, and the tip movement that both plays give."""
    return Assessment(checks=(*_by_size(evidence), *_tip(evidence)), missing=tuple(_lacking(evidence)))


def _by_size(evidence: Evidence) -> Iterator[Check]:
    """The handbook's clearance when new and the two ship rules, each reckoned for this very stock."""
    stock = evidence.facts.get("stock_diameter")
    if stock is None or stock.value is None:
        return
    for ident, formula in SIZED.items():
        clearance, sum_ = work(formula, {"stock": stock.value})
        note = say("beside_rules", kind="rudder_bearing", source=cited(sum_.source))
        yield worked_out("rudder_bearing", ident, clearance, (sum_,), note=note)


def _lacking(evidence: Evidence) -> Iterator[Missing]:
    """The size that a sum lacks, named once the play for it was measured."""
    plays = {spot.quantity for spot in _plays(evidence)}
    sizes = {"stock_diameter": bool(plays), "bearing_distance": len(plays) > 1, "overhang": len(plays) > 1}
    titles = {
        "stock_diameter": say("stock_diameter", kind="rudder_bearing"),
        "bearing_distance": say("bearing_distance", kind="rudder_bearing"),
        "overhang": say("overhang", kind="rudder_bearing"),
    }
    for ident, wanted in sizes.items():
        if wanted and ident not in evidence.facts:
            yield Missing(id=ident, title=titles[ident], needed=False)


def _plays(evidence: Evidence) -> Iterator[MeasurementPoint]:
    return (spot for quantity in PLAY for spot in evidence.at(quantity))


def _tip(evidence: Evidence) -> Iterator[Check]:
    """How far the tip can move by the play of both bearings: the worst spot of each, as found and as left apart."""
    distance, overhang = evidence.facts.get("bearing_distance"), evidence.facts.get("overhang")
    if not (distance and distance.value and overhang and overhang.value):
        return
    for state in dict.fromkeys(spot.state for spot in _plays(evidence)):
        lower, upper = (_worst(evidence, quantity, state) for quantity in PLAY)
        if lower and upper:
            plays = {"lower": lower.value, "upper": upper.value}
            moved, sum_ = work(
                tip_movement, {**plays, "bearing_distance": distance.value, "overhang": overhang.value}
            )
            like = lower.model_copy(update={"at": "", "side": ""})
            yield from against(evidence, "tip_movement", moved, like=like, working=(sum_,))


def _worst(evidence: Evidence, quantity: str, state: str) -> MeasurementPoint | None:
    spots = [spot for spot in evidence.at(quantity) if spot.state == state]
    return max(spots, key=lambda spot: spot.value.value, default=None)
