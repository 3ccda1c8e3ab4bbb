"""Stanchions with their bases, and the posts of gates.

Comes in: Evidence of one stanchion or a set, with the vessel's beam. Goes out: how far inboard a base stands, by beam.
Limits stand in stanchion.toml and are rules for racing; a cracked base or weld is an observation, and stops.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Limit,
    Missing,
    SourceFigure,
    Text,
    Working,
    compare,
    say,
    vessel,
)
from reporter.engineering import units, work
from reporter.engineering.lifelines import inset_by_beam


def assess(evidence: Evidence) -> Assessment:
    """The base's place against the deck's edge; everything else the declaration decides."""
    return Assessment(checks=tuple(_inset(evidence)), missing=tuple(_unknown_beam(evidence)))


def _unknown_beam(evidence: Evidence) -> Iterator[Missing]:
    if evidence.at("inset") and vessel(evidence, "beam") is None:
        title, why = say("beam", kind="stanchion"), say("no_beam", kind="stanchion")
        yield Missing(id="beam", title=title, needed=False, why=why)


def _inset(evidence: Evidence) -> Iterator[Check]:
    limit, sums, notes = _allowed(evidence)
    for spot in evidence.at("inset"):
        if vessel(evidence, "beam") is None and spot.value.value > units.to_base(limit.value, limit.unit):
            continue
        yield compare(evidence, spot.value, limit, like=spot, working=sums, notes=notes)


def _allowed(evidence: Evidence) -> tuple[Limit, tuple[Working, ...], tuple[Text, ...]]:
    """The fixed figure, or the share of beam where that is more."""
    fixed, by_beam = evidence.limit("stanchion.inset.edge"), evidence.limit("stanchion.inset.beam")
    beam = vessel(evidence, "beam")
    if beam is None:
        return fixed, (), ()
    share, sum_ = work(inset_by_beam, {"share": units.to_base(by_beam.value, by_beam.unit), "beam": beam})
    if share.value <= units.to_base(fixed.value, fixed.unit):
        return fixed, (sum_,), ()
    value = round(units.from_base(share.value, fixed.unit), 1)
    least, part = (SourceFigure(figure=each.value, unit=each.unit) for each in (fixed, by_beam))
    note = say("by_beam", kind="stanchion", share=part, fixed=least)
    return fixed.model_copy(update={"value": value}), (sum_,), (note,)
