"""Strength of a chainplate at its hole, on request: net section, tear-out, pin, and the slack of pin in hole.

Comes in: Evidence of one chainplate with its sizes as read. Goes out: design checks and sums, all for the undamaged
plate and withheld once damage is recorded. The material's figures stand in chainplate.toml with their source.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    Fact,
    MeasurementPoint,
    Missing,
    Value,
    Working,
    against,
    at_place,
    named,
    say,
    withheld,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.rigloads import (
    hole_over_pin,
    net_section,
    pin_bearing,
    pin_double_shear,
    section_strength,
    slack_hole_loss,
    strength_ratio,
    tear_out,
)

KIND = "chainplate"
SIZES = {"thickness": "plate_thickness", "width": "plate_width", "hole": "hole_diameter"}

Loaded = tuple[str, Value, tuple[Working, ...]]


def plate_strength(evidence: Evidence) -> Assessment:
    """Slack of the hole wherever pin and hole were read; strength where the plate's sizes were."""
    slack = tuple(check for spot in evidence.at("hole_diameter") for check in _slack(evidence, spot))
    odd = tuple(_mismeasured(evidence))
    asked = any(evidence.at(name) for name in SIZES.values() if name != "hole_diameter")
    if not asked:
        return Assessment(checks=slack, missing=odd)
    if evidence.damaged:
        return Assessment(checks=(*slack, withheld(KIND, "over_wire")), missing=odd)
    sized = [each for hole in evidence.at("hole_diameter") if (each := _sized(evidence, hole))]
    title, why = say("over_wire", kind="chainplate"), say("no_sizes", kind="chainplate")
    lacking = Missing(id="over_wire", title=title, needed=False, why=why)
    return Assessment(
        checks=(*slack, *(check for hole, parts in sized for check in _told(evidence, hole, parts))),
        missing=odd if sized else (*odd, lacking),
    )


def _same(evidence: Evidence, quantity: str, spot: MeasurementPoint) -> Value | None:
    found = at_place(evidence, quantity, spot)
    return found.value if found else None


def _slack(evidence: Evidence, hole: MeasurementPoint) -> Iterator[Check]:
    pin = _same(evidence, "pin_diameter", hole)
    if pin is None or hole.value.value < pin.value:
        return
    inputs = {"hole": hole.value, "pin": pin}
    wider, sum_ = work(hole_over_pin, inputs)
    yield from against(evidence, "hole_over_pin", wider, like=hole, working=(sum_,))
    if not evidence.damaged:
        lost, loss = work(slack_hole_loss, inputs)
        yield from against(evidence, "slack_loss", lost, like=hole, working=(loss,))


def _mismeasured(evidence: Evidence) -> Iterator[Missing]:
    for hole in evidence.at("hole_diameter"):
        pin = _same(evidence, "pin_diameter", hole)
        if pin is not None and hole.value.value < pin.value:
            title, why = say("odd", kind="chainplate"), say("odd_why", kind="chainplate")
            yield Missing(id="hole_over_pin", title=title, needed=False, why=why)


def _sized(evidence: Evidence, hole: MeasurementPoint) -> tuple[MeasurementPoint, list[Loaded]] | None:
    """What the plate carries by each way it can fail; None while a size is lacking."""
    thickness, width = (_same(evidence, name, hole) for name in ("plate_thickness", "plate_width"))
    material = evidence.facts.get("plate_material")
    if thickness is None or width is None or hole.value.value >= width.value:
        return None
    if material is None or material.choice != "stainless_300":
        return None
    area, first = work(net_section, {"thickness": thickness, "width": width, "hole": hole.value})
    parts: list[Loaded] = [("net_section", area, (first,))]
    for name in ("yield", "ultimate"):
        force, sum_ = work(section_strength, {"section": area, "strength": _stress(evidence, name)})
        parts.append((f"net_{name}", force, (first, sum_)))
    return hole, [*parts, *_end_and_pin(evidence, hole, thickness)]


def _end_and_pin(evidence: Evidence, hole: MeasurementPoint, thickness: Value) -> Iterator[Loaded]:
    edge, pin, shear = (
        _same(evidence, "edge_distance", hole),
        _same(evidence, "pin_diameter", hole),
        _stress(evidence, "shear"),
    )
    if edge is not None and edge.value > hole.value.value / 2:
        inputs = {"thickness": thickness, "edge": edge, "hole": hole.value, "shear": shear}
        force, sum_ = work(tear_out, inputs)
        yield "tear_out", force, (sum_,)
    if pin is not None:
        force, sum_ = work(pin_double_shear, {"pin": pin, "shear": shear})
        yield "pin_shear", force, (sum_,)


def _stress(evidence: Evidence, name: str) -> Value:
    limit = evidence.limit(f"chainplate.stress.{name}")
    return Value(dimension=Dimension.PRESSURE, value=units.to_base(limit.value, limit.unit), unit="N/mm²")


def _told(evidence: Evidence, hole: MeasurementPoint, parts: list[Loaded]) -> Iterator[Check]:
    for name, value, sums in parts:
        yield worked_out(KIND, name, value, sums, like=hole)
    wire = _wire(evidence)
    if wire is None:
        return
    breaking = [each for each in parts if each[0] in {"net_ultimate", "tear_out", "pin_shear"}]
    weakest, force, sums = min(breaking, key=lambda part: part[1].value)
    ratio, sum_ = work(strength_ratio, {"part": force, "wire": wire})
    note = say("weakest", kind="chainplate", title=named(KIND, "derived", weakest, "title"))
    yield from against(evidence, "over_wire", ratio, like=hole, working=(*sums, sum_), notes=(note,))
    yield from _pressure(evidence, hole, wire)


def _pressure(evidence: Evidence, hole: MeasurementPoint, wire: Value) -> Iterator[Check]:
    pin, thickness = _same(evidence, "pin_diameter", hole), _same(evidence, "plate_thickness", hole)
    if pin is not None and thickness is not None:
        pressure, sum_ = work(pin_bearing, {"load": wire, "pin": pin, "thickness": thickness})
        note = say("at_breaking", kind="chainplate")
        yield worked_out(KIND, "pin_pressure", pressure, (sum_,), like=hole, note=note)


def _wire(evidence: Evidence) -> Value | None:
    own, needed = evidence.facts.get("wire_strength"), evidence.needed.get("wire_strength")
    if own and own.value:
        return own.value
    return needed.value if isinstance(needed, Fact) else None
