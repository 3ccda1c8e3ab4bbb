"""Load of the rudder into its stock, on request: force by area and speed, bending, torsion, stress.

Comes in: Evidence of one blade with a speed to reckon for and the centre of pressure. Goes out: sums for information;
an estimate judges no rudder. The force is a seminar's for an emergency rudder worked hard; a standard's own formula is
not held here.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Check, Evidence, Text, Value, Working, say, stated, worked_out
from reporter.engineering import cited, work
from reporter.engineering.stock import combined_moment, emergency_rudder_force, moment, stock_stress

from .drive import needed_value

KIND = "rudder_blade"


def rudder_load(evidence: Evidence) -> Iterator[Check]:
    """Force at the speed asked for; bending and torsion where their levers are known; stress of a solid stock."""
    area, speed = stated(evidence, "area"), _first(evidence, "speed_asked")
    if area is None or speed is None or evidence.damaged:
        return
    force, sum_ = work(emergency_rudder_force, {"area": area, "speed": speed})
    yield _told("rudder_force", force, (sum_,), cited(sum_.source))
    below, aft = (_first(evidence, name) for name in ("pressure_below", "pressure_aft"))
    bending = work(moment, {"force": force, "arm": below}) if below else None
    torsion = work(moment, {"force": force, "arm": aft}) if aft else None
    for name, found in (("stock_bending", bending), ("stock_torsion", torsion)):
        if found:
            yield _told(name, found[0], (sum_, found[1]))
    stock = needed_value(evidence, "stock_diameter")
    if bending and torsion and stock:
        both, third = work(combined_moment, {"bending": bending[0], "torque": torsion[0]})
        stress, fourth = work(stock_stress, {"moment": both, "diameter": stock})
        yield _told("stock_stress", stress, (third, fourth), say("hollow", kind="rudder_blade"))


def _told(name: str, value: Value, sums: tuple[Working, ...], note: Text = "") -> Check:
    return worked_out(KIND, name, value, sums, note=note)


def _first(evidence: Evidence, name: str) -> Value | None:
    return next((spot.value for spot in evidence.at(name)), None)
