"""The bitter end: what the last link or the rope's end is made fast to, and with what.

Comes in: Evidence of one bitter end. Goes out: nothing beyond the declaration: no figure is published for it.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    Choice,
    DetailField,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Remedy,
)

LASH = "Make the bitter end fast with a lashing as strong as can be cut from on deck, long enough to come out of the hawse"
POINT = "Give the bitter end a strong point that is bolted through or laminated to the hull"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


plugin = Plugin(
    kind="bitter_end",
    title="Bitter end",
    plural="Bitter ends",
    system="ground",
    load_path=True,
    station="locker",
    purpose="keeps the last of the chain aboard",
    cautions=("Windlass isolated and chain held by a hook before anybody climbs into the locker.",),
    tools=("torch", "knife"),
    supplies=("lashing line", "seizing wire"),
    examination=(
        ExaminationItem(id="run_out", words="the whole rode run out, so that the end can be seen"),
        ExaminationItem(id="point", words="the strong point pulled by hand and looked at from behind"),
    ),
    proof=(
        ProofItem(id="fast", words="made fast, and reaches the deck"),
        ProofItem(id="cut", words="can be cut or slipped from on deck"),
    ),
    details=(
        DetailField(
            id="by", title="Made fast by", holds="choice",
            choices={"lashing": "lashing", "shackle": "shackle", "knot": "knot in the rope", "slip": "slip hook or pin", "nothing": "nothing"},
        ),
        DetailField(id="installed", title="Lashing renewed", holds="date"),
    ),
    observations=(
        Observation(
            id="fast", title="Made fast", required="needed",
            choices=(
                Choice(id="fast", words="made fast to a strong point, lashing whole", grade=Grade.CLEAR),
                Choice(id="weathered", words="made fast, lashing faded or shackle rusted", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=LASH),
                Choice(id="rotten", words="lashing rotten or chafed, or pin backing out", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=LASH),
                Choice(id="not", words="not made fast", grade=Grade.STOP, remedy=Remedy.REFIT, action=LASH),
            ),
        ),
        Observation(
            id="point", title="Strong point", required="needed",
            choices=(
                Choice(id="strong", words="bolted through or laminated in, nothing moves", grade=Grade.CLEAR),
                Choice(id="rusted", words="rusted, nothing moves", grade=Grade.PLAN, remedy=Remedy.REPAIR, action=POINT),
                Choice(id="screwed", words="screwed to light structure only", grade=Grade.FIRST, remedy=Remedy.REFIT, action=POINT),
                Choice(id="moves", words="moves, cracked, or pulling out", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=POINT),
            ),
        ),
        Observation(
            id="slip", title="Letting go in need",
            choices=(
                Choice(id="cut", words="its lashing comes out of the hawse and can be cut, or slipped, from on deck", grade=Grade.CLEAR),
                Choice(id="locker", words="can be reached only inside the locker", grade=Grade.PLAN, remedy=Remedy.REFIT, action=LASH),
                Choice(id="never", words="cannot be let go under load", grade=Grade.PLAN, remedy=Remedy.REFIT, action=LASH),
            ),
        ),
        Observation(
            id="locker", title="Chain locker",
            choices=(
                Choice(id="drains", words="drains, chain falls without heaping up to the gypsy", grade=Grade.CLEAR),
                Choice(id="wet", words="drain blocked", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Clear the locker's drain, and rinse chain and locker"),
                Choice(id="heaps", words="chain heaps up and jams", grade=Grade.PLAN, remedy=Remedy.ADJUST, action="Knock the heap down while hauling, and look for a way to let the chain fall further"),
            ),
        ),
    ),
    care=(Care(id="look", what="Run the whole rode out, look at the bitter end, and renew its lashing where it has faded", supply="lashing line", months=12, remedy=Remedy.LOOK),),
    assess=assess,
)  # fmt: skip
