"""Rope rodes with their splices: the rope part of the ground tackle, and snubbers.

Comes in: Evidence of one rope, with the vessel's length. Goes out: wear and loads of a fibre rope, its diameter beside
the outfit tables, tails of its splice. Limits stand in rode.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, against, is_spent, stated, sums
from reporter.contract.ropes import rope_checks
from reporter.engineering import work
from reporter.engineering.mechanics import factor_of_safety
from reporter.engineering.tackle import tail_in_diameters

from .outfit import size_beside_table
from .wind_load import by_wind


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope, its splice, and what tables and wind ask for."""
    made = rope_checks(evidence)
    checks = (
        *made.checks,
        *_tails(evidence),
        *size_beside_table(evidence, "diameter", "rope"),
        *_wind(evidence, made),
    )
    return made.model_copy(update={"checks": checks})


def _tails(evidence: Evidence) -> Iterator[Check]:
    diameter = {"diameter": stated(evidence, "diameter")}
    for spot, tails, sum_ in sums(evidence, tail_in_diameters, {"tail": "tail"}, diameter):
        yield from against(evidence, "tail_diameters", tails, like=spot, working=(sum_,))


def _wind(evidence: Evidence, made: Assessment) -> Iterator[Check]:
    found, breaking = by_wind(evidence), stated(evidence, "breaking_load")
    if found is None:
        return
    load, told = found
    yield told
    if breaking and not is_spent(evidence, made.checks, ("abrasion", "broken_strands")):
        factor, sum_ = work(factor_of_safety, {"strength": breaking, "load": load})
        yield from against(evidence, "wind_factor", factor, working=(sum_,))
