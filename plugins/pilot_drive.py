"""Drive of the pilot below deck: ram or motor, its pins, bracket, arm, clutch, wiring and hoses.

Comes in: Evidence of one drive. Goes out: nothing of its own: readings and observations are checked by the core.
The drive counts as load path: it is coupled to the stock all the time, and what jams it jams the rudder.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
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
    load_limits,
)

REPIN = "Refit the ram's pin with a new lock"
REFASTEN = "Refasten the bracket to structure that takes the ram's full thrust"


def assess(_: Evidence) -> Assessment:
    """Nothing to work out: the declaration decides."""
    return Assessment()


plugin = Plugin(
    kind="pilot_drive",
    title="Pilot drive",
    plural="Pilot drives",
    system="steering",
    load_path=True,
    station="quadrant",
    purpose="turns the rudder for the pilot, and is carried along idle when a hand steers",
    cautions=(
        "Switch the pilot off at its breaker before reaching near it: a ram starts without warning and crushes a hand.",
        "Lash the wheel or chock the rudder. Not under way, engine stopped; tell everybody aboard.",
    ),
    tools=("torch and mirror", "[spanner]s for bracket and arm", "rule for the stroke left", "paint marker"),
    supplies=("[split pin]s or clips of the right size", "self-locking nuts", "cable ties and clamps"),
    examination=(
        ExaminationItem(id="pins", words="the pins at both ends of the ram, or chain and sprocket of a rotary drive"),
        ExaminationItem(id="bracket", words="bracket and the structure round it, a hand on it while the drive pushes"),
        ExaminationItem(id="hard_over", words="both hard-overs by hand, pilot off, looking at the ram's ends"),
    ),
    proof=(
        ProofItem(id="direction", words="the pilot's starboard button gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops by hand, stroke left at both"),
        ProofItem(id="releases", words="the clutch lets go with the pilot switched off"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="tools_out", words="tools out of the locker"),
    ),
    details=(
        DetailField(
            id="form", title="Form", holds="choice",
            choices={
                "electric_ram": "electric ram", "hydraulic_ram": "hydraulic ram", "rotary": "rotary drive with chain",
                "wheel": "drive on the wheel", "other": "another form",
            },
        ),
        DetailField(
            id="arm", title="Where it takes hold of the stock", holds="choice",
            choices={"own_arm": "on a tiller arm of its own", "quadrant": "on the quadrant", "wire": "on wire, chain or wheel"},
            help="A drive on an arm of its own still steers when a wire has parted.",
        ),
        DetailField(id="arm_length", title="Arm from stock to ram pin", holds="length", unit="mm", imperial="in", plausible=(80, 800)),
        DetailField(id="stroke", title="Stroke of the ram", holds="length", unit="mm", imperial="in", plausible=(80, 700)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="stroke_left", title="Stroke left at hard-over", dimension=Dimension.LENGTH, unit="mm", imperial="in", per_side=True,
            method="rule on the ram's rod, rudder against its stop by hand", plausible=(0, 300), expected_u=0.5,
            only_if={"form": ("electric_ram", "hydraulic_ram")},
            help="Side: the side that the rudder is hard over to. Find the ram's own end with its pin out.",
        ),
    ),
    observations=(
        Observation(
            id="pins", title="Ram pins", required="needed",
            choices=(
                Choice(id="locked", words="pins fitted, locked and without play", grade=Grade.CLEAR),
                Choice(id="not_a_ram", words="no ram: chain and sprocket in line, fastened and not slack", grade=Grade.CLEAR),
                Choice(
                    id="play", words="play that can be felt in a pin or rod end", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Renew the worn pin or rod end",
                ),
                Choice(id="bent", words="a pin bent or worn through its hardness", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                       action="Renew the worn pin or rod end"),
                Choice(id="unlocked", words="a pin without its lock", grade=Grade.FIRST, remedy=Remedy.REFIT, action=REPIN),
            ),
            help="A pin that works out lets the ram fall under the quadrant.",
        ),
        Observation(
            id="bracket", title="Bracket and its structure", required="needed",
            choices=(
                Choice(id="firm", words="bracket firm, bolts tight, laminate or weld whole", grade=Grade.CLEAR),
                Choice(
                    id="hairline", words="hair cracks in paint or gelcoat round the bracket", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Take paint off round the bracket and see whether the cracks go into the laminate or weld",
                ),
                Choice(
                    id="bolts", words="loose or missing bolts", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Fit, tighten and lock the bracket's bolts, backing plates beneath",
                ),
                Choice(
                    id="cracked", words="laminate, weld or bracket cracked", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action=REFASTEN,
                ),
                Choice(
                    id="torn", words="bracket torn loose", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=REFASTEN,
                ),
            ),
        ),
        Observation(
            id="arm", title="Arm on the stock",
            choices=(
                Choice(id="tight", words="tight and locked, no movement on the stock", grade=Grade.CLEAR),
                Choice(id="none", words="no arm of its own", grade=Grade.CLEAR),
                Choice(
                    id="unlocked", words="tight, but nothing locks the nuts", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Lock the arm's nuts, then a paint mark across each",
                ),
                Choice(
                    id="slips", words="moves on the stock", grade=Grade.FIRST, remedy=Remedy.REFIT, damage=True,
                    action="Refit the arm on the stock with its key and bolts",
                ),
            ),
        ),
        Observation(
            id="clutch", title="Letting go", required="needed",
            choices=(
                Choice(id="free", words="lets go at once; the wheel turns as freely as with the drive uncoupled", grade=Grade.CLEAR),
                Choice(
                    id="drags", words="lets go, but the wheel is heavier by it", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Have clutch or bypass valve put right, so that the drive lets go of the wheel",
                ),
                Choice(
                    id="late", words="lets go only after a wait or a knock", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Have clutch or bypass valve put right, so that the drive lets go of the wheel",
                ),
                Choice(
                    id="holds", words="does not let go: the wheel cannot be turned by hand", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Uncouple the drive from the stock, lash it clear, and have the clutch put right",
                ),
            ),
            help="Try it while the drive is pushing, and again with its breaker switched off.",
        ),
        Observation(
            id="own_end", title="Own end at hard-over", required="needed",
            choices=(
                Choice(id="clear", words="clear of its own end, the rudder stop touching first", grade=Grade.CLEAR),
                Choice(id="no_end", words="a drive without an end of its own", grade=Grade.CLEAR),
                Choice(
                    id="reached", words="reaches its own end before the rudder stop", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Move the ram's bracket or its pin on the arm, so that stroke is left at both hard-overs",
                ),
            ),
            help="Answer for each side.",
        ),
        Observation(
            id="sweep", title="Room for its swing",
            choices=(
                Choice(id="clear", words="ram, arm and hoses touch nothing over the whole travel", grade=Grade.CLEAR),
                Choice(
                    id="touches", words="touches hose, wire, cable or stowed gear", grade=Grade.PLAN, remedy=Remedy.ADJUST,
                    action="Clear the ram's way and fence it off from stowed gear",
                ),
                Choice(
                    id="fouls_wire", words="touches the steering wire or its sheaves", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Move the ram or the lead clear of each other",
                ),
            ),
        ),
        Observation(
            id="wiring", title="Wiring",
            choices=(
                Choice(id="clamped", words="clamped along its way, clear of everything that moves", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="loose where it could be caught", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Clamp the wiring clear of quadrant, ram and wire",
                ),
                Choice(
                    id="chafed", words="chafed, conductor not showing", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Renew the chafed wiring and clamp it clear",
                ),
                Choice(
                    id="bare", words="bare conductor, or joints green with corrosion", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    action="Renew the chafed wiring and clamp it clear",
                ),
            ),
        ),
        Observation(
            id="oil", title="Oil",
            choices=(
                Choice(id="dry", words="rod, seals and hoses dry", grade=Grade.CLEAR),
                Choice(id="electric", words="no oil in it: an electric drive", grade=Grade.CLEAR),
                Choice(
                    id="film", words="a film of oil on rod or fittings", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Wipe the ram dry, look again after a day's use, and check the oil level",
                ),
                Choice(
                    id="drips", words="drips", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the ram's seals or hoses renewed",
                ),
            ),
        ),
        Observation(
            id="loaded", title="Drive pushing against a held wheel", required="needed", loaded_test=True,
            choices=(
                Choice(id="still", words="bracket, arm and pins stay still", grade=Grade.CLEAR),
                Choice(
                    id="gives", words="the bracket or its structure gives", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action=REFASTEN,
                ),
                Choice(
                    id="opens", words="a crack opens or the bracket comes away", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action=REFASTEN,
                ),
            ),
            help="Short pushes both ways, wheel held, everybody's hands away; one looks, another holds the button.",
        ),
        Observation(
            id="direction", title="Direction",
            choices=(
                Choice(id="right", words="starboard button gives rudder to starboard", grade=Grade.CLEAR),
                Choice(
                    id="reversed", words="turns the rudder the wrong way", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Have the drive's leads or hoses connected the right way round, then prove the direction",
                ),
            ),
        ),
    ),
    limits=load_limits(__package__, "pilot_drive.toml"),
    care=(
        Care(id="pins", what="Look at the drive's pins and bracket, and try that it lets go", months=12, remedy=Remedy.TEST),
    ),
    assess=assess,
)  # fmt: skip
