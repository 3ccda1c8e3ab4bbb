"""Strength of a steering chain beside the pull of a hand at the rim.

Comes in: Evidence of one chain, with the wheel and a force at the rim of the same helm. Goes out: pull and breaking
force over pull, for information: no figure is published for steering. Withheld once the chain is worn or damaged.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Check,
    Dimension,
    Evidence,
    Text,
    Value,
    chosen,
    say,
    stated,
    withheld,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.chain import breaking_force, size_named
from reporter.engineering.mechanics import chain_pull, factor_of_safety, sprocket_radius

from .drive import half, needed_value


def against_pull(evidence: Evidence, pitch: Value, size: str, *, spent: bool) -> Iterator[Check]:
    """Pull from the rim, and what the undamaged chain breaks at over it; `size` is the chain's name, if known."""
    wheel, teeth = needed_value(evidence, "wheel_diameter"), stated(evidence, "teeth")
    if wheel is None or teeth is None:
        return
    radius, first = work(sprocket_radius, {"pitch": pitch, "teeth": teeth})
    inputs = {"rim_force": _rim_force(evidence), "wheel_radius": half(wheel), "sprocket_radius": radius}
    pull, second = work(chain_pull, inputs)
    yield worked_out("chain", "chain_pull", pull, (first, second))
    if spent:
        yield withheld("chain", "factor")
        return
    found = _strength(evidence, size)
    if found:
        strong, source = found
        factor, third = work(factor_of_safety, {"strength": strong, "load": pull})
        yield worked_out("chain", "factor", factor, (first, second, third), note=source)


def _strength(evidence: Evidence, size: str) -> tuple[Value, Text] | None:
    """The marked strength, else the table's for carbon steel; a stainless chain without a mark has none here."""
    marked = stated(evidence, "marked_strength")
    if marked:
        return marked, say("marked", kind="chain")
    if not size or chosen(evidence, "material") != "carbon":
        return None
    newtons = breaking_force(size, stainless=False)
    source = say("by_size", kind="chain", size=size, source=size_named(size).cited)
    return Value(dimension=Dimension.FORCE, value=newtons, unit="kN"), source


def _rim_force(evidence: Evidence) -> Value:
    """The largest force read at the rim for the quadrant; without one, the helm force that can be kept up."""
    spots = evidence.needed.get("rim_force")
    if isinstance(spots, tuple):
        return max((spot.value for spot in spots), key=lambda value: value.value)
    limit = evidence.limit("chain.rim_force.kept_up")
    return Value(dimension=Dimension.FORCE, value=units.to_base(limit.value, limit.unit), unit=limit.unit)
