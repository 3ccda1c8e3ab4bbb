"""The mast above its foot: tube, line, tangs, fittings, sheaves and masthead.

Comes in: Evidence of one mast, with the sizes its drawing is made of. Goes out: what was not seen from close by, and a
caution where two metals meet. No published figure was read for dents, wall loss or bend: observation decides.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    Derived,
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

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine
from .metals import METALS, pair

RIGGER = "Have a rigger or spar maker look at the mast before it is sailed on"


def assess(evidence: Evidence) -> Assessment:
    """Tangs and masthead are missing while seen from deck; a pair of metals becomes a caution."""
    metals = pair(evidence)
    missing = tuple(not_close(evidence, "tangs, sheaves and masthead"))
    return Assessment(checks=metals.checks, remarks=metals.remarks, missing=missing)


plugin = Plugin(
    kind="mast",
    title="Mast",
    plural="Masts",
    system="rig",
    load_path=True,
    station="mast",
    purpose="carries the sails and the compression of every stay",
    cautions=(CAUTION_STAYED, *CAUTIONS_ALOFT, "Keep clear of overhead cables when a mast is raised, lowered or moved."),
    tools=("binoculars", "climbing gear or bosun's chair", "magnifier", "torch and mirror", "coin to tap laminate with", "straight edge or main halyard as a plumb line"),
    supplies=("[split pin]s of every size", "tape", "insulating paste or tape for fasteners", "fresh water"),
    examination=(
        ExaminationItem(id="sighted", words="sighted up its luff groove and from ahead, at rest"),
        ExaminationItem(id="tube", words="the tube all round, at every fitting and cut-out"),
        ExaminationItem(id="tangs", words="every tang, backing plate and its fasteners"),
        ExaminationItem(id="masthead", words="masthead, sheaves and their pins"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="line", words="mast in line and straight"),
        ProofItem(id="halyards", words="every halyard run up and down"),
        ProofItem(id="tools_out", words="nothing left aloft"),
    ),
    care=(Care(id="aloft", what="Look at masthead, sheaves and tangs from close by", months=12, remedy=Remedy.LOOK),),
    details=(
        DetailField(
            id="spar_metal", title="Material", holds="choice",
            choices=METALS | {"carbon": "carbon laminate", "wood": "wood"},
        ),
        DetailField(id="fitting_metal", title="Metal of tangs and fasteners", holds="choice", choices=METALS),
        DetailField(
            id="height", title="Masthead above deck", holds="length", unit="m", imperial="ft", plausible=(2, 80),
            help="From the deck at the mast. The drawing is made of it.",
        ),
        DetailField(
            id="hounds", title="Forestay above deck, where it is below the masthead", holds="length", unit="m", imperial="ft", plausible=(2, 80),
        ),
        DetailField(
            id="rig_form", title="Form of the rig", holds="choice",
            choices={"masthead": "masthead", "fractional": "fractional", "unstayed": "without stays"},
        ),
        DetailField(id="spreader_pairs", title="Pairs of spreaders", holds="count", plausible=(0, 6)),
        DetailField(id="foretriangle", title="Mast to forestay, along the deck", holds="length", unit="m", imperial="ft", plausible=(0.5, 30)),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(id="last_down", title="Mast last down", holds="date"),
    ),
    readings=(
        Quantity(
            id="out_of_line", title="Masthead out of the middle", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 1000), expected_u=10,
            method="main halyard to both chainplates, half the difference", asked="on_request",
        ),
        Quantity(
            id="dent", title="Depth of a dent", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0.2, 80), expected_u=0.5,
            method="straight edge along the tube, rule to the deepest place", asked="on_request",
            help="No published limit was found: the depth is kept so that the next one can see whether it grows.",
        ),
    ),
    derived=(Derived(id="metal_pair", title="Difference of potential", dimension=Dimension.VOLTAGE, unit="mV"),),
    observations=(
        looked("its upper part was"),
        Observation(
            id="line", title="Line of the mast", required="needed",
            choices=(
                fine("straight", "in line athwartships and straight, or with the bend it is set up for"),
                bad("leans", "leans to one side, straight", Grade.PLAN, Remedy.ADJUST, "Set up the rig evenly, mast in line, and lock the [rigging screw]s"),
                bad("bends", "bends to one side or in an S", Grade.FIRST, Remedy.ADJUST, "Find why the mast is out of line (a stay, a spreader, the step), and set up the rig"),
                bad("kinked", "a kink or a bend that stays with the rig slack", Grade.STOP, Remedy.REPLACE, RIGGER, damage=True),
            ),
        ),
        Observation(
            id="tube", title="Tube", required="needed",
            choices=(
                fine("whole", "no dent, crack or lasting mark"),
                bad("scratched", "scratches or worn finish", Grade.WATCH, Remedy.CLEAN, "Clean the scratches and put a finish on"),
                bad("dent", "a dent", Grade.PLAN, Remedy.LOOK, "Measure the dent with a straight edge and have a spar maker judge it"),
                bad("soft", "a dull or soft place, a bruise in laminate, or an opened glue line", Grade.FIRST, Remedy.TEST, "Have the laminate tapped or scanned, or the glue line opened, by a spar maker", damage=True),
                bad("cracked", "a crack, or a wrinkle in the wall", Grade.STOP, Remedy.REPAIR, RIGGER, damage=True),
            ),
            help="Cracks start at cut-outs, exit slots, rivets and welds. Tap laminate with a coin: it goes dull where it has let go.",
        ),
        Observation(
            id="tangs", title="Tangs and backing plates", required="needed",
            choices=(
                fine("firm", "firm, holes round, no crack, in line with their stays"),
                bad("stain", "rust stain", Grade.WATCH, Remedy.CLEAN, "Clean the tang and look for cracks with a magnifier"),
                bad("off_line", "out of line with the stay", Grade.PLAN, Remedy.REFIT, "Bring tang and stay into line"),
                bad("worn", "a hole drawn oval, a worn pin, a loose bolt or rivet", Grade.FIRST, Remedy.REPAIR, "Repair the tang: new pin, bush or fasteners, or a new tang", damage=True),
                bad("cracked", "a crack in a tang or in the tube round it", Grade.STOP, Remedy.REPAIR, "Repair the tang and the tube round it", damage=True),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion where metals meet", required="needed", basis="case notes: oxide under a stainless fitting buckled an aluminium wall",
            choices=(
                fine("none", "none: fittings bedded on plastic or paste, no powder"),
                bad("powder", "white powder or blisters at the edge of a fitting", Grade.PLAN, Remedy.REFIT, "Take the fitting off, look beneath, and bed it anew on an insulating sheet"),
                bad("pitted", "pits or wall lost beside a fitting", Grade.FIRST, Remedy.OPEN_UP, "Take the fitting off and have the wall that is left measured", damage=True),
                bad("holed", "holed, or the wall swollen beneath a fitting", Grade.STOP, Remedy.REPAIR, RIGGER, damage=True),
            ),
        ),
        Observation(
            id="sheaves", title="Sheaves and masthead", required="needed",
            choices=(
                fine("turn", "every sheave turns, pins in, boxes whole"),
                bad("stiff", "a stiff sheave", Grade.WATCH, Remedy.CLEAN, "Wash the sheave with fresh water until it turns"),
                bad("worn", "a sheave worn, or its side play lets a halyard in", Grade.PLAN, Remedy.REPLACE, "Renew the sheave and its pin"),
                bad("seized", "a sheave seized or its edge broken", Grade.FIRST, Remedy.REPLACE, "Renew the sheave and its pin, and look at its halyard"),
                bad("pin", "a sheave pin working out, or the masthead cracked", Grade.STOP, Remedy.REPAIR, "Repair masthead and sheave pin before anybody or any sail goes up", damage=True),
            ),
        ),
        Observation(
            id="fasteners", title="Rivets, screws and welds",
            choices=(
                fine("firm", "firm, none missing"),
                bad("some", "some loose or missing at a fitting that carries little", Grade.PLAN, Remedy.REPAIR, "Renew the loose and missing fasteners, insulated"),
                bad("loaded", "loose or missing at a fitting that carries load", Grade.FIRST, Remedy.REPAIR, "Renew the fasteners of the loaded fitting, insulated, and look at the holes", damage=True),
            ),
        ),
        Observation(
            id="luff_track", title="Track or groove", asked="on_request",
            choices=(
                fine("smooth", "smooth, firm, sail runs"),
                bad("rough", "rough, or a joint stands off", Grade.PLAN, Remedy.REPAIR, "Fasten and smooth the track"),
                bad("loose", "track loose from the mast", Grade.FIRST, Remedy.REPAIR, "Fasten the track"),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
