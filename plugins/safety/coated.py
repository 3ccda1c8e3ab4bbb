"""Wire in a plastic coating where people depend on it: racing rules bar it, since nobody sees what it does inside.

Comes in: the kind and whose clause it is. Goes out: the check and its action. A rule leads no further than `plan`.
"""

from __future__ import annotations

from reporter.contract import Action, Check, Evidence, Grade, LimitKind, Remedy, Text, Verdict, chosen, say


def coated(evidence: Evidence, clause: Text) -> tuple[tuple[Check, ...], tuple[Action, ...]]:
    """The check and its action where the line is coated wire; nothing otherwise."""
    if chosen(evidence, "material") != "coated":
        return (), ()
    kind = evidence.component.kind
    check = Check(
        id=f"{kind}.coated", subject="coated", title=say("said.coated_title"), said=say("said.coated"), verdict=Verdict.SEEN, grade=Grade.PLAN,
        kind=LimitKind.RULE, method=say("said.coated_method", clause=clause),
    )  # fmt: skip
    action = Action(
        id=f"{kind}.coated", what=say("said.coated_ask"), remedy=Remedy.REPLACE, why=check.said,
        grade=check.grade, settles=(check.id,),
    )  # fmt: skip
    return (check,), (action,)
