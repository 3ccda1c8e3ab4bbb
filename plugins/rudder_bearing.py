"""Rudder bearings, stock and gland.

Comes in: Evidence of one rudder's bearings. Goes out: the play beside figures that depend on the stock's diameter (for
information: they lie fifty times apart), and the tip movement that the play of both bearings gives. Limits stand in
rudder_bearing.toml; a limit there that depends on the stock is written for 40 mm and put right here for the real one.
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
    Limit,
    Missing,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Spot,
    Value,
    Working,
    compare,
    load_limits,
)
from reporter.engineering import units, work
from reporter.engineering.bearings import light_craft_least, naval_greatest, new_allowance, new_tolerance
from reporter.engineering.stock import tip_movement

from .worked import worked_out

PLAY = ("lower_play", "upper_play")
BUSHES = "Drop the rudder, measure stock and bore, and renew the bearing's bushes"
GLAND = "Repack the gland or renew its seal, with the boat afloat and a hand on the pump, or ashore"
SPREAD = "ship and light-craft rules were not written for yachts: on a small stock they lie ten to fifty times above the handbook"
STOCK = "Drop the rudder and look at the whole stock, bearings and gland out of the way"


def assess(evidence: Evidence) -> Assessment:
    """Play against what the stock's size asks for, and the tip movement that both plays give."""
    stock = evidence.facts.get("stock_diameter")
    checks: list[Check] = []
    if stock and stock.value:
        limits = tuple(_for_stock(evidence, stock.value))
        title = "Clearance when new, for this stock"
        checks += [worked_out("rudder_bearing", "new_clearance", title, *_new(stock.value), note=SPREAD)]
        checks += [check for spot in _plays(evidence) for check in _beside(evidence, spot, limits)]
    return Assessment(checks=(*checks, *_tip(evidence)), missing=tuple(_lacking(evidence)))


def _lacking(evidence: Evidence) -> Iterator[Missing]:
    """The size that a sum lacks, named once the play for it was measured."""
    plays = {spot.quantity for spot in _plays(evidence)}
    sizes = {"stock_diameter": bool(plays), "bearing_distance": len(plays) > 1, "overhang": len(plays) > 1}
    titles = {
        "stock_diameter": "diameter of the stock, for its clearance when new",
        "bearing_distance": "distance between the bearings, for the tip's movement",
        "overhang": "tip of the blade below the lower bearing, for the tip's movement",
    }
    for ident, wanted in sizes.items():
        if wanted and ident not in evidence.facts:
            yield Missing(id=ident, title=titles[ident], needed=False)


def _plays(evidence: Evidence) -> Iterator[Spot]:
    return (spot for quantity in PLAY for spot in evidence.at(quantity))


def _new(stock: Value) -> tuple[Value, tuple[Working, ...]]:
    """The least new clearance of a yacht bearing, with the handbook's two sums and the two ship rules beside them."""
    least, allowance = work(new_allowance, {"stock": stock})
    others = (work(sum_, {"stock": stock})[1] for sum_ in (new_tolerance, light_craft_least, naval_greatest))
    return least, (allowance, *others)


def _for_stock(evidence: Evidence, stock: Value) -> Iterator[tuple[Limit, tuple[Working, ...]]]:
    """Each limit that depends on the stock, with its value for this stock and the sums behind it."""
    least, allowance = work(new_allowance, {"stock": stock})
    spare, tolerance = work(new_tolerance, {"stock": stock})
    light, lightly = work(light_craft_least, {"stock": stock})
    naval, navally = work(naval_greatest, {"stock": stock})
    yield (
        _set(evidence.limit("rudder_bearing.clearance.new_yacht"), least.value + spare.value),
        (allowance, tolerance),
    )
    yield _set(evidence.limit("rudder_bearing.clearance.new_light_craft"), light.value), (lightly,)
    yield _set(evidence.limit("rudder_bearing.clearance.naval"), naval.value), (navally,)


def _set(limit: Limit, metres: float) -> Limit:
    """The limit at this stock's figure; one that the job's author replaced stays as he set it."""
    if limit.override:
        return limit
    return limit.model_copy(update={"value": units.from_base(metres, limit.unit)})


