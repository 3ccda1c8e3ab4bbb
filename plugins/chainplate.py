"""Chainplates with what is behind them: deck, fasteners, knees and bulkheads, tie rods, and the stem fitting.

Comes in: Evidence of one chainplate or of a like set. Goes out: the hole beside its pin, and on request the strength of
plate, hole and pin and the torque of its bolts. Limits stand in chainplate.toml.
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
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    load_limits,
)

from .answers import bad, fine
from .bolt_torque import THREADS, torque_remarks
from .metals import METALS, pair
from .plate_strength import plate_strength

RENEW = "Renew the chainplate"
DRAW = "Draw the chainplate, clean it, test it with dye where it went through the deck, and bed it anew"
OPEN = "Open up until the chainplate is seen from its top to its lowest bolt"


def assess(evidence: Evidence) -> Assessment:
    """The hole, and what was asked for on request; a pair of metals becomes a caution."""
    plate, metals = plate_strength(evidence), pair(evidence)
    return Assessment(
        checks=(*plate.checks, *metals.checks),
        missing=plate.missing,
        remarks=(*metals.remarks, *torque_remarks(evidence)),
    )


plugin = Plugin(
    kind="chainplate",
    title="Chainplate",
    plural="Chainplates",
    system="rig",
    load_path=True,
    station="chainplates",
    purpose="takes the pull of a stay into the hull",
    cautions=(
        "Before a chainplate or its bolts are slackened, another stay or two halyards hold the mast on that side; not under way.",
        "A rig renewed from the deck up can still come down by what is below: look behind the linings.",
    ),
    tools=("torch and mirror", "magnifier of seven times or more", "camera on a stalk", "dye penetrant", "moisture meter or spike", "vernier caliper", "[spanner]s"),
    supplies=("bedding sealant", "dye penetrant with cleaner and developer", "[split pin]s of every size"),
    examination=(
        ExaminationItem(id="hole", words="hole and pin, and the plate round them, with a magnifier"),
        ExaminationItem(id="deck", words="where it goes through or stands on the deck, from above"),
        ExaminationItem(id="below", words="the plate, its bolts and what they hold to, from below"),
        ExaminationItem(id="tie", words="tie rods, knees and bulkhead down to the hull"),
    ),
    proof=(
        ProofItem(id="bolts", words="every bolt fitted, tightened and marked"),
        ProofItem(id="dry", words="hosed down on deck, dry below"),
        ProofItem(id="lead", words="in line with its stay"),
        ProofItem(id="after_sail", words="deck and bulkhead looked at again after the first sail"),
    ),
    details=(
        DetailField(
            id="holds", title="Which stay it holds", holds="choice",
            choices={"shrouds": "shrouds", "stem": "forestay, at the stem", "stern": "backstay, at the stern", "inner": "inner forestay", "other": "another stay"},
        ),
        DetailField(
            id="form", title="Form", holds="choice",
            choices={"through_deck": "strap through the deck", "outside": "strap on the hull's outside", "u_bolt": "U-bolt or plate on deck, with tie rod", "glassed": "glassed into the hull", "stem_fitting": "stem fitting"},
        ),
        DetailField(
            id="plate_material", title="Material", holds="choice",
            choices={"stainless_300": "stainless steel, 300 series", "bronze": "bronze", "titanium": "titanium", "mild_steel": "mild steel", "other": "another"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(id="last_drawn", title="Last drawn and looked at", holds="date"),
        DetailField(
            id="wire_strength", title="Breaking force of the wires that pull on it", holds="force", unit="kN", imperial="lbf", plausible=(2, 900),
            help="Only for a sizing estimate; with its source in the note.",
        ),
        DetailField(id="bolt_thread", title="Thread of its bolts", holds="choice", choices=THREADS),
        DetailField(id="hull_metal", title="Metal of hull or deck round it", holds="choice", choices=METALS),
        DetailField(id="fitting_metal", title="Metal of plate and bolts, where the hull is metal", holds="choice", choices=METALS),
    ),
    readings=(
        Quantity(
            id="pin_diameter", title="Pin diameter", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(3, 50), expected_u=0.05,
            method="vernier caliper on the pin, drawn, at its most worn place", asked="on_request",
        ),
        Quantity(
            id="hole_diameter", title="Hole diameter", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(3, 60), expected_u=0.1,
            method="vernier caliper in the hole, in the direction of the pull", asked="on_request", wears=True,
        ),
        Quantity(
            id="plate_thickness", title="Plate thickness", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(1, 40), expected_u=0.1,
            method="vernier caliper at the hole", asked="on_request",
        ),
        Quantity(
            id="plate_width", title="Plate width at the hole", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(8, 250), expected_u=0.3,
            method="vernier caliper or rule, square to the pull", asked="on_request",
        ),
        Quantity(
            id="edge_distance", title="Centre of the hole to the plate's end", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(4, 120), expected_u=0.3,
            method="rule in the direction of the pull", asked="on_request",
        ),
        Quantity(
            id="bolt_torque", title="Torque that its bolts were tightened with", dimension=Dimension.TORQUE, unit="N·m", imperial="lbf·ft", plausible=(0.5, 300),
            expected_u=1, method="torque wrench as set, and whether dry or greased", asked="on_request",
        ),
    ),
    derived=(
        Derived(id="hole_over_pin", title="Hole larger than pin by", dimension=Dimension.LENGTH, unit="mm", imperial="in", wears=True),
        Derived(id="slack_loss", title="Strength lost by the slack hole", dimension=Dimension.RATIO, unit="%"),
        Derived(id="net_section", title="Section left beside the hole", dimension=Dimension.AREA, unit="mm²", imperial="in²"),
        Derived(id="net_yield", title="Strength of that section, to where it yields", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="net_ultimate", title="Strength of that section, to where it breaks", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="tear_out", title="Strength against tearing out of the end", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="pin_shear", title="Strength of the pin in double shear", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="over_wire", title="Weakest of them over the wires", dimension=Dimension.RATIO, unit="1", decimals=2),
        Derived(id="pin_pressure", title="Pressure of the pin in its hole", dimension=Dimension.PRESSURE, unit="N/mm²", imperial="psi"),
        Derived(id="stress", title="Stress of the material", dimension=Dimension.PRESSURE, unit="N/mm²", imperial="psi"),
        Derived(id="metal_pair", title="Difference of potential", dimension=Dimension.VOLTAGE, unit="mV"),
    ),
    observations=(
        Observation(
            id="cracks", title="Cracks", required="needed", basis="case notes: a hairline crack shows only in the right light",
            choices=(
                fine("none", "no crack at hole, bend or deck, cleaned and under a magnifier"),
                bad("doubt", "a line that could be a crack", Grade.FIRST, Remedy.TEST, "Test the line with dye penetrant before the next passage"),
                bad("cracked", "a crack", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="hole", title="Hole", required="needed",
            choices=(
                fine("round", "round, pin fits"),
                bad("bush", "a loose bush, or a pin much thinner than its hole", Grade.PLAN, Remedy.REFIT, "Fit pin and bush of the hole's size"),
                bad("oval", "drawn oval, or its edge raised", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="lead", title="Lead", required="needed",
            choices=(
                fine("in_line", "in line with its stay both ways, straight"),
                bad("off", "stands off the line of its stay", Grade.PLAN, Remedy.REFIT, "Bring plate and stay into line: bend anew by a rigger, or a toggle"),
                bad("bent", "bent, or moving at the deck when the rig works", Grade.FIRST, Remedy.REPAIR, DRAW, damage=True),
            ),
        ),
        Observation(
            id="deck", title="Deck round it", required="needed",
            choices=(
                fine("tight", "seal whole, deck flat and hard, dry below"),
                bad("seal", "seal cracked or lifting, dry below", Grade.PLAN, Remedy.REFIT, DRAW),
                bad("leaks", "leaks, or rust stain runs from the seal", Grade.FIRST, Remedy.OPEN_UP, DRAW),
                bad("soft", "deck soft, lifted or cracked round it", Grade.FIRST, Remedy.REPAIR, "Open the deck round the chainplate, find how far wet and cracks go, and repair it", damage=True),
            ),
            help="Stainless steel shut off from air in wet sealant rots in crevices where nobody looks.",
        ),
        Observation(
            id="seen_through", title="How much of it was seen", required="needed",
            choices=(
                fine("all", "all of it, from the hole to its lowest bolt"),
                fine("drawn", "drawn and cleaned for this examination"),
                bad("but_deck", "all but the length inside the deck", Grade.WATCH, Remedy.OPEN_UP, "Draw one chainplate of each kind at the next lay-up and look at the length inside the deck"),
                bad("lined", "hidden below by linings or glass", Grade.PLAN, Remedy.OPEN_UP, OPEN),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion", required="needed",
            choices=(
                fine("none", "clean metal"),
                bad("stain", "surface rust that a pad takes off", Grade.WATCH, Remedy.CLEAN, "Clean the plate and look for pits and cracks with a magnifier"),
                bad("pitted", "pits, or rust that grows from bolt holes or the deck", Grade.FIRST, Remedy.OPEN_UP, DRAW, damage=True),
                bad("wasted", "metal lost", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="fasteners", title="Bolts, nuts and backing", required="needed",
            choices=(
                fine("tight", "all there, tight, clean"),
                fine("none", "none: glassed in or welded"),
                bad("rust", "rust on bolts or nuts", Grade.PLAN, Remedy.OPEN_UP, "Draw a bolt, look at its shank, and renew them all where it is wasted"),
                bad("loose", "a loose bolt or a dished washer", Grade.FIRST, Remedy.REPAIR, "Find what gives beneath, fit a backing plate, and tighten and mark the bolts"),
                bad("missing", "a bolt missing or broken", Grade.STOP, Remedy.REPAIR, "Renew the bolts of the chainplate", damage=True),
            ),
        ),
        Observation(
            id="structure", title="Bulkhead, knee or laminate", required="needed",
            choices=(
                fine("firm", "dry and hard, tabbing whole"),
                bad("stain", "water stain, wood hard", Grade.PLAN, Remedy.OPEN_UP, "Find the leak, open up and try the wood with a spike"),
                bad("tabbing", "tabbing cracked or lifted, or a crack in laminate or weld", Grade.FIRST, Remedy.REPAIR, "Have the structure behind the chainplate repaired", damage=True),
                bad("rotten", "wood soft, or the whole moves under load", Grade.STOP, Remedy.REPAIR, "Have the structure behind the chainplate repaired", damage=True),
            ),
        ),
        Observation(
            id="tie_rod", title="Tie rod", required="needed", basis="case notes of an accident branch: a tie-bar weld failed out of sight after the rig was renewed",
            choices=(
                fine("tight", "taut, locked, its ends and welds seen clean"),
                fine("none", "no tie rod in this boat"),
                bad("weld_hidden", "its lower end or weld could not be seen", Grade.WATCH, Remedy.OPEN_UP, "Open up until the lower end of the tie rod is seen, and look at its weld with a magnifier"),
                bad("slack", "slack or not locked", Grade.FIRST, Remedy.TIGHTEN, "Set up and lock the tie rod with the stay slack, and look at deck and hull round its ends"),
                bad("rusty", "rust or a crack at an end or weld", Grade.FIRST, Remedy.REPLACE, "Renew the tie rod or its weld", damage=True),
                bad("broken", "broken or torn loose", Grade.STOP, Remedy.REPLACE, "Renew the tie rod and what it holds to", damage=True),
            ),
        ),
    ),
    needs=(
        Need(
            id="wire_strength", source="component", kind="standing_wire", name="marked_strength", dimension=Dimension.FORCE, asked="on_request",
            why="breaking force of the wire that pulls on it, by its papers",
        ),
    ),
    limits=load_limits(__package__, "chainplate.toml"),
    assess=assess,
)  # fmt: skip
