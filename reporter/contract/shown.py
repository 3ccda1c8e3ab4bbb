"""Arithmetic for information: a sum that is shown but held against no limit, so that it decides nothing.

Comes in: a result with the sums that led to it. Goes out: a Check that neither governs nor scores.
"""

from __future__ import annotations

from reporter.model.assessment import Check, Working
from reporter.model.evidence import MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import Grade, LimitKind, State, Verdict


def worked_out(
    kind: str,
    subject: str,
    value: Value,
    working: tuple[Working, ...],
    *,
    like: MeasurementPoint | None = None,
    note: Text = "",
    title: Text = "",
) -> Check:
    """The check of a derived quantity that no published limit speaks of; `like` lends place, side and state."""
    place = f"@{like.at}/{like.side}/{like.state}" if like else ""
    return Check(
        id=f"{kind}.{subject}.worked{place}",
        subject=subject,
        title=title,
        value=value,
        verdict=Verdict.SEEN,
        grade=Grade.CLEAR,
        kind=LimitKind.DESIGN,
        at=like.at if like else "",
        side=like.side if like else "",
        state=like.state if like else State.FOUND,
        working=working,
        notes=(note,) if note else (),
        governs=False,
    )
