"""Anchors, with the roller that the main one lives on.

Comes in: Evidence of one anchor, with the vessel's lengths. Goes out: its mass beside the outfit tables, for
information. Limits stand in anchor.toml; what is bent, worn or not secured is an observation.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
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
    Remedy,
    Value,
    load_limits,
)
from reporter.engineering.rows import AnchorOutfit

from .given import chosen, stated
from .outfit import NEEDS, beside_table, mass_share

RENEW = "Renew the anchor"
BENT = "Renew the anchor: a shank that was bent back has lost its strength"


def assess(evidence: Evidence) -> Assessment:
    """Mass beside the table's row for the vessel's length; for the kedge its own column."""
    kedge = chosen(evidence, "use") == "kedge"

    def figure(row: AnchorOutfit) -> Value:
        return Value(dimension=Dimension.MASS, value=row.kedge_kg if kedge else row.main_kg, unit="kg")

    title = "Mass of the anchor in parts of the outfit table"
    own = stated(evidence, "mass") if chosen(evidence, "use") in {"main", "kedge"} else None
    return Assessment(checks=tuple(beside_table(evidence, own, mass_share, figure, title=title)))


plugin = Plugin(
    kind="anchor",
    title="Anchor",
    plural="Anchors",
    system="ground",
    load_path=True,
    station="bow",
    purpose="holds the boat to the ground",
    cautions=(
        "Keep hands and feet clear of anchor and chain until the windlass is isolated and the anchor is lashed.",
        "An anchor lifted off its roller swings: two people, or a line to the head.",
    ),
    tools=("tape", "scale", "torch", "straight edge"),
    supplies=("lashing line or locking pin for the roller", "seizing wire"),
    examination=(
        ExaminationItem(id="off_roller", words="the anchor taken off its roller and turned over, all of it washed"),
        ExaminationItem(id="shank", words="the shank sighted along, and looked at where it meets the crown"),
        ExaminationItem(id="eye", words="the eye that the shackle goes through"),
        ExaminationItem(id="stowage", words="roller, cheeks and what holds the anchor there in a seaway"),
    ),
    proof=(
        ProofItem(id="secured", words="secured on its roller or in its chocks for sea"),
        ProofItem(id="shackle", words="shackle closed and moused"),
        ProofItem(id="set", words="set once and pulled in with the engine"),
    ),
    details=(
        DetailField(
            id="use", title="Use", holds="choice", required="needed",
            choices={"main": "main anchor", "kedge": "kedge or second anchor", "spare": "spare or storm anchor, below"},
        ),
        DetailField(
            id="type", title="Type", holds="choice",
            choices={
                "plough_hinged": "plough with a hinge", "plough_fixed": "plough without a hinge", "scoop": "scoop, with or without a hoop",
                "claw": "claw", "plate": "pivoting plates with a stock", "fisherman": "fisherman, with a stock", "folding": "folding", "other": "another type",
            },
        ),
        DetailField(id="mass", title="Mass", holds="mass", unit="kg", imperial="lb", plausible=(1, 200)),
        DetailField(
            id="material", title="Made of", holds="choice",
            choices={"galvanised": "galvanised steel", "stainless": "stainless steel", "aluminium": "aluminium alloy", "other": "another material"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    derived=(Derived(id="table_share", title="Mass of the anchor in parts of the outfit table", dimension=Dimension.RATIO, unit="%"),),
    observations=(
        Observation(
            id="shank", title="Shank and flukes", required="needed",
            choices=(
                Choice(id="straight", words="straight and whole", grade=Grade.CLEAR),
                Choice(id="bruised", words="fluke tips bruised or edges rolled over", grade=Grade.WATCH, remedy=Remedy.REPAIR, action="Dress the tips, and cover bare steel"),
                Choice(id="bent", words="shank or fluke bent", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=BENT),
                Choice(id="cracked", words="a crack, or a weld that opens", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="eye", title="Eye for the shackle", required="needed",
            choices=(
                Choice(id="round", words="round, full, edges smooth", grade=Grade.CLEAR),
                Choice(id="worn", words="worn oval, metal left all round", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the eye built up or bushed, or renew the anchor"),
                Choice(id="thin", words="worn thin towards the edge", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="hinge", title="Hinge or pivots", asked="on_request",
            choices=(
                Choice(id="close", words="moves freely with little play", grade=Grade.CLEAR),
                Choice(id="play", words="moves with much play", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the hinge's pin and holes renewed"),
                Choice(id="jammed", words="jammed, or its pin working out", grade=Grade.FIRST, remedy=Remedy.REPAIR, damage=True, action="Free the hinge and secure its pin"),
            ),
        ),
        Observation(
            id="coating", title="Surface", required="needed",
            choices=(
                Choice(id="whole", words="galvanising or metal unbroken", grade=Grade.CLEAR),
                Choice(id="rust", words="surface rust, no pits", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Brush the anchor clean and coat it, or have it galvanised again"),
                Choice(id="scale", words="rust in scales, or pits", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the anchor blasted and galvanised again, and look for cracks while it is bare"),
                Choice(id="deep", words="wasted at shank, crown or weld", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="secured", title="How it is held on board", required="needed",
            choices=(
                Choice(id="held", words="held by a pin or lashing that takes the load off the windlass; or stowed below, fast", grade=Grade.CLEAR),
                Choice(id="windlass", words="held by the windlass alone", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Fit a pin, a lashing or a chain hook that holds the anchor on its roller"),
                Choice(id="loose", words="loose on deck or in its locker", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Give the anchor chocks and lashings, or a fast place below"),
            ),
        ),
        Observation(
            id="roller", title="Bow roller and its cheeks",
            choices=(
                Choice(id="good", words="turns, cheeks straight, chain cannot jump out", grade=Grade.CLEAR),
                Choice(id="stiff", words="turns stiffly, or is grooved", grade=Grade.WATCH, remedy=Remedy.LUBRICATE, action="Take the roller off its pin, clean and grease it, and look at the pin"),
                Choice(id="open", words="no keeper over the chain", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Fit a keeper pin over the chain"),
                Choice(id="bent", words="cheeks bent, or fastenings working", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Straighten and fasten the bow roller, and look at the stem fitting below it"),
                Choice(id="cracked", words="cracked; or the forestay shares the cracked fitting", grade=Grade.STOP, remedy=Remedy.REPAIR, action="Repair the bow roller before anything hangs on it; where the forestay shares it, look at that first"),
            ),
        ),
        Observation(
            id="size", title="Size by its maker's table for the boat",
            choices=(
                Choice(id="meets", words="as large as its maker's table asks for, or larger", grade=Grade.CLEAR),
                Choice(id="one_less", words="one size smaller", grade=Grade.WATCH, remedy=Remedy.LOOK, action="Have the anchor's size looked at for where the boat is going"),
                Choice(id="two_less", words="two sizes smaller or more", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Have a larger anchor planned for"),
            ),
            basis="the table of the anchor's own maker",
        ),
    ),
    needs=NEEDS,
    limits=load_limits(__package__, "anchor.toml"),
    renewal=(RENEW, BENT),
    assess=assess,
)  # fmt: skip
