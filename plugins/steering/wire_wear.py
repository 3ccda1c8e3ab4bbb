"""Wear of a steering wire in figures: diameter lost of what, and broken wires beside the rules written for other wires.

Comes in: Evidence of one steering wire. Goes out: checks. The count of broken wires itself is judged by the declaration:
any one condemns the wire. What the rules for cranes, slings and mines would say is for information and never governs.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Check,
    Evidence,
    Limit,
    MeasurementPoint,
    Missing,
    against,
    asking,
    at_place,
    compare,
    either,
    neighbours,
    say,
    stated,
    stated_size,
)
from reporter.engineering import work
from reporter.engineering.broken_wires import DIAMETERS
from reporter.engineering.wire import counting_length, loss_of_baseline, loss_of_nominal

SAME_SIZE = "steering_wire.diameter.neighbour"


def diameter_losses(evidence: Evidence) -> Iterator[Check]:
    """Loss of nominal, and of the wire's own diameter when new, wherever the diameter was measured."""
    for spot in evidence.at("wire_diameter"):
        yield from _of_nominal(evidence, spot)
        baseline = stated(evidence, "baseline")
        if baseline:
            loss, sum_ = work(loss_of_baseline, {"baseline": baseline, "measured": spot.value})
            yield from against(evidence, "loss_of_baseline", loss, like=spot, working=(sum_,))


def _of_nominal(evidence: Evidence, spot: MeasurementPoint) -> Iterator[Check]:
    nominal = evidence.facts.get("diameter")
    if nominal is None or nominal.value is None or neighbours(evidence, "diameter", SAME_SIZE):
        return
    loss, sum_ = work(loss_of_nominal, {"nominal": nominal.value, "measured": spot.value})
    notes = (say("guessed", kind="steering_wire"),) if nominal.basis.is_guess else ()
    yield from against(evidence, "loss_of_nominal", loss, like=spot, working=(sum_,), notes=notes)


def size_question(evidence: Evidence) -> tuple[Missing, Action] | None:
    """The question that takes the place of a verdict, where a guessed size has a near neighbour."""
    names, nominal = neighbours(evidence, "diameter", SAME_SIZE), evidence.facts.get("diameter")
    if not names or nominal is None or not evidence.at("wire_diameter"):
        return None
    shown, others = stated_size(nominal), either(names)
    return asking(
        "steering_wire.nominal_size",
        say("nominal", kind="steering_wire"),
        say("nominal_why", kind="steering_wire", shown=shown, others=others),
        say("nominal_ask", kind="steering_wire", shown=shown, others=others),
    )


def is_spent(evidence: Evidence) -> bool:
    """True when damage was recorded, a wire counted broken, or wear has reached a governing limit anywhere."""
    if evidence.damaged or any(spot.value.value > 0 for spot in evidence.at("broken_wires")):
        return True
    worn = evidence.limit("steering_wire.outer_wear.third")
    outer = (compare(evidence, spot.value, worn, like=spot) for spot in evidence.at("outer_wear"))
    return any(
        check.governs and check.grade.rank >= worn.then.rank for check in (*outer, *diameter_losses(evidence))
    )


def beside_other_rules(evidence: Evidence) -> Iterator[Check]:
    """What each published rule for other wires says of the broken wires of one place, where that can be told."""
    for spot in evidence.at("broken_wires"):
        for limit in evidence.limits.values():
            if (
                limit.quantity.startswith("broken_in_")
                and evidence.meets(limit.applies)
                and _can_tell(limit, evidence, spot)
            ):
                yield compare(
                    evidence,
                    spot.value,
                    limit,
                    like=spot,
                    notes=(say("counted", kind="steering_wire"),),
                )


def _can_tell(limit: Limit, evidence: Evidence, spot: MeasurementPoint) -> bool:
    """A count that the rule keeps is kept however it is spread; to condemn, it must lie within the rule's length."""
    if spot.value.value <= limit.value:
        return True
    multiple = DIAMETERS.get(limit.quantity.removeprefix("broken_in_"))
    over, diameter = at_place(evidence, "counted_over", spot), stated(evidence, "diameter")
    if multiple is None or over is None or diameter is None:
        return False
    length, _ = work(counting_length, {"diameter": diameter, "multiple": multiple})
    return over.value.value <= length.value * (1 + 1e-9)