def _beside(
    evidence: Evidence, spot: Spot, limits: tuple[tuple[Limit, tuple[Working, ...]], ...]
) -> Iterator[Check]:
    for limit, sums in limits:
        check = compare(
            evidence, spot.value, limit, title="Bearing play beside the stock's size", like=spot, working=sums
        )
        yield check.model_copy(update={"id": f"{check.id}/{spot.quantity}"})


def _tip(evidence: Evidence) -> Iterator[Check]:
    """How far the tip can move by the play of both bearings: the worst spot of each, as found and as left apart."""
    distance, overhang = evidence.facts.get("bearing_distance"), evidence.facts.get("overhang")
    if not (distance and distance.value and overhang and overhang.value):
        return
    for state in dict.fromkeys(spot.state for spot in _plays(evidence)):
        lower, upper = (_worst(evidence, quantity, state) for quantity in PLAY)
        if lower and upper:
            plays = {"lower": lower.value, "upper": upper.value}
            moved, sum_ = work(
                tip_movement, {**plays, "bearing_distance": distance.value, "overhang": overhang.value}
            )
            limit = evidence.limit("rudder_bearing.tip_movement.guide")
            like = lower.model_copy(update={"at": "", "side": ""})
            yield compare(
                evidence, moved, limit, title="Tip movement by the bearings' play", like=like, working=(sum_,)
            )


def _worst(evidence: Evidence, quantity: str, state: str) -> Spot | None:
    spots = [spot for spot in evidence.at(quantity) if spot.state == state]
    return max(spots, key=lambda spot: spot.value.value, default=None)


def _play(ident: str, title: str, where: str) -> Quantity:
    return Quantity(
        id=ident, title=title, dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 40), expected_u=0.3, wears=True,
        method=f"dial gauge or rule at the {where} bearing, rudder pushed from one side to the other by the blade",
        better="dial gauge to 0.05 mm against the stock, blade pushed both ways with a lever",
        help="The whole movement. Push across the boat and along it; give both directions as two places.",
    )  # fmt: skip


