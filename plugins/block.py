"""Blocks, tracks and clutches: what leads a line, turns it and holds it.

Comes in: Evidence of one fitting or a set of them. Goes out: sheave over rope and over wire, and the load on a block
that turns a line, as design checks. Limits stand in block.toml; what is worn, loose or slips is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Care,
    Check,
    Choice,
    Citation,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Missing,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Value,
    compare,
    load_limits,
)
from reporter.engineering import Symbol, formula, table, work
from reporter.engineering.mechanics import sheave_ratio
from reporter.engineering.rows import BendingStrength
from reporter.engineering.tackle import block_load
from reporter.engineering.wire import bending_strength

from .given import asked_by_type, beside, chosen, stated
from .margins import withheld
from .worked import worked_out

ROPE_TITLE = "Sheave diameter over rope diameter"
WIRE_TITLE = "Sheave diameter over wire diameter"
LOAD_TITLE = "Load on the block"
HOLDING = {"clutch", "cleat"}
FASTEN = "Fasten the base to structure that carries the pull: through-bolts, backing plates, locked nuts, bedded against water"
RENEW = "Renew the fitting"


@formula(
    title="Sheave over rope",
    text="r = D / d",
    symbols={
        "tread": Symbol("D", "tread diameter, at the bottom of the groove", "mm"),
        "rope": Symbol("d", "rope diameter", "mm"),
    },
    result=Symbol("r", ROPE_TITLE.lower(), "1"),
    source=Citation(title="boat handbook", clause="p. 56"),
)
def rope_ratio(tread: float, rope: float) -> float:
    """Tread over rope, both in metres."""
    return tread / rope


@formula(
    title="Load in parts of the mark",
    text="s = F / F_m",
    symbols={
        "load": Symbol("F", "load on the block", "daN"),
        "marked": Symbol("F_m", "working load marked", "daN"),
    },
    result=Symbol("s", "share of the working load", "%"),
    source=Citation(title="the mark on the block itself", clause="working load"),
)
def share_of_mark(load: float, marked: float) -> float:
    """Load over marked working load, both in newtons."""
    return load / marked


def assess(evidence: Evidence) -> Assessment:
    """Sheave ratios and block load; a clutch or cleat that was not tried is not clear."""
    return Assessment(checks=(*_ratios(evidence), *_load(evidence)), missing=tuple(_untried(evidence)))


def _untried(evidence: Evidence) -> Iterator[Missing]:
    if chosen(evidence, "type") in HOLDING:
        yield from asked_by_type(
            evidence, {"holding": "Holding"}, "A clutch or cleat has to be tried under load."
        )
    if chosen(evidence, "type") == "track":
        yield from asked_by_type(
            evidence, {"car": "Car on its track"}, "A track has to be looked at with its car and stops."
        )


def _ratios(evidence: Evidence) -> Iterator[Check]:
    tread = stated(evidence, "tread_diameter")
    rope, wire = stated(evidence, "rope_diameter"), stated(evidence, "wire_diameter")
    if tread and rope:
        ratio, sum_ = work(rope_ratio, {"tread": tread, "rope": rope})
        for ident in ("block.ratio_rope.least", "block.ratio_rope.recommended"):
            yield compare(evidence, ratio, evidence.limit(ident), title=ROPE_TITLE, working=(sum_,))
    if tread and wire:
        ratio, sum_ = work(sheave_ratio, {"tread": tread, "wire": wire})
        for limit in evidence.limits.values():
            if limit.quantity == "ratio_wire":
                yield compare(evidence, ratio, limit, title=WIRE_TITLE, working=(sum_,))
        yield from _bent(ratio)


def _bent(ratio: Value) -> Iterator[Check]:
    """How much of its strength a wire keeps while it is bent round the sheave, where the table reaches so far."""
    try:
        kept = bending_strength(ratio.value)
    except ValueError:
        return
    share = Value(dimension=Dimension.RATIO, value=kept, unit="%")
    note = table(BendingStrength)[0].cited
    yield worked_out(
        "block", "bent_kept", "Strength that a wire keeps, bent round this sheave", share, (), note=note
    )


def _load(evidence: Evidence) -> Iterator[Check]:
    marked = stated(evidence, "marked_working_load")
    if evidence.damaged:
        if marked:
            yield withheld("block", "load_share", "Load in parts of the working load")
        return
    for line in evidence.at("line_load"):
        turn = beside(evidence, "turn", line)
        if turn is None:
            continue
        load, sum_ = work(
            block_load, {"line": line.value, "turn": turn.value}, units={"line": "daN", "result": "daN"}
        )
        yield worked_out("block", "block_load", LOAD_TITLE, load, (sum_,), like=line)
        if marked:
            share, over = work(share_of_mark, {"load": load, "marked": marked})
            limit = evidence.limit("block.load_share.marked")
            yield compare(
                evidence,
                share,
                limit,
                title="Load in parts of the working load",
                like=line,
                working=(sum_, over),
            )


plugin = Plugin(
    kind="block",
    title="Blocks, tracks and clutches",
    plural="Blocks, tracks and clutches",
    system="running",
    load_path=True,
    station="deck",
    purpose="lead the lines to where they are worked, turn them on the way, and hold them",
    cautions=(
        "Stand outside the angle of a loaded line: where its block lets go, the line flies into it.",
        "Take the load off a clutch with a winch before it is opened.",
    ),
    tools=("torch and mirror", "[spanner]s for the bases", "vernier caliper", "fresh water and soft brush"),
    supplies=("[split pin]s of the right size", "self-locking nuts", "bedding compound", "dry or PTFE-type lubricant", "clutch cams of the right size"),
    examination=(
        ExaminationItem(id="each", words="every fitting by hand: turned, rocked, pulled"),
        ExaminationItem(id="bases", words="every base, from below where it is bolted through"),
        ExaminationItem(id="loaded", words="clutches, cleats and leads with a loaded line in them"),
    ),
    proof=(
        ProofItem(id="pins", words="pins, [split pin]s and shackles seen"),
        ProofItem(id="lead", words="line led straight, clear of every edge"),
        ProofItem(id="loaded", words="loaded once by winch, base and fitting watched"),
    ),
    details=(
        DetailField(
            id="type", title="What it is", holds="choice",
            choices={
                "block": "block or turning block", "organiser": "deck organiser", "track": "track with its car", "clutch": "clutch or jammer",
                "cleat": "cleat", "masthead": "sheaves in the mast", "mixed": "several of these",
            },
        ),
        DetailField(id="count", title="How many", holds="count", plausible=(1, 60)),
        DetailField(
            id="tread_diameter", title="Tread diameter", holds="length", unit="mm", imperial="in", plausible=(8, 500),
            help="At the bottom of the groove, of the smallest sheave.",
        ),
        DetailField(id="rope_diameter", title="Diameter of the rope that runs over it", holds="length", unit="mm", imperial="in", plausible=(3, 40)),
        DetailField(id="wire_diameter", title="Diameter of the wire that runs over it", holds="length", unit="mm", imperial="in", plausible=(2, 16)),
        DetailField(id="marked_working_load", title="Working load marked on it", holds="force", unit="daN", imperial="lbf", plausible=(20, 30_000)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="line_load", title="Load on the line", dimension=Dimension.FORCE, unit="daN", imperial="lbf", plausible=(1, 30_000),
            method="load cell, or the load it was reckoned for", expected_u=20, asked="on_request",
        ),
        Quantity(
            id="turn", title="Angle that the line is turned through", dimension=Dimension.ANGLE, unit="°", plausible=(0, 180),
            method="angle gauge, from the line's way in to its way out", expected_u=5, asked="on_request",
            help="A line that comes back alongside itself is turned through 180°.",
        ),
    ),
    derived=(
        Derived(id="ratio_rope", title=ROPE_TITLE, dimension=Dimension.RATIO, unit="1", decimals=1),
        Derived(id="ratio_wire", title=WIRE_TITLE, dimension=Dimension.RATIO, unit="1", decimals=1),
        Derived(id="bent_kept", title="Strength that a wire keeps, bent round this sheave", dimension=Dimension.RATIO, unit="%"),
        Derived(id="block_load", title=LOAD_TITLE, dimension=Dimension.FORCE, unit="daN", imperial="lbf"),
        Derived(id="load_share", title="Load in parts of the working load", dimension=Dimension.RATIO, unit="%"),
    ),
    observations=(
        Observation(
            id="turning", title="Sheaves", required="needed",
            choices=(
                Choice(id="free", words="every sheave turns freely; or there is none", grade=Grade.CLEAR),
                Choice(
                    id="dirty", words="turns stiffly or grates with salt", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Rinse the sheaves with fresh water, and put a dry lubricant on plain bearings only",
                ),
                Choice(id="wobbles", words="wobbles on a worn bearing", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the sheave or its bearing"),
                Choice(
                    id="seized", words="seized, or a cheek broken away", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the sheave, and look at the rope that ran over it",
                ),
            ),
        ),
        Observation(
            id="body", title="Cheeks, straps, shackles and pins", required="needed",
            choices=(
                Choice(id="whole", words="whole and straight, pins locked", grade=Grade.CLEAR),
                Choice(
                    id="worn", words="worn at a pin or shackle", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the worn pin or shackle",
                ),
                Choice(
                    id="unlocked", words="a pin or shackle not locked, or backing out", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Close the pin and lock it: [split pin], wire or seizing",
                ),
                Choice(id="cracked", words="cracked, bent or opened", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
            basis="common practice; a block pin half backed out is reported from a yacht",
        ),
        Observation(
            id="base", title="Base and fastenings", required="needed",
            choices=(
                Choice(id="fast", words="fast, dry below; or it hangs by a shackle or loop", grade=Grade.CLEAR),
                Choice(
                    id="weeps", words="fast, but water comes through", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Take the base off, bed it again, and look at the core of the deck there",
                ),
                Choice(
                    id="loose", words="a fastening loose, or the deck springs", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action=FASTEN,
                ),
                Choice(id="lifting", words="the base lifting, or the deck cracked round it", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=FASTEN),
            ),
        ),
        Observation(
            id="lead", title="Lead of the line",
            choices=(
                Choice(id="fair", words="the line enters and leaves in line with the sheave", grade=Grade.CLEAR),
                Choice(id="rubs", words="the line rubs a cheek or an edge", grade=Grade.PLAN, remedy=Remedy.ADJUST, action="Line the fitting up with its line"),
                Choice(id="saws", words="an edge saws the line, or is sharp where it touches", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                       action="Round the edge or move the fitting, and look at the line there"),
            ),
        ),
        Observation(
            id="holding", title="Holding of a clutch or cleat", asked="on_request", loaded_test=True,
            choices=(
                Choice(id="holds", words="holds the loaded line, and lets it go under control", grade=Grade.CLEAR),
                Choice(
                    id="creeps", words="the line creeps under load", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Renew the cam, or use a rope of the size it was made for",
                ),
                Choice(
                    id="slips", words="the line slips under load", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Renew the clutch or its cam; until then keep the line on a winch",
                ),
                Choice(
                    id="opens", words="opens by itself, or cannot be opened", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Put the clutch right before a load hangs on it",
                ),
            ),
            help="Load the line by winch, close the clutch, mark the line, ease the winch: the mark shows what slips.",
        ),
        Observation(
            id="car", title="Car on its track, and the stops", asked="on_request",
            choices=(
                Choice(id="runs", words="runs freely, plunger locks, stops at both ends", grade=Grade.CLEAR),
                Choice(id="stiff", words="runs stiffly, or plunger sticks", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                       action="Clean track and car with fresh water and a dry lubricant, and work the plunger free"),
                Choice(id="balls", words="balls missing, or the car rocks", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Fill the car with new balls, or renew it"),
                Choice(id="no_stop", words="an end stop missing or loose", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Fit the end stop with all its screws"),
                Choice(id="jumps", words="jumps its pins under load, or lifts off the track", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True,
                       action="Renew car or plunger before the sheet is loaded"),
            ),
        ),
    ),
    limits=load_limits(__package__, "block.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse sheaves, cars and clutches with fresh water, and put a dry lubricant on plain bearings", supply="dry or PTFE-type lubricant", months=12, remedy=Remedy.LUBRICATE),),
    assess=assess,
)  # fmt: skip
