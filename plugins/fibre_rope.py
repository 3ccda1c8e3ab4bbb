"""What every fibre rope aboard has in common: its details, its readings, and the arithmetic of wear and load.

Comes in: Evidence of a halyard, a sheet or a rope rode, each with limits of its own under the same names. Goes out:
details and readings to be declared; diameter lost, working load with and without its knot, load factor.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Citation,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Quantity,
    Value,
    Working,
    compare,
)
from reporter.engineering import Symbol, formula, units, work
from reporter.engineering.mechanics import factor_of_safety
from reporter.engineering.rope import diameter_loss, knot, knotted_load, working_load

from .given import chosen, meant, stated
from .margins import is_spent, withheld
from .nominal import neighbours, size_question
from .worked import worked_out

CONSTRUCTIONS = {
    "double_braid": "double braid: a cover over a core",
    "single_braid": "single braid",
    "twelve_strand": "single braid of twelve strands",
    "three_strand": "three strands, laid",
    "other": "another construction",
}
KNOTS = {
    "bowline": "bowline",
    "half_hitches": "two half hitches on a ring",
    "anchor_bend": "anchor bend on a ring",
    "thimble": "eye splice with thimble",
}
"""Ends that the knot table has a row for, under the row's own name."""
ENDS = {
    "thimble": "eye splice with thimble", "splice": "eye splice without thimble", "bowline": "bowline",
    "half_hitches": "two half hitches", "anchor_bend": "anchor bend", "other_knot": "another knot",
}  # fmt: skip
_TIED = {"bowline", "half_hitches", "anchor_bend", "other_knot"}
_WEAR = ("abrasion", "broken_strands")


@formula(
    title="Rope strength left at the knot",
    text="F_k = F·k",
    symbols={
        "breaking": Symbol("F", "breaking load", "daN"),
        "kept": Symbol("k", "share of strength the knot keeps", "%"),
    },
    result=Symbol("F_k", "breaking load with the knot", "daN"),
    source=Citation(title="trade page on rope", clause="knots"),
)
def strength_at_knot(breaking: float, kept: float) -> float:
    """Breaking load in newtons of a rope with a knot or splice in it."""
    return breaking * kept


