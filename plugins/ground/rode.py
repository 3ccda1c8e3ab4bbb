"""Rope rodes with their splices: the rope part of the ground tackle, and snubbers.

Comes in: Evidence of one rope, with the vessel's length. Goes out: wear and loads of a fibre rope, its diameter beside
the outfit tables, tails of its splice. Limits stand in rode.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    compare,
    is_spent,
    stated,
)
from reporter.contract import ropes as rope
from reporter.engineering import work
from reporter.engineering.mechanics import factor_of_safety
from reporter.engineering.rope import tail_in_diameters

from .outfit import size_beside_table
from .wind_load import by_wind


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope, its splice, and what tables and wind ask for."""
    made = rope.rope_checks(evidence)
    checks = (
        *made.checks,
        *_tails(evidence),
        *size_beside_table(evidence, "diameter", "rope"),
        *_wind(evidence, made),
    )
    return made.model_copy(update={"checks": checks})


def _tails(evidence: Evidence) -> Iterator[Check]:
    diameter = stated(evidence, "diameter")
    if diameter is None:
        return
    for spot in evidence.at("tail"):
        tails, sum_ = work(tail_in_diameters, {"tail": spot.value, "diameter": diameter})
        limit = evidence.limit("rode.tail_diameters.short")
        yield compare(evidence, tails, limit, like=spot, working=(sum_,))


def _wind(evidence: Evidence, made: Assessment) -> Iterator[Check]:
    found, breaking = by_wind(evidence), stated(evidence, "breaking_load")
    if found is None:
        return
    load, told = found
    yield told
    if breaking and not is_spent(evidence, made.checks, ("abrasion", "broken_strands")):
        factor, sum_ = work(factor_of_safety, {"strength": breaking, "load": load})
        limit = evidence.limit("rode.wind_factor.eight")
        yield compare(evidence, factor, limit, working=(sum_,))
