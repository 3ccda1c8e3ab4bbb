"""Rudder blade, with skeg, pintles and gudgeons where there are any; seen ashore for the most part.

Comes in: Evidence of one blade, with the play of its rudder's bearings. Goes out: how much of the movement at the tip
the bearings' play accounts for, for information. The limit stands in rudder_blade.toml; the rest is observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, Missing, State, Value, say, worked_out
from reporter.engineering import work
from reporter.engineering.stock import tip_movement

from .drive import needed_value
from .rudder_load import rudder_load


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
