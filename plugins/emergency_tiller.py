"""Emergency tiller with its deck plate and its place on the stock.

Comes in: Evidence of one emergency tiller. Goes out: nothing by default; on request the force at the hand
(`sizing`). An emergency tiller that was looked for and not found is a defect, by the core. Figures stand in
emergency_tiller.toml.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    Choice,
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
    load_limits,
)
from reporter.engineering import units

from .sizing import sizing

TORQUE, ANGLE, SPEED = ("N·m", "lbf·ft"), ("°", "°"), ("kn", "kn")
AGAIN = "Put the emergency tiller right and try it again, hard over both ways"
PLATE = "Free and grease the deck plate, and keep what opens it beside it"


def assess(evidence: Evidence) -> Assessment:
    """The sizing check, when its readings were given; nothing else needs arithmetic."""
    return sizing(evidence)


def _on_request(
    ident: str, title: str, unit: tuple[str, str], method: str, most: float, expected_u: float
) -> Quantity:
    return Quantity(
        id=ident, title=title, dimension=units.dimension_of(unit[0]), unit=unit[0], imperial=unit[1], method=method,
        plausible=(most / 10_000, most), expected_u=expected_u, asked="on_request", help="For the sizing of the emergency tiller only.",
    )  # fmt: skip


plugin = Plugin(
    kind="emergency_tiller",
    title="Emergency tiller",
    plural="Emergency tillers",
    system="steering",
    load_path=False,
    station="emergency",
    purpose="steers by the rudder stock itself when wheel, chain or wire has failed",
    cautions=(
        "Try it alongside or in open water with the engine idling, one hand at the wheel; mind fingers at the deck plate.",
        "A rudder struck by a sea swings the tiller across the cockpit: stand clear of its arc.",
    ),
    tools=("key or [spanner] for the deck plate", "rule or tape", "spring balance, where asked for"),
    supplies=("grease for the deck plate", "lashings or tackles to hold the tiller"),
    examination=(
        ExaminationItem(id="fitted", words="taken from where it is stowed and fitted on the stock, through the opened deck plate"),
        ExaminationItem(id="freed", words="wheel and pilot freed, so that the tiller alone turns the rudder"),
        ExaminationItem(id="turned", words="turned hard over both ways"),
    ),
    proof=(
        ProofItem(id="travel", words="fitted and turned hard over both ways"),
        ProofItem(id="stowed", words="stowed where everybody aboard knows it"),
    ),
    details=(
        DetailField(
            id="length", title="Length from stock to hand", holds="length", unit="m", imperial="ft", plausible=(0.15, 4),
        ),
        DetailField(
            id="head", title="How it sits on the stock", holds="choice",
            choices={
                "square": "on a square", "hexagon": "on a hexagon", "pin": "on the round stock with a pin", "slot": "in a slot or fork",
                "quadrant": "on the quadrant", "other": "in another way",
            },
        ),
        DetailField(id="stowed", title="Stowed in", holds="words"),
        DetailField(
            id="direction", title="Points", holds="choice", choices={"forward": "forward", "aft": "aft", "other": "another way"},
            help="One that points aft steers as a wheel does, not as a tiller.",
        ),
    ),
    readings=(
        Quantity(
            id="angle_reached", title="Rudder angle reached with it", dimension=Dimension.ANGLE, unit="°", per_side=True,
            method="angle gauge or protractor on the quadrant, emergency tiller hard over", plausible=(1, 90), expected_u=2,
            help="Side: the side that the rudder goes to.",
        ),
        _on_request("stock_torque", "Torque at the rudder stock", TORQUE, "spring balance at the tiller times its length", 20_000, 5),
        _on_request("wheel_torque", "Torque at the wheel's shaft", TORQUE, "spring balance at the rim times the wheel's radius", 1_000, 2),
        _on_request("wheel_angle", "Angle the wheel was turned", ANGLE, "counted in turns from a mark on the rim", 3_600, 5),
        _on_request("rudder_turned", "Angle the rudder turned with it", ANGLE, "protractor on the quadrant", 180, 1),
        _on_request("speed", "Speed at which the torque was read", SPEED, "log, in slack water", 60, 0.3),
        _on_request("speed_asked", "Speed to reckon the torque for", SPEED, "as asked by the reader", 60, 0.1),
        _on_request("rudder_force", "Force on the rudder", ("N", "lbf"), "taken from another sum: an estimate", 200_000, 100),
        _on_request("rudder_lever", "Lever of that force about the stock", ("mm", "in"), "taken from another sum: an estimate", 2_000, 10),
    ),
    derived=(
        Derived(id="hand_force", title="Force at the end of the emergency tiller", dimension=Dimension.FORCE, unit="N", imperial="lbf"),
        Derived(
            id="length_for_hand", title="Tiller that one hand can hold for long", dimension=Dimension.LENGTH, unit="m", imperial="ft",
        ),
    ),
    observations=(
        Observation(
            id="trial", title="Fitted and turned", required="needed",
            choices=(
                Choice(id="both", words="turns the rudder hard over both ways", grade=Grade.CLEAR),
                Choice(
                    id="part", words="turns the rudder, but not hard over both ways", grade=Grade.PLAN, remedy=Remedy.ADJUST, action=AGAIN,
                ),
                Choice(id="fails", words="does not turn the rudder", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True, action=AGAIN),
                Choice(id="no_fit", words="does not fit on the stock", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=AGAIN),
            ),
            help="Fitted but not turned is not an answer: leave it out, and it counts as not tried.",
        ),
        Observation(
            id="freed", title="Wheel and pilot freed", required="needed",
            choices=(
                Choice(id="free", words="wheel brake off, pilot let go: the tiller alone turns the rudder", grade=Grade.CLEAR),
                Choice(
                    id="tools", words="only with tools: ram or wire had to be taken off", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Stow the tools that free the rudder with the emergency tiller, and write down what to undo",
                ),
                Choice(
                    id="not", words="could not be freed", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Find a way to free the rudder from a jammed wheel or pilot, and try it",
                ),
            ),
        ),
        Observation(
            id="seat", title="Seat on the stock", required="needed",
            choices=(
                Choice(id="full", words="seats fully, without rocking", grade=Grade.CLEAR),
                Choice(
                    id="rocks", words="seats fully, but rocks", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Have the emergency tiller's head built up to fit the stock",
                ),
                Choice(
                    id="part", words="seats on part of its depth only", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Have the emergency tiller's head built up to fit the stock",
                ),
            ),
        ),
        Observation(
            id="kept_on", title="Kept from lifting off",
            choices=(
                Choice(id="pinned", words="pinned, screwed or held by the deck plate", grade=Grade.CLEAR),
                Choice(
                    id="lifts", words="nothing keeps it from lifting off", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Fit a pin or lashing that keeps the emergency tiller on the stock",
                ),
            ),
        ),
        Observation(
            id="deck_plate", title="Deck plate", required="needed",
            choices=(
                Choice(id="opens", words="opens by hand, or with a key kept beside it", grade=Grade.CLEAR),
                Choice(id="none", words="no plate: the stock's head is open to hand", grade=Grade.CLEAR),
                Choice(id="hard", words="opens hard, or its key was not at hand", grade=Grade.PLAN, remedy=Remedy.LUBRICATE, action=PLATE),
                Choice(id="seized", words="does not open", grade=Grade.FIRST, remedy=Remedy.REPAIR, action=PLATE),
            ),
        ),
        Observation(
            id="room", title="Room to swing", required="needed",
            choices=(
                Choice(id="clear", words="clears pedestal, wheel, seats and lines hard over both ways", grade=Grade.CLEAR),
                Choice(
                    id="wheel_off", words="clears them with the wheel taken off", grade=Grade.WATCH, remedy=Remedy.TEST,
                    action="Keep the tool for the wheel's nut with the emergency tiller, and try how long it takes",
                ),
                Choice(
                    id="meets", words="meets pedestal or seat before hard over", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Have the emergency tiller cranked or shortened, or rig lines from its end to the winches",
                ),
                Choice(
                    id="blocked", words="cannot be swung enough to steer", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Have the emergency tiller cranked or shortened, or rig lines from its end to the winches",
                ),
            ),
        ),
        Observation(
            id="condition", title="Tiller itself",
            choices=(
                Choice(id="good", words="straight, welds whole", grade=Grade.CLEAR),
                Choice(
                    id="rust", words="surface rust", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Clean and paint the emergency tiller",
                ),
                Choice(
                    id="light", words="bends in the hand, or made of thin tube", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Have a stronger emergency tiller made",
                ),
                Choice(
                    id="cracked", words="bent, cracked or a weld open", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Repair or renew the emergency tiller",
                ),
            ),
        ),
        Observation(
            id="stowed", title="Where it is stowed",
            choices=(
                Choice(id="at_hand", words="reached from the cockpit in a minute, with all its parts", grade=Grade.CLEAR),
                Choice(
                    id="buried", words="under other gear, or its parts in several places", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Stow the emergency tiller with all its parts where it is reached from the cockpit, and mark the place",
                ),
                Choice(
                    id="unknown", words="nobody aboard knew where", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Stow the emergency tiller with all its parts where it is reached from the cockpit, and mark the place",
                ),
            ),
        ),
        Observation(
            id="under_way", title="Tried under way", loaded_test=True,
            choices=(
                Choice(id="steered", words="steered on several courses, by one hand", grade=Grade.CLEAR),
                Choice(
                    id="heavy", words="steered, with both hands or with tackles", grade=Grade.WATCH, remedy=Remedy.REFIT,
                    action="Rig lines or tackles to the end of the emergency tiller, or lengthen it, and try it under way",
                ),
                Choice(
                    id="weak", words="bent, slipped or worked loose under way", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Repair or renew the emergency tiller",
                ),
                Choice(
                    id="lost", words="the boat could not be held on course", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Have a stronger emergency tiller made",
                ),
            ),
            help="On several points of sail: what works alongside may give way after some hours.",
        ),
    ),
    limits=load_limits(__package__, "emergency_tiller.toml"),
    care=(
        Care(
            id="trial", what="Fit the emergency tiller, turn it hard over both ways, and steer with it for a while under way", months=12,
            remedy=Remedy.TEST,
        ),
        Care(id="deck_plate", what="Open and grease the deck plate", supply="grease for the deck plate", months=12),
    ),
    assess=assess,
)  # fmt: skip
