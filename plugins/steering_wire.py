"""Steering wire from the chain to the quadrant, both sides as a pair, with its ends and adjusters.

Comes in: Evidence of the wires of one helm, with its wheel and chain. Goes out: diameter lost, clips missing, the sides
compared, strength by construction. Limits stand in steering_wire.toml: any one broken wire condemns, the rules written
for other wires are for information.
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
    Value,
    compare,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.drive import difference_of_sides
from reporter.engineering.wire import clips

from .drive import chain_needs, own_value
from .wire_strength import strength
from .wire_wear import beside_other_rules, diameter_losses, size_question
from .worked import worked_out

RENEW = "Renew the wires of both sides with their ends"
AC = "FAA AC 43.13-1B, 7-149"
MICROMETER = "gauge the place with a micrometer to 0.01 mm, two readings at right angles, and a length that runs over nothing"


def assess(evidence: Evidence) -> Assessment:
    """Wear in figures, ends, sides and strength; a guessed size with a near neighbour becomes a question."""
    strong, question = strength(evidence), size_question(evidence)
    return Assessment(
        checks=(
            *diameter_losses(evidence), *beside_other_rules(evidence), *_clips(evidence), *_sides(evidence), *strong.checks,
        ),
        missing=(*strong.missing, *((question[0],) if question else ())),
        actions=(question[1],) if question else (),
    )  # fmt: skip


def _clips(evidence: Evidence) -> Iterator[Check]:
    """Clips missing at each end against the number that the diameter asks for."""
    diameter = own_value(evidence, "diameter")
    if diameter is None:
        return
    for spot in evidence.at("clips"):
        wanted, sum_ = work(clips, {"diameter": diameter})
        missing = Value(dimension=Dimension.COUNT, value=max(0.0, wanted.value - spot.value.value))
        limit = evidence.limit("steering_wire.clips_missing.none")
        yield compare(evidence, missing, limit, title="Clips missing", like=spot, working=(sum_,))


def _sides(evidence: Evidence) -> Iterator[Check]:
    """How far the take-up left differs from side to side: a wire stretched, slipped, or a chain off its centre."""
    for port in evidence.at("take_up"):
        starboard = _opposite(evidence, port)
        if port.side == "port" and starboard:
            apart, sum_ = work(difference_of_sides, {"port": port.value, "starboard": starboard.value})
            pair = port.model_copy(update={"side": ""})
            yield worked_out(
                "steering_wire",
                "take_up_difference",
                "Take-up, one side against the other",
                apart,
                (sum_,),
                like=pair,
            )


def _opposite(evidence: Evidence, port: Spot) -> Spot | None:
    same = [each for each in evidence.at("take_up") if (each.at, each.state) == (port.at, port.state)]
    return next((each for each in same if each.side == "starboard"), None)


def _spent(ident: str, words: str, grade: Grade = Grade.STOP) -> Choice:
    """Damage that only a new wire puts right."""
    return Choice(id=ident, words=words, grade=grade, remedy=Remedy.REPLACE, action=RENEW, damage=True)


plugin = Plugin(
    kind="steering_wire",
    title="Steering wire",
    plural="Steering wires",
    system="steering",
    load_path=True,
    station="under_cockpit",
    purpose="takes the pull of the chain over the sheaves to the quadrant",
    cautions=(
        "Never run a bare hand along the wire: a broken wire cuts like a hook. Cloth or glove.",
        "Lash the wheel or chock the rudder before putting a hand near wire and sheaves; not under way, engine stopped.",
        "Wires that cross in the pedestal can be refitted the wrong way round: try the direction before anything else.",
    ),
    tools=("cotton cloth", "magnifier of seven times or more", "vernier caliper", "torch and mirror", "two [spanner]s for the locknuts"),
    supplies=(
        "wire of the same size, construction and material", "[split pin]s of the right size", "light corrosion film for the wire",
        "no solvent and no metal wool: the one takes the lubricant out, the other leaves metal behind",
    ),
    examination=(
        ExaminationItem(id="cloth", words="a cloth wiped over all accessible length of both wires, both ways"),
        ExaminationItem(id="ends", words="both ends of both wires, mouth of the fitting and pin"),
        ExaminationItem(id="sheaves", words="the wire where it runs over every sheave and out of every conduit, wheel hard over both ways"),
        ExaminationItem(id="adjusters", words="both adjusters with their locknuts"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, both wires taut, chain centred"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="tools_out", words="tools out of the bilge"),
        ProofItem(id="compass", words="compass looked at"),
        ProofItem(id="tension", words="tension looked at again after the first sail"),
    ),
    details=(
        DetailField(
            id="diameter", title="Nominal diameter", holds="length", unit="mm", imperial="in", plausible=(2, 16),
            help="As marked or on the invoice, in the unit it was sold in: 4 mm and 5/32 in cannot be told apart on a worn wire.",
        ),
        DetailField(
            id="baseline", title="Diameter measured when new", holds="length", unit="mm", imperial="in", plausible=(2, 17),
            help="Of this very wire. Per cent of what? A new wire may be over its nominal size.",
        ),
        DetailField(
            id="construction", title="Construction", holds="choice",
            choices={"7x19": "7x19", "7x7": "7x7", "1x19": "1x19, a strand for standing rigging", "other": "another construction"},
            help="Count at a cut end: seven strands of nineteen wires, or of seven.",
        ),
        DetailField(
            id="grade_material", title="Material", holds="choice",
            choices={"carbon": "carbon steel, galvanised", "stainless": "stainless steel", "unknown": "not known"},
        ),
        DetailField(
            id="tensile_grade", title="Tensile grade", holds="choice",
            choices={"1570": "1570 N/mm²", "1770": "1770 N/mm²", "unknown": "not known"},
        ),
        DetailField(id="marked_strength", title="Breaking force by mark or papers", holds="force", unit="kN", imperial="lbf", plausible=(1, 150)),
        DetailField(
            id="end", title="Ends", holds="choice",
            choices={"swaged": "swaged fittings", "sleeve": "thimble with pressed sleeve", "clips": "U-bolt clips", "other": "other ends"},
            help="Where the ends differ, the weaker kind.",
        ),
        DetailField(
            id="adjuster", title="Adjusters", holds="choice",
            choices={"eyebolts": "eyebolts through the quadrant", "turnbuckle": "[bottle screw]s", "other": "other adjusters"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the wire both ways, then counted with a magnifier of seven times or more",
            help="One line for each place; a wire broken twice counts once. Write 0 for what was wiped and ran clean.",
        ),
        Quantity(
            id="counted_over", title="Length that broken wires were counted over", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="rule along the wire, at the place of the count", plausible=(5, 3000), expected_u=2, asked="on_request",
            help="Only to set the count beside the rules for other wires. One break is enough to renew the wire.",
        ),
        Quantity(
            id="outer_wear", title="Wear of the outer wires", dimension=Dimension.RATIO, unit="%", plausible=(0, 100), expected_u=10,
            method="magnifier: flat worn on the outer wires compared with a wire that ran over nothing", asked="on_request", wears=True,
        ),
        Quantity(
            id="wire_diameter", title="Diameter", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(1.5, 17), expected_u=0.05,
            method="vernier caliper over the crowns of the strands, two readings at right angles, mean of both", wears=True,
            help="Two lines with the same place make the mean. Take the most worn place and one that runs over nothing.",
        ),
        Quantity(
            id="clips", title="Clips at the end", dimension=Dimension.COUNT, unit="", method="counted", plausible=(0, 8),
            only_if={"end": ("clips",)},
        ),
        Quantity(
            id="take_up", title="Take-up left", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 400), expected_u=1,
            method="rule: thread left between locknut and the end of its travel", per_side=True, wears=True,
        ),
        Quantity(
            id="threads_showing", title="Threads showing at the adjuster", dimension=Dimension.COUNT, unit="", method="counted at each end",
            plausible=(0, 60), per_side=True, only_if={"adjuster": ("turnbuckle",)},
        ),
        Quantity(
            id="deflection", title="Wire pressed aside", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 150), expected_u=5,
            method="moderate finger pressure in the middle of the longest free span", per_side=True, asked="on_request",
        ),
        Quantity(
            id="rim_force", title="Pull at the rim in the loaded test", dimension=Dimension.FORCE, unit="N", imperial="lbf", plausible=(5, 1000),
            expected_u=10, method="spring balance at the rim, square to the spoke, rudder held", asked="on_request",
        ),
    ),
    derived=(
        Derived(
            id="loss_of_nominal", title="Diameter lost, of nominal", dimension=Dimension.RATIO, unit="%", wears=True, better=MICROMETER,
        ),
        Derived(
            id="loss_of_baseline", title="Diameter lost, of that when new", dimension=Dimension.RATIO, unit="%", wears=True, better=MICROMETER,
        ),
        Derived(id="size_gap", title="Distance to the next size", dimension=Dimension.RATIO, unit="%"),
        Derived(id="clips_missing", title="Clips missing", dimension=Dimension.COUNT, unit=""),
        Derived(id="take_up_difference", title="Take-up, one side against the other", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
        Derived(id="breaking_force", title="Breaking force of the undamaged wire", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="breaking_with_end", title="Breaking force with its ends", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="end_kept", title="Strength that the ends keep", dimension=Dimension.RATIO, unit="%"),
        Derived(id="load_allowed", title="Load allowed on the wire", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="wire_pull", title="Pull in the wire", dimension=Dimension.FORCE, unit="N", imperial="lbf"),
        Derived(id="factor", title="Breaking force over pull", dimension=Dimension.RATIO, unit="1", decimals=1),
        Derived(id="load_share", title="Pull in parts of the breaking force", dimension=Dimension.RATIO, unit="%"),
        *(
            Derived(id=f"broken_in_{scope}", title=f"Broken wires in {words}", dimension=Dimension.COUNT, unit="")
            for scope, words in (
                ("lay", "one lay"), ("strand", "one strand of a lay"), ("valley", "the valleys of a lay"), ("end", "a lay at an end"),
                ("inch", "one inch"), ("6d", "six diameters"), ("8d", "eight diameters"), ("30d", "thirty diameters"),
            )
        ),
    ),
    observations=(
        Observation(
            id="cloth", title="Cloth along the wire", required="needed", basis=f"{AC} d",
            choices=(
                Choice(id="clean", words="the cloth ran clean, both ways", grade=Grade.CLEAR),
                _spent("snagged", "the cloth snagged on a broken wire"),
            ),
            help="Fold the cloth round the wire and wipe slowly both ways; then look with the magnifier where it runs over a sheave.",
        ),
        Observation(
            id="shape", title="Kinks, loose strands, core", required="needed", basis=f"{AC} d-e",
            choices=(
                Choice(id="even", words="even lay, no kink, no loose strand", grade=Grade.CLEAR),
                _spent("set", "a lasting bend or flat where it ran", Grade.FIRST),
                _spent("kinked", "a kink, a loose strand, or the core standing out"),
            ),
        ),
        Observation(
            id="corrosion", title="Corrosion", required="needed", basis=f"{AC} i",
            choices=(
                Choice(id="none", words="no corrosion", grade=Grade.CLEAR),
                Choice(
                    id="stain", words="brown stain that a cloth takes off", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Wipe the wire clean with a dry cloth, put a light corrosion film on, and find where the water comes from",
                ),
                _spent("pitted", "rust pits on the outer wires", Grade.FIRST),
                _spent("inside", "rust from between the strands, or a length gone stiff"),
            ),
        ),
        Observation(
            id="wear_seen", title="Wear seen on the outer wires", required="needed", basis=f"{AC} g",
            choices=(
                Choice(id="round", words="outer wires round", grade=Grade.CLEAR),
                Choice(
                    id="polished", words="polished, with small flats, every wire still to be told from the next", grade=Grade.WATCH,
                    remedy=Remedy.LOOK, action="Measure the diameter at the polished place and compare it with last time",
                ),
                _spent("third", "flats of a third of the wire or more", Grade.FIRST),
                _spent("blended", "flats that run into one another"),
            ),
        ),
        Observation(
            id="ends", title="Ends of the wire", required="needed", basis=f"{AC} k; common practice",
            choices=(
                Choice(id="good", words="fittings whole and straight, nothing slipped", grade=Grade.CLEAR),
                Choice(
                    id="rust", words="rust at the mouth of a fitting", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the mouth of the fitting and look for cracks and broken wires with a magnifier",
                ),
                Choice(
                    id="clips_spacing", words="too few clips, or closer together than six wire diameters", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Make the ends anew: enough clips, six wire diameters apart, saddle on the live part; or swaged",
                ),
                Choice(
                    id="clips_reversed", words="clips with the U-bolt on the live part", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Make the ends anew: enough clips, six wire diameters apart, saddle on the live part; or swaged",
                ),
                _spent("bent", "a fitting bent, or the wire bent at its mouth", Grade.FIRST),
                _spent("slipped", "a fitting or clip has slipped along the wire"),
                _spent("cracked", "a fitting or sleeve cracked"),
            ),
            help="U on the dead end: the saddle belongs on the live part. Look for the paint mark at the mouth of a swage.",
        ),
        Observation(
            id="locking", title="Adjusters and locknuts", required="needed",
            choices=(
                Choice(id="locked", words="locknuts tight or wired, pins in", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="a locknut loose", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Set the tension of both wires, then tighten and mark the locknuts",
                ),
                Choice(
                    id="unlocked", words="nothing locks an adjuster, or a [split pin] is missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Lock the adjusters with locknuts or wire and new [split pin]s, after setting the tension",
                ),
            ),
        ),
        Observation(
            id="take_up_seen", title="Take-up",
            choices=(
                Choice(id="left", words="plenty left on both sides, about the same", grade=Grade.CLEAR),
                Choice(
                    id="uneven", words="much more used on one side than on the other", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Find why the sides differ: chain off its centre, a wire stretched, an end slipped",
                ),
                Choice(
                    id="little", words="nearly used up", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Shorten or renew the wires, so that take-up is left on both sides",
                ),
                Choice(
                    id="none", words="used up", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Shorten or renew the wires, so that take-up is left on both sides",
                ),
            ),
        ),
        Observation(
            id="tension", title="Tension", required="needed",
            choices=(
                Choice(id="taut", words="with the wheel held, the quadrant just cannot be moved by hand", grade=Grade.CLEAR),
                Choice(
                    id="hard", words="so tight that the wheel turns stiffly", grade=Grade.PLAN, remedy=Remedy.ADJUST,
                    action="Slacken both adjusters evenly until the wheel turns freely and the wires stay taut hard over",
                ),
                Choice(
                    id="slack", words="slack, so that the quadrant moves with the wheel held", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Set the tension of both wires evenly, chain, wheel and rudder amidships, and look again after the first sail",
                ),
                Choice(
                    id="hangs", words="hangs off its sheave or quadrant on the slack side, hard over", grade=Grade.STOP, remedy=Remedy.ADJUST,
                    action="Lay the wires back into their grooves, set their tension evenly, and look at them where they hung",
                ),
            ),
            help="Chain, wheel and rudder amidships. Then hard over both ways: both wires stay taut.",
        ),
        Observation(
            id="run", title="Run of the wire",
            choices=(
                Choice(id="clear", words="touches nothing but its sheaves and conduit", grade=Grade.CLEAR),
                Choice(
                    id="rubs", words="rubs on structure, hose or cable", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Lead the wire clear of what it rubs on, and look at it there",
                ),
            ),
        ),
        Observation(
            id="film", title="Film on the wire",
            choices=(
                Choice(id="light", words="a light film, or stainless wire clean and dry", grade=Grade.CLEAR),
                Choice(
                    id="dry", words="carbon steel, dry", grade=Grade.WATCH, remedy=Remedy.LUBRICATE,
                    action="Put a light corrosion film on the wire with a cloth",
                ),
                Choice(
                    id="greased", words="thick old grease or oil that hides the wire", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Wipe the wire clean with dry cloths, no solvent, and look at it again",
                ),
            ),
        ),
        Observation(
            id="jacket", title="Jacket", basis=f"{AC} f",
            choices=(
                Choice(id="none", words="bare wire, or the jacket whole", grade=Grade.CLEAR),
                _spent("cracked", "jacket cracked or necked", Grade.FIRST),
            ),
        ),
    ),
    needs=(
        *chain_needs("the pull in the wire"),
        Need(
            id="wheel_diameter", source="component", kind="wheel", name="diameter", dimension=Dimension.LENGTH,
            why="diameter of the wheel, for the pull in the wire",
        ),
    ),
    limits=load_limits(__package__, "steering_wire.toml"),
    renewal=(RENEW,),
    care=(Care(id="film", what="Wipe the wires with a cloth and give them a light corrosion film", supply="light corrosion film for the wire", months=12),),
    assess=assess,
)  # fmt: skip
