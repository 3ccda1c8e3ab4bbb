"""Wheel and its shaft: what the hands at the rim feel, and what gives when the rim is pulled hard.

Comes in: Evidence of one wheel, with chain and quadrant of the same helm. Goes out: play at the rim as rudder angle, and
the turns that the drive should take, both for information: no limit for a yacht's wheel is published. Yardsticks from
the road stand in wheel.toml; everything that decides is an observation.
"""

from __future__ import annotations

import math
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
    Limit,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Spot,
    State,
    Value,
    compare,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.drive import rudder_per_turn
from reporter.engineering.mechanics import rim_play_as_rudder, turns_lock_to_lock
from reporter.engineering.play import lash_limits, play_angle

from .drive import chain_needs, chain_pitch, half, needed_value, own_value, sprocket
from .worked import worked_out

FIND_PLAY = "Find where it comes from: shaft bearings, chain, wire, sheaves, quadrant, one by one with the rudder held"
HUB = "Take the wheel off, look at shaft, key and hub, and refit it with a new key, the nut tight and locked"
BEARINGS = "Open the pedestal top and look at the shaft's bearings; renew them if worn"


def assess(evidence: Evidence) -> Assessment:
    """Rim play as wheel and rudder angle beside the road's yardsticks; turns predicted beside turns counted."""
    play = tuple(check for spot in evidence.at("rim_play") for check in _play(evidence, spot))
    return Assessment(checks=(*play, *_turns(evidence)))


