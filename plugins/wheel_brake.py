"""Wheel brake or lock: what holds the wheel at anchor, and must let go of it under way.

Comes in: Evidence of one brake. Goes out: nothing beyond the declaration: no holding figure for a yacht is published,
so that a measured one is printed and compared with last time, and what was felt is an observation.
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

FREE_SCREW = "Take the brake's screw out, clean and grease it, and work it over its whole travel"
LINING = "Renew the brake's shoes or lining"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations decide."""
    return Assessment()


plugin = Plugin(
    kind="wheel_brake",
    title="Wheel brake",
    plural="Wheel brakes",
    system="steering",
    load_path=False,
    station="helm",
    purpose="holds the wheel at anchor and in harbour, so that the rudder does not work wire and sheaves all the time",
    cautions=("Leave the brake off when you have finished, and tell the helm: a forgotten brake feels like jammed steering.",),
    tools=("spring balance", "[spanner]s", "torch"),
    supplies=("brake lining or shoes of the brake's own size", "grease for the screw, none for the lining"),
    examination=(
        ExaminationItem(id="hold", words="brake set hard and the rim pulled both ways"),
        ExaminationItem(id="release", words="brake let off and the wheel spun"),
    ),
    proof=(
        ProofItem(id="hold", words="holds when set"),
        ProofItem(id="release", words="lets go fully when released"),
    ),
    details=(
        DetailField(
            id="type", title="Type", holds="choice",
            choices={"shoes": "shoes or lining on a drum", "band": "band", "disc": "disc or friction plates", "pin": "lock pin or lashing point"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="holding_force", title="Force at the rim before the brake slips", dimension=Dimension.FORCE, unit="N", imperial="lbf",
            method="spring balance at the rim, square to the spoke, brake set by hand", plausible=(5, 1500), expected_u=15,
            asked="on_request", help="No figure for a yacht is published: for comparison with last time.",
        ),
    ),
    observations=(
        Observation(
            id="holds", title="Holding", required="needed",
            choices=(
                Choice(id="holds", words="holds the wheel against a hard pull", grade=Grade.CLEAR),
                Choice(
                    id="slips", words="slips under a hard pull", grade=Grade.WATCH, remedy=Remedy.ADJUST,
                    action="Clean and adjust the brake, and pull the rim again",
                ),
                Choice(
                    id="no_hold", words="does not hold; the wheel has to be lashed", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Put the brake right; until then lash the wheel at anchor",
                ),
            ),
        ),
        Observation(
            id="release", title="Letting go", required="needed",
            choices=(
                Choice(id="free", words="lets go at once and fully", grade=Grade.CLEAR),
                Choice(
                    id="slow", words="lets go only after several turns or a knock", grade=Grade.PLAN, remedy=Remedy.ADJUST,
                    action="Adjust the brake so that it lets go within a turn of its knob",
                ),
                Choice(
                    id="drags", words="drags when it is off", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Adjust the brake so that the wheel runs free of it",
                ),
                Choice(
                    id="locked", words="cannot be let off", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Free or take off the brake before the boat is moved",
                ),
            ),
        ),
        Observation(
            id="screw", title="Screw or knob", required="needed",
            choices=(
                Choice(id="easy", words="turns easily by hand", grade=Grade.CLEAR),
                Choice(id="stiff", words="stiff", grade=Grade.WATCH, remedy=Remedy.LUBRICATE, action=FREE_SCREW),
                Choice(id="stripped", words="thread worn or stripped", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the brake's screw"),
                Choice(id="seized", words="seized", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=FREE_SCREW),
            ),
        ),
        Observation(
            id="lining", title="Shoes or lining",
            choices=(
                Choice(id="thick", words="thick, dry and even", grade=Grade.CLEAR),
                Choice(
                    id="oily", words="oily or glazed", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the brake's faces dry, and find where the oil comes from",
                ),
                Choice(id="thin", words="worn thin or uneven", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=LINING),
                Choice(
                    id="through", words="worn through, metal on the shaft or drum", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action=f"{LINING}, and look at what it has worn",
                ),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
