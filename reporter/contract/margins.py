"""When a part has no strength margin left to speak of: damage seen, or wear beyond a limit.

Comes in: Evidence, and the checks made so far. Goes out: yes or no, and the check that says why no figure is given.
"""

from __future__ import annotations

from collections.abc import Iterable

from reporter.contract.given import meant
from reporter.engineering.verdict import compare
from reporter.model.assessment import Check
from reporter.model.evidence import Evidence
from reporter.model.terms import Grade, LimitKind, Verdict


def is_spent(evidence: Evidence, checks: Iterable[Check] = (), readings: Iterable[str] = ()) -> bool:
    """True when damage was recorded, or a governing condition limit is reached by a check or a reading named."""
    if evidence.damaged:
        return True
    direct = (
        compare(evidence, spot.value, limit, like=spot)
        for limit in evidence.limits.values()
        if limit.quantity in readings and limit.governs and meant(limit, evidence)
        for spot in evidence.at(limit.quantity)
    )
    return any(_reached(check) for check in (*checks, *direct))


def _reached(check: Check) -> bool:
    worn = check.governs and check.kind is LimitKind.CONDITION
    return worn and check.grade.rank >= Grade.FIRST.rank


def withheld(kind: str, subject: str) -> Check:
    """Takes the place of a strength figure once the part is damaged."""
    return Check(
        id=f"{kind}.{subject}.withheld", subject=subject,
        verdict=Verdict.NOT_APPLICABLE, grade=Grade.CLEAR, kind=LimitKind.DESIGN, governs=False,
    )  # fmt: skip
