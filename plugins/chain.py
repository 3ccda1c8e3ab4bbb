"""Steering chain and sprocket: the loop's upper part, from the wheel shaft down to the joints with the wire.

Comes in: Evidence of one chain. Goes out: elongation against its limits, with the arithmetic. Limits stand in
chain.toml; everything else that can be seen of a chain is an observation.
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
    Fact,
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
from reporter.engineering.chain import elongation, elongation_limit, length_by_rollers, size_named

from .given import beside

SIZES = {
    name.lower().replace(" ", "_").replace("-", "_"): name
    for name in ("ANSI 35", "ANSI 40", "ANSI 41", "ANSI 50", "ANSI 60", "06B-1", "08B-1", "10B-1", "12B-1")
}


def assess(evidence: Evidence) -> Assessment:
    """Elongation wherever it was measured; without a pitch or a measurement it is missing, and needed."""
    pitch = pitch_of(evidence.facts.get("size"), evidence.facts.get("pitch"))
    if pitch is None:
        why = "The pitch is not known, neither by size nor by measure."
        return Assessment(missing=(Missing(id="elongation", title="Chain elongation", needed=True, why=why),))
    checks = tuple(check for spot in _lengths(evidence) for check in _elongation(evidence, pitch, spot))
    if not checks:
        return Assessment(missing=(Missing(id="elongation", title="Chain elongation", needed=True),))
    return Assessment(checks=checks)


def pitch_of(size: Fact | None, pitch: Fact | None) -> Value | None:
    """Pitch by the chain's named size, else as measured; 40, 41 and 08B share one, so no name is made of it."""
    if size and size.choice in SIZES:
        millimetres = size_named(SIZES[size.choice]).pitch_mm
        return Value(dimension=Dimension.LENGTH, value=units.to_base(millimetres, "mm"), unit="mm")
    return pitch.value if pitch else None


def _lengths(evidence: Evidence) -> Iterator[tuple[Spot, Value, Value, tuple[Working, ...]]]:
    """Each place measured: the spot, its length, its number of pitches, and the sum that led to the length."""
    for span in evidence.at("span"):
        if pitches := beside(evidence, "pitches", span):
            yield span, span.value, pitches.value, ()
    for inside in evidence.at("span_inside"):
        outside, pitches = beside(evidence, "span_outside", inside), beside(evidence, "pitches", inside)
        if outside and pitches:
            length, sum_ = work(length_by_rollers, {"inside": inside.value, "outside": outside.value})
            yield inside, length, pitches.value, (sum_,)


def _elongation(
    evidence: Evidence, pitch: Value, measured: tuple[Spot, Value, Value, tuple[Working, ...]]
) -> Iterator[Check]:
    spot, length, pitches, before = measured
    result, sum_ = work(elongation, {"length": length, "links": pitches, "pitch": pitch})
    for ident in ("chain.elongation.smooth", "chain.elongation.wear", "chain.elongation.planning"):
        limit = _for_sprocket(evidence.limit(ident), evidence)
        yield compare(
            evidence, result, limit, title="Chain elongation", like=spot, working=(*before, sum_),
            method="pin to pin over as many pitches as possible, chain taut",
        )  # fmt: skip


def _for_sprocket(limit: Limit, evidence: Evidence) -> Limit:
    """The wear limit shrinks with a large sprocket: 3 % or 200 / N %, whichever is less."""
    teeth = evidence.facts.get("larger_teeth")
    if limit.id != "chain.elongation.wear" or teeth is None or teeth.value is None:
        return limit
    product = evidence.limit("chain.elongation.large_sprocket").value / 100
    lowest = elongation_limit(limit.value / 100, product, teeth.value.value) * 100
    if lowest == limit.value:
        return limit
    return limit.model_copy(
        update={"value": lowest, "note": f"200 / {teeth.value.value:g} teeth, being less than 3 %"}
    )


