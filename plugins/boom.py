"""Boom and vang: gooseneck, tube, vang, sheet and reefing fittings.

Comes in: Evidence of one boom. Goes out: a caution where two metals meet. It does not hold the mast up, so that it is
off the load path; what breaks on it still hurts people.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Remedy,
)

from .answers import bad, fine
from .metals import METALS, pair


def assess(evidence: Evidence) -> Assessment:
    """A pair of metals becomes a caution; observations decide the rest."""
    return pair(evidence)


plugin = Plugin(
    kind="boom",
    title="Boom and vang",
    plural="Booms and vangs",
    system="rig",
    load_path=False,
    station="boom",
    purpose="spreads the mainsail's foot and holds it down",
    cautions=(
        "Sail down, boom on its topping lift or a strut and tied, before a pin is drawn.",
        "A gas or spring vang pushes: let it out to its stop before its pin is drawn. Hydraulics: pressure off first.",
    ),
    tools=("torch and mirror", "pliers", "magnifier"),
    supplies=("[split pin]s of every size", "clevis pins of every size", "insulating paste or tape for fasteners"),
    examination=(
        ExaminationItem(id="gooseneck", words="gooseneck with its pins, boom lifted and let go"),
        ExaminationItem(id="tube", words="the tube at vang, sheet and both ends"),
        ExaminationItem(id="vang", words="vang with both its ends"),
        ExaminationItem(id="fittings", words="sheet blocks, outhaul, reefing lines and their ends"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="runs", words="outhaul and reefing lines run through"),
    ),
    details=(
        DetailField(id="length", title="Length", holds="length", unit="m", imperial="ft", plausible=(0.8, 40)),
        DetailField(id="height", title="Gooseneck above deck", holds="length", unit="m", imperial="ft", plausible=(0.1, 8)),
        DetailField(id="spar_metal", title="Material", holds="choice", choices=METALS | {"carbon": "carbon laminate", "wood": "wood"}),
        DetailField(id="fitting_metal", title="Metal of its fittings", holds="choice", choices=METALS),
        DetailField(id="vang", title="Vang", holds="choice", choices={"tackle": "tackle", "rod": "rod, spring or gas", "hydraulic": "hydraulic", "none": "none"}),
    ),
    derived=(Derived(id="metal_pair", title="Difference of potential", dimension=Dimension.VOLTAGE, unit="mV"),),
    observations=(
        Observation(
            id="gooseneck", title="Gooseneck", required="needed",
            choices=(
                fine("firm", "pins and [split pin]s in, little play, no crack"),
                bad("play", "pins or holes worn, play felt", Grade.PLAN, Remedy.REPLACE, "Renew pins and bushes of the gooseneck"),
                bad("fasteners", "fasteners loose, or the mast's wall worked round it", Grade.FIRST, Remedy.REPAIR, "Fasten the gooseneck anew, insulated, and look at the mast's wall beneath"),
                bad("pin", "a pin or [split pin] missing", Grade.STOP, Remedy.REFIT, "Refit the gooseneck with new pins and [split pin]s"),
                bad("cracked", "a crack in the gooseneck", Grade.STOP, Remedy.REPLACE, "Renew the gooseneck", damage=True),
            ),
        ),
        Observation(
            id="tube", title="Boom itself", required="needed",
            choices=(
                fine("whole", "straight, no dent or crack at vang and sheet"),
                bad("dent", "a dent", Grade.PLAN, Remedy.LOOK, "Have a spar maker judge the dent"),
                bad("bent", "bent, or the wall worked at a fitting", Grade.FIRST, Remedy.REPAIR, "Have a spar maker repair the boom", damage=True),
                bad("cracked", "a crack", Grade.STOP, Remedy.REPAIR, "Have a spar maker repair the boom", damage=True),
            ),
        ),
        Observation(
            id="vang_seen", title="Vang", required="needed",
            choices=(
                fine("works", "holds, moves freely, ends and pins in order"),
                fine("none", "no vang"),
                bad("stiff", "stiff, or lines worn", Grade.PLAN, Remedy.REPLACE, "Renew lines and worn parts of the vang"),
                bad("leaks", "does not hold, leaks, or its tube is bent", Grade.PLAN, Remedy.REPAIR, "Repair the vang"),
                bad("end", "an end fitting cracked or loose at mast or boom", Grade.FIRST, Remedy.REPAIR, "Repair the vang's end fitting and what it is fastened to", damage=True),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion where metals meet",
            choices=(
                fine("none", "none: fittings insulated"),
                bad("powder", "white powder at the edge of a fitting", Grade.PLAN, Remedy.REFIT, "Take the fitting off, look beneath, and bed it anew on an insulating sheet"),
                bad("pitted", "pits or wall lost", Grade.FIRST, Remedy.REPAIR, "Have a spar maker repair the boom", damage=True),
            ),
        ),
        Observation(
            id="fittings", title="Sheet, outhaul and reefing fittings", required="needed",
            choices=(
                fine("firm", "firm, sheaves turn, nothing worn"),
                bad("stiff", "a sheave stiff", Grade.WATCH, Remedy.CLEAN, "Wash the sheaves with fresh water until they turn"),
                bad("worn", "a worn bail, block or end sheave", Grade.PLAN, Remedy.REPLACE, "Renew the worn fittings of the boom"),
                bad("loose", "a sheet bail or block loose or cracked", Grade.FIRST, Remedy.REPAIR, "Fasten or renew the sheet fitting", damage=True),
            ),
        ),
        Observation(
            id="support", title="What holds the boom up",
            choices=(
                fine("holds", "topping lift or rod vang holds it with the sail down"),
                bad("worn", "topping lift chafed or its ends worn", Grade.PLAN, Remedy.REPLACE, "Renew the topping lift"),
                bad("none", "nothing but the sail", Grade.PLAN, Remedy.REFIT, "Fit a topping lift or a vang that carries the boom"),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
