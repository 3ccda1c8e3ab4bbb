"""Running backstays and check stays: pendant, tail, blocks, levers, and where they are made fast.

Comes in: Evidence of one pair. Goes out: what was not seen from close by. Limits stand in running_backs.toml: any one
broken wire in the pendant condemns.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
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
    load_limits,
)

from .aloft import CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine

RENEW = "Renew the pendant with its ends, and that of the other side with it"


def assess(evidence: Evidence) -> Assessment:
    """The upper ends are missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence, "the upper ends")))


plugin = Plugin(
    kind="running_backs",
    title="Running backstays",
    plural="Running backstays",
    system="rig",
    load_path=True,
    station="stern",
    purpose="hold the mast aft where the shrouds do not",
    cautions=(*CAUTIONS_ALOFT, "On some rigs the mast does not stand a gybe without them: know which before one is let off."),
    tools=("cotton cloth", "magnifier", "torch"),
    supplies=("[split pin]s of every size", "seizing wire", "whipping twine"),
    examination=(
        ExaminationItem(id="pendant", words="the pendant over its accessible length, by cloth and hand"),
        ExaminationItem(id="ends", words="upper and lower ends with their pins"),
        ExaminationItem(id="deck", words="blocks, levers or winches, and what they are fastened to"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin and seizing seen"),
        ProofItem(id="set", words="each side set up hard and let off"),
    ),
    details=(
        DetailField(id="pendant", title="Pendant", holds="choice", choices={"wire": "wire", "fibre": "fibre rope", "rod": "rod"}),
        DetailField(id="diameter", title="Nominal diameter", holds="length", unit="mm", imperial="in", plausible=(3, 24)),
        DetailField(id="needed_always", title="Whether the mast stands without them", holds="choice", choices={"no": "they are needed on every point of sailing", "yes": "they steady the mast only", "unknown": "not known"}),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="broken_wires", title="Broken wires", dimension=Dimension.COUNT, unit="", required="needed", plausible=(0, 133),
            method="cloth wiped along the pendant, then counted with a magnifier", only_if={"pendant": ("wire",)},
        ),
    ),
    observations=(
        looked("its upper end was"),
        Observation(
            id="pendant_seen", title="Pendant", required="needed",
            choices=(
                fine("whole", "whole: no broken wire, no cut or hard strand, cover in order"),
                bad("fuzzy", "fuzzy or sun-bleached", Grade.WATCH, Remedy.LOOK, "Look under the cover at the pendant's worst place"),
                bad("chafed", "cover chafed through, or a kink", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("broken", "a broken wire or a cut strand", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="ends", title="Ends and attachment at the mast", required="needed",
            choices=(
                fine("firm", "firm, pins and seizings in, no crack"),
                bad("stain", "rust stain", Grade.WATCH, Remedy.CLEAN, "Clean the ends and look for cracks with a magnifier"),
                bad("worn", "a worn eye, thimble, tang or pin", Grade.FIRST, Remedy.REPLACE, "Renew the worn parts", damage=True),
                bad("cracked", "a crack, or a [split pin] missing", Grade.STOP, Remedy.REPAIR, "Repair the attachment with new pins and [split pin]s", damage=True),
            ),
        ),
        Observation(
            id="gear", title="Tails, blocks, levers", required="needed",
            choices=(
                fine("works", "run, hold and let off freely"),
                bad("stiff", "stiff", Grade.WATCH, Remedy.CLEAN, "Wash blocks or levers with fresh water and free them"),
                bad("tail", "tail chafed", Grade.PLAN, Remedy.REPLACE, "Renew the tails"),
                bad("fails", "a block, lever, padeye or its bolts cracked or loose", Grade.FIRST, Remedy.REPAIR, "Repair the gear and what it is fastened to", damage=True),
            ),
        ),
        Observation(
            id="leads", title="Lead and stowage",
            choices=(
                fine("clear", "lead clear, stowed without beating the mast"),
                bad("chafes", "chafes on rail, sail or spreader", Grade.PLAN, Remedy.ADJUST, "Lead or stow the pendants clear"),
            ),
        ),
    ),
    limits=load_limits(__package__, "running_backs.toml"),
    assess=assess,
)  # fmt: skip
