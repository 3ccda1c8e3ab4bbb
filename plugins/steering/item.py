"""A free finding about the steering: something that no other kind has a place for.

Comes in: Evidence of one such finding. Goes out: nothing is judged by rule. The grade is the inspector's own
(`judgement`, with its reason); without one the finding stays unseen and says so.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, Missing, say


def assess(evidence: Evidence) -> Assessment:
    """Asks for the inspector's own grade where none was given."""
    if evidence.component.judgement is not None:
        return Assessment()
    title, why = say("own_grade", kind="item"), say("no_rule", kind="item")
    return Assessment(missing=(Missing(id="judgement", title=title, needed=True, why=why),))