def details() -> tuple[DetailField, ...]:
    """Size, make and strength of the rope, and its working end."""
    return (
        DetailField(
            id="diameter", title="Diameter when new", holds="length", unit="mm", imperial="in", plausible=(3, 60),
            help="As sold, in the unit it was sold in: 8 mm and 5/16 in cannot be told apart on a worn rope.",
        ),
        DetailField(
            id="construction", title="Construction", holds="choice", choices=CONSTRUCTIONS,
            help="Look at a cut end: a core inside, one braid alone, or three strands laid round each other.",
        ),
        DetailField(
            id="fibre", title="Fibre of what carries the load", holds="choice",
            choices={
                "polyester": "polyester", "polyamide": "polyamide (nylon)", "hmpe": "high-modulus polyethylene (HMPE)",
                "polypropylene": "polypropylene", "natural": "natural fibre", "other": "another fibre", "unknown": "not known",
            },
        ),
        DetailField(
            id="breaking_load", title="Breaking load by label or papers", holds="force", unit="daN", imperial="lbf", plausible=(100, 60_000),
        ),
        DetailField(id="end", title="Working end", holds="choice", choices=ENDS, help="Where the two ends differ, the weaker."),
        DetailField(
            id="end_kept", title="Strength that the end keeps, where papers say it", holds="ratio", unit="%", plausible=(1, 100),
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    )  # fmt: skip


def readings() -> tuple[Quantity, ...]:
    """What can be measured of a rope, one line for each place."""
    return (
        Quantity(
            id="abrasion", title="Abrasion", dimension=Dimension.RATIO, unit="%", plausible=(0, 100), expected_u=5, wears=True,
            method="at the worst place: yarns worn through in parts of all there are in the section (of a double braid, in the cover)",
            help="Count worn and whole yarns round the rope at the worst place.", only_if={
                "construction": ("double_braid", "single_braid", "twelve_strand", "three_strand"),
            },
        ),
        Quantity(
            id="rope_diameter", title="Diameter now", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(2, 62),
            method="tape round the rope or caliper, rope under light tension, two readings, at the thinnest place", expected_u=0.4, wears=True,
            help="Two lines with the same place make the mean.",
        ),
        Quantity(
            id="broken_strands", title="Strands broken", dimension=Dimension.COUNT, unit="", plausible=(0, 12), method="counted at the place",
            only_if={"construction": ("twelve_strand",)},
        ),
        Quantity(
            id="load", title="Load measured in use", dimension=Dimension.FORCE, unit="daN", imperial="lbf", plausible=(1, 60_000),
            method="load cell or load pin", expected_u=20, asked="on_request",
        ),
    )  # fmt: skip


def derived() -> tuple[Derived, ...]:
    """What is reckoned from them."""
    force = {"dimension": Dimension.FORCE, "unit": "daN", "imperial": "lbf"}
    return (
        Derived(
            id="diameter_loss", title="Diameter lost", dimension=Dimension.RATIO, unit="%", wears=True,
            better="take the mean of five readings at right angles along the thinnest stretch",
        ),
        Derived(id="size_gap", title="Distance to the next size", dimension=Dimension.RATIO, unit="%"),
        Derived.model_validate({"id": "working_load", "title": "Working load of the rope", **force}),
        Derived.model_validate({"id": "knotted_load", "title": "Working load with its knot", **force}),
        Derived(id="knot_kept", title="Strength that a knot in HMPE keeps", dimension=Dimension.RATIO, unit="%"),
        Derived(id="load_factor", title="Breaking load over load", dimension=Dimension.RATIO, unit="1", decimals=1),
    )  # fmt: skip


def examination() -> tuple[ExaminationItem, ...]:
    """What belongs to every rope."""
    return (
        ExaminationItem(id="length", words="the whole length through both hands, eyes on it"),
        ExaminationItem(id="ends", words="both ends with their splices, knots and shackles"),
    )


def rope_checks(evidence: Evidence, what: str) -> Assessment:
    """Diameter lost, and the loads of the undamaged rope; a guessed size with a near neighbour becomes a question."""
    kind = evidence.component.kind
    worn = tuple(_diameter(evidence, kind))
    question = None
    if evidence.at("rope_diameter"):
        question = size_question(evidence, "diameter", f"{kind}.diameter.neighbour", what)
    spent = is_spent(evidence, worn, _WEAR)
    title = "Working load of the rope"
    loads: tuple[Check, ...] = (
        (withheld(kind, "working_load", title),) if spent else tuple(_loads(evidence, kind))
    )
    if not stated(evidence, "breaking_load"):
        loads = ()
    return Assessment(
        checks=(*worn, *loads),
        missing=question[:1] if question else (),
        actions=question[1:] if question else (),
    )


def _diameter(evidence: Evidence, kind: str) -> Iterator[Check]:
    new = stated(evidence, "diameter")
    if new is None or neighbours(evidence, "diameter", f"{kind}.diameter.neighbour"):
        return
    for spot in evidence.at("rope_diameter"):
        loss, sum_ = work(diameter_loss, {"new": new, "now": spot.value})
        for limit in evidence.limits.values():
            if limit.quantity == "diameter_loss" and meant(limit, evidence):
                yield compare(evidence, loss, limit, title="Diameter lost", like=spot, working=(sum_,))


def _loads(evidence: Evidence, kind: str) -> Iterator[Check]:
    breaking = stated(evidence, "breaking_load")
    if breaking is None:
        return
    # The share that may be used is the limit's own, so that one figure serves both the sum and the verdict.
    factor = evidence.limit(f"{kind}.load_factor.working").value
    allowed, sum_ = work(working_load, {"breaking": breaking, "design_factor": factor})
    yield worked_out(kind, "working_load", "Working load of the rope", allowed, (sum_,))
    kept = _kept(evidence, kind)
    sums: tuple[Working, ...] = ()
    strength = breaking
    if kept:
        share, note = kept
        knotted, working = work(knotted_load, {"breaking": breaking, "kept": share, "design_factor": factor})
        yield worked_out(kind, "knotted_load", "Working load with its knot", knotted, (working,), note=note)
        strength, at_knot = work(strength_at_knot, {"breaking": breaking, "kept": share})
        sums = (at_knot,)
    for spot in evidence.at("load"):
        ratio, over = work(factor_of_safety, {"strength": strength, "load": spot.value})
        for limit in evidence.limits.values():
            if limit.quantity == "load_factor" and meant(limit, evidence):
                yield compare(
                    evidence, ratio, limit, title="Breaking load over load", like=spot, working=(*sums, over)
                )


def _kept(evidence: Evidence, kind: str) -> tuple[Value, str] | None:
    """The share that the end keeps, at the lower end of what is published, and where it comes from."""
    own, end = stated(evidence, "end_kept"), chosen(evidence, "end")
    if own:
        return own, "share kept by the end as its papers say"
    if end in _TIED and chosen(evidence, "fibre") == "hmpe":
        limit = evidence.limit(f"{kind}.knot_kept.hmpe")
        return _share(units.to_base(limit.value, limit.unit)), f"{limit.note} ({limit.source.title})"
    if end not in KNOTS:
        return None
    row = knot(KNOTS[end])
    return _share(
        row.low
    ), f"{KNOTS[end]}: {row.low:.0%} to {row.high:.0%} kept ({row.cited}); the lower end is taken"


def _share(value: float) -> Value:
    return Value(dimension=Dimension.RATIO, value=value, unit="%")
