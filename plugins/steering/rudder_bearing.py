"""Rudder bearings, stock and gland.

Comes in: Evidence of one rudder's bearings. Goes out: the play beside figures that depend on the stock's diameter (for
information: they lie fifty times apart), and the tip movement that the play of both bearings gives. Limits stand in
rudder_bearing.toml; a limit there that depends on the stock is written for 40 mm and put right here for the real one.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Limit,
    Missing,
    Spot,
    Value,
    Working,
    compare,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.bearings import light_craft_least, naval_greatest, new_allowance, new_tolerance
from reporter.engineering.stock import tip_movement

PLAY = ("lower_play", "upper_play")
SPREAD = "ship and light-craft rules were not written for yachts: on a small stock they lie ten to fifty times above the handbook"


def assess(evidence: Evidence) -> Assessment:
    """Play against what the stock's size asks for, and the tip movement that both plays give."""
    stock = evidence.facts.get("stock_diameter")
    checks: list[Check] = []
    if stock and stock.value:
        limits = tuple(_for_stock(evidence, stock.value))
        title = "Clearance when new, for this stock"
        checks += [worked_out("rudder_bearing", "new_clearance", title, *_new(stock.value), note=SPREAD)]
        checks += [check for spot in _plays(evidence) for check in _beside(evidence, spot, limits)]
    return Assessment(checks=(*checks, *_tip(evidence)), missing=tuple(_lacking(evidence)))


def _lacking(evidence: Evidence) -> Iterator[Missing]:
    """The size that a sum lacks, named once the play for it was measured."""
    plays = {spot.quantity for spot in _plays(evidence)}
    sizes = {"stock_diameter": bool(plays), "bearing_distance": len(plays) > 1, "overhang": len(plays) > 1}
    titles = {
        "stock_diameter": "diameter of the stock, for its clearance when new",
        "bearing_distance": "distance between the bearings, for the tip's movement",
        "overhang": "tip of the blade below the lower bearing, for the tip's movement",
    }
    for ident, wanted in sizes.items():
        if wanted and ident not in evidence.facts:
            yield Missing(id=ident, title=titles[ident], needed=False)


def _plays(evidence: Evidence) -> Iterator[Spot]:
    return (spot for quantity in PLAY for spot in evidence.at(quantity))


def _new(stock: Value) -> tuple[Value, tuple[Working, ...]]:
    """The least new clearance of a yacht bearing, with the handbook's two sums and the two ship rules beside them."""
    least, allowance = work(new_allowance, {"stock": stock})
    others = (work(sum_, {"stock": stock})[1] for sum_ in (new_tolerance, light_craft_least, naval_greatest))
    return least, (allowance, *others)


def _for_stock(evidence: Evidence, stock: Value) -> Iterator[tuple[Limit, tuple[Working, ...]]]:
    """Each limit that depends on the stock, with its value for this stock and the sums behind it."""
    least, allowance = work(new_allowance, {"stock": stock})
    spare, tolerance = work(new_tolerance, {"stock": stock})
    light, lightly = work(light_craft_least, {"stock": stock})
    naval, navally = work(naval_greatest, {"stock": stock})
    yield (
        _set(evidence.limit("rudder_bearing.clearance.new_yacht"), least.value + spare.value),
        (allowance, tolerance),
    )
    yield _set(evidence.limit("rudder_bearing.clearance.new_light_craft"), light.value), (lightly,)
    yield _set(evidence.limit("rudder_bearing.clearance.naval"), naval.value), (navally,)


def _set(limit: Limit, metres: float) -> Limit:
    """The limit at this stock's figure; one that the job's author replaced stays as he set it."""
    if limit.override:
        return limit
    return limit.model_copy(update={"value": units.from_base(metres, limit.unit)})


def _beside(
    evidence: Evidence, spot: Spot, limits: tuple[tuple[Limit, tuple[Working, ...]], ...]
) -> Iterator[Check]:
    for limit, sums in limits:
        check = compare(
            evidence, spot.value, limit, title="Bearing play beside the stock's size", like=spot, working=sums
        )
        yield check.model_copy(update={"id": f"{check.id}/{spot.quantity}"})


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
            limit = evidence.limit("rudder_bearing.tip_movement.guide")
            like = lower.model_copy(update={"at": "", "side": ""})
            yield compare(
                evidence, moved, limit, title="Tip movement by the bearings' play", like=like, working=(sum_,)
            )


def _worst(evidence: Evidence, quantity: str, state: str) -> Spot | None:
    spots = [spot for spot in evidence.at(quantity) if spot.state == state]
    return max(spots, key=lambda spot: spot.value.value, default=None)
