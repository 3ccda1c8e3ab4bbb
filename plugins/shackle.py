"""Shackles of the ground tackle: between anchor, swivel, chain and rope.

Comes in: Evidence of one shackle or of all of one rode. Goes out: wear of its diameter. The limit stands in
shackle.toml; whether the pin can unscrew is an observation.
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

RENEW = "Renew the shackle with one of the chain's strength"
MOUSE = "Turn the pin home and seize it with wire of the shackle's metal, twice round"


def assess(evidence: Evidence) -> Assessment:
    """Wear where it was measured; observations decide the rest."""
    return Assessment(checks=tuple(link_wear(evidence)))


plugin = Plugin(
    kind="shackle",
    title="Anchor shackles",
    plural="Anchor shackles",
    system="ground",
    load_path=True,
    station="bow",
    purpose="join the parts of the ground tackle",
    cautions=("Take the load off before a pin is turned, and lash the anchor first.",),
    tools=("shackle key or marlinspike", "vernier caliper", "wire brush", "pliers"),
    supplies=("seizing wire of the shackle's own metal", "shackle of the same or greater strength", "grease for the pin's thread"),
    examination=(
        ExaminationItem(id="turned", words="the shackle turned round and looked at where it bears, rust brushed off"),
        ExaminationItem(id="pin", words="pin and mousing felt by hand"),
    ),
    proof=(
        ProofItem(id="home", words="pin turned home and moused"),
        ProofItem(id="free", words="lies free: pin in the anchor's eye or as its maker says, nothing levered"),
    ),
    details=(
        SIZE,
        DetailField(
            id="material", title="Made of", holds="choice",
            choices={"galvanised": "galvanised steel", "stainless": "stainless steel", "alloy": "alloy steel, tempered", "unknown": "not known"},
        ),
        DetailField(id="marked_working_load", title="Working load marked on it", holds="force", unit="kN", imperial="lbf", plausible=(1, 500)),
        DetailField(
            id="mousing", title="Secured by", holds="choice",
            choices={"wire": "seizing wire", "tie": "plastic tie", "pin": "[split pin] or nut and pin", "peened": "pin peened over", "none": "nothing"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(WORN,),
    derived=(WEAR,),
    observations=(
        Observation(
            id="pin", title="Pin and its mousing", required="needed",
            basis="trade rule, from memory, no clause seen; a pin half backed out is reported from a yacht",
            choices=(
                Choice(id="moused", words="pin home, seized with wire or pinned", grade=Grade.CLEAR),
                Choice(id="tie", words="pin home, held by a plastic tie or rusted wire", grade=Grade.PLAN, remedy=Remedy.REFIT, action=MOUSE),
                Choice(id="open", words="pin home, not secured", grade=Grade.FIRST, remedy=Remedy.REFIT, action=MOUSE),
                Choice(id="backing", words="pin backing out, or bent", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="body", title="Bow and pin where they bear", required="needed",
            choices=(
                Choice(id="full", words="full and round, no pits", grade=Grade.CLEAR),
                Choice(id="rust", words="surface rust, full below", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Brush the shackle clean, grease its thread, and measure it"),
                Choice(id="grooved", words="a groove where it bears, or pits", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="deformed", words="bent, opened or cracked", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
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
        Observation(
            id="seat", title="How it lies",
            choices=(
                Choice(id="free", words="lies free in anchor and chain", grade=Grade.CLEAR),
                Choice(id="levers", words="can jam across and be levered open", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Fit a bow shackle that cannot jam, or turn it the other way round"),
            ),
        ),
    ),
    limits=load_limits(__package__, "shackle.toml"),
    renewal=(RENEW,),
    care=(Care(id="grease", what="Open the shackles, grease their threads, turn the pins home and mouse them again", supply="grease and seizing wire", months=12, remedy=Remedy.LUBRICATE),),
    assess=assess,
)  # fmt: skip
