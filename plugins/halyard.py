"""Halyards and lifts: what holds a sail up, or a person at the masthead.

Comes in: Evidence of one halyard or of all of one mast. Goes out: wear and loads of a fibre rope. Limits stand in
halyard.toml. A halyard of wire is looked at with the same eyes as any running wire: one broken wire and it goes.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    Choice,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    load_limits,
)

from . import fibre_rope as rope
from . import rope_looks

RENEW = "Renew the halyard"
SHIFT = "Cut the worn end off or turn the halyard end for end, so that another place takes the wear, and find what it rubs on"


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope."""
    return rope.rope_checks(evidence, "the halyard")


plugin = Plugin(
    kind="halyard",
    title="Halyards",
    plural="Halyards",
    system="running",
    load_path=True,
    station="mast",
    purpose="hold the sails up, and sometimes a person",
    cautions=(
        "Tie a messenger to a halyard before it is drawn out of the mast; an end lost aloft means going up for it.",
        "Nobody goes up on a halyard that was not looked at whole today, and never on one rope alone.",
        "Stand clear of the mast while others work aloft.",
    ),
    tools=("tape or caliper", "fid", "cotton cloth", "messenger line", "binoculars"),
    supplies=("rope of the same size, construction and fibre", "whipping twine", "rigging tape"),
    examination=(
        *rope.examination(),
        ExaminationItem(id="masthead", words="the part that stands over the masthead sheave while the sail is up"),
        ExaminationItem(id="exits", words="where it leaves the mast and where the clutch bites"),
    ),
    proof=(
        ProofItem(id="hoist", words="sail hoisted and lowered over the whole travel, nothing rubs"),
        ProofItem(id="end", words="shackle closed and moused, or knot drawn tight"),
        ProofItem(id="lead", words="leads straight to its clutch or winch, not round another halyard"),
    ),
    details=(
        *rope.details(),
        DetailField(
            id="use", title="What it hoists", holds="choice",
            choices={
                "main": "mainsail", "head": "headsail", "spinnaker": "spinnaker or light sail", "lift": "boom or pole",
                "person": "a person too: it is used for going aloft",
            },
        ),
    ),
    readings=(
        *rope.readings(),
        Quantity(
            id="broken_wires", title="Broken wires, where it has a wire part", dimension=Dimension.COUNT, unit="", plausible=(0, 133),
            method="cloth wiped along the wire both ways", asked="on_request", help="One line for each place. Any one renews the wire.",
        ),
    ),
    derived=rope.derived(),
    observations=(
        *rope_looks.looks(RENEW, SHIFT),
        rope_looks.end_look("Make the halyard's end again, spliced where the rope is HMPE"),
        Observation(
            id="shackle", title="Halyard shackle",
            choices=(
                Choice(id="good", words="closes by itself, pin straight, no pits; or tied on", grade=Grade.CLEAR),
                Choice(
                    id="stiff", words="stiff or salted", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Rinse and work the shackle free, with a drop of light oil",
                ),
                Choice(
                    id="pitted", words="pitted, worn at the pin, or opening under load", grade=Grade.FIRST, remedy=Remedy.REPLACE, action="Renew the halyard shackle",
                ),
                Choice(id="cracked", words="cracked or bent", grade=Grade.STOP, remedy=Remedy.REPLACE, action="Renew the halyard shackle"),
            ),
        ),
        Observation(
            id="runs", title="Running", required="needed",
            choices=(
                Choice(id="free", words="runs free and stays in its sheaves", grade=Grade.CLEAR),
                Choice(
                    id="drags", words="drags somewhere on its way", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Find where the halyard drags: sheave, exit, organiser or another halyard, and put that right",
                ),
                Choice(
                    id="wraps", words="wraps round the headstay or crosses another halyard", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Lead the halyard clear aloft, at the angle to the stay that the furler's manual asks for",
                ),
                Choice(
                    id="jams", words="jams, or jumps off a sheave", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Put the sheave and its cheeks right and lead the halyard again",
                ),
            ),
        ),
        Observation(
            id="spare_length", title="Turns left on the winch with the sail down or reefed", asked="on_request",
            choices=(
                Choice(id="enough", words="enough turns and tail in every position", grade=Grade.CLEAR),
                Choice(id="short", words="too short for three turns and a tail", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
            ),
        ),
    ),
    limits=load_limits(__package__, "halyard.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse the halyards in fresh water, dry them in the shade, and look at both ends", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
