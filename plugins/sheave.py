"""Sheaves, idlers and conduit that turn the steering wire between pedestal and quadrant.

Comes in: Evidence of one sheave or of all of one helm, with its wire. Goes out: the ratio of sheave to wire by the
wire's construction, as a design check. Limits stand in sheave.toml; what moves, wears and rubs is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Assessment,
    Care,
    Check,
    Choice,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Fact,
    Grade,
    LimitKind,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Value,
    Verdict,
    compare,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.mechanics import sheave_ratio
from reporter.engineering.wire import bending_strength

from .drive import needed_value, own_value

FASTEN = (
    "Fasten the sheave's base to structure that carries the pull: through-bolts, backing plates, locked nuts"
)
REMAKE = "Take the sheave off its pin and look at pin, bushing and groove; renew what is worn"
LINE_UP = "Line the sheave up with the wire, and look at the wire and the cheeks there"
TITLE = "Sheave diameter over wire diameter"
STRAND = Check(
    id="sheave.strand",
    subject="strand",
    title="Wire laid up for sheaves",
    said="the wire is a 1x19 strand, made to stand and not to bend",
    verdict=Verdict.SEEN,
    grade=Grade.PLAN,
    kind=LimitKind.DESIGN,
    method="common practice",
)
FLEXIBLE = Action(
    id="sheave.strand",
    what="Renew the steering wire in a flexible construction, 7x19",
    remedy=Remedy.REPLACE,
    why=STRAND.said,
    grade=STRAND.grade,
    settles=(STRAND.id,),
)


def assess(evidence: Evidence) -> Assessment:
    """The ratio against what its wire's construction asks for; a strand of 1x19 over a sheave is told by itself."""
    strand = _construction(evidence) == "1x19"
    return Assessment(
        checks=(*_ratio(evidence), *((STRAND,) if strand else ())), actions=(FLEXIBLE,) if strand else ()
    )


def _construction(evidence: Evidence) -> str:
    found = evidence.needed.get("construction")
    return found.choice if isinstance(found, Fact) else ""


def _ratio(evidence: Evidence) -> Iterator[Check]:
    tread, wire = own_value(evidence, "tread_diameter"), needed_value(evidence, "wire_diameter")
    if tread is None or wire is None:
        return
    ratio, sum_ = work(sheave_ratio, {"tread": tread, "wire": wire})
    quantities = {"ratio", f"ratio_{_construction(evidence)}"}
    for limit in evidence.limits.values():
        if limit.quantity in quantities:
            yield compare(evidence, ratio, limit, title=TITLE, working=(sum_,), notes=_bent(ratio))


def _bent(ratio: Value) -> tuple[str, ...]:
    """How much of its strength the wire keeps while it is bent, where the table reaches so far."""
    try:
        kept = bending_strength(ratio.value)
    except ValueError:
        return ()
    return (f"bent round this sheave a wire keeps about {kept:.0%} of its strength (trade table)",)


