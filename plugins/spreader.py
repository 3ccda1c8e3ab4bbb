"""Spreaders: roots, tubes, tips, and the angle at which the shroud goes over them.

Comes in: Evidence of one pair, or of all. Goes out: the angles above and below a tip side by side, for information, and
what was not seen from close by. That a spreader halves the shroud's angle is common practice, without a published figure.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Care,
    Check,
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
from reporter.engineering import Symbol, formula, work
from reporter.engineering.cite import GEOMETRY

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine
from .metals import METALS, pair
from .worked import worked_out

APART = "Angle above the tip against that below"


@formula(
    title=APART,
    text="Δ = |β_a − β_b|",
    symbols={"above": Symbol("β_a", "angle between spreader and shroud above", "°"), "below": Symbol("β_b", "angle between spreader and shroud below", "°")},
    result=Symbol("Δ", "difference of the two angles", "°"),
    source=GEOMETRY,
)  # fmt: skip
def angles_apart(above: float, below: float) -> float:
    """How far a spreader is from halving the shroud's angle, in radians."""
    return abs(above - below)


def assess(evidence: Evidence) -> Assessment:
    """Angles side by side where they were read; roots and tips are missing while seen from deck."""
    metals = pair(evidence)
    return Assessment(
        checks=(*_angles(evidence), *metals.checks),
        missing=tuple(not_close(evidence, "roots and tips")),
        remarks=metals.remarks,
    )


def _angles(evidence: Evidence) -> Iterator[Check]:
    for above in evidence.at("angle_above"):
        same = [
            each
            for each in evidence.at("angle_below")
            if (each.at, each.side, each.state) == (above.at, above.side, above.state)
        ]
        if same:
            apart, sum_ = work(angles_apart, {"above": above.value, "below": same[0].value})
            yield worked_out("spreader", "angle_difference", APART, apart, (sum_,), like=above)


plugin = Plugin(
    kind="spreader",
    title="Spreaders",
    plural="Spreaders",
    system="rig",
    load_path=True,
    station="aloft",
    purpose="hold the shrouds out from the mast",
    cautions=(CAUTION_STAYED, *CAUTIONS_ALOFT),
    tools=("climbing gear or bosun's chair", "magnifier", "knife and tape for the boots", "angle gauge"),
    supplies=("tip boots or leather", "seizing wire", "tape", "[split pin]s of every size"),
    examination=(
        ExaminationItem(id="roots", words="roots, brackets and bar, with their pins"),
        ExaminationItem(id="tips", words="tips with boots and tape off"),
        ExaminationItem(id="wire", words="the shroud where it lies in the tip"),
        ExaminationItem(id="angles", words="angle and droop, sighted from deck and from ahead"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin and seizing seen"),
        ProofItem(id="angles", words="both spreaders halve the angle of the shroud, alike on both sides"),
        ProofItem(id="covered", words="tips covered, water can run out"),
    ),
    care=(Care(id="boots", what="Take the tip boots off, look at tip and shroud, and cover them so that water runs out", supply="tip boots or tape", months=12, remedy=Remedy.LOOK),),
    details=(
        DetailField(id="pair", title="Which pair, counted from the deck", holds="count", plausible=(1, 6)),
        DetailField(id="length", title="Length", holds="length", unit="mm", imperial="in", plausible=(150, 5000)),
        DetailField(id="sweep", title="Swept aft by", holds="angle", unit="°", plausible=(0, 45)),
        DetailField(id="root", title="Root", holds="choice", choices={"fixed": "fixed", "swinging": "swinging", "through_bar": "on a bar through the mast"}),
        DetailField(id="spar_metal", title="Material", holds="choice", choices=METALS | {"carbon": "carbon laminate", "wood": "wood"}),
        DetailField(id="fitting_metal", title="Metal of brackets and pins", holds="choice", choices=METALS),
    ),
    readings=(
        Quantity(
            id="angle_above", title="Angle to the shroud above", dimension=Dimension.ANGLE, unit="°", plausible=(45, 135), expected_u=2,
            method="angle gauge at the tip, or from a photo square to the mast", asked="on_request", per_side=True,
        ),
        Quantity(
            id="angle_below", title="Angle to the shroud below", dimension=Dimension.ANGLE, unit="°", plausible=(45, 135), expected_u=2,
            method="angle gauge at the tip, or from a photo square to the mast", asked="on_request", per_side=True,
        ),
    ),
    derived=(
        Derived(id="angle_difference", title=APART, dimension=Dimension.ANGLE, unit="°"),
        Derived(id="metal_pair", title="Difference of potential", dimension=Dimension.VOLTAGE, unit="mV"),
    ),
    observations=(
        looked("they were"),
        Observation(
            id="roots", title="Roots", required="needed",
            choices=(
                fine("firm", "firm, no crack, pins in, alike on both sides"),
                bad("powder", "white powder or stain", Grade.WATCH, Remedy.CLEAN, "Clean the root and look for cracks and lost metal"),
                bad("play", "more play than the form of the root has", Grade.PLAN, Remedy.REFIT, "Renew the worn pin or bush of the root"),
                bad("worn", "a bracket worn, bent, or its fasteners loose", Grade.FIRST, Remedy.REPAIR, "Repair the spreader root", damage=True),
                bad("cracked", "a crack in root, bracket or the mast's wall behind it", Grade.STOP, Remedy.REPAIR, "Repair the spreader root and the wall behind it", damage=True),
            ),
        ),
        Observation(
            id="tips", title="Tips", required="needed",
            choices=(
                fine("held", "boots off: shroud held, no crack, no chafe"),
                bad("booted", "boots or tape left on: what is under them was not seen", Grade.WATCH, Remedy.OPEN_UP, "Take boots and tape off and look at tip and shroud"),
                bad("corroded", "powder, pits or rust under the boot", Grade.PLAN, Remedy.CLEAN, "Clean the tip, look at the wire, and cover it so that water runs out"),
                bad("slips", "shroud not held in the tip", Grade.FIRST, Remedy.REFIT, "Secure the shroud in the tip, spreader at its angle"),
                bad("worn", "tip cracked or worn through", Grade.FIRST, Remedy.REPLACE, "Renew the spreader tip", damage=True),
                bad("wire", "wire chafed or broken in the tip", Grade.STOP, Remedy.REPLACE, "Renew the shroud, and smooth or renew the tip", damage=True),
            ),
        ),
        Observation(
            id="angle", title="Angle", required="needed",
            choices=(
                fine("halves", "halve the angle of the shroud, alike on both sides"),
                bad("uneven", "unlike on the two sides, or a little drooped", Grade.PLAN, Remedy.ADJUST, "Set the spreaders to halve the shroud's angle, alike on both sides, and secure the tips"),
                bad("droops", "drooped: the tip can slide down the shroud", Grade.FIRST, Remedy.ADJUST, "Set the spreaders to halve the shroud's angle, alike on both sides, and secure the tips"),
            ),
        ),
        Observation(
            id="tube", title="Spreader itself", required="needed",
            choices=(
                fine("straight", "straight and whole"),
                bad("finish", "paint or varnish gone", Grade.WATCH, Remedy.REPAIR, "Put a finish on"),
                bad("dent", "dented", Grade.PLAN, Remedy.REPLACE, "Renew the spreader", damage=True),
                bad("bent", "bent, cracked, or wood soft", Grade.FIRST, Remedy.REPLACE, "Renew the spreader", damage=True),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
