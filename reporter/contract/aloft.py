"""From where a part aloft was looked at: from deck is part seen, whatever binoculars showed.

Comes in: Evidence of a part whose upper end stands above reach. Goes out: the observation `looked`, which every such
kind asks for, and what is missing while the part was seen from deck alone. It grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Assessment, Missing
from reporter.model.evidence import Evidence
from reporter.model.saying import Saying, say

FROM_DECK, WITHIN_REACH = "from_deck", "within_reach"


def not_close(evidence: Evidence) -> Iterator[Missing]:
    """The parts aloft as missing, where somebody looked from deck; the kind says `aloft` what they are."""
    if not _far(evidence):
        return
    yield Missing(
        id="close_up",
        title=say("said.close_by", what=Saying(say="aloft", kind=evidence.component.kind)),
        needed=True,
        why=say("said.from_deck"),
    )


def aloft_alone(evidence: Evidence) -> Assessment:
    """The whole arithmetic of a kind that has none: observations decide, and what is aloft is missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence)))


def _far(evidence: Evidence) -> bool:
    """True when any answer says from deck, or the examination says so where the answer says otherwise."""
    answers = {each.choice for each in evidence.observed.get("looked", ())}
    how = evidence.component.examined.how
    # Two statements that disagree: the lesser one is taken.
    contradicted = "aloft" in answers and FROM_DECK in how and "aloft" not in how
    return FROM_DECK in answers or contradicted