plugin = Plugin(
    kind="sheave",
    title="Sheaves, idlers and conduit",
    plural="Sheaves, idlers and conduits",
    system="steering",
    load_path=True,
    station="under_cockpit",
    purpose="turn the steering wire on its way, and carry twice its pull",
    cautions=(
        "No hand near a sheave while anybody is at the wheel: a finger goes where the wire goes.",
        "A sheave that turns the wire back pulls at its base with twice the wire's pull: look at the base first, then let somebody pull.",
    ),
    tools=("torch and mirror", "[spanner]s for the bases", "vernier caliper", "cloth"),
    supplies=("[split pin]s of the right size", "PTFE-type synthetic grease", "self-locking nuts", "sheave pins and bushings of the right size"),
    examination=(
        ExaminationItem(id="bases", words="the base of every sheave, from both sides where it is bolted through, while the rim is pulled hard"),
        ExaminationItem(id="pins", words="every pin with its [split pin]"),
        ExaminationItem(id="grooves", words="every groove all round, wheel turned from stop to stop"),
        ExaminationItem(id="conduits", words="both mouths of every conduit"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, wire in every groove"),
        ProofItem(id="pins", words="pins and [split pin]s seen"),
        ProofItem(id="loaded", words="rim pulled hard both ways, no base moves"),
        ProofItem(id="tools_out", words="tools out of the bilge"),
    ),
    details=(
        DetailField(
            id="tread_diameter", title="Tread diameter", holds="length", unit="mm", imperial="in", plausible=(20, 500),
            help="At the bottom of the groove, of the smallest sheave.",
        ),
        DetailField(
            id="bearing", title="Bearing", holds="choice",
            choices={"plain": "plain bushing", "needle": "needle or ball bearing", "none": "sheave straight on its pin", "unknown": "not known"},
        ),
        DetailField(
            id="sheave_material", title="Material of the sheaves", holds="choice",
            choices={"bronze": "bronze", "aluminium": "aluminium", "plastic": "plastic", "stainless": "stainless steel", "other": "another material"},
        ),
        DetailField(id="count", title="Number of sheaves", holds="count", plausible=(1, 24)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="pin_play", title="Play of the sheave on its pin", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 15),
            method="feeler gauge, or rule beside the sheave, wire slack", expected_u=0.2, asked="on_request", wears=True,
        ),
        Quantity(
            id="deflection", title="Bend at a fairlead or conduit mouth", dimension=Dimension.ANGLE, unit="°", plausible=(0, 60), expected_u=1,
            method="angle gauge, or offset over a measured length", asked="on_request",
        ),
        Quantity(
            id="misalignment", title="Wire out of the plane of the sheave", dimension=Dimension.ANGLE, unit="°", plausible=(0, 30), expected_u=1,
            method="straight edge across the sheave's face, angle to the wire", asked="on_request",
        ),
    ),
    derived=tuple(
        Derived(id=ident, title=TITLE, dimension=Dimension.RATIO, unit="1", decimals=1) for ident in ("ratio", "ratio_7x19", "ratio_7x7")
    ),
    observations=(
        Observation(
            id="base", title="Base under load", required="needed", loaded_test=True,
            choices=(
                Choice(id="still", words="no base moves while the rim is pulled hard both ways", grade=Grade.CLEAR),
                Choice(
                    id="springs", words="a base springs, its fastenings tight", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Stiffen what the sheave is fastened to",
                ),
                Choice(
                    id="loose", words="a fastening loose, the base not moving yet", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Tighten the base's bolts, lock the nuts, and pull the rim hard again",
                ),
                Choice(id="moves", words="a base moves", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=FASTEN),
                Choice(id="pulling_out", words="a base cracked, bent or pulling out", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=FASTEN),
            ),
            help="Rudder held. One pulls the rim, one keeps a light and a fingertip on the edge of each base: movement is felt first.",
        ),
        Observation(
            id="pin", title="Pin and its lock", required="needed",
            choices=(
                Choice(id="locked", words="pin straight, unworn and locked", grade=Grade.CLEAR),
                Choice(id="play", words="the sheave rocks on its pin", grade=Grade.PLAN, remedy=Remedy.OPEN_UP, action=REMAKE),
                Choice(id="worn", words="pin worn, bent or grooved", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=REMAKE),
                Choice(
                    id="unlocked", words="[split pin] or lock missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Fit a new [split pin] or lock to the sheave's pin",
                ),
            ),
            basis="common practice; 14 CFR 25.689(d) allows no loaded pin that only a cotter keeps",
        ),
        Observation(
            id="dust", title="Metal dust below", required="needed",
            choices=(
                Choice(id="none", words="no metal dust below the sheave", grade=Grade.CLEAR),
                Choice(
                    id="wire", words="rust or grey dust off the wire", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Wipe the dust away, look at wire and groove there, and see whether it comes again",
                ),
                Choice(id="pin", words="bronze or bright dust below the pin", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=REMAKE),
            ),
            help="Dust is the sign of a pin that wears where nobody sees it.",
        ),
        Observation(
            id="turning", title="Turning", required="needed",
            choices=(
                Choice(id="free", words="turns with the wire, freely", grade=Grade.CLEAR),
                Choice(
                    id="stiff", words="turns stiffly", grade=Grade.PLAN, remedy=Remedy.LUBRICATE,
                    action="Free the sheave and lubricate its bearing with PTFE-type synthetic grease",
                ),
                Choice(id="seized", words="stands still while the wire slides over it", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=REMAKE),
            ),
        ),
        Observation(
            id="groove", title="Groove", required="needed",
            choices=(
                Choice(id="smooth", words="smooth, round, and of the wire's width", grade=Grade.CLEAR),
                Choice(
                    id="printed", words="the lay of the wire pressed into it", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Renew the sheave together with the wire",
                ),
                Choice(
                    id="sharp", words="sharp, chipped, or too narrow or wide for the wire", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Renew the sheave, and look at the wire for broken wires there",
                ),
                Choice(
                    id="cracked", words="sheave cracked or a cheek broken away", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the sheave, and look at the wire for broken wires there",
                ),
            ),
        ),
        Observation(
            id="lead", title="How the wire enters", required="needed", basis="common practice; 14 CFR 25.689(b): pulley in the plane of the cable",
            choices=(
                Choice(id="centre", words="in the middle of the groove, over the whole travel", grade=Grade.CLEAR),
                Choice(id="touches", words="touches a cheek somewhere on the travel", grade=Grade.PLAN, remedy=Remedy.ADJUST, action=LINE_UP),
                Choice(id="rubs", words="rubs a cheek, bright or worn there", grade=Grade.FIRST, remedy=Remedy.ADJUST, action=LINE_UP),
                Choice(
                    id="off", words="off the sheave, or marks show that it has been off", grade=Grade.STOP, remedy=Remedy.REFIT, damage=True,
                    action="Lay the wire back, line up the sheave, make the keeper fit, and look at the wire there",
                ),
            ),
        ),
        Observation(
            id="keeper", title="Keeper", required="needed", basis="common practice; 14 CFR 25.689(b): close guards",
            choices=(
                Choice(id="close", words="so close that the wire cannot leave the groove", grade=Grade.CLEAR),
                Choice(
                    id="bent", words="bent, loose or too far off", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Set the keeper so close that the slack wire cannot leave the groove",
                ),
                Choice(
                    id="missing", words="no keeper", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Fit a keeper so close that the slack wire cannot leave the groove",
                ),
            ),
        ),
        Observation(
            id="conduit", title="Conduit and its mouths",
            choices=(
                Choice(id="held", words="held at both mouths, whole, wire running out straight; or no conduit fitted", grade=Grade.CLEAR),
                Choice(
                    id="dry", words="whole, but the wire drags in it", grade=Grade.PLAN, remedy=Remedy.LUBRICATE,
                    action="Work synthetic grease into the conduit, no other, and feel again",
                ),
                Choice(
                    id="loose", words="a mouth loose in its clamp", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Clamp the conduit at both mouths so that the wire runs out straight",
                ),
                Choice(
                    id="cut", words="split, kinked, or sawn by the wire", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the conduit, and look at the wire that ran in it",
                ),
            ),
        ),
    ),
    needs=(
        Need(
            id="wire_diameter", source="component", kind="steering_wire", name="diameter", dimension=Dimension.LENGTH,
            why="diameter of the steering wire, for the ratio of sheave to wire",
        ),
        Need(
            id="construction", source="component", kind="steering_wire", name="construction",
            why="construction of the steering wire, for the ratio of sheave to wire",
        ),
    ),
    limits=load_limits(__package__, "sheave.toml"),
    care=(Care(id="grease", what="Grease the sheaves' bearings where they have a point for it, and turn every sheave by hand", supply="PTFE-type synthetic grease", months=12),),
    assess=assess,
)  # fmt: skip
