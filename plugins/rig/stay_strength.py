"""Breaking force of a standing wire, every figure with its source, and a sizing estimate where one was asked for.

Comes in: Evidence of one undamaged wire, with the vessel's righting moment and beam. Goes out: sums for information and
what they lack; nothing here is graded, and all of it is withheld once damage is recorded. A breaking force is a value
with a source, never a property of the diameter.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    SourceFigure,
    Text,
    Value,
    Working,
    against,
    chosen,
    lacking,
    say,
    stated,
    vessel,
    withheld,
    worked_out,
)
from reporter.engineering import cited, units, work
from reporter.engineering.rigloads import strength_ratio, stress_factor, transverse_load, wire_asked_for
from reporter.engineering.rows import StrandStrength
from reporter.engineering.strand import published_strengths, reckoned_strength
from reporter.engineering.wire import load_allowed

from .stay_wear import is_spent

METALS = {"316": ("316", "unstated"), "302_304": ("302/304", "302", "304", "unstated")}


class Strength(NamedTuple):
    """A breaking force, the sum behind it where there is one, and where it comes from."""

    force: Value
    sums: tuple[Working, ...]
    source: Text


def strength(evidence: Evidence) -> Assessment:
    """Every breaking force that has a source, and the sizing estimate where its share and factor were given.

    Nothing at all where nobody asked: a report is not filled with sums that nobody reads.
    """
    if not asked(evidence):
        return Assessment()
    if is_spent(evidence):
        return Assessment(checks=(withheld(evidence.component.kind, "breaking_force"),))
    found = known_strengths(evidence)
    if not found:
        why = say("no_strength", kind="standing_wire")
        return Assessment(missing=(lacking("standing_wire", "breaking_force", why),))
    sizing = _sizing(evidence, found[0])
    return Assessment(checks=(*_told(evidence, found), *sizing.checks), missing=sizing.missing)


def asked(evidence: Evidence) -> bool:
    """True where a reading or detail was given that serves strength or tension only."""
    readings = any(evidence.at(name) for name in ("gauge_tension", "fold_growth"))
    return readings or bool({"marked_strength", "load_share", "safety_factor"} & set(evidence.facts))


def known_strengths(evidence: Evidence) -> tuple[Strength, ...]:
    """By papers, then all others, the lowest first; the first one is reckoned with."""
    others = sorted((*_published(evidence), *_reckoned(evidence)), key=lambda each: each.force.value)
    return (*_marked(evidence), *others)


def _marked(evidence: Evidence) -> Iterator[Strength]:
    marked, source = evidence.facts.get("marked_strength"), evidence.facts.get("strength_from")
    if marked and marked.value:
        words = source.words if source else ""
        told = say("said.by_papers", words=words) if words else say("said.no_papers")
        yield Strength(marked.value, (), told)


def _rows(evidence: Evidence) -> tuple[StrandStrength, ...]:
    """The published rows of its very size, of its material or of one that the print does not name."""
    diameter, material = stated(evidence, "diameter"), chosen(evidence, "grade_material")
    if diameter is None or material == "galvanised":
        return ()
    rows = published_strengths(chosen(evidence, "construction"), diameter.value)
    return tuple(row for row in rows if material not in METALS or row.material in METALS[material])


def _published(evidence: Evidence) -> Iterator[Strength]:
    for row in _rows(evidence):
        force = Value(dimension=Dimension.FORCE, value=units.to_base(row.strength, row.unit), unit="kN")
        told = say(
            "said.strength_row", diameter=row.diameter, material=row.material,
            force=SourceFigure(figure=row.strength, unit=row.unit), source=row.cited,
        )  # fmt: skip
        yield Strength(force, (), told)


def _reckoned(evidence: Evidence) -> Iterator[Strength]:
    """From the neighbouring sizes, unless its own is published in a named material."""
    diameter, material = stated(evidence, "diameter"), chosen(evidence, "grade_material")
    if diameter is None or chosen(evidence, "construction") != "1x19" or material == "galvanised":
        return
    if any(row.material != "unstated" for row in _rows(evidence)):
        return
    force, sum_ = reckoned_strength(diameter)
    ident = "said.reckoned" if material == "316" else "said.reckoned_weaker"
    yield Strength(force, (sum_,), say(ident, source=cited(sum_.source)))


def _told(evidence: Evidence, found: tuple[Strength, ...]) -> Iterator[Check]:
    """One line for each source: where tables disagree, the reader sees by how much."""
    for number, each in enumerate(found, start=1):
        told = worked_out(evidence.component.kind, "breaking_force", each.force, each.sums, note=each.source)
        yield told.model_copy(update={"id": f"{told.id}_{number}"})


def _sizing(evidence: Evidence, strong: Strength) -> Assessment:
    """Load of the side by the righting moment, what this wire is asked for, and its strength over that."""
    share, factor = (stated(evidence, name) for name in ("load_share", "safety_factor"))
    if not (share and factor):
        return Assessment()
    moment = evidence.needed.get("righting_moment")
    beam = stated(evidence, "chainplate_beam") or vessel(evidence, "beam")
    if not isinstance(moment, Value) or beam is None:
        why = say("no_moment", kind="standing_wire")
        return Assessment(missing=(lacking("standing_wire", "over_asked", why),))
    kind = evidence.component.kind
    side, first = work(transverse_load, {"righting_moment": moment, "beam": beam})
    asked, second = work(wire_asked_for, {"transverse": side, "share": share, "safety": factor})
    over, third = work(strength_ratio, {"part": strong.force, "wire": asked})
    sums = (*strong.sums, first, second, third)
    return Assessment(
        checks=(
            worked_out(kind, "side_load", side, (first,)),
            worked_out(kind, "asked_for", asked, (first, second)),
            *against(evidence, "over_asked", over, working=sums, notes=(strong.source,)),
            *_class_shares(kind, strong),
        )
    )


def _class_shares(kind: str, strong: Strength) -> Iterator[Check]:
    """What the class shares for metal standing rigging leave of the breaking force."""
    row = stress_factor("standing rigging, metal")
    note = say("class_share", kind="standing_wire", source=row.cited)
    for name, share in (("sailing", row.sailing), ("survival", row.survival)):
        load, sum_ = work(load_allowed, {"breaking": strong.force, "share": share})
        yield worked_out(kind, f"load_{name}", load, (*strong.sums, sum_), note=note)
