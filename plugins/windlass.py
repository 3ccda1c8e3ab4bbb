"""Windlasses: gypsy, clutch, fastening and drive.

Comes in: Evidence of one windlass, with the chain of the same group. Goes out: whether gypsy and chain are of one size
and standard. The one limit, an age, stands in windlass.toml; what slips, jumps or leaks is an observation.
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
    Verdict,
    load_limits,
)
from reporter.engineering import units

from .given import chosen, stated

SERVICE = "Take gypsy and clutch off, wash and grease cones and shaft, look at seals, oil and cable joints"
FASTEN = "Fasten the windlass by through-bolts on a backing plate, nuts locked, bedded against water"
GYPSY = "Have a gypsy of the chain's size and standard fitted"
NAMES = {"iso_4565": "ISO 4565", "din_766": "DIN 766"}


def assess(evidence: Evidence) -> Assessment:
    """Gypsy and chain held against each other by their marks; how the chain really runs is an observation."""
    said = tuple(_mismatch(evidence))
    if not said:
        return Assessment()
    check = Check(
        id="windlass.gypsy_match", subject="gypsy_match", title="Gypsy and chain by their marks", said="; ".join(said),
        verdict=Verdict.SEEN, grade=Grade.PLAN, kind=LimitKind.DESIGN, method="marks on gypsy and chain",
    )  # fmt: skip
    action = Action(
        id="windlass.gypsy_match",
        what=GYPSY,
        remedy=Remedy.REPLACE,
        why=check.said,
        grade=check.grade,
        settles=(check.id,),
    )
    return Assessment(checks=(check,), actions=(action,))


def _mismatch(evidence: Evidence) -> Iterator[str]:
    gypsy, chain = stated(evidence, "gypsy_size"), evidence.needed.get("chain_size")
    limit = evidence.limit("windlass.gypsy_gap.same")
    same = units.to_base(limit.value, limit.unit)
    if gypsy and isinstance(chain, Fact) and chain.value and abs(gypsy.value / chain.value.value - 1) > same:
        yield f"the gypsy is marked {gypsy.written or 'for another size'}, the chain is {chain.value.written or 'of its own size'}"
    own, other = chosen(evidence, "gypsy_standard"), evidence.needed.get("chain_standard")
    if own in NAMES and isinstance(other, Fact) and other.choice in NAMES and own != other.choice:
        yield f"the gypsy is made for {NAMES[own]} chain, the chain is made to {NAMES[other.choice]}"


plugin = Plugin(
    kind="windlass",
    title="Windlass",
    plural="Windlasses",
    system="ground",
    load_path=False,
    station="foredeck",
    purpose="brings anchor and chain home, and lets them go under control",
    cautions=(
        "Isolate the windlass at its breaker before a hand goes near gypsy or chain; tell everybody aboard.",
        "Hair, sleeves, gloves and feet clear of the gypsy. Never stand in line with a loaded chain.",
        "The windlass hauls, it does not hold: at anchor the load belongs on a snubber or a strong point.",
    ),
    tools=("windlass handle", "[spanner]s", "multimeter", "torch"),
    supplies=("grease for cones and shaft", "gear oil as its maker says", "switch covers", "water-repellent for cable joints"),
    examination=(
        ExaminationItem(id="hauled", words="run out and hauled in under load, listening, gypsy watched"),
        ExaminationItem(id="clutch", words="clutch and brake let go and tightened by hand"),
        ExaminationItem(id="below", words="fastenings, motor and cable joints from below"),
    ),
    proof=(
        ProofItem(id="both_ways", words="hauled in and run out under load"),
        ProofItem(id="switches", words="every switch stops it when let go"),
        ProofItem(id="clutch", words="clutch holds, and can be let go by hand"),
    ),
    details=(
        DetailField(id="drive", title="Drive", holds="choice", choices={"hand": "by hand", "electric": "electric", "hydraulic": "hydraulic"}),
        DetailField(id="axis", title="Axis", holds="choice", choices={"vertical": "upright", "horizontal": "lying"}),
        DetailField(id="gypsy_size", title="Chain size marked on the gypsy", holds="length", unit="mm", imperial="in", plausible=(4, 40)),
        DetailField(
            id="gypsy_standard", title="Chain standard that the gypsy is made for", holds="choice",
            choices={"iso_4565": "ISO 4565", "din_766": "DIN 766", "other": "another standard or inch size", "unknown": "not known"},
        ),
        DetailField(id="serviced", title="Last stripped and greased", holds="date"),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="voltage", title="Voltage at the motor under load", dimension=Dimension.VOLTAGE, unit="V", plausible=(5, 60),
            method="multimeter at the motor's terminals while it hauls", expected_u=0.1, asked="on_request", help="No figure is graded: for comparison with last time.",
        ),
    ),
    derived=(Derived(id="gypsy_gap", title="Gypsy beside chain", dimension=Dimension.RATIO, unit="%"),),
    observations=(
        Observation(
            id="gypsy", title="How the chain runs over the gypsy", required="needed",
            choices=(
                Choice(id="seats", words="every link seats, hauling and running out", grade=Grade.CLEAR),
                Choice(id="worn", words="pockets worn, the chain still seats", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Have the gypsy renewed, with the chain if that is worn too"),
                Choice(id="jumps", words="the chain jumps or rides up", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=GYPSY),
                Choice(id="runs_away", words="the chain runs out over the gypsy and cannot be held", grade=Grade.STOP, remedy=Remedy.REPLACE, action=GYPSY),
            ),
        ),
        Observation(
            id="clutch", title="Clutch and brake", required="needed",
            choices=(
                Choice(id="holds", words="hold, and let go by hand", grade=Grade.CLEAR),
                Choice(id="stiff", words="hold, but stick", grade=Grade.WATCH, remedy=Remedy.LUBRICATE, action=SERVICE),
                Choice(id="slips", words="slip under load", grade=Grade.FIRST, remedy=Remedy.REPAIR, action=SERVICE),
                Choice(id="seized", words="seized: the chain cannot be let go by hand", grade=Grade.FIRST, remedy=Remedy.REPAIR, action=SERVICE),
            ),
        ),
        Observation(
            id="base", title="Base and fastenings", required="needed",
            choices=(
                Choice(id="fast", words="fast, dry below", grade=Grade.CLEAR),
                Choice(id="weeps", words="fast, but water comes through", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Take the windlass off, bed it again, and look at the core of the deck there"),
                Choice(id="moves", words="moves under load, or a fastening is rusted through", grade=Grade.FIRST, remedy=Remedy.TIGHTEN, action=FASTEN),
                Choice(id="lifting", words="lifting, or the deck cracked round it", grade=Grade.STOP, remedy=Remedy.REPAIR, action=FASTEN),
            ),
        ),
        Observation(
            id="drive", title="Drive, switches and cables",
            choices=(
                Choice(id="works", words="hauls strongly, switches and covers whole; or driven by hand and turns well", grade=Grade.CLEAR),
                Choice(id="slow", words="slow, or green cable joints", grade=Grade.PLAN, remedy=Remedy.CLEAN, action="Clean and remake the cable joints, and measure the voltage at the motor under load"),
                Choice(id="dead", words="does not haul", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Put the drive right, or show that the anchor can be brought home by hand"),
                Choice(id="runs_on", words="runs by itself, or does not stop", grade=Grade.STOP, remedy=Remedy.REPAIR, action="Isolate the windlass at its breaker until switch and relay have been renewed"),
            ),
        ),
        Observation(
            id="by_hand", title="By hand, without power",
            choices=(
                Choice(id="works", words="handle aboard, tried, brings the chain home", grade=Grade.CLEAR),
                Choice(id="none", words="no handle aboard, or no way to haul by hand", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Bring the handle aboard and try it, or rig another way to haul by hand"),
            ),
        ),
        Observation(
            id="relief", title="What takes the load at anchor",
            choices=(
                Choice(id="snubber", words="snubber, chain stopper or strong point, in use", grade=Grade.CLEAR),
                Choice(id="windlass", words="the windlass alone", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Take the load off the windlass by a snubber or a chain stopper"),
            ),
        ),
        Observation(
            id="seal", title="Oil and seals",
            choices=(
                Choice(id="dry", words="no oil outside, oil clear in its glass", grade=Grade.CLEAR),
                Choice(id="weeps", words="oil weeps, or is milky", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Renew seals and oil"),
            ),
        ),
    ),
    needs=(
        Need(id="chain_size", source="component", kind="anchor_chain", name="size", dimension=Dimension.LENGTH, asked="on_request", why="size of the chain, for its gypsy"),
        Need(id="chain_standard", source="component", kind="anchor_chain", name="standard", asked="on_request", why="standard that the chain is made to, for its gypsy"),
    ),
    limits=load_limits(__package__, "windlass.toml"),
    care=(Care(id="service", what=SERVICE, supply="grease for cones and shaft, gear oil as its maker says", months=12),),
    assess=assess,
)  # fmt: skip
