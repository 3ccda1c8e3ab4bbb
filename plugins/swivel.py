"""Swivels between chain and anchor.

Comes in: Evidence of one swivel. Goes out: wear of its pins. The limit stands in swivel.toml; side load, cracks and
pins that can unscrew are observations.
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
    load_limits,
)

from .link_wear import SIZE, WEAR, WORN, link_wear

RENEW = "Renew the swivel, or join chain and anchor by a shackle without one"


def assess(evidence: Evidence) -> Assessment:
    """Wear where it was measured; observations decide the rest."""
    return Assessment(checks=tuple(link_wear(evidence)))


plugin = Plugin(
    kind="swivel",
    title="Swivel",
    plural="Swivels",
    system="ground",
    load_path=True,
    station="bow",
    purpose="lets the chain turn without twisting",
    cautions=("Lash the anchor and take the load off the chain before the swivel's pins are turned.",),
    tools=("hex keys or [spanner]s", "magnifier", "vernier caliper"),
    supplies=("thread-locking compound", "swivel of the chain's strength"),
    examination=(
        ExaminationItem(id="turned", words="turned all round by hand, washed first"),
        ExaminationItem(id="jaws", words="both jaws and both pins, inside too, with a magnifier"),
    ),
    proof=(
        ProofItem(id="pins", words="pins home and locked"),
        ProofItem(id="turns", words="turns freely with the chain hanging in it"),
        ProofItem(id="roller", words="comes over the bow roller without jamming"),
    ),
    details=(
        SIZE,
        DetailField(
            id="material", title="Made of", holds="choice",
            choices={"stainless": "stainless steel", "galvanised": "galvanised steel", "unknown": "not known"},
        ),
        DetailField(id="marked_working_load", title="Working load marked on it", holds="force", unit="kN", imperial="lbf", plausible=(1, 500)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(WORN,),
    derived=(WEAR,),
    observations=(
        Observation(
            id="turning", title="Turning", required="needed",
            choices=(
                Choice(id="free", words="turns freely", grade=Grade.CLEAR),
                Choice(id="stiff", words="turns stiffly", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Rinse the swivel and work it free; it needs no oil"),
                Choice(id="seized", words="seized", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
            ),
        ),
        Observation(
            id="jaws", title="Jaws and body", required="needed",
            choices=(
                Choice(id="straight", words="straight, no pit and no crack", grade=Grade.CLEAR),
                Choice(id="pitted", words="pits or rust streaks, inside too", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
                Choice(id="spread", words="a jaw spread or bent", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="cracked", words="cracked", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="pins", title="Pins", required="needed",
            choices=(
                Choice(id="locked", words="home and locked", grade=Grade.CLEAR),
                Choice(id="unlocked", words="home, but with no lock", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Take the pins out, clean them, and put them in with thread-locking compound or seizing"),
                Choice(id="backing", words="backing out, bent or worn", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="side_load", title="Side load",
            choices=(
                Choice(id="free", words="a shackle or links between swivel and anchor let it line up with the pull", grade=Grade.CLEAR),
                Choice(id="levered", words="fixed straight to the shank: a sideways pull levers its jaw", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Put a shackle or a few links between swivel and anchor, or leave the swivel out"),
            ),
        ),
        Observation(
            id="match", title="Strength beside the chain",
            choices=(
                Choice(id="as_strong", words="marked, as strong as the chain", grade=Grade.CLEAR),
                Choice(id="unmarked", words="no mark, its strength is not known", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
                Choice(id="weaker", words="weaker than the chain by its mark", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=RENEW),
            ),
        ),
    ),
    limits=load_limits(__package__, "swivel.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse the swivel, turn it all round, and look into its jaws", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
