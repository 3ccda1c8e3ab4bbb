"""Jackstays: the lines along the deck that people clip on to.

Comes in: Evidence of one jackstay or a pair. Goes out: what a wire breaks at by its diameter. Limits stand in
jackstay.toml and are rules for racing; stitching, sun, chafe and anchorages are observations.
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
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Value,
    Working,
    compare,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.strand import calculated_strength

from .coated import coated
from .given import chosen, stated
from .margins import is_spent, withheld

RENEW = "Renew the jackstay"
TITLE = "Breaking strength of the wire"


def assess(evidence: Evidence) -> Assessment:
    """What a wire breaks at, while it is undamaged, and whether it is coated."""
    wire = chosen(evidence, "material") == "wire"
    hidden, bare = coated(evidence, "4.04.1")
    return Assessment(checks=(*_strength(evidence), *hidden) if wire else hidden, actions=bare)


def _strength(evidence: Evidence) -> Iterator[Check]:
    marked, diameter = stated(evidence, "marked_strength"), stated(evidence, "diameter")
    if is_spent(evidence, (), ("broken_wires",)):
        yield withheld("jackstay", "wire_strength", TITLE)
        return
    force: Value | None = marked
    sums: tuple[Working, ...] = ()
    if force is None and diameter:
        force, sum_ = work(calculated_strength, {"diameter": diameter})
        sums = (sum_,)
    if force:
        yield compare(evidence, force, evidence.limit("jackstay.strength.wire"), title=TITLE, working=sums)


plugin = Plugin(
    kind="jackstay",
    title="Jackstays",
    plural="Jackstays",
    system="safety",
    load_path=True,
    station="side_decks",
    purpose="hold whoever has clipped on",
    cautions=(
        "Nobody clips on to a jackstay while it is being looked at; try it with your weight from inside, low on deck.",
        "A wire jackstay rolls underfoot: take it up after looking.",
    ),
    tools=("cotton cloth", "magnifier", "[spanner]s", "torch"),
    supplies=("lashing line", "[split pin]s of the right size", "sailmaker's thread and needle for a temporary repair only"),
    examination=(
        ExaminationItem(id="length", words="the whole length of each, both faces of webbing"),
        ExaminationItem(id="ends", words="every end with its stitching or fitting, and the strong point it is made fast to"),
    ),
    proof=(
        ProofItem(id="weight", words="jumped on with the body's weight from inside, ends watched"),
        ProofItem(id="ends", words="pins or lashings seen"),
    ),
    details=(
        DetailField(
            id="material", title="Made of", holds="choice", required="needed",
            choices={"wire": "bare stainless wire", "coated": "wire in a plastic coating", "webbing": "webbing", "fibre": "fibre rope"},
        ),
        DetailField(id="diameter", title="Diameter of the wire", holds="length", unit="mm", imperial="in", plausible=(2, 14)),
        DetailField(
            id="marked_strength", title="Breaking strength by label or papers", holds="force", unit="kN", imperial="lbf", plausible=(1, 100),
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the wire both ways", only_if={"material": ("wire",)}, help="Write 0 for what was wiped and ran clean.",
        ),
    ),
    derived=(Derived(id="wire_strength", title=TITLE, dimension=Dimension.FORCE, unit="kN", imperial="lbf"),),
    observations=(
        Observation(
            id="line", title="The line", required="needed",
            choices=(
                Choice(id="good", words="whole, supple, colour kept; or bright wire", grade=Grade.CLEAR),
                Choice(id="faded", words="faded or furry", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the jackstay, and keep the next one below when it is not wanted"),
                Choice(id="hard", words="hard, chalky or chafed webbing; or kinked or rusted wire", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=RENEW),
                Choice(id="cut", words="cut, or a wire broken", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="ends", title="Stitching and ends", required="needed",
            choices=(
                Choice(id="good", words="stitching whole, fittings straight, pins locked", grade=Grade.CLEAR),
                Choice(id="worn", words="stitches worn on one face, or a lashing faded", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Have the ends stitched again by a sailmaker, and renew the lashings"),
                Choice(id="broken", words="stitches broken, a fitting cracked, or a pin missing", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=RENEW),
            ),
        ),
        Observation(
            id="anchorage", title="Strong points", required="needed",
            choices=(
                Choice(id="through", words="bolted through or welded, nothing moves", grade=Grade.CLEAR),
                Choice(id="hidden", words="nothing moves, but how they are fastened could not be seen", grade=Grade.WATCH, remedy=Remedy.OPEN_UP, action="Open up below the jackstays' strong points and look at bolts and backing plates"),
                Choice(id="cleat", words="made fast to a cleat, a rail or a stanchion", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Give the jackstays strong points of their own, bolted through"),
                Choice(id="moves", words="a strong point moves, or its deck is cracked or soft", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action="Fasten the strong point by through-bolts on a backing plate before anybody clips on"),
            ),
        ),
        Observation(
            id="reach", title="Reach",
            choices=(
                Choice(id="reached", words="can be clipped on to from the companionway, both sides, and ends short of bow and stern", grade=Grade.CLEAR),
                Choice(id="unclip", words="one has to unclip on the way forward", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Lead the jackstays so that nobody has to unclip between cockpit and bow"),
                Choice(id="one_side", words="on one side only", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Fit a jackstay on the other side too"),
            ),
        ),
    ),
    limits=load_limits(__package__, "jackstay.toml"),
    renewal=(RENEW,),
    care=(Care(id="stow", what="Take the jackstays up for the winter, rinse them in fresh water, and look at both faces and every stitch", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
