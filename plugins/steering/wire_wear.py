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
    Fact,
    Grade,
    Limit,
    Missing,
    Remedy,
    Spot,
    Value,
    compare,
)
from reporter.engineering import units, work
from reporter.engineering.broken_wires import DIAMETERS
from reporter.engineering.wire import counting_length, loss_of_baseline, loss_of_nominal
from reporter.engineering.wire_sizes import near_neighbours

from .drive import own_value

SAME_SIZE = "steering_wire.diameter.neighbour"
COUNTED = "counted at this place alone; the wire is judged by any one broken wire"


def diameter_losses(evidence: Evidence) -> Iterator[Check]:
    """Loss of nominal, and of the wire's own diameter when new, wherever the diameter was measured."""
    for spot in evidence.at("wire_diameter"):
        yield from _of_nominal(evidence, spot)
        baseline = own_value(evidence, "baseline")
        if baseline:
            loss, sum_ = work(loss_of_baseline, {"baseline": baseline, "measured": spot.value})
            for ident in ("mine", "older"):
                limit = evidence.limit(f"steering_wire.loss_of_baseline.{ident}")
                yield compare(evidence, loss, limit, like=spot, working=(sum_,))


def _of_nominal(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    nominal = evidence.facts.get("diameter")
    if nominal is None or nominal.value is None or neighbours(evidence):
        return
    loss, sum_ = work(loss_of_nominal, {"nominal": nominal.value, "measured": spot.value})
    notes = ("the nominal size was told or estimated, not seen marked",) if nominal.basis.is_guess else ()
    for ident in ("crane", "crane_iso", "crane_older"):
        limit = evidence.limit(f"steering_wire.loss_of_nominal.{ident}")
        yield compare(evidence, loss, limit, like=spot, working=(sum_,), notes=notes)


def neighbours(evidence: Evidence) -> tuple[str, ...]:
    """Sizes that a guessed nominal could be taken for: what nobody saw marked, papered or gauged decides nothing."""
    nominal = evidence.facts.get("diameter")
    if nominal is None or nominal.value is None or not nominal.basis.is_guess:
        return ()
    limit = evidence.limit(SAME_SIZE)
    found = near_neighbours(nominal.value.value, units.to_base(limit.value, limit.unit))
    return tuple(size.name for size in found)


def size_question(evidence: Evidence) -> tuple[Missing, Action] | None:
    """The question that takes the place of a verdict, where a guessed size has a near neighbour."""
    names, nominal = neighbours(evidence), evidence.facts.get("diameter")
    if not names or nominal is None or not evidence.at("wire_diameter"):
        return None
    shown = _shown(nominal)
    why = f"nobody saw {shown} marked, and it could as well be {' or '.join(names)}: no loss is reckoned from it"
    missing = Missing(
        id="nominal_size",
        title="Nominal diameter of the wire, by a mark, a paper or a new end",
        needed=False,
        why=why,
    )
    what = f"Find out whether the wire is {shown} or {' or '.join(names)}: look for a mark, an invoice, or gauge an end that runs over no sheave"
    return missing, Action(
        id="steering_wire.nominal_size", what=what, remedy=Remedy.LOOK, why=why, grade=Grade.UNSEEN
    )


def _shown(nominal: Fact) -> str:
    value = nominal.value
    if value is None or not value.unit:
        return nominal.words
    return value.written or f"{units.from_base(value.value, value.unit):g} {value.unit}"


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
                and _is_for(limit, evidence)
                and _can_tell(limit, evidence, spot)
            ):
                yield compare(
                    evidence,
                    spot.value,
                    limit,
                    like=spot,
                    notes=(COUNTED,),
                )


def _is_for(limit: Limit, evidence: Evidence) -> bool:
    facts = evidence.facts
    return all(name in facts and facts[name].choice in choices for name, choices in limit.applies.items())


def _can_tell(limit: Limit, evidence: Evidence, spot: Spot) -> bool:
    """A count that the rule keeps is kept however it is spread; to condemn, it must lie within the rule's length."""
    if spot.value.value <= limit.value:
        return True
    multiple = DIAMETERS.get(limit.quantity.removeprefix("broken_in_"))
    over, diameter = _counted_over(evidence, spot), own_value(evidence, "diameter")
    if multiple is None or over is None or diameter is None:
        return False
    length, _ = work(counting_length, {"diameter": diameter, "multiple": multiple})
    return over.value <= length.value * (1 + 1e-9)


def _counted_over(evidence: Evidence, spot: Spot) -> Value | None:
    same = [
        each
        for each in evidence.at("counted_over")
        if (each.at, each.side, each.state) == (spot.at, spot.side, spot.state)
    ]
    return same[0].value if same else None
