"""Stanchions with their bases, and the posts of gates.

Comes in: Evidence of one stanchion or a set, with the vessel's beam. Goes out: how far inboard a base stands, by beam.
Limits stand in stanchion.toml and are rules for racing; a cracked base or weld is an observation, and stops.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Choice,
    Citation,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Limit,
    Missing,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Working,
    compare,
    load_limits,
)
from reporter.engineering import Symbol, formula, units, work

from .given import vessel

WELD = "Take the stanchion and its base off, and weld or renew what is cracked; look at its neighbours in the same light"
FASTEN = "Fasten the base by through-bolts on a backing plate, nuts locked, bedded against water"


@formula(
    title="Inset allowed by beam",
    text="s = k·B",
    symbols={"share": Symbol("k", "share of beam", "%"), "beam": Symbol("B", "beam", "m")},
    result=Symbol("s", "inset allowed", "mm"),
    source=Citation.model_validate(
        {
            "title": "Offshore Special Regulations",
            "clause": "3.14.1 e",
            "status": "READ-2",
            "basis": "standard",
        }
    ),
)
def inset_by_beam(share: float, beam: float) -> float:
    """Inset in metres that a share of the beam comes to."""
    return share * beam


def assess(evidence: Evidence) -> Assessment:
    """The base's place against the deck's edge; everything else the declaration decides."""
    return Assessment(checks=tuple(_inset(evidence)), missing=tuple(_unknown_beam(evidence)))


def _unknown_beam(evidence: Evidence) -> Iterator[Missing]:
    if evidence.at("inset") and vessel(evidence, "beam") is None:
        why = "More than the fixed figure may be within the share of a beam that is not known."
        yield Missing(
            id="beam", title="Beam of the vessel, for the place of the stanchions", needed=False, why=why
        )


def _inset(evidence: Evidence) -> Iterator[Check]:
    limit, sums = _allowed(evidence)
    for spot in evidence.at("inset"):
        if vessel(evidence, "beam") is None and spot.value.value > units.to_base(limit.value, limit.unit):
            continue
        yield compare(
            evidence, spot.value, limit, title="Base inboard of the deck's edge", like=spot, working=sums
        )


def _allowed(evidence: Evidence) -> tuple[Limit, tuple[Working, ...]]:
    """The fixed figure, or the share of beam where that is more."""
    fixed, by_beam = evidence.limit("stanchion.inset.edge"), evidence.limit("stanchion.inset.beam")
    beam = vessel(evidence, "beam")
    if beam is None:
        return fixed, ()
    share, sum_ = work(inset_by_beam, {"share": units.to_base(by_beam.value, by_beam.unit), "beam": beam})
    if share.value <= units.to_base(fixed.value, fixed.unit):
        return fixed, (sum_,)
    value = round(units.from_base(share.value, fixed.unit), 1)
    return fixed.model_copy(update={"value": value, "note": "5 % of beam, being more than 150 mm"}), (sum_,)


plugin = Plugin(
    kind="stanchion",
    title="Stanchions",
    plural="Stanchions",
    system="safety",
    load_path=True,
    station="side_decks",
    purpose="hold the lifelines up, and whoever falls against them",
    cautions=(
        "Push and pull from inside, low and braced: a stanchion that lets go takes you with it.",
        "Nobody holds on to a stanchion that has not been tried.",
    ),
    tools=("torch and magnifier", "[spanner]s and hex keys", "tape and plumb line", "moisture meter or small hammer"),
    supplies=("[split pin]s and locking screws of the right size", "self-locking nuts", "bedding compound", "backing plates"),
    examination=(
        ExaminationItem(id="pushed", words="every stanchion pushed and pulled at its top, all four ways, base watched"),
        ExaminationItem(id="bases", words="every base all round, weld and fastenings, wiped dry, in a low light"),
        ExaminationItem(id="below", words="fastenings from below, where they can be reached"),
    ),
    proof=(
        ProofItem(id="pushed", words="pushed and pulled hard at the top, all four ways, nothing moves"),
        ProofItem(id="locked", words="locking pins or screws seen"),
        ProofItem(id="dry", words="dry below after rain or a hose"),
    ),
    details=(
        DetailField(id="count", title="How many", holds="count", plausible=(1, 40)),
        DetailField(
            id="material", title="Made of", holds="choice",
            choices={"stainless": "stainless steel", "aluminium": "aluminium alloy", "other": "another material"},
        ),
        DetailField(
            id="base", title="Base", holds="choice",
            choices={"socket": "socket with locking screw or pin", "welded": "welded plate", "toerail": "clamped to the toe rail", "other": "another base"},
        ),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="lean", title="Lean from the vertical", dimension=Dimension.ANGLE, unit="°", plausible=(0, 60),
            method="angle gauge or plumb line, boat upright", expected_u=1, per_side=True,
        ),
        Quantity(
            id="offset", title="Offset at the foot", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 80),
            method="square and rule within the first 50 mm above the deck", expected_u=1, per_side=True, asked="on_request",
        ),
        Quantity(
            id="inset", title="Base inboard of the deck's edge", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 600),
            method="rule, deck's edge to the middle of the base", expected_u=2, per_side=True, asked="on_request",
        ),
        Quantity(
            id="test_pull", title="Pull at the top that it stood", dimension=Dimension.FORCE, unit="N", imperial="lbf", plausible=(20, 5000),
            method="load cell at the top, outboard", expected_u=20, per_side=True, asked="on_request",
            help="For comparison only: a hard pull can bend a stanchion that was in order.",
        ),
    ),
    derived=(
        Derived(id="inset_of_base", title="Base inboard of the deck's edge", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
        Derived(id="inset_share", title="Inset in parts of beam", dimension=Dimension.RATIO, unit="%"),
    ),
    observations=(
        Observation(
            id="base", title="Base and weld", required="needed",
            choices=(
                Choice(id="whole", words="no crack and no rust line at weld or socket", grade=Grade.CLEAR),
                Choice(id="stained", words="rust stain that wipes off, metal below unbroken", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Clean base and weld to bright metal and look at them again with a magnifier"),
                Choice(id="pitted", words="pits or a rust line that comes back at weld or socket", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=WELD),
                Choice(id="cracked", words="cracked at weld, socket or tube", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=WELD),
            ),
            help="The crack begins on the outboard side of the weld, low down: wipe dry and look along it with a torch.",
        ),
        Observation(
            id="fastening", title="Fastening to the deck", required="needed",
            choices=(
                Choice(id="fast", words="nothing moves when the top is pushed hard", grade=Grade.CLEAR),
                Choice(id="weeps", words="fast, but water comes through", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Take the base off, dry and mend the core, and bed it again"),
                Choice(id="works", words="the base works, or the deck springs", grade=Grade.FIRST, remedy=Remedy.TIGHTEN, action=FASTEN),
                Choice(id="loose", words="a fastening missing, the base lifts, or the deck is soft", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=FASTEN),
            ),
        ),
        Observation(
            id="lock", title="Stanchion in its socket",
            choices=(
                Choice(id="locked", words="locked in its socket by pin or screw; or welded", grade=Grade.CLEAR),
                Choice(id="rattles", words="locked, but rattles", grade=Grade.WATCH, remedy=Remedy.ADJUST, action="Shim the stanchion in its socket"),
                Choice(id="unlocked", words="lock missing: it lifts out", grade=Grade.FIRST, remedy=Remedy.REFIT, action="Fit locking pins or screws, and take care that they do not weaken the tube"),
            ),
        ),
        Observation(
            id="straight", title="Straightness", required="needed",
            choices=(
                Choice(id="straight", words="straight", grade=Grade.CLEAR),
                Choice(id="bent", words="bent a little, no kink", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the stanchion, and look at its base and the deck there"),
                Choice(id="kinked", words="kinked or flattened", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action="Renew the stanchion, and look at its base and the deck there"),
            ),
        ),
        Observation(
            id="eyes", title="Where the lifelines run through",
            choices=(
                Choice(id="smooth", words="smooth, rounded, lines run free", grade=Grade.CLEAR),
                Choice(id="worn", words="grooved or worn by the wire", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Round the holes or fit bushes, and look at the wire there"),
                Choice(id="sharp", words="sharp, or worn through", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action="Renew the stanchion or its head, and look at the wire there"),
            ),
        ),
    ),
    needs=(Need(id="beam", source="vessel", name="beam", dimension=Dimension.LENGTH, asked="on_request", why="beam of the vessel, for the place of the stanchions"),),
    limits=load_limits(__package__, "stanchion.toml"),
    assess=assess,
)  # fmt: skip
