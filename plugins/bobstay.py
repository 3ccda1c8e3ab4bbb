"""Bobstay and bowsprit: wire, rod or chain from sprit to stem, with the fitting near the waterline.

Comes in: Evidence of one bobstay. Goes out: what was not seen from close by: its lower end is looked at from a dinghy or
ashore. Limits stand in bobstay.toml: any one broken wire condemns.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
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
    load_limits,
)

from .answers import bad, fine, unseen

RENEW = "Renew the bobstay with its ends"


def assess(evidence: Evidence) -> Assessment:
    """The lower fitting is missing while it was looked at from deck."""
    return Assessment(missing=tuple(_lower_end(evidence)))


def _lower_end(evidence: Evidence) -> Iterator[Missing]:
    if any(each.choice == "from_deck" for each in evidence.observed.get("seen_from", ())):
        title = "the lower fitting from close by, from a dinghy or ashore"
        yield Missing(id="close_up", title=title, needed=True, why="Looked at from deck only: part seen.")


plugin = Plugin(
    kind="bobstay",
    title="Bobstay and bowsprit",
    plural="Bobstays and bowsprits",
    system="rig",
    load_path=True,
    station="bow",
    purpose="holds the sprit down against the forestay",
    cautions=(
        "The mast hangs forward on it: another stay holds in its place before it is slackened; not under way.",
        "From a dinghy: engine of the yacht stopped, anchor chain held by its stopper.",
    ),
    tools=("dinghy or hull ashore", "magnifier", "vernier caliper", "spike", "cloth"),
    supplies=("[split pin]s of every size", "dye penetrant with cleaner and developer"),
    examination=(
        ExaminationItem(id="stay", words="the stay over its whole length"),
        ExaminationItem(id="lower", words="the fitting at the stem, its bolts inside the hull as well"),
        ExaminationItem(id="sprit", words="the sprit, its end fitting and its heel"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="taut", words="bobstay taut, sprit in line, forestay set up after it"),
        ProofItem(id="dry", words="dry inside at the stem fitting after the first sail"),
    ),
    details=(
        DetailField(id="made_of", title="Made of", holds="choice", choices={"wire": "wire", "rod": "rod", "chain": "chain", "fibre": "fibre rope"}),
        DetailField(id="diameter", title="Nominal diameter", holds="length", unit="mm", imperial="in", plausible=(4, 30)),
        DetailField(id="sprit_length", title="Bowsprit beyond the stem", holds="length", unit="m", imperial="ft", plausible=(0.1, 10)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the wire, then counted with a magnifier", only_if={"made_of": ("wire",)},
        ),
        Quantity(
            id="link_diameter", title="Diameter of the most worn link", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(3, 30),
            expected_u=0.1, method="vernier caliper where the links bear on each other", only_if={"made_of": ("chain",)}, asked="on_request", wears=True,
        ),
    ),
    observations=(
        Observation(
            id="seen_from", title="From where its lower end was looked at", required="needed",
            choices=(unseen("from_deck", "from deck"), fine("dinghy", "from a dinghy, close by"), fine("ashore", "ashore, close by")),
        ),
        Observation(
            id="stay", title="The stay", required="needed",
            choices=(
                fine("whole", "whole, no broken wire, no nick, straight"),
                bad("stain", "rust stain", Grade.WATCH, Remedy.CLEAN, "Clean the bobstay and look for pits with a magnifier"),
                bad("chafed", "chafed by the anchor or its chain", Grade.PLAN, Remedy.ADJUST, "Keep the anchor chain clear of the bobstay, and measure what is worn"),
                bad("pitted", "pits, bends or worn links", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("broken", "a broken wire, a crack, or a link worn by half", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="lower", title="Fitting at the stem", required="needed",
            choices=(
                fine("clean", "clean, no crack, bolts tight, dry inside"),
                bad("stain", "rust runs from it", Grade.PLAN, Remedy.OPEN_UP, "Draw a bolt of the stem fitting and look at its shank"),
                bad("leaks", "weeps inside, or moves", Grade.FIRST, Remedy.OPEN_UP, "Draw the stem fitting, look at it and its bolts, and bed it anew", damage=True),
                bad("cracked", "cracked or wasted", Grade.STOP, Remedy.REPLACE, "Renew the stem fitting of the bobstay", damage=True),
            ),
            help="Stainless steel at the waterline wets and dries all its life: crevices rot where the strap lies on the stem.",
        ),
        Observation(
            id="sprit", title="Bowsprit", required="needed",
            choices=(
                fine("firm", "firm, straight, hard"),
                bad("finish", "paint or varnish gone", Grade.WATCH, Remedy.REPAIR, "Put a finish on"),
                bad("play", "play at its heel or gammon", Grade.PLAN, Remedy.REFIT, "Fasten heel and gammon of the bowsprit"),
                bad("soft", "wood soft, a dent or a corroded fitting", Grade.FIRST, Remedy.REPAIR, "Repair the bowsprit", damage=True),
                bad("cracked", "cracked or bent", Grade.STOP, Remedy.REPAIR, "Repair the bowsprit", damage=True),
            ),
        ),
        Observation(
            id="pins", title="Pins and [split pin]s", required="needed",
            choices=(
                fine("fitted", "pins of full size, every [split pin] in"),
                bad("worn", "a pin worn or bent", Grade.FIRST, Remedy.REPLACE, "Refit with a new pin of full size and a new [split pin]", damage=True),
                bad("missing", "a [split pin] missing", Grade.STOP, Remedy.REFIT, "Refit with a new pin of full size and a new [split pin]"),
            ),
        ),
    ),
    limits=load_limits(__package__, "bobstay.toml"),
    assess=assess,
)  # fmt: skip
