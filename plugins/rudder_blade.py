"""Rudder blade, with skeg, pintles and gudgeons where there are any; seen ashore for the most part.

Comes in: Evidence of one blade, with the play of its rudder's bearings. Goes out: how much of the movement at the tip
the bearings' play accounts for, for information. The limit stands in rudder_blade.toml; the rest is observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
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
    State,
    Value,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.stock import tip_movement

from .drive import needed_value
from .worked import worked_out

OPEN_BLADE = "Drop the rudder and have the blade opened and repaired where it is wet or cracked"
JOINT = "Drop the rudder and have the joint of stock and blade opened and rebuilt"
PINTLES = "Renew pintle and gudgeon bush, and lock the pintle"
NOTE = (
    "what was measured at the tip beyond this comes from elsewhere: stock, blade, or what holds the bearings"
)


def assess(evidence: Evidence) -> Assessment:
    """The tip movement that the bearings' play gives, beside the one measured."""
    return Assessment(checks=tuple(_by_bearings(evidence)), missing=tuple(_lacking(evidence)))


def _lacking(evidence: Evidence) -> Iterator[Missing]:
    """What the sum lacks, named once the movement at the tip was measured."""
    if evidence.at("tip_play"):
        for ident, why in evidence.unmet.items():
            yield Missing(id=ident, title=why, needed=False)


def _by_bearings(evidence: Evidence) -> Iterator[Check]:
    lower, upper = (_worst(evidence, ident) for ident in ("lower_play", "upper_play"))
    distance, overhang = (needed_value(evidence, ident) for ident in ("bearing_distance", "overhang"))
    measured = evidence.at("tip_play")
    if lower and upper and distance and overhang and measured:
        inputs = {"lower": lower, "upper": upper, "bearing_distance": distance, "overhang": overhang}
        moved, sum_ = work(tip_movement, inputs)
        title = "Tip movement that the bearings' play accounts for"
        yield worked_out("rudder_blade", "by_bearings", title, moved, (sum_,), note=NOTE)


def _worst(evidence: Evidence, ident: str) -> Value | None:
    """The largest play found; one read again after work on the bearing counts in place of it."""
    spots = evidence.needed.get(ident)
    if not isinstance(spots, tuple):
        return None
    left = tuple(spot for spot in spots if spot.state is State.LEFT)
    return max((left or spots), key=lambda spot: spot.value.value).value


def _of_bearing(ident: str, title: str, *, reading: bool) -> Need:
    return Need(
        id=ident, source="component", kind="rudder_bearing", holds="reading" if reading else "detail", name=ident,
        dimension=Dimension.LENGTH, asked="on_request", why=f"{title}, for the part of the tip's movement that comes from the bearings",
    )  # fmt: skip