def _play(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    wheel = own_value(evidence, "diameter")
    if wheel is None:
        return
    angle, sum_ = work(play_angle, {"rim_play": spot.value, "wheel": wheel})
    yield worked_out("wheel", "play_angle", "Play as wheel angle", angle, (sum_,), like=spot)
    yield from _as_rudder(evidence, spot, wheel)
    yield from _road(evidence, spot, wheel)


def _as_rudder(evidence: Evidence, spot: Spot, wheel: Value) -> Iterator[Check]:
    """The rudder angle that the play hides, where chain and quadrant are known."""
    driven, radius = sprocket(evidence), needed_value(evidence, "quadrant_radius")
    if driven is None or radius is None:
        return
    inputs = {
        "rim_play": spot.value, "wheel_radius": half(wheel), "sprocket_radius": driven[0], "quadrant_radius": radius,
    }  # fmt: skip
    angle, sum_ = work(rim_play_as_rudder, inputs)
    yield worked_out("wheel", "rudder_play", "Play as rudder angle", angle, (driven[1], sum_), like=spot)


def _road(evidence: Evidence, spot: Spot, wheel: Value) -> Iterator[Check]:
    """The rows of the road rules that name a wheel of this size, and the proportion that the oldest of them keep."""
    for yardstick in lash_limits(wheel.value):
        row = yardstick.row
        rule = "us" if row.rule.startswith("49 CFR") else row.rule.lower().replace(" ", "_")
        size = f"up_to_{row.up_to_in:g}" if row.up_to_in is not None else f"over_{row.over_in:g}"
        yield _beside(evidence, spot.value, evidence.limit(f"wheel.lash.{rule}_{size}"), spot)
    share = Value(
        dimension=Dimension.RATIO,
        value=spot.value.value / wheel.value,
        u=spot.value.u / wheel.value,
        unit="%",
    )
    yield _beside(evidence, share, evidence.limit("wheel.lash.eighth"), spot)


def _beside(evidence: Evidence, value: Value, limit: Limit, spot: Spot) -> Check:
    return compare(evidence, value, limit, title="Play beside a road vehicle's", like=spot)


def _turns(evidence: Evidence) -> Iterator[Check]:
    """Turns that the drive should take, and rudder angle per turn as counted."""
    angle = _total_angle(evidence)
    if angle is None:
        return
    radius, pitch, teeth = (
        needed_value(evidence, "quadrant_radius"),
        chain_pitch(evidence),
        needed_value(evidence, "teeth"),
    )
    if radius and pitch and teeth:
        inputs = {"rudder_angle": angle, "quadrant_radius": radius, "teeth": teeth, "pitch": pitch}
        turns, sum_ = work(turns_lock_to_lock, inputs)
        yield worked_out("wheel", "turns_predicted", "Turns that the drive should take", turns, (sum_,))
    for spot in evidence.at("turns"):
        per_turn, sum_ = work(rudder_per_turn, {"rudder_angle": angle, "turns": spot.value})
        limit = evidence.limit("wheel.rudder_per_turn.inland")
        yield compare(evidence, per_turn, limit, title="Rudder angle per turn", like=spot, working=(sum_,))


def _total_angle(evidence: Evidence) -> Value | None:
    """Both sides of the rudder's travel together, as found; one side alone tells nothing of the other."""
    spots = evidence.needed.get("rudder_angle")
    if not isinstance(spots, tuple):
        return None
    sides = {spot.side: spot.value for spot in spots if spot.state is State.FOUND}
    if not {"port", "starboard"} <= set(sides):
        return None
    port, starboard = sides["port"], sides["starboard"]
    both = port.value + starboard.value
    return Value(dimension=Dimension.ANGLE, value=both, u=math.hypot(port.u, starboard.u), unit="°")


plugin = Plugin(
    kind="wheel",
    title="Wheel and shaft",
    plural="Wheels and shafts",
    system="steering",
    load_path=True,
    station="helm",
    purpose="takes the helmsman's pull at the rim to the sprocket",
    cautions=(
        "Somebody at the wheel, somebody below with a torch: agree on the words before the wheel is turned hard.",
        "Nobody's hands near quadrant, chain or sheaves while the wheel is worked. Not under way, engine stopped.",
    ),
    tools=("tape measure", "adhesive tape for marks on the rim", "line to hold the rudder", "[spanner] for the wheel nut"),
    supplies=("[split pin]s of the right size", "key of the right section", "PTFE-type synthetic grease"),
    examination=(
        ExaminationItem(id="whole_turn", words="the whole travel by hand, from stop to stop and back, slowly"),
        ExaminationItem(id="hard_over", words="hard over both ways, feeling and looking at what ends the travel"),
        ExaminationItem(id="loaded", words="rudder held fast, rim pulled hard both ways, somebody looking below"),
        ExaminationItem(id="nut", words="wheel nut, its lock, key and hub"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, turning evenly"),
        ProofItem(id="nut", words="wheel nut tight and its lock seen"),
        ProofItem(id="tools_out", words="tools out of the pedestal"),
        ProofItem(id="compass", words="compass looked at"),
    ),
    details=(
        DetailField(id="diameter", title="Diameter of the wheel", holds="length", unit="mm", imperial="in", plausible=(250, 2200)),
        DetailField(
            id="hub", title="Hub on the shaft", holds="choice",
            choices={
                "taper_key": "taper with key", "parallel_key": "straight bore with key", "splined": "splines or serrations",
                "clamp": "clamp or cross bolt", "unknown": "not known",
            },
        ),
        DetailField(
            id="wheel_material", title="Material of the wheel", holds="choice",
            choices={
                "stainless": "stainless steel", "aluminium": "aluminium", "wood": "wood", "laminate": "fibre laminate",
                "other": "another material",
            },
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="rim_play", title="Free play at the rim", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="turn until the quadrant just moves, mark the rim, turn back until it just moves again, measure along the rim",
            plausible=(0, 500), expected_u=4, wears=True,
            help="Somebody below calls when the quadrant moves. No limit for a yacht's wheel is published: the figure is for comparison with last time.",
        ),
        Quantity(
            id="turns", title="Turns from stop to stop", dimension=Dimension.COUNT, unit="turns",
            method="counted from hard over to hard over with a mark on the rim, part turns in tenths", plausible=(0.3, 30),
        ),
        Quantity(
            id="bearing_play", title="Shaft play up and down", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="dial gauge or rule beside the shaft, rim lifted and let down", plausible=(0, 30), expected_u=0.3, wears=True,
            asked="on_request",
        ),
        Quantity(
            id="end_play", title="Shaft play fore and aft", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="dial gauge or rule at the hub, wheel pushed and pulled", plausible=(0, 30), expected_u=0.3, wears=True,
            asked="on_request",
        ),
        Quantity(
            id="effort", title="Force at the rim to turn the wheel", dimension=Dimension.FORCE, unit="N", imperial="lbf",
            method="spring balance at the rim, square to the spoke, boat lying still", plausible=(0.5, 700), expected_u=5,
            asked="on_request",
        ),
    ),
    derived=(
        Derived(id="play_angle", title="Play as wheel angle", dimension=Dimension.ANGLE, unit="°"),
        Derived(id="rudder_play", title="Play as rudder angle", dimension=Dimension.ANGLE, unit="°", wears=True),
        Derived(id="lash", title="Play beside a road vehicle's", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
        Derived(id="lash_share", title="Play in parts of the wheel", dimension=Dimension.RATIO, unit="%"),
        Derived(id="turns_predicted", title="Turns that the drive should take", dimension=Dimension.COUNT, unit="turns", decimals=1),
        Derived(id="rudder_per_turn", title="Rudder angle per turn", dimension=Dimension.ANGLE, unit="°"),
    ),
    observations=(
        Observation(
            id="evenness", title="Evenness over the whole travel", required="needed",
            choices=(
                Choice(id="even", words="turns evenly from stop to stop", grade=Grade.CLEAR),
                Choice(
                    id="heavier", words="a little heavier towards one side", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Compare the effort to both sides again with a spring balance, and note it",
                ),
                Choice(
                    id="spot", words="a tight or slack spot, always at the same place", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action="Find what binds or gives at that place: bent shaft, stiff link, sheave, wire, rudder bearing",
                ),
                Choice(
                    id="sticks", words="sticks or jams", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Find what jams the steering and free it; turn her from stop to stop again before she moves",
                ),
            ),
        ),
        Observation(
            id="roughness", title="Roughness", required="needed",
            choices=(
                Choice(id="smooth", words="smooth", grade=Grade.CLEAR),
                Choice(
                    id="gritty", words="gritty or rumbling", grade=Grade.PLAN, remedy=Remedy.OPEN_UP, action=BEARINGS,
                ),
                Choice(
                    id="notchy", words="notches, always at the same places", grade=Grade.FIRST, remedy=Remedy.OPEN_UP,
                    action="Open the pedestal and look at chain, sprocket and bearings for what makes the notches",
                ),
                Choice(
                    id="jumps", words="a tooth jumps", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Open the pedestal and put right why the chain jumps: slack, a worn sprocket, a bent shaft",
                ),
            ),
        ),
        Observation(
            id="noise", title="Noise", required="needed",
            choices=(
                Choice(id="quiet", words="quiet", grade=Grade.CLEAR),
                Choice(
                    id="squeak", words="squeaks", grade=Grade.WATCH, remedy=Remedy.LUBRICATE,
                    action="Find what squeaks and lubricate it: oil for the chain, synthetic grease for the bearings",
                ),
                Choice(
                    id="knock", words="knocks or clicks", grade=Grade.FIRST, remedy=Remedy.LOOK, action=FIND_PLAY,
                ),
                Choice(
                    id="grinding", words="grinds, metal on metal", grade=Grade.FIRST, remedy=Remedy.OPEN_UP,
                    action="Open the pedestal and look for metal on metal before anything else",
                ),
            ),
        ),
        Observation(
            id="play", title="Play felt at the rim", required="needed",
            choices=(
                Choice(id="taut", words="the quadrant follows at once", grade=Grade.CLEAR),
                Choice(
                    id="little", words="a little play, the same both ways", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Measure the play at the rim and compare it with last time",
                ),
                Choice(
                    id="much", words="play that the helmsman has to steer through", grade=Grade.PLAN, remedy=Remedy.LOOK, action=FIND_PLAY,
                ),
                Choice(
                    id="sudden", words="play that came suddenly, or more of it than last time", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action=FIND_PLAY,
                ),
            ),
        ),
        Observation(
            id="shaft", title="Shaft up and down, fore and aft", required="needed",
            choices=(
                Choice(id="still", words="no play felt, up and down nor fore and aft", grade=Grade.CLEAR),
                Choice(
                    id="little", words="a little play, without a knock", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Measure the shaft's play and compare it with last time",
                ),
                Choice(id="knocks", words="knocks in its bearings", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=BEARINGS),
                Choice(
                    id="walks", words="the shaft walks fore and aft, sprocket out of line with the chain", grade=Grade.STOP,
                    remedy=Remedy.REPAIR, action="Open the pedestal, bring the shaft back into line and secure it",
                ),
            ),
        ),
        Observation(
            id="nut", title="Wheel nut, key and hub", required="needed",
            choices=(
                Choice(id="locked", words="nut tight and locked, hub still on the shaft", grade=Grade.CLEAR),
                Choice(
                    id="no_lock", words="nut tight, but nothing locks it", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Lock the wheel nut: [split pin], lock nut or the wheel's own cap",
                ),
                Choice(
                    id="loose", words="nut loose", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Look at key and hub, then tighten and lock the wheel nut",
                ),
                Choice(
                    id="works", words="the hub works on its key or shaft", grade=Grade.STOP, remedy=Remedy.REFIT, action=HUB, damage=True,
                ),
            ),
        ),
        Observation(
            id="rim", title="Rim and spokes",
            choices=(
                Choice(id="firm", words="rim and spokes firm, no crack seen at the joints", grade=Grade.CLEAR),
                Choice(
                    id="rust", words="rust at the welds or joints", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the welds bright and look for cracks with a magnifier",
                ),
                Choice(
                    id="loose", words="a spoke loose, bent or with a hairline crack", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Have the wheel repaired or renewed",
                ),
                Choice(
                    id="broken", words="a broken spoke or rim", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True,
                    action="Have the wheel repaired or renewed",
                ),
            ),
        ),
        Observation(
            id="king_spoke", title="King spoke",
            choices=(
                Choice(id="up", words="marked, and up with the rudder amidships", grade=Grade.CLEAR),
                Choice(id="unmarked", words="none marked", grade=Grade.WATCH, remedy=Remedy.ADJUST, action="Mark the king spoke, rudder amidships"),
                Choice(
                    id="off", words="marked, but not up with the rudder amidships", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Find why the king spoke is off: the chain not centred, a wire stretched or slipped, the mark itself",
                ),
            ),
        ),
        Observation(
            id="hard_over", title="What the stop feels like, hard over", required="needed",
            choices=(
                Choice(id="hard", words="a hard stop both ways", grade=Grade.CLEAR),
                Choice(
                    id="mushy", words="springy or soft before it stops", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action="Find what gives at hard-over: stop, quadrant, sheave base, pedestal or a slack wire",
                ),
                Choice(
                    id="uneven", words="hard one way, soft the other", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action="Find what gives at hard-over: stop, quadrant, sheave base, pedestal or a slack wire",
                ),
                Choice(
                    id="none", words="no stop felt, chain or wire ends the travel", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Find the rudder stops, or fit them, so that they touch before chain and wire run out",
                ),
            ),
            help="Press on steadily at the end of the travel; answer for each side where they differ.",
        ),
        Observation(
            id="loaded", title="Rim pulled hard both ways, rudder held", required="needed", loaded_test=True,
            choices=(
                Choice(id="rigid", words="nothing moves but the spring of the wire", grade=Grade.CLEAR),
                Choice(
                    id="creaks", words="creaks, and no place was found", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Find what creaks: look at quadrant, sheaves and pedestal one by one under load",
                ),
                Choice(
                    id="moves", words="pedestal, sheave, bracket or bearing seen to move", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Fasten what moves under load, and look at its structure",
                ),
                Choice(
                    id="slips", words="something slips, and the rudder stays where it is", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Find what slips between wheel and stock, and refit it",
                ),
            ),
            help="Rudder held by its stop or by a line on the emergency tiller. Pull as hard as a sea would make you; steadily, no jerks.",
        ),
    ),
    needs=(
        *chain_needs("the play at the rim as rudder angle and for the turns"),
        Need(
            id="quadrant_radius", source="component", kind="quadrant", name="radius", dimension=Dimension.LENGTH,
            why="radius of the quadrant, for the play at the rim as rudder angle and for the turns",
        ),
        Need(
            id="rudder_angle", source="component", kind="quadrant", holds="reading", name="rudder_angle", dimension=Dimension.ANGLE,
            why="rudder angle at both hard-overs, for the turns that the drive should take",
        ),
    ),
    limits=load_limits(__package__, "wheel.toml"),
    care=(Care(id="grease", what="Grease the wheel shaft's bearings where they have a point for it", supply="PTFE-type synthetic grease", months=12),),
    assess=assess,
)  # fmt: skip
