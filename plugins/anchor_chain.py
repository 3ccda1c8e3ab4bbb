"""Anchor chain: wear of its links by two diameters, length over eleven links, strength.

Comes in: Evidence of one chain, with the vessel's length. Goes out: wear against the limits of class, which are strict
about their own figure; stretch against the pitch of its standard, where that is known: 10 mm chain has two. Limits
stand in anchor_chain.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
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
    Spot,
    Value,
    Working,
    compare,
    load_limits,
)
from reporter.engineering import Symbol, formula, units, work
from reporter.engineering.constants import INCH
from reporter.engineering.rows import AnchorOutfit
from reporter.engineering.tackle import (
    chain_wear,
    eleven_links,
    ground_chains,
    mean_diameter,
    section_left,
    sling_least,
)

from .chain_strength import GRADES, strength
from .given import at_or_over, beside, chosen, stated
from .margins import is_spent
from .nominal import neighbours, size_question
from .outfit import NEEDS, beside_table, size_share
from .wind_load import WIND
from .worked import worked_out

NEIGHBOUR = "anchor_chain.diameter.neighbour"
OR_MORE = {"anchor_chain.wear.renew", "anchor_chain.wear.remove"}
"""Limits whose text says "or more": the figure itself is over."""
RENEW = "Cut the worn length off or renew the chain"


@formula(
    title="Thickness in parts of the sling law",
    text="s = d / d_l",
    symbols={
        "least": Symbol("d", "least diameter at any point", "mm"),
        "law": Symbol("d_l", "least thickness in the table", "mm"),
    },
    result=Symbol("s", "share of the table's figure", "%"),
    source=Citation.model_validate(
        {"title": "Mich. Admin. Code R 408.14923", "clause": "Table 1", "status": "READ", "basis": "law"}
    ),
)
def sling_share(least: float, law: float) -> float:
    """Least diameter of the link over that of the table, both in metres."""
    return least / law


def assess(evidence: Evidence) -> Assessment:
    """Wear, stretch and strength; a guessed size and an unknown pitch become questions."""
    worn, stretched = tuple(_wear(evidence)), tuple(_stretch(evidence))
    spent = is_spent(evidence, (*worn, *stretched))
    asked = [each for each in (_size(evidence), _pitch_question(evidence)) if each]
    return Assessment(
        checks=(*worn, *stretched, *strength(evidence, spent=spent), *_outfit(evidence)),
        missing=tuple(missing for missing, _ in asked),
        actions=tuple(action for _, action in asked),
    )


def _size(evidence: Evidence) -> tuple[Missing, Action] | None:
    return size_question(evidence, "size", NEIGHBOUR, "the chain") if evidence.at("worn") else None


def _wear(evidence: Evidence) -> Iterator[Check]:
    """Mean of two diameters at each place against class, and the least of them against the law for slings."""
    size = stated(evidence, "size")
    if size is None or neighbours(evidence, "size", NEIGHBOUR):
        return
    for spot in evidence.at("worn"):
        mean, before = _mean(evidence, spot)
        wear, sum_ = work(chain_wear, {"size": size, "worn": mean})
        left, section = work(section_left, {"size": size, "worn": mean})
        for limit in evidence.limits.values():
            if limit.quantity == "wear":
                check = compare(
                    evidence, wear, limit, title="Wear of the links", like=spot, working=(*before, sum_)
                )
                yield at_or_over(check) if limit.id in OR_MORE else check
        yield worked_out(
            "anchor_chain", "section_left", "Section left of the worn link", left, (section,), like=spot
        )
        yield from _beside_law(evidence, size, spot)


def _mean(evidence: Evidence, spot: Spot) -> tuple[Value, tuple[Working, ...]]:
    """Mean of the two diameters at one place; where only one was taken it stands for both."""
    across = beside(evidence, "worn_across", spot)
    if across is None:
        return spot.value, ()
    mean, sum_ = work(mean_diameter, {"first": spot.value, "second": across.value})
    return mean, (sum_,)


def _beside_law(evidence: Evidence, size: Value, spot: Spot) -> Iterator[Check]:
    try:
        row = sling_least(size.value)
    except ValueError:
        return
    across = beside(evidence, "worn_across", spot)
    least = min((each.value for each in (spot, across) if each), key=lambda value: value.value)
    share, sum_ = work(sling_share, {"least": least, "law": row.least_in * INCH})
    limit = evidence.limit("anchor_chain.sling_share.law")
    yield compare(
        evidence, share, limit, title="Least thickness beside the law for slings", like=spot, working=(sum_,)
    )


def _pitches(evidence: Evidence) -> tuple[float, ...]:
    """Every pitch in millimetres that this chain can have, by its own statement or by size and standard."""
    own, size = stated(evidence, "pitch"), stated(evidence, "size")
    if own:
        return (units.from_base(own.value, "mm"),)
    if size is None:
        return ()
    standard = chosen(evidence, "standard")
    rows = [
        row
        for row in ground_chains(size.value)
        if not (standard == "iso_4565" and not row.iso_4565)
        and not (standard == "din_766" and not row.din_766)
    ]
    return () if standard == "other" else tuple(sorted({row.pitch_mm for row in rows}))


def _stretch(evidence: Evidence) -> Iterator[Check]:
    pitches = _pitches(evidence)
    if len(pitches) != 1:
        return
    pitch = Value(dimension=Dimension.LENGTH, value=units.to_base(pitches[0], "mm"), unit="mm")
    for spot in evidence.at("eleven"):
        result, sum_ = work(eleven_links, {"length": spot.value, "pitch": pitch})
        limit = evidence.limit("anchor_chain.stretch.new")
        yield compare(evidence, result, limit, title="Stretch over eleven links", like=spot, working=(sum_,))


def _pitch_question(evidence: Evidence) -> tuple[Missing, Action] | None:
    """Ten-millimetre chain has two pitches: without its standard, eleven links say nothing, and a gypsy may not fit."""
    pitches = _pitches(evidence)
    if len(pitches) < 2:  # noqa: PLR2004 - two pitches make the question
        return None
    words = " or ".join(f"{pitch:g} mm" for pitch in pitches)
    title = "Which of two pitches the chain has"
    why = f"Chain of this size is made with a pitch of {words}; the gypsy fits one of them"
    if spots := evidence.at("eleven"):
        over = [f"{_percent(spots[0].value.value, pitch)} of {11 * pitch:g} mm" for pitch in pitches]
        why += f"; eleven links measure {', '.join(over)}"
    what = f"Find out the pitch of the chain, {words}: a mark, an invoice, or eleven links that carry nothing, and hold it against the gypsy's mark"
    action = Action(id="anchor_chain.pitch", what=what, remedy=Remedy.LOOK, why=why, grade=Grade.UNSEEN)
    return Missing(id="pitch", title=title, needed=False, why=f"{why}."), action


def _percent(length: float, pitch: float) -> str:
    return f"{length / units.to_base(11 * pitch, 'mm'):.1%}"


def _outfit(evidence: Evidence) -> Iterator[Check]:
    use = chosen(evidence, "use")

    def figure(row: AnchorOutfit) -> Value:
        size = row.kedge_chain_mm if use == "kedge" else row.main_chain_mm
        return Value(dimension=Dimension.LENGTH, value=units.to_base(size, "mm"), unit="mm")

    own = stated(evidence, "size") if use in {"main", "kedge"} else None
    yield from beside_table(
        evidence, own, size_share, figure, title="Size of the chain in parts of the outfit table"
    )


plugin = Plugin(
    kind="anchor_chain",
    title="Anchor chain",
    plural="Anchor chains",
    system="ground",
    load_path=True,
    station="laid_out",
    purpose="joins anchor and boat, and lies on the ground without chafing through",
    cautions=(
        "Lay the chain out on the ground in bights that cannot run; keep fingers out of links and gypsy.",
        "Windlass isolated while a hand is near it.",
    ),
    tools=("vernier caliper", "tape", "wire brush", "chalk or paint for marks", "torch"),
    supplies=("joining link of the chain's own size and grade", "galvanised seizing wire", "marks for length"),
    examination=(
        ExaminationItem(id="laid_out", words="the whole length laid out, both sides looked at"),
        ExaminationItem(id="worst", words="the worst links of each length measured two ways where they bear on each other"),
        ExaminationItem(id="ends", words="first and last links and every joining link"),
    ),
    proof=(
        ProofItem(id="runs", words="runs out and comes home over roller and gypsy without a jump"),
        ProofItem(id="joints", words="joining links closed and shackles moused"),
        ProofItem(id="bitter_end", words="bitter end made fast"),
    ),
    details=(
        DetailField(
            id="use", title="Use", holds="choice",
            choices={"main": "main anchor", "kedge": "kedge or second anchor", "spare": "spare"},
        ),
        DetailField(
            id="size", title="Size when new", holds="length", unit="mm", imperial="in", plausible=(4, 40),
            help="Thickness of the bar, as marked or on the invoice, or measured on the straight of a link that carries nothing.",
        ),
        DetailField(
            id="standard", title="Made to", holds="choice",
            choices={"iso_4565": "ISO 4565", "din_766": "DIN 766", "other": "another standard or inch size", "unknown": "not known"},
            help="10 mm chain has a pitch of 30 mm by ISO 4565 and 28 mm by DIN 766: the gypsy fits one of them.",
        ),
        DetailField(id="pitch", title="Pitch when new", holds="length", unit="mm", imperial="in", plausible=(10, 150)),
        DetailField(id="grade", title="Grade", holds="choice", choices=GRADES, help="Stamped every few links: a letter, a number, or G and a number."),
        DetailField(id="marked_breaking", title="Least breaking load by mark or papers", holds="force", unit="kN", imperial="lbf", plausible=(2, 1000)),
        DetailField(id="length", title="Length", holds="length", unit="m", imperial="ft", plausible=(1, 400)),
        DetailField(id="installed", title="Fitted", holds="date"),
        WIND,
    ),
    readings=(
        Quantity(
            id="worn", title="Diameter where a link is worn most", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(2, 42), required="needed",
            method="vernier caliper where the links bear on each other, rust brushed off", expected_u=0.1, wears=True,
            better="clean the link to bright metal and take the mean of five readings with a micrometer",
            help="One place, one line: the worst links at both ends, in the middle, and wherever rust or wear shows.",
        ),
        Quantity(
            id="worn_across", title="Diameter there, at right angles", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(2, 42),
            method="vernier caliper at the same place, a quarter turn on", expected_u=0.1, wears=True,
        ),
        Quantity(
            id="eleven", title="Length over eleven links", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(100, 2000),
            method="rule or tape along eleven links pulled taut, from inside to inside of what they hang on", expected_u=1, wears=True,
            help="Eleven pitches: from a point of one link to the same point eleven links on.",
        ),
    ),
    derived=(
        Derived(id="wear", title="Wear of the links", dimension=Dimension.RATIO, unit="%", wears=True,
                better="clean the link to bright metal and take the mean of five readings with a micrometer"),
        Derived(id="section_left", title="Section left of the worn link", dimension=Dimension.RATIO, unit="%"),
        Derived(id="sling_share", title="Least thickness beside the law for slings", dimension=Dimension.RATIO, unit="%"),
        Derived(id="stretch", title="Stretch over eleven links", dimension=Dimension.RATIO, unit="%", wears=True, better="measure over twenty-two links and halve"),
        Derived(id="size_gap", title="Distance to the next size", dimension=Dimension.RATIO, unit="%"),
        Derived(id="table_share", title="Size of the chain in parts of the outfit table", dimension=Dimension.RATIO, unit="%"),
        Derived(id="breaking_load", title="Breaking load of the undamaged chain", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="wind_load", title="Load by length and wind", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="wind_share", title="Wind load in parts of the breaking load", dimension=Dimension.RATIO, unit="%"),
    ),
    observations=(
        Observation(
            id="links", title="Links", required="needed",
            choices=(
                Choice(id="even", words="even and straight over the whole length", grade=Grade.CLEAR),
                Choice(id="notched", words="notched where the links bear on each other", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Turn the chain end for end, measure the notched links two ways, and plan for new chain"),
                Choice(id="bent", words="a link bent, stretched or twisted", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="cracked", words="a link cracked, or a weld opening", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="rust", title="Galvanising and rust", required="needed",
            choices=(
                Choice(id="grey", words="galvanising whole, or bright stainless", grade=Grade.CLEAR),
                Choice(id="brown", words="brown in places, links smooth below", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Rinse and dry the chain, turn it end for end, and measure the brown links next time"),
                Choice(id="scaling", words="rust in scales, links rough below", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Have the chain galvanised again where it is thick enough for that, or renew it"),
                Choice(id="pitted", words="deep pits, or pits and rust streaks on stainless", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="joints", title="Joining links and shackles in the chain", required="needed",
            choices=(
                Choice(id="none", words="none; or as strong as the chain, closed and locked", grade=Grade.CLEAR),
                Choice(id="rusty", words="rusted, still closed", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the joining link, of the chain's own size and grade"),
                Choice(id="weak", words="a joining link or shackle weaker than the chain", grade=Grade.FIRST, remedy=Remedy.REPLACE, action="Renew the joining link, of the chain's own size and grade"),
                Choice(id="opening", words="opening, or not locked", grade=Grade.STOP, remedy=Remedy.REPLACE, action="Renew the joining link, of the chain's own size and grade"),
            ),
        ),
        Observation(
            id="marks", title="Length marks",
            choices=(
                Choice(id="there", words="marked along its length", grade=Grade.CLEAR),
                Choice(id="gone", words="no marks, or marks gone", grade=Grade.WATCH, remedy=Remedy.REFIT, action="Mark the chain along its length"),
            ),
        ),
    ),
    needs=NEEDS,
    limits=load_limits(__package__, "anchor_chain.toml"),
    renewal=(RENEW, "Take the chain out of use and renew it"),
    care=(Care(id="turn", what="Rinse and dry the chain, turn it end for end, measure its worst links and renew its marks", supply="marks for length", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
