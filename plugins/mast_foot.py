"""The mast's foot: step, heel, drain, partners, and the deck, pillar or floors beneath.

Comes in: Evidence of one foot, on deck or on the keel. Goes out: nothing beyond the declaration. No published figure was
read for how far a deck may dip; the reading is kept so that the next visit can tell whether it grew.
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
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
)

from .aloft import CAUTION_STAYED
from .answers import bad, fine

BENEATH = "Have the structure beneath the mast looked at by a boatbuilder, rig eased"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


plugin = Plugin(
    kind="mast_foot",
    title="Mast foot",
    plural="Mast feet",
    system="rig",
    load_path=True,
    station="mast_foot",
    purpose="takes the mast's compression into deck or keel",
    cautions=(CAUTION_STAYED, "Hands out of the gap between heel, wedges and partners while the boat moves."),
    tools=("torch and mirror", "spike", "straight edge", "moisture meter", "wire to clear the drain", "camera on a stalk"),
    supplies=("wedges or rubber for the partners", "tape and cover for the mast collar", "insulating sheet"),
    examination=(
        ExaminationItem(id="step", words="step and heel all round"),
        ExaminationItem(id="deck", words="deck or floors round the step, from above and below"),
        ExaminationItem(id="pillar", words="pillar, bulkhead or floors down to the keel"),
        ExaminationItem(id="partners", words="partners, wedges and collar, where the mast goes through the deck"),
    ),
    proof=(
        ProofItem(id="seated", words="heel seen home in its step"),
        ProofItem(id="wedges", words="wedges home, collar on"),
        ProofItem(id="drain", words="water poured in runs out"),
        ProofItem(id="after_sail", words="looked at again after the first sail"),
    ),
    care=(Care(id="drain", what="Clear the drain and wash heel and step with fresh water", months=12, remedy=Remedy.CLEAN),),
    details=(
        DetailField(id="stands_on", title="Stands on", holds="choice", choices={"deck": "the deck", "keel": "the keel", "coachroof": "the coachroof"}),
        DetailField(id="step_material", title="Step of", holds="choice", choices={"aluminium": "aluminium", "stainless": "stainless steel", "steel": "steel", "wood": "wood", "laminate": "laminate"}),
        DetailField(id="last_down", title="Mast last down", holds="date"),
    ),
    readings=(
        Quantity(
            id="deck_dip", title="Dip of the deck at the step", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 100), expected_u=1,
            method="straight edge across the deck beside the step, rule to the deck at the step", asked="on_request", wears=True,
        ),
        Quantity(
            id="pillar_gap", title="Gap or slip at the pillar's ends", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 50), expected_u=0.2,
            method="feeler or rule at head and foot of the pillar, rig on", asked="on_request",
        ),
    ),
    observations=(
        Observation(
            id="step", title="Step", required="needed",
            choices=(
                fine("firm", "firm, level, no crack, bolts tight"),
                bad("rust", "rust or powder", Grade.PLAN, Remedy.CLEAN, "Clean the step, look for metal lost, and insulate it from the heel"),
                bad("moved", "moved, tilted, or a bolt loose", Grade.FIRST, Remedy.REPAIR, BENEATH, damage=True),
                bad("cracked", "cracked, or wasted through", Grade.STOP, Remedy.REPAIR, "Repair or renew the step, mast down", damage=True),
            ),
        ),
        Observation(
            id="heel", title="Heel of the mast", required="needed",
            choices=(
                fine("whole", "bears all round, no crack, no lost metal"),
                bad("powder", "white powder or stain", Grade.WATCH, Remedy.CLEAN, "Wash the heel with fresh water and look what is beneath the powder"),
                bad("edge", "bears on one edge", Grade.PLAN, Remedy.REFIT, "Bring heel and step to bear all round, mast lifted"),
                bad("wasted", "metal lost, or wood soft", Grade.FIRST, Remedy.REPAIR, "Have the heel cut back or sleeved by a spar maker", damage=True),
                bad("split", "split, crushed or buckled", Grade.STOP, Remedy.REPAIR, "Have the heel cut back or sleeved by a spar maker", damage=True),
            ),
        ),
        Observation(
            id="drain", title="Drain",
            choices=(
                fine("runs", "runs, or none needed"),
                bad("slow", "partly blocked", Grade.WATCH, Remedy.CLEAN, "Clear the drain of the heel"),
                bad("blocked", "blocked, or heel standing in water", Grade.PLAN, Remedy.CLEAN, "Clear the drain and look at the heel where it stood in water"),
            ),
        ),
        Observation(
            id="deck", title="Deck or floors under the step", required="needed",
            choices=(
                fine("flat", "flat, hard and dry; doors and drawers beneath do not bind"),
                bad("crazed", "fine cracks in the gelcoat round it", Grade.WATCH, Remedy.LOOK, "Mark the ends of the cracks with the date and look whether they grow"),
                bad("stain", "water stain beneath", Grade.PLAN, Remedy.OPEN_UP, "Find the leak and try the core round the step for water"),
                bad("dips", "dips, or a door beneath binds with the rig on", Grade.FIRST, Remedy.REPAIR, BENEATH, damage=True),
                bad("soft", "soft, or cracked through", Grade.STOP, Remedy.REPAIR, BENEATH, damage=True),
            ),
        ),
        Observation(
            id="pillar", title="Pillar, bulkhead or floors", required="needed",
            choices=(
                fine("firm", "firm from step to keel, dry, no gap"),
                bad("hidden", "hidden by linings or sole", Grade.WATCH, Remedy.OPEN_UP, "Open up until the way from step to keel is seen"),
                bad("rust", "rust at the pillar's foot, or wood dark", Grade.PLAN, Remedy.OPEN_UP, "Open up the pillar's foot, see what is left, and stop the water"),
                bad("gap", "a gap, a crack or lifted tabbing", Grade.FIRST, Remedy.REPAIR, BENEATH, damage=True),
                bad("failed", "rotten, wasted or out of its place", Grade.STOP, Remedy.REPAIR, BENEATH, damage=True),
            ),
        ),
        Observation(
            id="partners", title="Partners and wedges",
            choices=(
                fine("firm", "mast held firmly all round, or it stands on deck"),
                bad("collar", "collar leaks", Grade.WATCH, Remedy.REPAIR, "Renew the mast collar"),
                bad("wedge", "a wedge loose or missing", Grade.FIRST, Remedy.REFIT, "Fit and secure the wedges, mast in line"),
                bad("works", "mast works in the partners, or the tube is dented there", Grade.FIRST, Remedy.REPAIR, "Stop the mast from working in the partners, and have the tube there looked at", damage=True),
            ),
        ),
        Observation(
            id="held_down", title="Heel held to its step", basis="Offshore Special Regulations 3.12, from memory: heel of a keel-stepped mast fastened to step or structure",
            choices=(
                fine("fastened", "fastened, or pinned"),
                bad("by_rig", "held by the stays alone", Grade.PLAN, Remedy.REFIT, "Fasten the heel to its step or to the structure beside it"),
                bad("failed", "its fastening broken or missing", Grade.FIRST, Remedy.REFIT, "Fasten the heel to its step or to the structure beside it"),
            ),
        ),
        Observation(
            id="lift", title="Deck between halyard blocks and step",
            choices=(
                fine("tied", "blocks on the step or mast, or a tie rod holds the deck down"),
                bad("slack", "tie rod slack or not locked", Grade.PLAN, Remedy.TIGHTEN, "Set up and lock the tie rod"),
                bad("lifts", "deck lifts under the halyards' pull", Grade.FIRST, Remedy.REPAIR, "Tie the deck to the mast or its step, and look for cracks"),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
