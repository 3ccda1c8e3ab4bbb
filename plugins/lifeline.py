"""Lifelines with their ends: the wires between pulpit, stanchions and pushpit.

Comes in: Evidence of the lifelines of one side or of both, with the vessel's length. Goes out: the sag test, which is
judged only under the force it is defined for, and the diameter by length. Limits stand in lifeline.toml.
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
    Grade,
    Missing,
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
from reporter.engineering import units, work
from reporter.engineering.lifelines import implied_tension, sag_limit, wire_for_length

from .coated import coated
from .given import at_or_over, beside, chosen, stated, vessel
from .worked import worked_out

RENEW = "Renew the lifeline with its ends"
SAME_FORCE = 0.02
"""A test force this near to a rule's, as a fraction, is the rule's."""
LINES = {"sag_upper": "upper", "sag_intermediate": "intermediate"}


def assess(evidence: Evidence) -> Assessment:
    """Sag under its force, diameter by length, a single line by length; a sag under another force is asked for again."""
    tests = [(spot, _force_fault(evidence, spot)) for reading in LINES for spot in evidence.at(reading)]
    faults = tuple(dict.fromkeys(fault for _, fault in tests if fault))
    judged = [check for spot, fault in tests if not fault for check in _sag(evidence, spot)]
    older = [check for spot, fault in tests if fault for check in _older_test(evidence, spot)]
    tensions = [check for spot, _ in tests for check in _tension(evidence, spot)]
    hidden, bare = coated(evidence, "3.14.6 and a national rule 17.17")
    checks = (*judged, *older, *tensions, *_wire(evidence), *_single(evidence), *hidden)
    missing = (
        (Missing(id="sag", title="Sag test of the lifelines", needed=False, why="; ".join(faults)),)
        if faults
        else ()
    )
    return Assessment(checks=checks, missing=missing, actions=(*_test_again(faults), *bare))


def _force_fault(evidence: Evidence, spot: Spot) -> str:
    """Why this sag says nothing against the rule, in plain words; nothing when the force was the rule's."""
    force = beside(evidence, "test_force", spot)
    if force is None:
        return "The sag was taken without its force, and says nothing without it."
    try:
        sag_limit(force.value.value, upper=LINES[spot.quantity] == "upper")
    except ValueError as error:
        text = str(error)
        return f"{text[:1].upper()}{text[1:]}."
    return ""


def _test_again(faults: tuple[str, ...]) -> Iterator[Action]:
    if faults:
        yield Action(
            id="lifeline.sag_again",
            what="Make the sag test with the force of the rule: a spring balance in the middle of the widest span aft of the mast, straight down",
            remedy=Remedy.TEST, why=" ".join(faults), grade=Grade.UNSEEN, tools=("spring balance", "rule", "straight edge or string"),
        )  # fmt: skip


