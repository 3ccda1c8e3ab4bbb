"""Backstay gear: adjuster, bridle and insulators; the wire itself is listed as a standing wire.

Comes in: Evidence of the gear of one backstay. Goes out: what was not seen from close by. No published figure was read
for the pressure or load of an adjuster: its own papers give it.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Missing,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
)

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine

RENEW_INSULATOR = "Renew the insulator with its ends"


def assess(evidence: Evidence) -> Assessment:
    """Only an insulator stands aloft: without one nothing is out of reach."""
    answers = evidence.observed.get("insulators", ())
    none_aloft = bool(answers) and all(each.choice == "none" for each in answers)
    missing: tuple[Missing, ...] = () if none_aloft else tuple(not_close(evidence, "the upper insulator"))
    return Assessment(missing=missing)


plugin = Plugin(
    kind="backstay",
    title="Backstay adjuster and insulators",
    plural="Backstay adjusters and insulators",
    system="rig",
    load_path=True,
    station="stern",
    purpose="sets the backstay's tension, and keeps an aerial apart from the rig",
    cautions=(
        CAUTION_STAYED, *CAUTIONS_ALOFT,
        "Hydraulic adjuster: pressure off before a hose or pin is touched; never feel for a leak with a bare hand.",
        "A backstay used as an aerial burns: transmitter off and tagged before anybody touches it.",
    ),
    tools=("torch", "magnifier", "pliers", "cloth"),
    supplies=("[split pin]s of every size", "the adjuster's own fluid", "grease for stainless threads"),
    examination=(
        ExaminationItem(id="adjuster", words="adjuster let off, then set up, all of its travel"),
        ExaminationItem(id="ends", words="both its ends, bridle and plates, with pins"),
        ExaminationItem(id="insulators", words="every insulator all round"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="holds", words="set up hard and left a quarter of an hour, tension kept"),
        ProofItem(id="lets_off", words="lets off freely"),
    ),
    care=(Care(id="thread", what="Let the adjuster off, wipe its rod or thread clean, and grease a thread", supply="grease for stainless threads", months=12),),
    details=(
        DetailField(
            id="adjuster", title="Adjuster", holds="choice",
            choices={"none": "none but a [rigging screw]", "screw": "screw with wheel or handles", "hydraulic": "hydraulic", "tackle": "tackle on a bridle", "tackle_stay": "tackle on the stay"},
        ),
        DetailField(id="insulators", title="Insulators", holds="count", plausible=(0, 6)),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(id="serviced", title="Adjuster last taken apart", holds="date"),
    ),
    readings=(
        Quantity(
            id="pressure", title="Pressure on the adjuster's gauge", dimension=Dimension.PRESSURE, unit="bar", imperial="psi", plausible=(0, 700),
            expected_u=10, method="the adjuster's own gauge, as found; beside the most that its papers allow", asked="on_request",
        ),
    ),
    observations=(
        looked("the insulators were"),
        Observation(
            id="adjuster_seen", title="Adjuster", required="needed",
            choices=(
                fine("works", "works over its travel, holds, lets off"),
                fine("none", "no adjuster"),
                bad("stiff", "stiff, or its thread dry", Grade.WATCH, Remedy.LUBRICATE, "Let the adjuster off, clean and grease its thread"),
                bad("weeps", "weeps, or loses tension slowly", Grade.PLAN, Remedy.REPAIR, "Have the seals of the adjuster renewed"),
                bad("scored", "rod or thread scored, bent or pitted", Grade.FIRST, Remedy.REPAIR, "Take the adjuster out and put a link or screw in its place until it is repaired", damage=True),
                bad("fails", "does not hold, or a tackle, strop or cleat is worn out", Grade.FIRST, Remedy.REPAIR, "Take the adjuster out and put a link or screw in its place until it is repaired", damage=True),
                bad("cracked", "a crack, or a stop or strop missing that keeps it from coming apart", Grade.STOP, Remedy.REPLACE, "Renew the adjuster", damage=True),
            ),
        ),
        Observation(
            id="ends", title="Ends, bridle and pins", required="needed",
            choices=(
                fine("firm", "pins and [split pin]s in, plates straight, blocks turn"),
                bad("stain", "rust stain", Grade.WATCH, Remedy.CLEAN, "Clean the ends and look for cracks with a magnifier"),
                bad("worn", "a plate bent, a hole or pin worn", Grade.FIRST, Remedy.REPLACE, "Renew worn plates and pins of the backstay", damage=True),
                bad("missing", "a [split pin] missing", Grade.STOP, Remedy.REFIT, "Refit with a new pin of full size and a new [split pin]"),
            ),
        ),
        Observation(
            id="insulators", title="Insulators", required="needed",
            choices=(
                fine("whole", "whole, no crack, wire not slipped"),
                fine("none", "no insulators"),
                bad("chalked", "chalked by the sun", Grade.WATCH, Remedy.CLEAN, "Clean the insulator and look for cracks; ask its papers for its age"),
                bad("rust", "rust at its ends", Grade.PLAN, Remedy.REPLACE, RENEW_INSULATOR),
                bad("cracked", "cracked or crazed", Grade.FIRST, Remedy.REPLACE, RENEW_INSULATOR, damage=True),
                bad("slipped", "wire slipped in it, or it is parting", Grade.STOP, Remedy.REPLACE, RENEW_INSULATOR, damage=True),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
