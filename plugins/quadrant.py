"""Quadrant, radial drive or tiller arm on the rudder stock, with the rudder stops.

Comes in: Evidence of one quadrant, with the wheel's diameter and the chain of the same helm. Goes out: the arc kept on
each side, the shorter side, and the leverage from rim to stock, all for information. Limits stand in quadrant.toml;
what moves, and what stops the rudder first, is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Care,
    Check,
    Choice,
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
    Spot,
    compare,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.mechanics import shorter_side
from reporter.engineering.play import arc_kept

from .drive import chain_needs
from .leverage import FOR, leverage
from .worked import worked_out

SET_STOPS = "Set the rudder stops so that they touch before anything else at both hard-overs"
REFASTEN = (
    "Refit the quadrant on the stock: clean the joint, key and bolts in, gap left in the clamp, nuts locked"
)
SQUARE = "Refit the stop so that it bears squarely on the quadrant"


def assess(evidence: Evidence) -> Assessment:
    """Rudder travel side by side, and the leverage; both for information."""
    levered = leverage(evidence)
    return Assessment(
        checks=(*_arcs(evidence), *_shorter(evidence), *levered.checks), missing=levered.missing
    )


def _arcs(evidence: Evidence) -> Iterator[Check]:
    """How much of the arc as built is reached, each side by itself: a total would hide a short side."""
    built = evidence.facts.get("designed_angle")
    if built is None or built.value is None:
        return
    for spot in evidence.at("rudder_angle"):
        share, sum_ = work(arc_kept, {"reached": spot.value, "full": built.value})
        limit = evidence.limit("quadrant.arc_kept.retained")
        yield compare(evidence, share, limit, title="Steering arc reached", like=spot, working=(sum_,))


def _shorter(evidence: Evidence) -> Iterator[Check]:
    """The shorter side, wherever both sides were read at one place in one state."""
    for port in evidence.at("rudder_angle"):
        starboard = _opposite(evidence, port)
        if port.side == "port" and starboard:
            least, sum_ = work(shorter_side, {"to_port": port.value, "to_starboard": starboard.value})
            shorter = port if port.value.value <= starboard.value.value else starboard
            yield worked_out(
                "quadrant", "shorter_side", "Rudder angle of the shorter side", least, (sum_,), like=shorter
            )


def _opposite(evidence: Evidence, port: Spot) -> Spot | None:
    same = [each for each in evidence.at("rudder_angle") if (each.at, each.state) == (port.at, port.state)]
    return next((each for each in same if each.side == "starboard"), None)


def _not_the_stop(ident: str, words: str) -> Choice:
    """Whatever else the rudder runs against is bent, torn off or pulled out by the first hard blow."""
    return Choice(id=ident, words=words, grade=Grade.FIRST, remedy=Remedy.ADJUST, action=SET_STOPS)


plugin = Plugin(
    kind="quadrant",
    title="Quadrant and rudder stops",
    plural="Quadrants and rudder stops",
    system="steering",
    load_path=True,
    station="quadrant",
    purpose="turns the pull of the wire into rudder angle, and holds the rudder at both ends of its travel",
    cautions=(
        "Lash the wheel or chock the rudder before putting a hand near quadrant and wire; switch the pilot off at its breaker.",
        "Not under way, engine stopped: a passing wash is enough to turn the rudder. Tell everybody aboard.",
    ),
    tools=("torch and mirror", "[spanner]s for clamp and stops", "angle gauge or protractor", "paint marker", "wheel lashing"),
    supplies=("[split pin]s of the right size", "self-locking nuts", "stop pads"),
    examination=(
        ExaminationItem(id="fastening", words="clamp, key and bolts all round, a hand on the joint while the wheel is worked"),
        ExaminationItem(id="attachments", words="both wire attachments with their pins and locknuts"),
        ExaminationItem(id="stops", words="both hard-overs, looking at what touches first and how the stop bears"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, nothing else touching first"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="tools_out", words="tools out of the locker"),
    ),
    details=(
        DetailField(
            id="form", title="Form", holds="choice",
            choices={
                "quadrant": "quadrant", "radial": "radial drive (full disc)", "tiller_arm": "tiller arm", "other": "another form",
            },
        ),
        DetailField(
            id="radius", title="Radius", holds="length", unit="mm", imperial="in", plausible=(60, 900),
            help="From the centre of the stock to the bottom of the wire's groove, or to the pin of a tiller arm.",
        ),
        DetailField(
            id="fastening", title="Fastening on the stock", holds="choice",
            choices={
                "clamp": "clamp", "clamp_key": "clamp with key", "through_bolts": "through-bolts", "taper": "taper with key and nut",
                "other": "another fastening",
            },
        ),
        DetailField(
            id="material", title="Material", holds="choice",
            choices={
                "aluminium": "aluminium", "bronze": "bronze", "steel": "steel", "stainless": "stainless steel",
                "laminate": "fibre laminate", "unknown": "not known",
            },
        ),
        DetailField(
            id="stops", title="Where the stops are", holds="choice",
            choices={
                "quadrant": "on the hull or a frame, bearing on the quadrant", "stock": "on the stock or an arm of their own",
                "gear": "inside the gear or the ram", "outside": "outside, on hull or skeg", "none": "no stop found",
            },
        ),
        DetailField(
            id="designed_angle", title="Rudder angle each side as built", holds="angle", unit="°", plausible=(15, 90),
            help="From the drawing or the gear's plate; leave it out when nobody knows.",
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="rudder_angle", title="Rudder angle at hard-over", dimension=Dimension.ANGLE, unit="°", per_side=True,
            method="angle gauge or protractor on the quadrant, from amidships to where it stops", plausible=(1, 90), expected_u=1,
            help="Side: the side that the rudder goes to. Read both: a long side hides a short one in the total.",
        ),
        Quantity(
            id="rim_force", title="Force at the rim for the sum", dimension=Dimension.FORCE, unit="N", imperial="lbf",
            method="spring balance at the rim, square to the spoke", plausible=(5, 700), expected_u=10, asked="on_request",
            help="Only for the leverage from rim to stock; without it a handbook's helm force is put in.",
        ),
        Quantity(
            id="helm_torque", title="Torque at the helm to reach the angle", dimension=Dimension.TORQUE, unit="N·m", imperial="lbf·ft",
            method="spring balance at the rim times the wheel's radius", plausible=(0.5, 300), expected_u=2, per_side=True,
            asked="on_request",
        ),
    ),
    derived=(
        Derived(id="arc_kept", title="Steering arc reached", dimension=Dimension.RATIO, unit="%"),
        Derived(id="shorter_side", title="Rudder angle of the shorter side", dimension=Dimension.ANGLE, unit="°"),
        Derived(id="chain_pull", title="Pull in chain and wire from the rim", dimension=Dimension.FORCE, unit="N", imperial="lbf"),
        Derived(
            id="stock_torque", title="Torque at the rudder stock from the rim", dimension=Dimension.TORQUE, unit="N·m",
            imperial="lbf·ft",
        ),
        Derived(id="equivalent_tiller", title="Tiller of equal leverage", dimension=Dimension.LENGTH, unit="m", imperial="ft"),
    ),
    observations=(
        Observation(
            id="fastening", title="Clamp, key and bolts", required="needed",
            choices=(
                Choice(id="tight", words="bolts tight and locked, no movement between quadrant and stock", grade=Grade.CLEAR),
                Choice(
                    id="unlocked", words="bolts tight, but nothing locks the nuts", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Lock the quadrant's nuts: self-locking nuts or [split pin]s, then a paint mark across each",
                ),
                Choice(
                    id="loose", words="a loose bolt, no movement seen yet", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Tighten and lock the quadrant's bolts, then a paint mark across each",
                ),
                Choice(
                    id="slips", words="the quadrant moves on the stock when the wheel is worked", grade=Grade.STOP,
                    remedy=Remedy.REFIT, damage=True, action=REFASTEN,
                ),
                Choice(
                    id="missing", words="a bolt or the key is missing", grade=Grade.STOP, remedy=Remedy.REFIT, damage=True,
                    action=REFASTEN,
                ),
            ),
            help="Put a finger across the joint and have somebody work the wheel hard against the stops: a slip is felt before it is seen.",
        ),
        Observation(
            id="clamp_gap", title="Gap between the clamp's faces",
            choices=(
                Choice(id="open", words="a gap left on both sides: the clamp still grips", grade=Grade.CLEAR),
                Choice(id="no_clamp", words="no clamp: bolted through or on a taper", grade=Grade.CLEAR),
                Choice(
                    id="uneven", words="one side closed, the other open", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Take the clamp apart, look at stock and bore, and refit it with an even gap",
                ),
                Choice(
                    id="closed", words="gap closed: tightening the bolts no longer grips the stock", grade=Grade.FIRST,
                    remedy=Remedy.REPAIR, action="Make the clamp grip again: relieve its faces or renew it, key fitted",
                ),
            ),
        ),
        Observation(
            id="cracks", title="Cracks", required="needed",
            choices=(
                Choice(id="none", words="no crack seen round boss, web, rim and bolt holes", grade=Grade.CLEAR),
                Choice(
                    id="doubt", words="a line that could be a crack or a mark in the casting", grade=Grade.FIRST, remedy=Remedy.TEST,
                    action="Test the line with dye penetrant, paint taken off",
                ),
                Choice(
                    id="cracked", words="a crack", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action="Renew the quadrant",
                ),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion",
            choices=(
                Choice(id="none", words="no corrosion", grade=Grade.CLEAR),
                Choice(
                    id="surface", words="surface corrosion or white powder that a cloth takes off", grade=Grade.WATCH,
                    remedy=Remedy.CLEAN, action="Clean the quadrant and find where the water comes from",
                ),
                Choice(
                    id="mixed_metals", words="pits round bolts or wire ends of another metal", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Take the fittings of another metal off, look beneath, and refit them insulated",
                ),
                Choice(
                    id="wasted", words="metal lost at clamp, bolt holes or groove", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    damage=True, action="Renew the quadrant",
                ),
            ),
        ),
        Observation(
            id="attachments", title="Wire attachments", required="needed",
            choices=(
                Choice(id="locked", words="pins, eyebolts and locknuts fitted, locked and unworn", grade=Grade.CLEAR),
                Choice(
                    id="locknut", words="a locknut loose on an eyebolt or adjuster", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Set the wire's tension again, then tighten and mark the locknuts",
                ),
                Choice(
                    id="worn", words="a pin, eye or hole worn", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the worn pin or eyebolt",
                ),
                Choice(
                    id="bare", words="an eyebolt with hardly any thread left in its nut", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Shorten or renew the wire so that the eyebolts stand with full thread in their nuts",
                ),
                Choice(
                    id="unlocked", words="a [split pin] or nut missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Refit the wire attachment with a new pin and a new [split pin]",
                ),
            ),
        ),
        Observation(
            id="groove", title="How the wire lies on the quadrant",
            choices=(
                Choice(id="in_groove", words="in its groove over the whole travel", grade=Grade.CLEAR),
                Choice(
                    id="edge", words="rides on the groove's edge somewhere on the travel", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Line the last sheaves up with the quadrant's groove and look at the wire there",
                ),
                Choice(
                    id="slack_side", words="leaves the groove on the slack side at hard-over", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Set the wire's tension, and see that a keeper holds the slack side in its groove",
                ),
            ),
        ),
        Observation(
            id="first_stop", title="What stops the rudder first", required="needed",
            choices=(
                Choice(id="stop", words="the rudder stop", grade=Grade.CLEAR),
                _not_the_stop("chain_end", "the end of the chain at the sprocket or an idler"),
                _not_the_stop("wire_end", "a wire terminal or adjuster at a sheave"),
                _not_the_stop("ram", "the pilot's ram at the end of its stroke"),
                _not_the_stop("gland", "the gland or its hose"),
                _not_the_stop("wheel", "the wheel or something in the pedestal"),
                _not_the_stop("blade", "the blade against hull, skeg or propeller"),
                _not_the_stop("nothing", "nothing: no stop was found"),
            ),
            help="Answer for each side. Turn slowly, one at the wheel and one with a torch at the quadrant.",
        ),
        Observation(
            id="stop_structure", title="What the stops are fastened to",
            choices=(
                Choice(id="firm", words="stops and their structure firm", grade=Grade.CLEAR),
                Choice(
                    id="flexes", words="a stop gives when the wheel is pressed against it", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Fasten the stop to structure that takes a hard blow of the rudder",
                ),
                Choice(
                    id="cracked", words="cracked, bent or torn loose", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Repair the stop and what it is fastened to",
                ),
            ),
        ),
        Observation(
            id="stop_pads", title="Stop pads",
            choices=(
                Choice(id="in_place", words="in place and whole", grade=Grade.CLEAR),
                Choice(id="metal", words="none meant: metal bears on metal", grade=Grade.CLEAR),
                Choice(
                    id="worn", words="worn, hard or split", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the stop pads",
                ),
                Choice(id="missing", words="missing", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the stop pads"),
            ),
        ),
        Observation(
            id="stop_bearing", title="How the stops bear",
            choices=(
                Choice(id="square", words="squarely, over their whole face", grade=Grade.CLEAR),
                Choice(id="edge", words="on an edge or a corner", grade=Grade.PLAN, remedy=Remedy.ADJUST, action=SQUARE),
                Choice(
                    id="rides_over", words="the quadrant can ride over or past the stop", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action=SQUARE,
                ),
            ),
        ),
        Observation(
            id="loaded", title="Wheel forced against a held rudder", loaded_test=True,
            choices=(
                Choice(id="still", words="nothing moves between wheel and stock but the stretch of the wire", grade=Grade.CLEAR),
                Choice(
                    id="creaks", words="creaks or gives a little, without a place being found", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Find what creaks: look at quadrant, sheaves and pedestal one by one under load",
                ),
                Choice(
                    id="structure", words="a sheave, a stop or the structure beneath moves", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    damage=True, action="Find and fasten what moves under load",
                ),
                Choice(
                    id="quadrant", words="the quadrant turns on the stock", grade=Grade.STOP, remedy=Remedy.REFIT, damage=True,
                    action=REFASTEN,
                ),
            ),
            help="Rudder held by the stop or by a line on the emergency tiller; pull steadily, do not jerk.",
        ),
    ),
    needs=(
        Need(
            id="wheel_diameter", source="component", kind="wheel", name="diameter", dimension=Dimension.LENGTH,
            why=f"diameter of the wheel, for {FOR}",
        ),
        *chain_needs(FOR),
    ),
    limits=load_limits(__package__, "quadrant.toml"),
    care=(
        Care(
            id="bolts", what="Look at the quadrant's clamp, bolts, wire attachments and stops, and try what touches first", months=12,
            remedy=Remedy.LOOK,
        ),
    ),
    assess=assess,
)  # fmt: skip
