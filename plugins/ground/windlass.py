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
    Text,
    Verdict,
    chosen,
    say,
    series,
    stated,
)
from reporter.engineering import units

NAMES = {"iso_4565": "ISO 4565", "din_766": "DIN 766"}


def assess(evidence: Evidence) -> Assessment:
    """Gypsy and chain held against each other by their marks; how the chain really runs is an observation."""
    said = tuple(_mismatch(evidence))
    if not said:
        return Assessment()
    check = Check(
        id="windlass.gypsy_match", subject="gypsy_match", title=say("match", kind="windlass"), said=series(said, by="; "),
        verdict=Verdict.SEEN, grade=Grade.PLAN, kind=LimitKind.DESIGN, method=say("match_method", kind="windlass"),
    )  # fmt: skip
    action = Action(
        id="windlass.gypsy_match",
        what=say("match_ask", kind="windlass"),
        remedy=Remedy.REPLACE,
        why=check.said,
        grade=check.grade,
        settles=(check.id,),
    )
    return Assessment(checks=(check,), actions=(action,))


def _mismatch(evidence: Evidence) -> Iterator[Text]:
    gypsy, chain = stated(evidence, "gypsy_size"), evidence.needed.get("chain_size")
    limit = evidence.limit("windlass.gypsy_gap.same")
    same = units.to_base(limit.value, limit.unit)
    if gypsy and isinstance(chain, Fact) and chain.value and abs(gypsy.value / chain.value.value - 1) > same:
        yield say(
            "sizes", kind="windlass", gypsy=gypsy.written or say("another_size", kind="windlass"),
            chain=chain.value.written or say("own_size", kind="windlass"),
        )  # fmt: skip
    own, other = chosen(evidence, "gypsy_standard"), evidence.needed.get("chain_standard")
    if own in NAMES and isinstance(other, Fact) and other.choice in NAMES and own != other.choice:
        yield say("standards", kind="windlass", gypsy=NAMES[own], chain=NAMES[other.choice])
