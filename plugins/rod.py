"""Rod rigging: a solid stay with a cold-formed head at each end.

Comes in: Evidence of one rod, or of a pair. Goes out: tension beside a breaking force that its papers give, and what was
not seen. No breaking force of rod is published here, and the printed folding-rule figure for rod is a misprint that is
refused. Limits stand in rod.toml.
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
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    load_limits,
)

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine
from .standing_wire import ROLES
from .stay_miles import by_vessel
from .stay_tension import tension

RENEW = "Renew the rod with its heads, and its opposite number with it"
HEADS = "Have both heads taken out with the mast down, tested with dye, and made anew where they are due"


def assess(evidence: Evidence) -> Assessment:
    """Tension where it was asked for; the heads and bends aloft are missing while seen from deck."""
    taut = tension(evidence)
    return Assessment(
        checks=(*taut.checks, *by_vessel(evidence)),
        missing=(*not_close(evidence, "the upper head and the bend at the spreader"), *taut.missing),
    )


plugin = Plugin(
    kind="rod",
    title="Rod stay",
    plural="Rod stays",
    system="rig",
    load_path=True,
    station="deck",
    purpose="holds the mast up",
    cautions=(CAUTION_STAYED, *CAUTIONS_ALOFT, "Never bend a rod: coil it no tighter than its papers say."),
    tools=("cotton cloth", "magnifier of seven times or more", "dye penetrant", "straight edge", "torch and mirror"),
    supplies=("cloths", "dye penetrant with cleaner and developer"),
    examination=(
        ExaminationItem(id="length", words="the whole accessible length, by hand and cloth, for nicks and bends"),
        ExaminationItem(id="lower_head", words="the lower head and its seat"),
        ExaminationItem(id="upper_head", words="the upper head and its seat"),
        ExaminationItem(id="spreaders", words="the rod where it bends at a spreader"),
    ),
    proof=(
        ProofItem(id="heads", words="heads seen home in their seats, locks on"),
        ProofItem(id="screws", words="[rigging screw]s locked, thread engaged alike at both ends"),
        ProofItem(id="mast_line", words="mast in line athwartships and straight, opposite rods alike"),
        ProofItem(id="after_sail", words="tension and locking looked at again after the first sail"),
    ),
    care=(Care(id="rinse", what="Rinse rods and heads with fresh water, wipe them with a cloth and look at them", months=12, remedy=Remedy.CLEAN),),
    details=(
        DetailField(id="role", title="What it holds", holds="choice", choices=ROLES),
        DetailField(
            id="construction", title="Construction", holds="choice",
            choices={"rod": "solid rod, round", "lenticular": "solid rod, flattened", "other": "another"},
        ),
        DetailField(id="diameter", title="Diameter", holds="length", unit="mm", imperial="in", plausible=(3, 30)),
        DetailField(id="marked_strength", title="Breaking force by its papers", holds="force", unit="kN", imperial="lbf", plausible=(5, 900)),
        DetailField(id="strength_from", title="Where that breaking force comes from", holds="words"),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(id="heads_made", title="Heads last made or tested with dye", holds="date"),
        DetailField(
            id="waters", title="Waters it has lived in", holds="choice",
            choices={"temperate": "temperate", "tropics": "mostly tropical or hot and salty"},
        ),
        DetailField(id="rig_miles", title="Miles sailed with it", holds="length", unit="nmi", imperial="nmi", plausible=(0, 400_000)),
    ),
    readings=(
        Quantity(
            id="fold_growth", title="Growth of the folding-rule length", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 20),
            expected_u=0.3, asked="on_request", per_side=True, method="two-metre rule taped to the slack rod; the gap's growth, rod set up",
            help="The printed figure for rod is a misprint: the growth is kept, and no tension is reckoned from it.",
        ),
        Quantity(
            id="gauge_tension", title="Tension by gauge or pump", dimension=Dimension.FORCE, unit="kN", imperial="lbf", plausible=(0.05, 400),
            expected_u=0.5, asked="on_request", per_side=True, method="gauge made for rod of this size, boat at rest",
        ),
    ),
    derived=(
        Derived(id="tension", title="Tension, of the breaking force", dimension=Dimension.RATIO, unit="%"),
        Derived(id="tension_force", title="Tension", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
    ),
    observations=(
        looked("its upper part was"),
        Observation(
            id="heads", title="Heads", required="needed", basis="a surveyor's guide: ends tested with dye, mast down",
            choices=(
                fine("tested", "taken out and tested with dye, no crack shown"),
                bad("eye", "looked at in their seats, not taken out", Grade.WATCH, Remedy.TEST, HEADS),
                bad("stained", "rust round a head or its seat", Grade.FIRST, Remedy.TEST, HEADS),
                bad("seat", "a head stands off its seat, or the seat is worn oval", Grade.FIRST, Remedy.REFIT, HEADS, damage=True),
                bad("cracked", "a crack in a head or at its neck", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="surface", title="Surface", required="needed",
            choices=(
                fine("smooth", "smooth by hand and cloth"),
                bad("stain", "brown stain", Grade.WATCH, Remedy.CLEAN, "Clean the stain off and look for a pit or scratch beneath with a magnifier"),
                bad("scratched", "a scratch along the rod that a nail feels", Grade.PLAN, Remedy.TEST, "Have a rigger look at the scratch, and test it with dye"),
                bad("nicked", "a nick or scratch across the rod, or a pit", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("cracked", "a crack", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="straight", title="Straightness", required="needed",
            choices=(
                fine("straight", "straight, but for its formed bends at the spreaders"),
                bad("spreader", "stands off its bend at a spreader, or the bend has moved", Grade.FIRST, Remedy.REFIT, "Have the bend and the spreader tip put right with the mast down", damage=True),
                bad("bent", "bent near an end", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("kinked", "kinked", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="slack", title="Slack, beside its opposite number", loaded_test=True,
            choices=(
                fine("even", "as taut as its opposite number; not slack to leeward at about 20° of heel"),
                bad("uneven", "softer than its opposite number at rest", Grade.PLAN, Remedy.ADJUST, "Set up the rig evenly, mast in line, and lock the [rigging screw]s"),
                bad("loose", "slack at rest, or slack to leeward at about 20° of heel", Grade.FIRST, Remedy.ADJUST, "Find why the rod is slack, then set up the rig evenly: a slack rod fails at its heads"),
            ),
        ),
    ),
    needs=(
        Need(id="miles", source="vessel", name="miles", dimension=Dimension.LENGTH, asked="on_request", why="miles on the boat's log, where those of the rig are not known"),
    ),
    limits=load_limits(__package__, "rod.toml"),
    assess=assess,
)  # fmt: skip
