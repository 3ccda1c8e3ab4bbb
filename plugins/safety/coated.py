"""Wire in a plastic coating where people depend on it: racing rules bar it, since nobody sees what it does inside.

Comes in: the kind and whose clause it is. Goes out: the check and its action. A rule leads no further than `plan`.
"""

from __future__ import annotations

from reporter.contract import Action, Check, Evidence, Grade, LimitKind, Remedy, Verdict, chosen

SAID = "wire in a plastic coating: what it does inside cannot be seen, and rules for racing yachts bar it"


def coated(evidence: Evidence, clause: str) -> tuple[tuple[Check, ...], tuple[Action, ...]]:
    """The check and its action where the line is coated wire; nothing otherwise."""
    if chosen(evidence, "material") != "coated":
        return (), ()
    kind = evidence.component.kind
    check = Check(
        id=f"{kind}.coated", subject="coated", title="Coating", said=SAID, verdict=Verdict.SEEN, grade=Grade.PLAN,
        kind=LimitKind.RULE, method=f"Offshore Special Regulations, {clause}, as quoted in a secondary text",
    )  # fmt: skip
    action = Action(
        id=f"{kind}.coated", what="Have bare wire planned for in place of the coated one", remedy=Remedy.REPLACE, why=SAID,
        grade=check.grade, settles=(check.id,),
    )  # fmt: skip
    return (check,), (action,)
