"""Rope rodes with their splices: the rope part of the ground tackle, and snubbers.

Comes in: Evidence of one rope, with the vessel's length. Goes out: wear and loads of a fibre rope, its diameter beside
the outfit tables, tails of its splice. Limits stand in rode.toml.
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
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Value,
    compare,
    load_limits,
)
from reporter.engineering import Symbol, formula, units, work
from reporter.engineering.mechanics import factor_of_safety
from reporter.engineering.rows import AnchorOutfit

from . import fibre_rope as rope
from . import rope_looks
from .given import chosen, stated
from .margins import is_spent
from .outfit import NEEDS, beside_table, size_share
from .wind_load import WIND, by_wind

RENEW = "Renew the rode, or cut the bad length off and splice it to the chain again"
SHIFT = "Turn the rode end for end, and guard it where it chafes"
SPLICE = "Make the splice again, with full tucks and long tails"


@formula(
    title="Tails of a splice",
    text="n = l / d",
    symbols={
        "tail": Symbol("l", "length of the shortest tail", "mm"),
        "diameter": Symbol("d", "rope diameter", "mm"),
    },
    result=Symbol("n", "tail in diameters", "1"),
    source=Citation.model_validate(
        {"title": "WAC 296-24-29429", "clause": "also 296-78-755", "status": "READ", "basis": "law"}
    ),
)
def tail_in_diameters(tail: float, diameter: float) -> float:
    """Length of a tail in parts of the rope's diameter, both in metres."""
    return tail / diameter


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope, its splice, and what tables and wind ask for."""
    made = rope.rope_checks(evidence, "the rode")
    checks = (*made.checks, *_tails(evidence), *_outfit(evidence), *_wind(evidence, made))
    return made.model_copy(update={"checks": checks})


def _tails(evidence: Evidence) -> Iterator[Check]:
    diameter = stated(evidence, "diameter")
    if diameter is None:
        return
    for spot in evidence.at("tail"):
        tails, sum_ = work(tail_in_diameters, {"tail": spot.value, "diameter": diameter})
        limit = evidence.limit("rode.tail_diameters.short")
        yield compare(
            evidence, tails, limit, title="Tails of the splice, in diameters", like=spot, working=(sum_,)
        )


def _outfit(evidence: Evidence) -> Iterator[Check]:
    use = chosen(evidence, "use")

    def figure(row: AnchorOutfit) -> Value:
        size = row.kedge_rope_mm if use == "kedge" else row.main_rope_mm
        return Value(dimension=Dimension.LENGTH, value=units.to_base(size, "mm"), unit="mm")

    own = stated(evidence, "diameter") if use in {"main", "kedge"} else None
    yield from beside_table(
        evidence, own, size_share, figure, title="Diameter of the rode in parts of the outfit table"
    )


def _wind(evidence: Evidence, made: Assessment) -> Iterator[Check]:
    found, breaking = by_wind(evidence), stated(evidence, "breaking_load")
    if found is None:
        return
    load, told = found
    yield told
    if breaking and not is_spent(evidence, made.checks, ("abrasion", "broken_strands")):
        factor, sum_ = work(factor_of_safety, {"strength": breaking, "load": load})
        limit = evidence.limit("rode.wind_factor.eight")
        yield compare(
            evidence, factor, limit, title="Breaking load of the rope over the wind's load", working=(sum_,)
        )


plugin = Plugin(
    kind="rode",
    title="Rope rode",
    plural="Rope rodes",
    system="ground",
    load_path=True,
    station="laid_out",
    purpose="the rope between chain and boat, or the snubber that takes the load off the windlass",
    cautions=(
        "A rope under load at anchor stores what it takes: stand out of its line, and never put a hand between it and a fairlead.",
    ),
    tools=("tape or caliper", "fid", "knife"),
    supplies=("rope of the same size and fibre", "thimble of the right size", "whipping twine", "hose or leather against chafe"),
    examination=(
        *rope.examination(),
        ExaminationItem(id="splice", words="the splice to chain or thimble, opened a little between the strands"),
        ExaminationItem(id="fairlead", words="the part that lies in the fairlead at anchor"),
    ),
    proof=(
        ProofItem(id="splice", words="splice drawn tight under load and looked at again"),
        ProofItem(id="chafe", words="guarded where it lies in the fairlead"),
        ProofItem(id="bitter_end", words="bitter end made fast"),
    ),
    details=(
        *rope.details(),
        DetailField(
            id="use", title="Use", holds="choice",
            choices={"main": "main anchor", "kedge": "kedge or second anchor", "snubber": "snubber or bridle", "spare": "spare"},
        ),
        DetailField(id="length", title="Length", holds="length", unit="m", imperial="ft", plausible=(1, 400)),
        WIND,
    ),
    readings=(
        *rope.readings(),
        Quantity(
            id="tucks", title="Full tucks of the eye splice", dimension=Dimension.COUNT, unit="", plausible=(0, 20), method="counted",
            only_if={"construction": ("three_strand",)},
        ),
        Quantity(
            id="tail", title="Shortest tail of the splice", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 1000),
            method="rule, from where the strand comes out", expected_u=2, only_if={"construction": ("three_strand",)},
        ),
    ),
    derived=(
        *rope.derived(),
        Derived(id="tail_diameters", title="Tails of the splice, in diameters", dimension=Dimension.RATIO, unit="1", decimals=1),
        Derived(id="table_share", title="Diameter of the rode in parts of the outfit table", dimension=Dimension.RATIO, unit="%"),
        Derived(id="wind_load", title="Load by length and wind", dimension=Dimension.FORCE, unit="kN", imperial="lbf"),
        Derived(id="wind_factor", title="Breaking load of the rope over the wind's load", dimension=Dimension.RATIO, unit="1", decimals=1),
    ),
    observations=(
        *rope_looks.looks(RENEW, SHIFT),
        rope_looks.end_look(SPLICE),
        Observation(
            id="chafe_guard", title="Guard against chafe at the fairlead",
            choices=(
                Choice(id="guarded", words="guarded, or the fairlead is wide, smooth and round", grade=Grade.CLEAR),
                Choice(id="none", words="not guarded, and the edge is tight", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Guard the rope with hose or leather where it lies in the fairlead"),
                Choice(id="sharp", words="a sharp or broken edge where the rope lies", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Round the fairlead's edge, and look at the rope there"),
            ),
        ),
    ),
    needs=NEEDS,
    limits=load_limits(__package__, "rode.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse the rode in fresh water, open the splice a little, and turn the rope end for end", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
