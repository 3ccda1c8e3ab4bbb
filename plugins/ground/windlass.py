"""Windlasses: gypsy, clutch, fastening and drive.

Comes in: Evidence of one windlass, with the chain of the same group. Goes out: whether gypsy and chain are of one size
and standard. The one limit, an age, stands in windlass.toml; what slips, jumps or leaks is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Assessment,
    Check,
    Evidence,
    Fact,
    Grade,
    LimitKind,
    Remedy,
    Verdict,
    chosen,
    stated,
)
from reporter.engineering import units

GYPSY = "Have a gypsy of the chain's size and standard fitted"
NAMES = {"iso_4565": "ISO 4565", "din_766": "DIN 766"}


def assess(evidence: Evidence) -> Assessment:
    """Gypsy and chain held against each other by their marks; how the chain really runs is an observation."""
    said = tuple(_mismatch(evidence))
    if not said:
        return Assessment()
    check = Check(
        id="windlass.gypsy_match", subject="gypsy_match", title="Gypsy and chain by their marks", said="; ".join(said),
        verdict=Verdict.SEEN, grade=Grade.PLAN, kind=LimitKind.DESIGN, method="marks on gypsy and chain",
    )  # fmt: skip
    action = Action(
        id="windlass.gypsy_match",
        what=GYPSY,
        remedy=Remedy.REPLACE,
        why=check.said,
        grade=check.grade,
        settles=(check.id,),
    )
    return Assessment(checks=(check,), actions=(action,))


def _mismatch(evidence: Evidence) -> Iterator[str]:
    gypsy, chain = stated(evidence, "gypsy_size"), evidence.needed.get("chain_size")
    limit = evidence.limit("windlass.gypsy_gap.same")
    same = units.to_base(limit.value, limit.unit)
    if gypsy and isinstance(chain, Fact) and chain.value and abs(gypsy.value / chain.value.value - 1) > same:
        yield f"the gypsy is marked {gypsy.written or 'for another size'}, the chain is {chain.value.written or 'of its own size'}"
    own, other = chosen(evidence, "gypsy_standard"), evidence.needed.get("chain_standard")
    if own in NAMES and isinstance(other, Fact) and other.choice in NAMES and own != other.choice:
        yield f"the gypsy is made for {NAMES[own]} chain, the chain is made to {NAMES[other.choice]}"
