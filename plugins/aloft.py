"""From where a part aloft was looked at: from deck is part seen, whatever binoculars showed.

Comes in: Evidence of a part whose upper end stands above reach. Goes out: the observation `looked`, which every such
kind asks for, and what is missing while the part was seen from deck alone. It grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Evidence, Missing, Observation

from .answers import fine, unseen

FROM_DECK, WITHIN_REACH = "from_deck", "within_reach"
CAUTIONS_ALOFT = (
    "Aloft: two halyards, each with its own winch and hand; never a snap shackle, tie the halyard on. Not alone, not in a seaway.",
    "Nobody stands under a person aloft; tools on lanyards. A furling halyard or one with an unseen sheave carries nobody.",
)
CAUTION_STAYED = "A stayed mast stands by every wire at once: never slacken or open one before another holds in its place; not under way."


def looked(what: str, *, within_reach: bool = False) -> Observation:
    """The question from where `what` was looked at; the answers run from far to near."""
    near = (fine(WITHIN_REACH, "it is within reach of the deck and was looked at closely"),)
    return Observation(
        id="looked",
        title=f"From where {what} looked at",
        required="needed",
        choices=(
            unseen(
                FROM_DECK, "from deck only: naked eye, binoculars, or a camera without a hand on the part"
            ),
            *(near if within_reach else ()),
            fine("aloft", "aloft, with eye and hand on the part"),
            fine("mast_down", "with the mast down"),
        ),
        help="From deck no part aloft can be called clear: a crack in a swage shows neither in binoculars nor from a drone.",
    )


def not_close(evidence: Evidence, what: str) -> Iterator[Missing]:
    """The parts aloft as missing, where somebody looked from deck; `what` names them."""
    if not _far(evidence):
        return
    yield Missing(
        id="close_up",
        title=f"{what} from close by, aloft or with the mast down",
        needed=True,
        why="Looked at from deck only: part seen.",
    )


def _far(evidence: Evidence) -> bool:
    """True when any answer says from deck, or the examination says so where the answer says otherwise."""
    answers = {each.choice for each in evidence.observed.get("looked", ())}
    how = evidence.component.examined.how
    # Two statements that disagree: the lesser one is taken.
    contradicted = "aloft" in answers and FROM_DECK in how and "aloft" not in how
    return FROM_DECK in answers or contradicted