plugin = Plugin(
    kind="rudder_bearing",
    title="Rudder bearings, stock and gland",
    plural="Rudder bearings, stocks and glands",
    system="steering",
    load_path=True,
    station="stock",
    purpose="carry the rudder, let it turn freely, and keep the sea out where the stock passes the hull",
    cautions=(
        "Lash the wheel or chock the rudder before reaching past the stock; tell everybody aboard.",
        "Never loosen a gland, its hose or the retaining collar afloat without knowing what holds rudder and sea back.",
        "Ashore: nobody under the rudder while it is shaken or its collar is loose.",
    ),
    tools=("torch and mirror", "dial gauge or rule to 0.5 mm", "feeler gauges", "cloth", "[spanner]s for the gland"),
    supplies=("gland packing or seal of the right size", "two stainless hose clamps of the right size", "grease for the bearing's kind"),
    examination=(
        ExaminationItem(id="shaken", words="rudder shaken from the quadrant or the blade, a hand at each bearing"),
        ExaminationItem(id="turned", words="rudder turned from stop to stop by hand, wire slack or taken off"),
        ExaminationItem(id="gland", words="gland, hose and clamps all round"),
        ExaminationItem(id="structure", words="tube, upper support and collar all round"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops without a heavy spot"),
        ProofItem(id="collar", words="retaining collar tight and locked"),
        ProofItem(id="tight", words="gland looked at afloat, at rest and while the rudder is turned"),
        ProofItem(id="tools_out", words="tools out of the locker"),
    ),
    details=(
        DetailField(
            id="bearing_type", title="Bearing type", holds="choice",
            choices={
                "bush": "plain bush", "self_aligning": "self-aligning ball in a socket", "roller": "needles or rollers",
                "tube": "stock turning in the bare tube", "other": "another type",
            },
        ),
        DetailField(
            id="bearing_material", title="Bearing material", holds="choice",
            choices={
                "bronze": "bronze", "plastic": "plastic (acetal, polyethylene)", "nylon": "nylon, which swells in water",
                "fibre": "fibre-reinforced bearing material", "rubber": "water-lubricated rubber", "unknown": "not known",
            },
        ),
        DetailField(
            id="stock_material", title="Stock material", holds="choice",
            choices={
                "stainless": "stainless steel", "bronze": "bronze", "aluminium": "aluminium", "steel": "steel", "carbon": "carbon fibre",
                "unknown": "not known",
            },
        ),
        DetailField(
            id="stock_diameter", title="Stock diameter", holds="length", unit="mm", imperial="in", plausible=(15, 300),
            help="At the lower bearing, by caliper.",
        ),
        DetailField(
            id="bearing_distance", title="Distance between the bearings", holds="length", unit="mm", imperial="in", plausible=(80, 3000),
        ),
        DetailField(
            id="overhang", title="Tip of the blade below the lower bearing", holds="length", unit="mm", imperial="in",
            plausible=(0, 4000),
        ),
        DetailField(
            id="gland_type", title="Gland", holds="choice",
            choices={
                "packed": "packed gland", "lip": "lip seal", "gaiter": "rubber gaiter with clamps", "hose": "gland on a hose",
                "open": "no gland: the tube ends above the waterline", "other": "another gland",
            },
        ),
        DetailField(id="installed", title="Bearings fitted", holds="date"),
    ),
    readings=(
        _play("lower_play", "Side play at the lower bearing", "lower"),
        _play("upper_play", "Side play at the upper bearing", "upper"),
        Quantity(
            id="end_play", title="Play up and down", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="rule at the collar, rudder lifted with a lever ashore or by hand at the quadrant", plausible=(0, 80), expected_u=1,
            help="No published limit speaks of a yacht: the figure is printed and not graded.",
        ),
    ),
    derived=(
        Derived(id="clearance", title="Bearing play beside the stock's size", dimension=Dimension.LENGTH, unit="mm", imperial="in", decimals=2),
        Derived(id="new_clearance", title="Clearance when new, for this stock", dimension=Dimension.LENGTH, unit="mm", imperial="in", decimals=2),
        Derived(
            id="tip_movement", title="Tip movement by the bearings' play", dimension=Dimension.LENGTH, unit="mm", imperial="in", wears=True,
            better="measure the play at both bearings again with a dial gauge to 0.05 mm",
        ),
    ),
    observations=(
        Observation(
            id="knock", title="Shaken from side to side", required="needed",
            choices=(
                Choice(id="none", words="no knock felt", grade=Grade.CLEAR),
                Choice(
                    id="faint", words="a faint click at a bearing", grade=Grade.WATCH, remedy=Remedy.TEST,
                    action="Measure the play at both bearings and shake the rudder again at the next haul-out",
                ),
                Choice(id="knock", words="a knock that is felt and heard", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=BUSHES),
                Choice(
                    id="loose", words="a heavy knock: the stock strikes its bearing", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    damage=True, action=BUSHES,
                ),
            ),
        ),
        Observation(
            id="turning", title="Turned from stop to stop", required="needed",
            choices=(
                Choice(id="free", words="free and even over the whole travel", grade=Grade.CLEAR),
                Choice(
                    id="heavy", words="heavy all the way", grade=Grade.PLAN, remedy=Remedy.OPEN_UP,
                    action="Find what makes the rudder heavy: gland too tight, bush swollen, bearings out of line",
                ),
                Choice(
                    id="tight_spot", words="a tight spot at one angle: stock bent or bearings out of line", grade=Grade.FIRST,
                    remedy=Remedy.OPEN_UP, damage=True, action=STOCK,
                ),
                Choice(
                    id="jams", words="jams or grates", grade=Grade.STOP, remedy=Remedy.OPEN_UP, damage=True, action=STOCK,
                ),
            ),
            help="With the wire on, its friction hides the bearing's; take it off or slacken it when in doubt.",
        ),
        Observation(
            id="lifted", title="Lifted and let go",
            choices=(
                Choice(id="none", words="no movement up and down that is felt", grade=Grade.CLEAR),
                Choice(id="slight", words="a slight movement, without a knock", grade=Grade.CLEAR),
                Choice(
                    id="drops", words="drops with a knock", grade=Grade.PLAN, remedy=Remedy.ADJUST,
                    action="Set or renew the washer or bearing that carries the rudder's weight",
                ),
            ),
        ),
        Observation(
            id="collar", title="What keeps the rudder from dropping out", required="needed",
            choices=(
                Choice(id="locked", words="collar, nut or pin tight and locked", grade=Grade.CLEAR),
                Choice(id="hull", words="a skeg or heel fitting carries the rudder", grade=Grade.CLEAR),
                Choice(
                    id="unlocked", words="tight, but not locked", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Tighten and lock the collar that carries the rudder",
                ),
                Choice(
                    id="loose", words="loose or moved on the stock", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Tighten and lock the collar that carries the rudder",
                ),
                Choice(
                    id="missing", words="missing: only the quadrant keeps the rudder in", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Refit the collar that carries the rudder",
                ),
            ),
        ),
        Observation(
            id="gland", title="Gland afloat",
            choices=(
                Choice(id="dry", words="dry at rest and while turned", grade=Grade.CLEAR),
                Choice(id="open", words="no gland: the tube ends well above the waterline", grade=Grade.CLEAR),
                Choice(
                    id="weeps", words="weeps while turned, dry at rest", grade=Grade.WATCH, remedy=Remedy.ADJUST,
                    action="Take the gland up a little and look again under way",
                ),
                Choice(id="drips", words="drips at rest", grade=Grade.PLAN, remedy=Remedy.REPAIR, action=GLAND),
                Choice(id="runs", words="runs, or the gaiter is split", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=GLAND),
            ),
            help="Afloat only. Look at rest, then while somebody turns the wheel from stop to stop.",
        ),
        Observation(
            id="clamps", title="Hose, gaiter and clamps",
            choices=(
                Choice(id="good", words="supple, clamps tight and free of rust", grade=Grade.CLEAR),
                Choice(id="none", words="no hose or gaiter fitted", grade=Grade.CLEAR),
                Choice(
                    id="single", words="one clamp only at an end", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Fit a second clamp where there is room for it",
                ),
                Choice(
                    id="rusty", words="a clamp rusty, loose or cracked", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Renew hose or gaiter with its clamps",
                ),
                Choice(
                    id="hard", words="hose or gaiter hard, cracked or chafed", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew hose or gaiter with its clamps",
                ),
            ),
        ),
        Observation(
            id="structure", title="Tube and supports", required="needed",
            choices=(
                Choice(id="firm", words="tube, lower bearing and upper support firm and whole", grade=Grade.CLEAR),
                Choice(
                    id="hairline", words="hair cracks in gelcoat or paint round tube or support", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Take paint off round the rudder tube and see whether the cracks go into the laminate",
                ),
                Choice(
                    id="weeping", words="water or rust weeps from the joint of tube and hull", grade=Grade.FIRST, remedy=Remedy.REPAIR,
                    damage=True, action="Repair the joint of rudder tube and hull",
                ),
                Choice(
                    id="moves", words="tube or upper support moves with the rudder", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True,
                    action="Repair the rudder tube's joint and the support of the upper bearing",
                ),
            ),
        ),
        Observation(
            id="stock", title="Stock where it can be seen",
            choices=(
                Choice(id="bright", words="clean, without pit or groove", grade=Grade.CLEAR),
                Choice(
                    id="stained", words="brown stains that a cloth takes off", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the stock and look beneath the stains with a glass",
                ),
                Choice(
                    id="scored", words="grooves at bearing or gland that catch a fingernail", grade=Grade.PLAN, remedy=Remedy.OPEN_UP,
                    damage=True, action=STOCK,
                ),
                Choice(
                    id="pitted", words="pits at bearing, gland or where it enters the blade", grade=Grade.FIRST, remedy=Remedy.OPEN_UP,
                    damage=True, action=STOCK,
                ),
                Choice(id="cracked", words="a crack or a bend", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=STOCK),
            ),
            help="Stainless steel pits where water stands without air: beneath gland, bush and at the top of the blade.",
        ),
    ),
    limits=load_limits(__package__, "rudder_bearing.toml"),
    care=(
        Care(
            id="gland", what="Look at the gland afloat, at rest and while the rudder is turned; take it up or renew its packing",
            months=12, remedy=Remedy.LOOK,
        ),
        Care(id="grease", what="Grease bearing and gland where they have a point for it", supply="grease for the bearing's kind", months=12),
    ),
    assess=assess,
)  # fmt: skip
