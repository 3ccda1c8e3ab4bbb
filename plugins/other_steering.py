"""Steering gear that is no chain and wire: hydraulic, push-pull cable, rods, worm or direct.

Comes in: Evidence of one such gear. Goes out: nothing beyond the declaration: no published figure that could be checked
aboard was read for these gears, so that all of it is observation, and common practice.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Choice,
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

NOT_THIS = "not in this gear"
RENEW_CABLE = "Have the push-pull cable renewed"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


plugin = Plugin(
    kind="other_steering",
    title="Steering gear (not chain and wire)",
    plural="Steering gears (not chain and wire)",
    system="steering",
    load_path=True,
    station="under_cockpit",
    purpose="takes the wheel's turn to the rudder by fluid, cable, rods or worm",
    cautions=(
        "Rudder chocked before a joint, hose or ram is opened: nothing else then holds it. Not under way, engine stopped.",
        "Never feel for a leak under pressure with a bare hand: use a piece of card.",
    ),
    tools=("torch and mirror", "[spanner]s", "card or cloth", "line to hold the rudder"),
    supplies=("the gear's own fluid or lubricant", "[split pin]s of the right size", "hose of the right kind"),
    examination=(
        ExaminationItem(id="helm", words="helm unit or bevel box with its mounting"),
        ExaminationItem(id="run", words="hoses, cable, rods or shafts over their accessible run"),
        ExaminationItem(id="rudder_end", words="ram, cable end, rod or worm at the rudder, wheel hard over both ways"),
        ExaminationItem(id="loaded", words="rudder held, rim pulled hard both ways, somebody looking below"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, bled and without sponge"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="tools_out", words="tools out of the locker"),
    ),
    details=(
        DetailField(
            id="gear", title="Gear", holds="choice", required="needed",
            choices={
                "hydraulic": "hydraulic", "push_pull": "push-pull cable", "rod": "rods and bevel boxes", "worm": "worm or screw at the stock",
                "direct": "tiller or direct linkage", "other": "another gear",
            },
        ),
        DetailField(id="fluid", title="Fluid or lubricant in it", holds="words"),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="turns", title="Turns from stop to stop", dimension=Dimension.COUNT, unit="turns", plausible=(0.1, 40),
            method="counted from hard over to hard over with a mark on the rim, part turns in tenths",
        ),
        Quantity(
            id="rim_play", title="Free play at the rim", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 500), expected_u=4,
            method="turn until the rudder arm just moves, mark the rim, turn back until it just moves again, measure along the rim", wears=True,
        ),
    ),
    observations=(
        Observation(
            id="movement", title="Movement over the whole travel", required="needed",
            choices=(
                Choice(id="even", words="even from stop to stop", grade=Grade.CLEAR),
                Choice(
                    id="stiff", words="stiff, the same everywhere", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Find what is stiff: part the gear from the rudder and move each by itself",
                ),
                Choice(
                    id="spot", words="a tight or slack spot, always at the same place", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action="Find what binds or gives at that place before the next passage",
                ),
                Choice(
                    id="sticks", words="sticks or jams", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Find what jams the steering and free it; turn her from stop to stop again before she moves",
                ),
            ),
        ),
        Observation(
            id="mounting", title="Mounting of helm unit, boxes and ram", required="needed",
            choices=(
                Choice(id="firm", words="all firm, fastenings locked", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="a fastening loose", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Tighten and lock what is loose, and pull the rim hard again",
                ),
                Choice(
                    id="moves", words="a unit or its structure moves or is cracked", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action="Fasten the unit to structure that takes the rudder's push",
                ),
            ),
        ),
        Observation(
            id="joints", title="Ball joints, clevises and their pins", required="needed",
            choices=(
                Choice(id="locked", words="unworn, locked, boots whole", grade=Grade.CLEAR),
                Choice(
                    id="play", words="a little play", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the worn joint or pin",
                ),
                Choice(
                    id="worn", words="worn so that it knocks, or seized", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the worn joint or pin",
                ),
                Choice(
                    id="unlocked", words="a locknut loose or a [split pin] missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Lock the joint: locknut tight, new [split pin]",
                ),
            ),
        ),
        Observation(
            id="leaks", title="Leaks of fluid or oil",
            choices=(
                Choice(id="dry", words="dry everywhere", grade=Grade.CLEAR),
                Choice(id="no_fluid", words=NOT_THIS, grade=Grade.CLEAR),
                Choice(
                    id="weeps", words="a film of oil at a seal or joint", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Have the seal or joint renewed, and note the fluid's level",
                ),
                Choice(
                    id="drips", words="drips, or the level falls", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Have the leak put right, the gear filled and bled",
                ),
            ),
        ),
        Observation(
            id="sponge", title="Wheel held hard over",
            choices=(
                Choice(id="hard", words="hard, and stays where it is", grade=Grade.CLEAR),
                Choice(
                    id="creeps", words="creeps while the rudder stays at its stop", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Have helm pump, valves and ram looked at for leakage inside",
                ),
                Choice(
                    id="spongy", words="spongy, with air in it or something that gives", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Fill and bleed the gear; if it stays spongy, find what gives",
                ),
            ),
        ),
        Observation(
            id="hoses", title="Hoses and pipes",
            choices=(
                Choice(id="whole", words="whole, held, clear of heat and edges", grade=Grade.CLEAR),
                Choice(id="no_hoses", words=NOT_THIS, grade=Grade.CLEAR),
                Choice(
                    id="aged", words="stiff, or rust at the end fittings", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the steering hoses",
                ),
                Choice(
                    id="damaged", words="cracked, blistered, chafed or kinked", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the steering hoses",
                ),
            ),
        ),
        Observation(
            id="cable", title="Push-pull cable",
            choices=(
                Choice(id="whole", words="jacket whole, rod at the end bright and straight", grade=Grade.CLEAR),
                Choice(id="no_cable", words=NOT_THIS, grade=Grade.CLEAR),
                Choice(id="rust", words="rust on the rod or at the jacket's end", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW_CABLE),
                Choice(
                    id="swollen", words="jacket cracked or swollen, rod bent", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW_CABLE,
                ),
            ),
        ),
        Observation(
            id="gearing", title="Worm, screw, rods and bevel boxes",
            choices=(
                Choice(id="meshed", words="greased, meshing without a knock", grade=Grade.CLEAR),
                Choice(id="no_gearing", words=NOT_THIS, grade=Grade.CLEAR),
                Choice(
                    id="dry", words="dry, or grease with grit in it", grade=Grade.WATCH, remedy=Remedy.LUBRICATE,
                    action="Clean and grease the gearing over its whole travel",
                ),
                Choice(
                    id="worn", words="worn, with a knock at the turn of the wheel", grade=Grade.PLAN, remedy=Remedy.REPLACE, damage=True,
                    action="Have the worn gearing adjusted or renewed",
                ),
                Choice(
                    id="bright", words="bright metal filings below it", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, damage=True,
                    action="Open the gearing and look at bearings, teeth or nut",
                ),
            ),
        ),
        Observation(
            id="stop", title="What ends the travel", required="needed",
            choices=(
                Choice(id="stops", words="the rudder stops, before anything in the gear", grade=Grade.CLEAR),
                Choice(id="inside", words="stops inside the gear, meant for it", grade=Grade.CLEAR),
                Choice(
                    id="gear", words="ram, cable end or nut reaches its own end first", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Set the rudder stops so that they touch before the gear reaches its end",
                ),
            ),
        ),
        Observation(
            id="loaded", title="Rim pulled hard both ways, rudder held", required="needed", loaded_test=True,
            choices=(
                Choice(id="still", words="nothing moves that should not", grade=Grade.CLEAR),
                Choice(
                    id="springs", words="a bracket or box springs, fastenings tight", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Stiffen what the unit is fastened to",
                ),
                Choice(
                    id="moves", words="a unit, bracket or conduit moves", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Fasten what moves under load, and look at its structure",
                ),
                Choice(
                    id="slips", words="something slips, and the rudder stays where it is", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action="Find what slips between wheel and stock, and refit it",
                ),
            ),
            help="Rudder held by its stop or by a line on the emergency tiller; pull steadily, no jerks.",
        ),
    ),
    assess=assess,
)  # fmt: skip
