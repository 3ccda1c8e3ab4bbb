"""Steering wire from the chain to the quadrant, both sides as a pair, with its ends and adjusters.

Comes in: Evidence of the wires of one helm, with its wheel and chain. Goes out: diameter lost, clips missing, the sides
compared, strength by construction. Limits stand in steering_wire.toml: any one broken wire condemns, the rules written
for other wires are for information.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    Value,
    against,
    both_sides,
    pressed,
    stated,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.mechanics import difference_of_sides
from reporter.engineering.wire import clips

from .wire_strength import strength
from .wire_wear import beside_other_rules, diameter_losses, size_question


def assess(evidence: Evidence) -> Assessment:
    """Wear in figures, ends, sides and strength; a guessed size with a near neighbour becomes a question."""
    strong, question = strength(evidence), size_question(evidence)
    return Assessment(
        checks=(
            *diameter_losses(evidence), *beside_other_rules(evidence), *_clips(evidence), *_sides(evidence), *strong.checks,
            *pressed(evidence, "deflection"),
        ),
        missing=(*strong.missing, *((question[0],) if question else ())),
        actions=(question[1],) if question else (),
    )  # fmt: skip


def _clips(evidence: Evidence) -> Iterator[Check]:
    """Clips missing at each end against the number that the diameter asks for."""
    diameter = stated(evidence, "diameter")
    if diameter is None:
        return
    for spot in evidence.at("clips"):
        wanted, sum_ = work(clips, {"diameter": diameter})
        missing = Value(dimension=Dimension.COUNT, value=max(0.0, wanted.value - spot.value.value))
        yield from against(evidence, "clips_missing", missing, like=spot, working=(sum_,))


def _sides(evidence: Evidence) -> Iterator[Check]:
    """How far the take-up left differs from side to side: a wire stretched, slipped, or a chain off its centre."""
    for port, starboard in both_sides(evidence, "take_up"):
        apart, sum_ = work(difference_of_sides, {"port": port.value, "starboard": starboard.value})
        pair = port.model_copy(update={"side": ""})
        yield worked_out("steering_wire", "take_up_difference", apart, (sum_,), like=pair)
