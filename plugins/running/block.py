"""Blocks, tracks and clutches: what leads a line, turns it and holds it.

Comes in: Evidence of one fitting or a set of them. Goes out: sheave over rope and over wire, and the load on a block
that turns a line, as design checks. Limits stand in block.toml; what is worn, loose or slips is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    Missing,
    Value,
    against,
    asked_by_type,
    beside,
    chosen,
    say,
    stated,
    withheld,
    worked_out,
)
from reporter.engineering import table, work
from reporter.engineering.mechanics import sheave_ratio
from reporter.engineering.rows import BendingStrength
from reporter.engineering.tackle import block_load, rope_ratio, share_of_mark
from reporter.engineering.wire import bending_strength

HOLDING = {"clutch", "cleat"}


def assess(evidence: Evidence) -> Assessment:
    """Sheave ratios and block load; a clutch or cleat that was not tried is not clear."""
    return Assessment(checks=(*_ratios(evidence), *_load(evidence)), missing=tuple(_untried(evidence)))


def _untried(evidence: Evidence) -> Iterator[Missing]:
    if chosen(evidence, "type") in HOLDING:
        yield from asked_by_type(evidence, "holding", say("untried", kind="block"))
    if chosen(evidence, "type") == "track":
        yield from asked_by_type(evidence, "car", say("track", kind="block"))


def _ratios(evidence: Evidence) -> Iterator[Check]:
    tread = stated(evidence, "tread_diameter")
    rope, wire = stated(evidence, "rope_diameter"), stated(evidence, "wire_diameter")
    if tread and rope:
        ratio, sum_ = work(rope_ratio, {"tread": tread, "rope": rope})
        yield from against(evidence, "ratio_rope", ratio, working=(sum_,))
    if tread and wire:
        ratio, sum_ = work(sheave_ratio, {"tread": tread, "wire": wire})
        yield from against(evidence, "ratio_wire", ratio, working=(sum_,))
        yield from _bent(ratio)


def _bent(ratio: Value) -> Iterator[Check]:
    """How much of its strength a wire keeps while it is bent round the sheave, where the table reaches so far."""
    try:
        kept = bending_strength(ratio.value)
    except ValueError:
        return
    share = Value(dimension=Dimension.RATIO, value=kept, unit="%")
    note = table(BendingStrength)[0].cited
    yield worked_out("block", "bent_kept", share, (), note=note)


def _load(evidence: Evidence) -> Iterator[Check]:
    marked = stated(evidence, "marked_working_load")
    if evidence.damaged:
        if marked:
            yield withheld("block", "load_share")
        return
    for line in evidence.at("line_load"):
        turn = beside(evidence, "turn", line)
        if turn is None:
            continue
        load, sum_ = work(
            block_load, {"line": line.value, "turn": turn.value}, units={"line": "daN", "result": "daN"}
        )
        yield worked_out("block", "block_load", load, (sum_,), like=line)
        if marked:
            share, over = work(share_of_mark, {"load": load, "marked": marked})
            yield from against(evidence, "load_share", share, like=line, working=(sum_, over))