def _sag(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    line = LINES[spot.quantity]
    limit = evidence.limit(f"lifeline.sag.{line}")
    yield compare(
        evidence, spot.value, limit, title=f"Sag of the {line} lifeline under the test's force", like=spot
    )


def _older_test(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    """The test as it was before 2014, where the force was the older one: for information."""
    force, older = beside(evidence, "test_force", spot), evidence.limit("lifeline.sag.force_before_2014")
    if (
        force
        and spot.quantity == "sag_upper"
        and abs(force.value.value / units.to_base(older.value, older.unit) - 1) <= SAME_FORCE
    ):
        limit = evidence.limit("lifeline.sag.before_2014")
        yield compare(
            evidence, spot.value, limit, title="Sag of the upper lifeline under the older force", like=spot
        )


def _tension(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    force, span = beside(evidence, "test_force", spot), beside(evidence, "span", spot)
    if force and span and spot.value.value > 0:
        tension, sum_ = work(implied_tension, {"force": force.value, "span": span.value, "sag": spot.value})
        yield worked_out(
            "lifeline",
            f"tension_{LINES[spot.quantity]}",
            "Tension that the sag tells of",
            tension,
            (sum_,),
            like=spot,
        )


def _wire(evidence: Evidence) -> Iterator[Check]:
    """The diameter against the row of the vessel's length; fibre lines have no row."""
    length, diameter = vessel(evidence, "length_overall"), stated(evidence, "diameter")
    if length is None or diameter is None or chosen(evidence, "material") == "fibre":
        return
    row = wire_for_length(length.value)
    limit = evidence.limit(f"lifeline.wire.{row.wire_mm:g}mm")
    yield compare(evidence, diameter, limit, title="Diameter of the wire, by length overall")


def _single(evidence: Evidence) -> Iterator[Check]:
    length = vessel(evidence, "length_overall")
    if chosen(evidence, "lines") == "single" and length:
        limit = evidence.limit("lifeline.single_length.under")
        yield at_or_over(
            compare(evidence, length, limit, title="Length of the vessel, with a single lifeline")
        )


plugin = Plugin(
    kind="lifeline",
    title="Lifelines",
    plural="Lifelines",
    system="safety",
    load_path=True,
    station="side_decks",
    purpose="keep people on deck; the [guardrail] wires from pulpit to pushpit",
    cautions=(
        "Wear a glove or hold a cloth: a broken wire cuts like a hook.",
        "Nobody leans on a lifeline, and nobody clips on to one, while it is being looked at.",
        "A coating hides what the wire does inside: rust at its ends speaks for the rest.",
    ),
    tools=("cotton cloth", "magnifier", "spring balance of 50 N or 5 kgf", "tape and straight edge", "vernier caliper"),
    supplies=("[split pin]s of the right size", "lashing line", "rigging tape", "wire of the same size and construction with its ends"),
    examination=(
        ExaminationItem(id="cloth", words="a cloth wiped along every wire, over its whole length"),
        ExaminationItem(id="ends", words="every end: fitting, pin, hook, lanyard, and the eye it hangs on"),
        ExaminationItem(id="stanchions", words="the wire where it runs through every stanchion"),
        ExaminationItem(id="gates", words="every gate with its hooks"),
    ),
    proof=(
        ProofItem(id="pins", words="pins, [split pin]s and locknuts seen and taped"),
        ProofItem(id="lean", words="leaned on with the body's weight, from inside, at every span"),
        ProofItem(id="gates", words="gates hooked and tried"),
    ),
    details=(
        DetailField(
            id="material", title="Made of", holds="choice", required="needed",
            choices={"bare": "bare stainless wire", "coated": "wire in a plastic coating", "fibre": "fibre line", "rail": "rigid rail"},
        ),
        DetailField(
            id="diameter", title="Diameter of the wire", holds="length", unit="mm", imperial="in", plausible=(2, 14),
            help="Of the wire itself, not over its coating.",
        ),
        DetailField(id="lines", title="Lines on each side", holds="choice", choices={"double": "upper and intermediate", "single": "one"}),
        DetailField(
            id="first_launched", title="First launched", holds="choice",
            choices={"before_1993": "before 1993", "from_1993": "in 1993 or later"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the wire both ways, then counted with a magnifier", only_if={"material": ("bare", "coated")},
            help="One line for each place. Write 0 for what was wiped and ran clean.",
        ),
        Quantity(
            id="sag_upper", title="Sag of the upper lifeline", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 500),
            method="spring balance in the middle of the widest span aft of the mast, rule against a straight edge", expected_u=3, per_side=True,
            better="read the sag against a tight string between the stanchions", help="Give the force as 'test_force' at the same place.",
        ),
        Quantity(
            id="sag_intermediate", title="Sag of the intermediate lifeline", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 600),
            method="spring balance in the middle of each span aft of the mast, rule against a straight edge", expected_u=3, per_side=True,
            only_if={"lines": ("double",)},
        ),
        Quantity(
            id="test_force", title="Force of the sag test", dimension=Dimension.FORCE, unit="N", imperial="lbf", plausible=(5, 200),
            method="spring balance, read while the sag is read", expected_u=2, help="The rule's test is made with 40 N, about 4 kgf.",
        ),
        Quantity(
            id="span", title="Span between supports", dimension=Dimension.LENGTH, unit="m", imperial="ft", plausible=(0.3, 6),
            method="tape, stanchion to stanchion", expected_u=0.005, per_side=True,
        ),
        Quantity(
            id="upper_height", title="Height of the upper lifeline", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(200, 1300),
            method="tape, working deck to wire, at the lowest place", expected_u=5, per_side=True,
        ),
        Quantity(
            id="intermediate_height", title="Height of the intermediate lifeline", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(80, 800),
            method="tape, working deck to wire, at the lowest place", expected_u=5, per_side=True, only_if={"lines": ("double",)},
        ),
        Quantity(
            id="gap", title="Widest vertical gap", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(50, 1000),
            method="tape, deck to wire or wire to wire, whichever is more", expected_u=5, per_side=True,
        ),
        Quantity(
            id="lanyard_gap", title="Gap closed by a lanyard", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 600),
            method="rule, end fitting to eye", expected_u=2, per_side=True, asked="on_request",
        ),
    ),
    derived=(
        Derived(id="sag_of_upper", title="Sag of the upper lifeline under the test's force", dimension=Dimension.LENGTH, unit="mm", imperial="in", decimals=0,
                better="read the sag against a tight string between the stanchions"),
        Derived(id="sag_of_intermediate", title="Sag of the intermediate lifeline under the test's force", dimension=Dimension.LENGTH, unit="mm", imperial="in", decimals=0,
                better="read the sag against a tight string between the stanchions"),
        Derived(id="sag_before_2014", title="Sag of the upper lifeline under the older force", dimension=Dimension.LENGTH, unit="mm", imperial="in", decimals=0),
        Derived(id="older_force", title="Force of the older sag test", dimension=Dimension.FORCE, unit="N", imperial="lbf"),
        Derived(id="wire_by_length", title="Diameter of the wire, by length overall", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
        Derived(id="single_line_length", title="Length of the vessel, with a single lifeline", dimension=Dimension.LENGTH, unit="m", imperial="ft"),
        Derived(id="tension_upper", title="Tension that the sag tells of", dimension=Dimension.FORCE, unit="N", imperial="lbf", decimals=0),
        Derived(id="tension_intermediate", title="Tension that the sag tells of", dimension=Dimension.FORCE, unit="N", imperial="lbf", decimals=0),
    ),
    observations=(
        Observation(
            id="wire", title="The line", required="needed",
            choices=(
                Choice(id="good", words="clean and even over its whole length", grade=Grade.CLEAR),
                Choice(id="stained", words="brown film that a cloth takes off", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Wipe the lifelines clean and look at them again in the same light"),
                Choice(id="coating", words="coating cracked, or rust creeping from under it", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="chafed", words="fibre line chafed, or a wire kinked, flattened or pitted", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="broken", words="a wire broken, or a strand of a fibre line cut", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
            help="Most wear is where the wire runs through a stanchion and at the mouth of its ends.",
        ),
        Observation(
            id="ends", title="End fittings", required="needed",
            choices=(
                Choice(id="good", words="straight and whole, no rust at the mouth", grade=Grade.CLEAR),
                Choice(id="rust", words="rust at the mouth of a fitting", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
                Choice(id="threads", words="a screw holds by too little of its thread, or a locknut is loose", grade=Grade.FIRST, remedy=Remedy.ADJUST, action="Take the screw up so that it holds by its whole thread, and lock it"),
                Choice(id="cracked", words="cracked, bent or slipping on the wire", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="pins", title="Pins and lanyards", required="needed",
            choices=(
                Choice(id="locked", words="every pin locked and taped, lanyards of full strength", grade=Grade.CLEAR),
                Choice(id="weathered", words="a lanyard faded or stiff", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the lanyards: as strong as the wire, several turns, knots that cannot slip"),
                Choice(id="chafed", words="a lanyard chafed or knotted badly", grade=Grade.FIRST, remedy=Remedy.REPLACE, action="Renew the lanyards: as strong as the wire, several turns, knots that cannot slip"),
                Choice(id="missing", words="a pin or [split pin] missing", grade=Grade.STOP, remedy=Remedy.REFIT, action="Fit pin and [split pin] and tape them"),
            ),
        ),
        Observation(
            id="gates", title="Gates and their hooks",
            choices=(
                Choice(id="hold", words="hooks close fully and hold; or there is no gate", grade=Grade.CLEAR),
                Choice(id="stiff", words="a hook stiff with salt", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Rinse and work the hooks free, with a drop of light oil"),
                Choice(id="weak", words="a hook opens when shaken, or its spring or pin is gone", grade=Grade.FIRST, remedy=Remedy.REPLACE, action="Renew the hook; until then lash the gate shut"),
                Choice(id="open", words="a gate cannot be closed", grade=Grade.STOP, remedy=Remedy.REPAIR, action="Put the gate right; until then lash it shut with line as strong as the wire"),
            ),
        ),
        Observation(
            id="tension", title="Tension by hand",
            choices=(
                Choice(id="taut", words="taut, no stanchion pulled in", grade=Grade.CLEAR),
                Choice(id="tight", words="so tight that stanchions or pulpit lean in", grade=Grade.WATCH, remedy=Remedy.ADJUST, action="Ease the lifelines until stanchions and pulpits stand by themselves"),
                Choice(id="slack", words="slack", grade=Grade.PLAN, remedy=Remedy.TIGHTEN, action="Take up the lifelines and make the sag test"),
            ),
        ),
    ),
    needs=(
        Need(
            id="length_overall", source="vessel", name="length_overall", dimension=Dimension.LENGTH,
            why="length overall of the vessel, for the diameter of the lifelines",
        ),
    ),
    limits=load_limits(__package__, "lifeline.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse the lifelines and their hooks with fresh water, wipe them with a cloth, and look at the mouth of every end", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