plugin = Plugin(
    kind="rudder_blade",
    title="Rudder blade, skeg and pintles",
    plural="Rudder blades, skegs and pintles",
    system="steering",
    load_path=True,
    station="ashore",
    purpose="turns the water's flow into the force that turns the boat, and hands it to stock, skeg and bearings",
    cautions=(
        "Nobody under the blade while it is shaken, lifted or its fastenings are loose.",
        "Wheel locked or held for the slip test; tell whoever is in the cockpit. Goggles and mask when paint is scraped.",
    ),
    tools=("plastic-faced hammer", "rule or tape", "scraper", "feeler gauges", "torch", "wheel lashing"),
    supplies=("antifouling for the places scraped bare", "pintle pins and bushes of the right size"),
    examination=(
        ExaminationItem(id="whole_blade", words="both faces, edges, tip and the stock's entry, growth scraped off"),
        ExaminationItem(id="shaken", words="the tip shaken from side to side, and turned with the wheel locked"),
        ExaminationItem(id="tapped", words="both faces tapped over with a plastic-faced hammer"),
        ExaminationItem(id="hangings", words="skeg, pintles, gudgeons and heel fitting, or the lower bearing's outside"),
    ),
    proof=(
        ProofItem(id="slip", words="wheel locked, the blade does not move"),
        ProofItem(id="travel", words="full travel to both stops, the blade clear of hull, skeg and propeller"),
        ProofItem(id="locked", words="pintles, heel fitting and collar locked"),
        ProofItem(id="centred", words="blade amidships with the wheel's king spoke up"),
    ),
    details=(
        DetailField(
            id="form", title="Form", holds="choice",
            choices={
                "spade": "spade rudder", "skeg": "on a full skeg", "half_skeg": "on a half skeg", "keel": "hung on the keel",
                "transom": "hung on the transom", "other": "another form",
            },
        ),
        DetailField(
            id="material", title="Blade", holds="choice",
            choices={
                "foam": "laminate over foam, metal frame inside", "foam_carbon": "laminate over foam, carbon stock",
                "solid": "solid laminate", "wood": "wood", "metal": "metal plate or frame", "unknown": "not known",
            },
        ),
        DetailField(id="area", title="Area, one face", holds="area", unit="m²", imperial="ft²", plausible=(0.02, 6)),
        DetailField(id="span", title="Height of the blade", holds="length", unit="m", imperial="ft", plausible=(0.2, 5)),
        DetailField(id="chord", title="Mean chord", holds="length", unit="mm", imperial="in", plausible=(80, 2500)),
        DetailField(id="installed", title="Built or rebuilt", holds="date"),
    ),
    readings=(
        Quantity(
            id="tip_play", title="Movement at the tip", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="rule on a stand at the trailing corner of the tip, pushed by hand from one side to the other",
            plausible=(0, 250), expected_u=2, wears=True,
            better="rule on a stand fixed to the ground, mean of five pushes of equal force each way",
            help="The whole movement, stock held amidships so that the rudder does not turn.",
        ),
        Quantity(
            id="pintle_play", title="Play of pintle in gudgeon", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="feeler gauge, or caliper on pin and bore", plausible=(0, 30), expected_u=0.2, wears=True,
            only_if={"form": ("skeg", "half_skeg", "keel", "transom")},
            help="Name each pintle as a place. No published limit speaks of a yacht: printed, not graded.",
        ),
    ),
    derived=(
        Derived(
            id="by_bearings", title="Tip movement that the bearings' play accounts for", dimension=Dimension.LENGTH, unit="mm",
            imperial="in",
        ),
    ),
    observations=(
        Observation(
            id="slip", title="Blade moved with the wheel locked", required="needed", loaded_test=True,
            choices=(
                Choice(id="none", words="the blade moves no more than the wire stretches", grade=Grade.CLEAR),
                Choice(
                    id="gear", words="moves: the play is in quadrant, wire or wheel", grade=Grade.FIRST, remedy=Remedy.LOOK,
                    action="Find the play between blade and wheel: quadrant, wire, chain, one by one",
                ),
                Choice(
                    id="doubt", words="moves a little against the stock, or it cannot be told", grade=Grade.FIRST, remedy=Remedy.OPEN_UP,
                    damage=True, action=JOINT,
                ),
                Choice(
                    id="slips", words="the blade moves on its stock", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=JOINT,
                ),
            ),
            help="Stock held at the quadrant, tip pushed fore and aft of the stock's line; a mark across stock and blade shows a slip.",
        ),
        Observation(
            id="cracks", title="Cracks", required="needed",
            choices=(
                Choice(id="none", words="no crack seen at the stock's entry, edges and faces", grade=Grade.CLEAR),
                Choice(
                    id="paint", words="hair cracks in paint or filler", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Scrape the cracked paint off and see whether the crack goes on beneath",
                ),
                Choice(
                    id="seam", words="the seam of the two halves open along an edge", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    damage=True, action=OPEN_BLADE,
                ),
                Choice(
                    id="entry", words="a crack round the stock's entry", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, damage=True,
                    action=JOINT,
                ),
                Choice(
                    id="through", words="a crack through a face, or a part of the blade loose or gone", grade=Grade.STOP,
                    remedy=Remedy.REPAIR, damage=True, action=OPEN_BLADE,
                ),
            ),
        ),
        Observation(
            id="wet", title="Water in the blade", required="needed",
            choices=(
                Choice(id="dry", words="nothing weeps from it", grade=Grade.CLEAR),
                Choice(
                    id="weeps", words="clear water weeps from seam, tip or a drilled hole", grade=Grade.PLAN, remedy=Remedy.OPEN_UP,
                    action="Drain and dry the blade, find where the water enters, and close it",
                ),
                Choice(
                    id="brown", words="brown or rust-coloured water: the frame inside may rust", grade=Grade.FIRST,
                    remedy=Remedy.OPEN_UP, damage=True, action=OPEN_BLADE,
                ),
            ),
            help="Look some hours after hauling out, at the lowest corner and along the seam; in frost a wet blade splits.",
        ),
        Observation(
            id="skin", title="Tapped over",
            choices=(
                Choice(id="crisp", words="a crisp note all over", grade=Grade.CLEAR),
                Choice(
                    id="dull", words="a dull patch smaller than a hand", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Mark the dull patch, measure it again next year, or have the skin bonded to the core again",
                ),
                Choice(
                    id="hollow", words="a dull or hollow patch larger than a hand, or a soft one", grade=Grade.FIRST,
                    remedy=Remedy.REPAIR, damage=True, action=OPEN_BLADE,
                ),
            ),
        ),
        Observation(
            id="pintles", title="Pintles, gudgeons and heel fitting",
            choices=(
                Choice(id="none", words="none: a spade rudder", grade=Grade.CLEAR),
                Choice(id="good", words="unworn, fastened and locked", grade=Grade.CLEAR),
                Choice(
                    id="worn", words="worn: play that is felt", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=PINTLES,
                ),
                Choice(
                    id="wasted", words="metal pink, pitted or wasted", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action=PINTLES,
                ),
                Choice(
                    id="loose", words="a fastening loose or missing", grade=Grade.FIRST, remedy=Remedy.REFIT, damage=True,
                    action="Refasten gudgeon or heel fitting, bedding renewed",
                ),
                Choice(
                    id="unlocked", words="nothing keeps a pintle from lifting out", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action=PINTLES,
                ),
            ),
        ),
        Observation(
            id="skeg", title="Skeg and its joint to the hull",
            choices=(
                Choice(id="none", words="no skeg", grade=Grade.CLEAR),
                Choice(id="firm", words="firm, joint whole inside and outside", grade=Grade.CLEAR),
                Choice(
                    id="line", words="a fine line along the joint", grade=Grade.PLAN, remedy=Remedy.OPEN_UP,
                    action="Open the line at the skeg's joint and look at the laminate inside and outside",
                ),
                Choice(
                    id="cracked", words="cracked, or weeping at the joint", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action="Have the skeg's joint to the hull repaired",
                ),
                Choice(
                    id="moves", words="moves when pushed by hand", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action="Have the skeg's joint to the hull repaired",
                ),
            ),
        ),
        Observation(
            id="surface", title="Blow and ground marks",
            choices=(
                Choice(id="none", words="none", grade=Grade.CLEAR),
                Choice(
                    id="chips", words="chips at tip or leading edge, core not showing", grade=Grade.WATCH, remedy=Remedy.REPAIR,
                    action="Fill the chips before the blade goes back into the water",
                ),
                Choice(
                    id="core", words="skin broken, core showing", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True,
                    action=OPEN_BLADE,
                ),
                Choice(
                    id="bent", words="the blade stands bent or twisted on its stock", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    damage=True, action=JOINT,
                ),
            ),
        ),
        Observation(
            id="clearance", title="Room over the whole travel",
            choices=(
                Choice(id="clear", words="clear of hull, skeg and propeller", grade=Grade.CLEAR),
                Choice(
                    id="tight", words="hardly a finger's room to the hull", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="Look for rub marks between blade and hull, and at the washer that carries the rudder",
                ),
                Choice(
                    id="rubs", words="rubs somewhere on the travel", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Find why the blade rubs: dropped, bent, or the collar moved",
                ),
            ),
        ),
    ),
    needs=(
        _of_bearing("lower_play", "play of the lower rudder bearing", reading=True),
        _of_bearing("upper_play", "play of the upper rudder bearing", reading=True),
        _of_bearing("bearing_distance", "distance between the rudder bearings", reading=False),
        _of_bearing("overhang", "tip of the blade below the lower bearing", reading=False),
    ),
    limits=load_limits(__package__, "rudder_blade.toml"),
    assess=assess,
)  # fmt: skip
