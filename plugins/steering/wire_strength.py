"""Strength of a steering wire by its construction, with its ends, and beside the pull of a hand at the rim.

Comes in: Evidence of one steering wire, with wheel and chain of the same helm. Goes out: design checks and sums for
information; all of them hold for the undamaged wire and are withheld once damage is recorded. Stainless wire has a
strength here only where it is marked or the table prints its very size.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    Text,
    Value,
    Working,
    against,
    chosen,
    lacking,
    say,
    stated,
    withheld,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.constants import INCH
from reporter.engineering.mechanics import chain_pull, factor_of_safety
from reporter.engineering.wire import (
    control_cable,
    control_cable_strength,
    end_efficiency,
    load_allowed,
    minimum_breaking_force,
    rope_factor,
    with_end,
)

from .drive import half, needed_value, sprocket
from .wire_wear import is_spent

INCH_SIZE = 0.002
"""How near a diameter must lie to a printed inch size, as a fraction: 4 mm is not 5/32 in."""

Breaking = tuple[Value, tuple[Working, ...], Text]


def strength(evidence: Evidence) -> Assessment:
    """Breaking force, what the ends leave of it, the load allowed, and the margin over a measured pull."""
    if not stated(evidence, "diameter") and not stated(evidence, "marked_strength"):
        return Assessment()
    if is_spent(evidence):
        return Assessment(checks=(withheld("steering_wire", "breaking_force"),))
    found = breaking_force(evidence)
    if not isinstance(found, tuple):
        return Assessment(missing=(lacking("steering_wire", "breaking_force", found),))
    force, sums, source = found
    told = worked_out("steering_wire", "breaking_force", force, sums, note=source)
    return Assessment(checks=(told, *_with_ends(evidence, force), *_load(evidence, force)))


def breaking_force(evidence: Evidence) -> Breaking | Text:
    """Force, its sum, and where it comes from; or why none is given."""
    marked, diameter = stated(evidence, "marked_strength"), stated(evidence, "diameter")
    if marked:
        return marked, (), say("marked", kind="steering_wire")
    construction, material = chosen(evidence, "construction"), chosen(evidence, "grade_material")
    if diameter is None or construction not in {"7x19", "7x7"}:
        return say("no_strength", kind="steering_wire")
    if material not in {"carbon", "stainless"}:
        return say("no_material", kind="steering_wire")
    printed = _printed(diameter.value, construction, stainless=material == "stainless")
    if printed:
        return printed
    if material == "stainless":
        return say("stainless", kind="steering_wire")
    return _by_factor(diameter, construction, chosen(evidence, "tensile_grade"))


def _printed(diameter: float, construction: str, *, stainless: bool) -> Breaking | None:
    try:
        row = control_cable(diameter, construction)
    except ValueError:
        return None
    if abs(diameter / (row.diameter_in * INCH) - 1) > INCH_SIZE:
        return None
    newtons = control_cable_strength(diameter, construction, stainless=stainless)
    source = say("printed", kind="steering_wire", source=row.cited)
    return Value(dimension=Dimension.FORCE, value=newtons, unit="kN"), (), source


def _by_factor(diameter: Value, construction: str, grade: str) -> Breaking | Text:
    if grade not in {"1570", "1770"}:
        return say("no_grade", kind="steering_wire")
    pascals = Value(dimension=Dimension.PRESSURE, value=units.to_base(float(grade), "N/mm²"), unit="N/mm²")
    row = rope_factor(construction)
    force, sum_ = work(
        minimum_breaking_force, {"diameter": diameter, "grade": pascals, "factor": row.strength_factor}
    )
    rope = row.rope_class
    told = say("by_factor", kind="steering_wire", source=row.cited, construction=construction, rope=rope)
    return force, (sum_,), told


def _with_ends(evidence: Evidence, force: Value) -> Iterator[Check]:
    """What the weakest kind of end keeps of the strength, beside the share that mine rules ask for."""
    try:
        row = end_efficiency(chosen(evidence, "end"))
    except ValueError:
        return
    kept = Value(dimension=Dimension.RATIO, value=row.kept, unit="%")
    at_end, sum_ = work(with_end, {"breaking": force, "kept": kept})
    yield worked_out("steering_wire", "breaking_with_end", at_end, (sum_,))
    yield from against(evidence, "end_kept", kept, notes=(row.cited,))


def _load(evidence: Evidence, force: Value) -> Iterator[Check]:
    """The load allowed, and a measured pull at the rim beside it."""
    limit = evidence.limit("steering_wire.load_share.steering")
    share = Value(dimension=Dimension.RATIO, value=units.to_base(limit.value, limit.unit), unit="%")
    allowed, sum_ = work(load_allowed, {"breaking": force, "share": share})
    yield worked_out("steering_wire", "load_allowed", allowed, (sum_,))
    for spot in evidence.at("rim_force"):
        driven, wheel = sprocket(evidence), needed_value(evidence, "wheel_diameter")
        if driven and wheel:
            inputs = {"rim_force": spot.value, "wheel_radius": half(wheel), "sprocket_radius": driven[0]}
            pull, pulled = work(chain_pull, inputs)
            yield worked_out("steering_wire", "wire_pull", pull, (driven[1], pulled), like=spot)
            factor, margin = work(factor_of_safety, {"strength": force, "load": pull})
            yield worked_out("steering_wire", "factor", factor, (margin,), like=spot)
            part = Value(
                dimension=Dimension.RATIO, value=1 / factor.value, u=factor.u / factor.value**2, unit="%"
            )
            sums = (driven[1], pulled, margin)
            yield from against(evidence, "load_share", part, like=spot, working=sums)