plugin = Plugin(
    kind="chain",
    title="Steering chain and sprocket",
    plural="Steering chains and sprockets",
    system="steering",
    load_path=True,
    station="pedestal",
    purpose="turns the wheel shaft's rotation into the pull on the steering wire",
    cautions=(
        "Lash the wheel or chock the rudder before putting a hand near chain and sprocket; tell everybody aboard.",
        "Not under way, engine stopped. The chain is under the tension of the wire: release the adjusters first.",
    ),
    tools=("steel rule or tape to 0.5 mm", "torch and mirror", "cloth", "wheel lashing"),
    supplies=("30-weight oil for the chain", "[split pin]s of the right size", "joining link of the chain's own size"),
    examination=(
        ExaminationItem(id="all_links", words="every link over the whole travel, wheel turned hard over both ways"),
        ExaminationItem(id="sprocket", words="the sprocket's teeth and key all round"),
        ExaminationItem(id="joints", words="both joints to the wire with their pins or clips"),
    ),
    proof=(
        ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),
        ProofItem(id="travel", words="full travel to both stops, chain centred"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="tools_out", words="tools out of the pedestal"),
        ProofItem(id="compass", words="compass looked at"),
    ),
    details=(
        DetailField(
            id="size", title="Chain size", holds="choice", choices={**SIZES, "other": "another size"},
            help="Stamped on the side plates. Pitch alone does not tell: 40, 41 and 08B share 12.7 mm.",
        ),
        DetailField(id="pitch", title="Pitch", holds="length", unit="mm", imperial="in", plausible=(6, 30)),
        DetailField(
            id="material", title="Material", holds="choice",
            choices={"carbon": "carbon steel", "stainless": "stainless steel", "unknown": "not known"},
        ),
        DetailField(id="teeth", title="Teeth of the sprocket", holds="count", plausible=(6, 60)),
        DetailField(id="larger_teeth", title="Teeth of the larger sprocket, if there are two", holds="count", plausible=(6, 150)),
        DetailField(id="marked_strength", title="Strength marked on the chain", holds="force", unit="kN", imperial="lbf", plausible=(2, 80)),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(
            id="joint", title="Joint to the wire", holds="choice",
            choices={
                "clevis": "clevis pin with [split pin]", "link": "joining link with spring clip",
                "riveted": "riveted link", "other": "another joint",
            },
        ),
    ),
    readings=(
        Quantity(
            id="span", title="Length over the pitches", dimension=Dimension.LENGTH, unit="mm", imperial="in",
            method="steel rule, pin centre to pin centre, chain taut and clean", plausible=(50, 1500), expected_u=0.5,
            help="Measure over as many pitches as the pedestal lets you see, 16 at least; note their number as 'pitches'.",
        ),
        Quantity(
            id="pitches", title="Pitches measured over", dimension=Dimension.COUNT, unit="", method="counted",
            plausible=(2, 100), help="From pin to pin: twenty pitches have twenty-one pins.",
        ),
        Quantity(
            id="span_inside", title="Length between the insides of the rollers", dimension=Dimension.LENGTH, unit="mm",
            imperial="in", method="vernier caliper between the end rollers", plausible=(30, 400), expected_u=0.1, asked="on_request",
        ),
        Quantity(
            id="span_outside", title="Length over the outsides of the rollers", dimension=Dimension.LENGTH, unit="mm",
            imperial="in", method="vernier caliper over the end rollers", plausible=(40, 420), expected_u=0.1, asked="on_request",
        ),
        Quantity(
            id="links_left", title="Links left at hard-over", dimension=Dimension.COUNT, unit="links",
            method="counted from the last tooth in mesh to the joint, wheel hard over to that side",
            plausible=(0, 60), per_side=True, help="Side: the side that the helm is hard over to.",
        ),
    ),
    derived=(
        Derived(
            id="elongation", title="Chain elongation", dimension=Dimension.RATIO, unit="%", wears=True, wears_by="miles",
            better="take the chain off, lay it straight and measure its whole length", shrinks_with="pitches",
        ),
        Derived(id="elongation_by_teeth", title="Elongation times teeth", dimension=Dimension.RATIO, unit="%"),
    ),
    observations=(
        Observation(
            id="corrosion", title="Corrosion", required="needed",
            choices=(
                Choice(id="none", words="no corrosion", grade=Grade.CLEAR),
                Choice(
                    id="surface", words="surface rust that a cloth takes off", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the chain with a cloth, oil it link by link and work it over its whole travel",
                ),
                Choice(
                    id="pitted", words="rust pits in plates or rollers", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the chain",
                ),
            ),
        ),
        Observation(
            id="stiff_links", title="Stiff links", required="needed",
            choices=(
                Choice(id="none", words="every link bends freely", grade=Grade.CLEAR),
                Choice(
                    id="freed", words="stiff links that came free with oil", grade=Grade.WATCH, remedy=Remedy.LUBRICATE,
                    action="Oil the chain link by link and flex every link again",
                ),
                Choice(
                    id="stiff", words="links that stay stiff", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the chain",
                ),
            ),
        ),
        Observation(
            id="cracks", title="Cracked or bent plates", required="needed",
            choices=(
                Choice(id="none", words="no crack or bend seen in the plates", grade=Grade.CLEAR),
                Choice(
                    id="cracked", words="a cracked, broken or bent plate", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the chain",
                ),
            ),
        ),
        Observation(
            id="lubrication", title="Lubrication",
            choices=(
                Choice(id="oiled", words="oiled to the pins", grade=Grade.CLEAR),
                Choice(
                    id="dry", words="dry", grade=Grade.WATCH, remedy=Remedy.LUBRICATE,
                    action="Clean the chain with a cloth, oil it link by link and work it over its whole travel",
                ),
                Choice(
                    id="greased", words="stiff old grease that holds dirt", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                    action="Clean the chain with a cloth, oil it link by link and work it over its whole travel",
                ),
            ),
        ),
        Observation(
            id="teeth", title="Sprocket teeth",
            choices=(
                Choice(id="even", words="teeth even, with full tips", grade=Grade.CLEAR),
                Choice(
                    id="hooked", words="hooked or thinned teeth", grade=Grade.PLAN, remedy=Remedy.REPLACE,
                    action="Renew the chain and the sprocket together",
                ),
                Choice(
                    id="loose", words="the sprocket moves on its shaft or key", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Refit the sprocket's key and fastening",
                ),
            ),
        ),
        Observation(
            id="joint", title="Joint to the wire", required="needed",
            choices=(
                Choice(id="locked", words="pins fitted, locked and unworn", grade=Grade.CLEAR),
                Choice(
                    id="clip_reversed", words="spring clip with its open end leading", grade=Grade.FIRST, remedy=Remedy.REFIT,
                    action="Refit the joint with a new clip or [split pin]",
                ),
                Choice(
                    id="worn", words="worn pin or hole", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True,
                    action="Renew the joint's pin and link",
                ),
                Choice(
                    id="unlocked", words="[split pin] or clip missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Refit the joint with a new clip or [split pin]",
                ),
            ),
        ),
        Observation(
            id="travel", title="Chain travel at hard-over",
            choices=(
                Choice(id="clear", words="both joints stay clear of sprocket and idlers", grade=Grade.CLEAR),
                Choice(
                    id="idler", words="a joint reaches an idler", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Centre the chain, wheel and rudder amidships, so that links are left at both hard-overs",
                ),
                Choice(
                    id="sprocket", words="a joint reaches the sprocket", grade=Grade.STOP, remedy=Remedy.ADJUST,
                    action="Centre the chain, wheel and rudder amidships, so that links are left at both hard-overs",
                ),
            ),
        ),
    ),
    limits=load_limits(__package__, "chain.toml"),
    renewal=("Renew the chain", "Renew the chain and the sprocket together"),
    care=(Care(id="oil", what="Wipe the chain clean, oil it link by link and work it over its whole travel", supply="30-weight oil for the chain", months=12),),
    assess=assess,
)  # fmt: skip
