"""A free finding about the steering: something that no other kind has a place for.

Comes in: Evidence of one such finding. Goes out: nothing is judged by rule. The grade is the inspector's own
(`judgement`, with its reason); without one the finding stays unseen and says so.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, Missing

NO_RULE = "There is no rule for a free finding: the inspector grades it, and says why."


def assess(evidence: Evidence) -> Assessment:
    """Asks for the inspector's own grade where none was given."""
    if evidence.component.judgement is not None:
        return Assessment()
    return Assessment(
        missing=(Missing(id="judgement", title="The inspector's own grade", needed=True, why=NO_RULE),)
    )
