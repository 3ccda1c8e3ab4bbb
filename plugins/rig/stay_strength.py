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
    Grade,
    LimitKind,
    Missing,
    Value,
    Verdict,
    Working,
    compare,
    worked_out,
)
from reporter.engineering import cited, units, work
from reporter.engineering.rigloads import strength_ratio, stress_factor, transverse_load, wire_asked_for
from reporter.engineering.rows import StrandStrength
from reporter.engineering.strand import published_strengths, reckoned_strength
from reporter.engineering.wire import load_allowed

from .stay_wear import is_spent

TITLE = "Breaking force of the undamaged wire"
ASKED = "Breaking force over what is asked for"
METALS = {"316": ("316", "unstated"), "302_304": ("302/304", "302", "304", "unstated")}
STRESS = "the class table speaks of stress; set against a breaking force it is an assumption"


class Strength(NamedTuple):
    """A breaking force, the sum behind it where there is one, and where it comes from."""

    force: Value
    sums: tuple[Working, ...]
    source: str


def strength(evidence: Evidence) -> Assessment:
    """Every breaking force that has a source, and the sizing estimate where its share and factor were given.

    Nothing at all where nobody asked: a report is not filled with sums that nobody reads.
    """
    if not asked(evidence):
        return Assessment()
    if is_spent(evidence):
        return Assessment(checks=(_withheld(evidence.component.kind),))
    found = known_strengths(evidence)
    if not found:
        why = "None is published here for this size, construction and material: its papers are needed."
        return Assessment(missing=(Missing(id="breaking_force", title=TITLE, needed=False, why=why),))
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
        words = source.words if source and source.words else "their source was not noted"
        yield Strength(marked.value, (), f"by its papers: {words}")


def _rows(evidence: Evidence) -> tuple[StrandStrength, ...]:
    """The published rows of its very size, of its material or of one that the print does not name."""
    diameter, material = _diameter(evidence), choice(evidence, "grade_material")
    if diameter is None or material == "galvanised":
        return ()
    rows = published_strengths(choice(evidence, "construction"), diameter.value)
    return tuple(row for row in rows if material not in METALS or row.material in METALS[material])


def _published(evidence: Evidence) -> Iterator[Strength]:
    for row in _rows(evidence):
        force = Value(dimension=Dimension.FORCE, value=units.to_base(row.strength, row.unit), unit="kN")
        yield Strength(force, (), f"{row.diameter}, {row.material}: {row.strength:g} {row.unit}, {row.cited}")


def _reckoned(evidence: Evidence) -> Iterator[Strength]:
    """From the neighbouring sizes, unless its own is published in a named material."""
    diameter, material = _diameter(evidence), choice(evidence, "grade_material")
    if diameter is None or choice(evidence, "construction") != "1x19" or material == "galvanised":
        return
    if any(row.material != "unstated" for row in _rows(evidence)):
        return
    force, sum_ = reckoned_strength(diameter)
    taken = "" if material == "316" else "; taken as stainless 316, the weaker"
    yield Strength(force, (sum_,), f"reckoned from other sizes{taken}: {cited(sum_.source)}")


def choice(evidence: Evidence, detail: str) -> str:
    """The choice that a detail holds, or nothing."""
    fact = evidence.facts.get(detail)
    return fact.choice if fact else ""


def _diameter(evidence: Evidence) -> Value | None:
    fact = evidence.facts.get("diameter")
    return fact.value if fact else None


def _withheld(kind: str) -> Check:
    return Check(
        id=f"{kind}.breaking_force.withheld", subject="breaking_force", title=TITLE, said="not applicable: damaged",
        verdict=Verdict.NOT_APPLICABLE, grade=Grade.CLEAR, kind=LimitKind.DESIGN, governs=False,
    )  # fmt: skip


def _told(evidence: Evidence, found: tuple[Strength, ...]) -> Iterator[Check]:
    """One line for each source: where tables disagree, the reader sees by how much."""
    for number, each in enumerate(found, start=1):
        told = worked_out(evidence.component.kind, "breaking_force", each.force, each.sums, note=each.source)
        yield told.model_copy(update={"id": f"{told.id}_{number}"})


def _sizing(evidence: Evidence, strong: Strength) -> Assessment:
    """Load of the side by the righting moment, what this wire is asked for, and its strength over that."""
    share, factor = (evidence.facts.get(name) for name in ("load_share", "safety_factor"))
    if not (share and share.value and factor and factor.value):
        return Assessment()
    moment, beam = evidence.needed.get("righting_moment"), _beam(evidence)
    if not isinstance(moment, Value) or beam is None:
        why = "It takes the vessel's righting moment at 30° of heel and her beam at the chainplates."
        return Assessment(missing=(Missing(id="over_asked", title=ASKED, needed=False, why=why),))
    kind = evidence.component.kind
    side, first = work(transverse_load, {"righting_moment": moment, "beam": beam})
    asked, second = work(wire_asked_for, {"transverse": side, "share": share.value, "safety": factor.value})
    over, third = work(strength_ratio, {"part": strong.force, "wire": asked})
    limit = evidence.limit(f"{kind}.over_asked.estimate")
    check = compare(
        evidence,
        over,
        limit,
        working=(*strong.sums, first, second, third),
        notes=(strong.source,),
    )
    return Assessment(
        checks=(
            worked_out(kind, "side_load", side, (first,)),
            worked_out(kind, "asked_for", asked, (first, second)),
            check,
            *_class_shares(kind, strong),
        )
    )


def _beam(evidence: Evidence) -> Value | None:
    own, vessel = evidence.facts.get("chainplate_beam"), evidence.needed.get("beam")
    if own and own.value:
        return own.value
    return vessel if isinstance(vessel, Value) else None


def _class_shares(kind: str, strong: Strength) -> Iterator[Check]:
    """What the class shares for metal standing rigging leave of the breaking force."""
    row = stress_factor("standing rigging, metal")
    for name, share in (("sailing", row.sailing), ("survival", row.survival)):
        load, sum_ = work(load_allowed, {"breaking": strong.force, "share": share})
        yield worked_out(kind, f"load_{name}", load, (*strong.sums, sum_), note=f"{row.cited}; {STRESS}")
