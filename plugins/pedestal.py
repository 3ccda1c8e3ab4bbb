"""Steering pedestal or bulkhead with what is mounted on it: fastening, guard, compass and the space inside.

Comes in: Evidence of one pedestal. Goes out: nothing beyond the declaration: no figure for its strength or flex is
published, so that a measured flex is printed and compared with last time, and what was seen is an observation.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
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
)

BED = "Take up the pedestal's base, look at bolts and deck beneath, and bed it anew on firm structure"
SWING = "Swing the compass again after the work, and write the deviation down"
ISO = "ISO 8847:2021, 4.1 to 4.7, read in an excerpt"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


plugin = Plugin(
    kind="pedestal",
    title="Pedestal, guard and compass",
    plural="Pedestals, guards and compasses",
    system="steering",
    load_path=True,
    station="pedestal",
    purpose="carries wheel shaft, chain idlers and sheaves, and the compass above them",
    cautions=(
        "Rudder chocked or wheel lashed before the compass comes off and a hand goes in; chain and wire are under tension.",
        "Keep steel tools, phones, knives and loudspeakers away from the compass; put nothing down on the pedestal.",
    ),
    tools=("[spanner]s of bronze or plastic near the compass", "torch and mirror", "line to hold the rudder", "voltmeter"),
    supplies=("bedding compound", "insulating sleeves and paste between metals", "self-locking nuts"),
    examination=(
        ExaminationItem(id="base", words="the base all round, and its bolts from below"),
        ExaminationItem(id="inside", words="the inside with the compass off: wiring, shelf, bearings' seats"),
        ExaminationItem(id="loaded", words="rudder held, rim pulled hard both ways, a hand on base and top"),
        ExaminationItem(id="compass", words="the compass, its lamp switched on and off"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="tools_out", words="tools out of the pedestal, nothing loose inside"),
        ProofItem(id="compass", words="compass looked at with the lamp on and off, nothing of steel near it"),
        ProofItem(id="loaded", words="rim pulled hard both ways, base and top still"),
    ),
    details=(
        DetailField(
            id="material", title="Material", holds="choice",
            choices={
                "aluminium": "aluminium", "stainless": "stainless steel", "laminate": "fibre laminate", "wood": "wood", "other": "another material",
            },
        ),
        DetailField(
            id="form", title="Form", holds="choice",
            choices={"pedestal": "pedestal", "bulkhead": "bulkhead or box", "column": "moulded column", "other": "another form"},
        ),
        DetailField(id="compass", title="Compass", holds="words", help="Card size and lamp voltage; no serial number."),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="flex", title="Movement of the top under load", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 150),
            method="rule from a fixed point to the pedestal's top, rim pulled hard both ways", expected_u=1, asked="on_request", wears=True,
            help="No figure is published: for comparison with last time.",
        ),
    ),
    observations=(
        Observation(
            id="mounting", title="Base and bolts", required="needed",
            choices=(
                Choice(id="firm", words="bolts tight, deck and bedding whole all round", grade=Grade.CLEAR),
                Choice(
                    id="weeps", words="bedding open, rust or water at a bolt", grade=Grade.PLAN, remedy=Remedy.REFIT, action=BED,
                ),
                Choice(
                    id="loose", words="a bolt loose", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Tighten and lock the pedestal's bolts, and pull the rim hard again",
                ),
                Choice(id="cracked", words="base or deck cracked, or a bolt missing", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=BED),
            ),
        ),
        Observation(
            id="locking", title="How its nuts are locked", basis=ISO,
            choices=(
                Choice(id="locked", words="nuts with plastic inserts, or locked so that it can be seen or felt", grade=Grade.CLEAR),
                Choice(
                    id="washers", words="loose lock washers, plain nuts or adhesive only", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Renew the nuts whose loss would lose the steering by ones that are locked and show it",
                ),
            ),
        ),
        Observation(
            id="loaded", title="Rim pulled hard both ways, rudder held", required="needed", loaded_test=True,
            choices=(
                Choice(id="still", words="base and top stay still", grade=Grade.CLEAR),
                Choice(
                    id="springs", words="the top springs a little, the base stays still", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Measure how far the top moves, and compare it with last time",
                ),
                Choice(id="rocks", words="the base rocks or the deck gives", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True, action=BED),
                Choice(id="opens", words="a crack opens or a bolt draws", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=BED),
            ),
            help="Rudder held by its stop or by a line on the emergency tiller. Pull steadily, as hard as a sea would make you.",
        ),
        Observation(
            id="corrosion", title="Corrosion", required="needed",
            choices=(
                Choice(id="none", words="no corrosion", grade=Grade.CLEAR),
                Choice(
                    id="powder", words="white powder or blistered paint round fastenings of another metal", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the places bright and dry, paint them, and insulate the fastenings of another metal",
                ),
                Choice(
                    id="pitted", words="pits that a finger nail catches in", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Take the fastenings of another metal out, look at what metal is left, and refit them insulated",
                ),
                Choice(
                    id="eaten", words="eaten deep or through where a bearing, bolt or sheave holds", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action="Have the pedestal repaired or renewed before the wheel is used",
                ),
            ),
        ),
        Observation(
            id="guard", title="Guard",
            choices=(
                Choice(id="firm", words="firm enough to hang on to, or none fitted", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="loose", grade=Grade.PLAN, remedy=Remedy.TIGHTEN, action="Tighten the guard at deck and pedestal, wiring in it looked at",
                ),
                Choice(
                    id="cracked", words="cracked, or a foot adrift", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Repair the guard: people hold on to it",
                ),
            ),
        ),
        Observation(
            id="inside", title="Inside the pedestal", required="needed",
            choices=(
                Choice(id="clear", words="nothing loose, wiring tied clear of chain and wire", grade=Grade.CLEAR),
                Choice(
                    id="wet", words="water stands inside or runs in", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Find where the water comes in, and see that it drains",
                ),
                Choice(
                    id="wiring", words="wiring touches or is chafed by chain or wire", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Tie the wiring clear of chain and wire over the whole travel, and repair what is chafed",
                ),
                Choice(
                    id="loose", words="something loose that could get into the chain", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Take out what is loose in the pedestal",
                ),
            ),
        ),
        Observation(
            id="compass", title="Compass",
            choices=(
                Choice(id="lively", words="full, clear, the card swings freely", grade=Grade.CLEAR),
                Choice(
                    id="bubble", words="a bubble, or cloudy", grade=Grade.WATCH, remedy=Remedy.REPAIR, action="Have the compass refilled",
                ),
                Choice(
                    id="leaks", words="leaks, or the card cannot be read", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the compass repaired or renewed",
                ),
                Choice(
                    id="sticks", words="the card sticks", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Have the compass repaired or renewed",
                ),
            ),
        ),
        Observation(
            id="lamp", title="Compass lamp and its polarity",
            choices=(
                Choice(id="still", words="lights, and the card stays still when it is switched; or no lamp", grade=Grade.CLEAR),
                Choice(
                    id="dark", words="does not light", grade=Grade.WATCH, remedy=Remedy.REPAIR, action="Repair the compass lamp, polarity as it was, leads twisted",
                ),
                Choice(
                    id="swings", words="the card swings when the lamp is switched", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action=f"Twist the lamp's leads together, put the polarity right. {SWING}",
                ),
            ),
            help="After work on the pedestal the lamp's leads are easily swapped; mark plus and minus before they come off.",
        ),
        Observation(
            id="near_compass", title="Loose gear near the compass",
            choices=(
                Choice(id="nothing", words="nothing magnetic within reach of it", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="tools, knife, phone, winch handle or loudspeaker near it", grade=Grade.WATCH, remedy=Remedy.REFIT,
                    action="Stow what is magnetic away from the compass, and look at the card again",
                ),
                Choice(
                    id="fitted", words="steel or an instrument fitted near it since it was last swung", grade=Grade.PLAN, remedy=Remedy.TEST, action=SWING,
                ),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
