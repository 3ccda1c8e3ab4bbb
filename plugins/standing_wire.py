"""Standing wire: a stay or shroud of strand or rope, from the mouth of one end to the mouth of the other.

Comes in: Evidence of one wire, or of a pair of one kind. Goes out: wear beside the rules for other wires, tension,
strength for the undamaged wire. Limits stand in standing_wire.toml: any one broken wire condemns; age plans, no more.
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
    Missing,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    load_limits,
)

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine, unseen
from .stay_miles import by_vessel
from .stay_strength import strength
from .stay_tension import tension
from .stay_wear import diameter_losses

AC = "FAA AC 43.13-1B, 7-149"
RENEW = "Renew the wire with its ends, and its opposite number with it"
ROLES = {
    "cap_shroud": "[cap shroud]",
    "intermediate": "intermediate or diagonal shroud",
    "lower": "lower shroud",
    "forward_lower": "forward lower shroud",
    "aft_lower": "aft lower shroud",
    "forestay": "forestay",
    "inner_forestay": "inner forestay or baby stay",
    "backstay": "backstay",
    "other": "another stay",
}


def assess(evidence: Evidence) -> Assessment:
    """Wear, tension and strength in figures; what was seen from deck or lies under a cover is named as missing."""
    strong, taut = strength(evidence), tension(evidence)
    return Assessment(
        checks=(*diameter_losses(evidence), *taut.checks, *strong.checks, *by_vessel(evidence)),
        missing=(
            *not_close(evidence, "the upper end and the wire at the spreaders"),
            *_covered(evidence),
            *taut.missing,
            *strong.missing,
        ),
    )


def _covered(evidence: Evidence) -> tuple[Missing, ...]:
    """The wire under a foil or coat, which nobody saw."""
    if all(each.choice != "hidden" for each in evidence.observed.get("cover", ())):
        return ()
    return (
        Missing(
            id="under_cover",
            title="the wire under its foil, tube or coat",
            needed=True,
            why="Only its ends were seen.",
        ),
    )


plugin = Plugin(
    kind="standing_wire",
    title="Standing wire",
    plural="Standing wires",
    system="rig",
    load_path=True,
    station="deck",
    purpose="holds the mast up",
    cautions=(
        CAUTION_STAYED,
        *CAUTIONS_ALOFT,
        "Never run a bare hand along a wire: a broken strand cuts like a hook. Cloth or glove.",
    ),
    tools=("cotton cloth", "magnifier of seven times or more", "vernier caliper", "folding rule of two metres", "mirror and torch", "binoculars"),
    supplies=("cloths", "tape for the [split pin]s", "no grease and no closed sleeve over a stainless wire: it rusts where air cannot reach"),
    examination=(
        ExaminationItem(id="cloth", words="a cloth wiped over all accessible length"),
        ExaminationItem(id="lower_end", words="the wire at the mouth of its lower end, with a magnifier"),
        ExaminationItem(id="upper_end", words="the wire at the mouth of its upper end, with a magnifier"),
        ExaminationItem(id="spreaders", words="the wire where it passes a spreader or touches anything"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen, at both ends"),
        ProofItem(id="screws", words="[rigging screw]s locked, thread engaged alike at both ends"),
        ProofItem(id="mast_line", words="mast in line athwartships and straight, opposite wires alike"),
        ProofItem(id="after_sail", words="tension and locking looked at again after the first sail"),
    ),
    care=(Care(id="rinse", what="Rinse the wires and the mouths of their ends with fresh water, wipe them with a cloth and look at them", months=12, remedy=Remedy.CLEAN),),
    details=(
        DetailField(id="role", title="What it holds", holds="choice", choices=ROLES),
        DetailField(
            id="construction", title="Construction", holds="choice",
            choices={"1x19": "1x19", "compact": "compact strand", "7x7": "7x7", "7x19": "7x19", "other": "another construction"},
            help="Count at an end: nineteen single wires, or seven strands. Compact strand has flattened outer wires.",
        ),
        DetailField(
            id="diameter", title="Nominal diameter", holds="length", unit="mm", imperial="in", plausible=(2, 26),
            help="As marked or on the invoice, in the unit it was sold in.",
        ),
        DetailField(id="baseline", title="Diameter measured when new", holds="length", unit="mm", imperial="in", plausible=(2, 27), help="Of this very wire."),
        DetailField(
            id="grade_material", title="Material", holds="choice",
            choices={"316": "stainless 316", "302_304": "stainless 302 or 304", "galvanised": "galvanised steel", "unknown": "not known"},
        ),
        DetailField(id="marked_strength", title="Breaking force by its papers", holds="force", unit="kN", imperial="lbf", plausible=(2, 600)),
        DetailField(
            id="strength_from", title="Where that breaking force comes from", holds="words",
            help="Whose table or paper. Tables differ by a tenth at one diameter: the figure means nothing without its source.",
        ),
        DetailField(id="installed", title="Fitted", holds="date", help="With its evidence: invoice, tag, or told. Renewed in part? Make it two entries."),
        DetailField(
            id="waters", title="Waters it has lived in", holds="choice",
            choices={"temperate": "temperate", "tropics": "mostly tropical or hot and salty"},
        ),
        DetailField(id="rig_miles", title="Miles sailed with it", holds="length", unit="nmi", imperial="nmi", plausible=(0, 400_000)),
        DetailField(
            id="load_share", title="Share of the side's load that is reckoned for it", holds="ratio", unit="%", plausible=(1, 100),
            help="Only for a sizing estimate: with double lowers 45 % upper and 32.5 % each lower are in use.",
        ),
        DetailField(
            id="safety_factor", title="Factor of strength over load that is reckoned with", holds="ratio", unit="1", plausible=(1, 6),
            help="Only for a sizing estimate: 2.25 to 2.75 are in use.",
        ),
        DetailField(id="chainplate_beam", title="Beam at the chainplates", holds="length", unit="m", imperial="ft", plausible=(0.5, 12)),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the wire, then counted with a magnifier of seven times or more, ends first",
            help="One line for each place. Write 0 for what was wiped and ran clean. Not every broken wire stands out.",
        ),
        Quantity(
            id="broken_in_lay", title="Broken wires in one lay, clear of the ends", dimension=Dimension.COUNT, unit="", asked="on_request",
            plausible=(0, 133), method="counted over the length in which an outer wire goes once round",
            help="Only to set the count beside the rules for other wires. One break is enough to renew the wire.",
        ),
        Quantity(
            id="broken_at_end", title="Broken wires in one lay at an end", dimension=Dimension.COUNT, unit="", asked="on_request",
            plausible=(0, 133), method="counted at the mouth of the end, with a magnifier",
        ),
        Quantity(
            id="wire_diameter", title="Diameter", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(1.5, 27), expected_u=0.05,
            method="vernier caliper over the crowns, two readings at right angles", asked="on_request", wears=True,
        ),
        Quantity(
            id="outer_wear", title="Wear of the outer wires", dimension=Dimension.RATIO, unit="%", plausible=(0, 100), expected_u=10,
            method="magnifier: flat worn on the outer wires where the wire touches something", asked="on_request", wears=True,
        ),
        Quantity(
            id="fold_growth", title="Growth of the folding-rule length", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 20),
            expected_u=0.3, asked="on_request", per_side=True,
            method="two-metre rule taped to the slack wire, its lower end about 5 mm above the terminal; the gap's growth, wire set up",
        ),
        Quantity(
            id="fold_length", title="Length of the rule, where it is not two metres", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            plausible=(500, 5000), expected_u=2, asked="on_request", per_side=True, method="tape along the wire",
        ),
        Quantity(
            id="gauge_tension", title="Tension by gauge", dimension=Dimension.FORCE, unit="kN", imperial="lbf", plausible=(0.05, 120),
            expected_u=0.2, asked="on_request", per_side=True, method="tension gauge of the wire's size, boat at rest, its class of accuracy noted",
            help="Gauges are good for 3 to 5 %.",
        ),
    ),
    derived=(
        Derived(id="loss_of_nominal", title="Diameter lost, of nominal", dimension=Dimension.RATIO, unit="%", wears=True),
        Derived(id="loss_of_baseline", title="Diameter lost, of that when new", dimension=Dimension.RATIO, unit="%", wears=True),
        Derived(id="tension", title="Tension, of the breaking force", dimension=Dimension.RATIO, unit="%"),
        Derived(id="tension_force", title="Tension", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="expected_growth", title="Growth by the stretch factor of the strand", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
        Derived(id="breaking_force", title="Breaking force of the undamaged wire", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="load_sailing", title="Load at the class share for sailing", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="load_survival", title="Load at the class share for survival", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="side_load", title="Load of all shrouds of one side", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="asked_for", title="Breaking force asked for", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="over_asked", title="Breaking force over what is asked for", dimension=Dimension.RATIO, unit="1", decimals=2),
    ),
    observations=(
        looked("its upper part was"),
        Observation(
            id="cloth", title="Cloth along the wire", required="needed", basis=f"{AC} d",
            choices=(
                fine("clean", "the cloth ran clean over all that was in reach"),
                bad("snagged", "the cloth snagged on a broken wire", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="cover", title="Foil, tube or coat over the wire", required="needed",
            choices=(
                unseen("hidden", "a foil, tube or coat hides part of the wire"),
                fine("bare", "bare over its whole length"),
                fine("opened", "the cover was taken off for this examination"),
            ),
            help="A forestay inside a furler's foil is seen at its ends only.",
        ),
        Observation(
            id="shape", title="Kinks, loose and standing wires", required="needed", basis=f"{AC} e; 29 CFR 1926.1413(a)(2)(i)",
            choices=(
                fine("even", "even lay, no kink, no wire standing off"),
                bad("set", "a lasting bend or flat", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("kinked", "a kink, a birdcage, or a wire standing off", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion", required="needed", basis="handbook of yacht rigging; even discolouration is usual",
            choices=(
                fine("none", "no corrosion, or an even tan that a cloth takes off"),
                bad(
                    "stain", "patches of brown stain", Grade.WATCH, Remedy.CLEAN,
                    "Clean the stained wire and look at it again with a magnifier: a stain over a pit comes back first",
                ),
                bad("weeping", "rust weeping from the lay or from the mouth of an end", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("pitted", "pits, or heavy or patchy rust", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="chafe", title="What the wire touches",
            choices=(
                fine("nothing", "nothing but its spreader tips"),
                bad("touches", "touches a rail, line, lamp or another wire, no wear", Grade.WATCH, Remedy.ADJUST, "Lead clear what touches the wire"),
                bad("polished", "polished, wires still round", Grade.PLAN, Remedy.ADJUST, "Stop the chafe, measure the wear of the outer wires and look again"),
                bad("flats", "flats of a third of a wire or more", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="slack", title="Slack, beside its opposite number", loaded_test=True,
            choices=(
                fine("even", "as taut as its opposite number; not slack to leeward at about 20° of heel"),
                bad("uneven", "softer than its opposite number at rest", Grade.PLAN, Remedy.ADJUST, "Set up the rig evenly, mast in line, and lock the [rigging screw]s"),
                bad("leeward", "slack to leeward at about 20° of heel", Grade.FIRST, Remedy.ADJUST, "Set up the rig evenly, mast in line, and lock the [rigging screw]s"),
                bad("loose", "slack at rest", Grade.FIRST, Remedy.ADJUST, "Find why the wire is slack (an end slipped, deck or step gone down, a screw run back), then set up the rig"),
            ),
        ),
    ),
    needs=(
        Need(id="miles", source="vessel", name="miles", asked="on_request", dimension=Dimension.LENGTH, why="miles on the boat's log, where those of the rig are not known"),
        Need(id="righting_moment", source="vessel", name="righting_moment", asked="on_request", dimension=Dimension.TORQUE, why="righting moment at 30° of heel, for a sizing estimate"),
        Need(id="beam", source="vessel", name="beam", asked="on_request", dimension=Dimension.LENGTH, why="beam, for a sizing estimate where that at the chainplates is not known"),
    ),
    limits=load_limits(__package__, "standing_wire.toml"),
    assess=assess,
)  # fmt: skip
