"""Headsail furler: drum, foil, swivel and halyard lead, with the toggle beneath; the stay inside is a standing wire.

Comes in: Evidence of one furler. Goes out: what was not seen from close by. A furler hides the stay it turns on.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    DetailField,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Remedy,
)

from .aloft import CAUTION_STAYED, CAUTIONS_ALOFT, looked, not_close
from .answers import bad, fine


def assess(evidence: Evidence) -> Assessment:
    """Swivel and the foil's top are missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence, "halyard swivel and the foil's top")))


plugin = Plugin(
    kind="furler",
    title="Headsail furler",
    plural="Headsail furlers",
    system="rig",
    load_path=True,
    station="bow",
    purpose="rolls the headsail round the forestay",
    cautions=(
        CAUTION_STAYED, *CAUTIONS_ALOFT,
        "Never winch a furler that is stuck: a wrapped halyard breaks the forestay strand by strand.",
    ),
    tools=("binoculars", "[spanner]s and hexagon keys", "torch and mirror", "magnifier"),
    supplies=("[split pin]s of every size", "thread-locking compound", "furling line", "fresh water"),
    examination=(
        ExaminationItem(id="drum", words="drum opened or lifted, toggle, pin and terminal beneath it"),
        ExaminationItem(id="foil", words="foil and its joints, sighted along and felt to head height"),
        ExaminationItem(id="swivel", words="halyard swivel and the foil's top"),
        ExaminationItem(id="turned", words="sail rolled and unrolled, or the bare foil turned"),
    ),
    proof=(
        ProofItem(id="pins", words="toggle pin and its [split pin] seen"),
        ProofItem(id="screws", words="every screw of drum and joints in and locked"),
        ProofItem(id="turns", words="rolls and unrolls by hand, halyard clear"),
    ),
    care=(Care(id="flush", what="Flush drum and swivel with fresh water and turn them by hand", months=12, remedy=Remedy.CLEAN),),
    details=(
        DetailField(id="form", title="Form", holds="choice", choices={"foil": "foil round the stay", "wire_luff": "on its own luff wire or rope", "hook_luff": "continuous line"}),
        DetailField(id="installed", title="Fitted", holds="date"),
        DetailField(id="stay_drawn", title="Stay last drawn from the foil", holds="date"),
    ),
    observations=(
        looked("swivel and top were"),
        Observation(
            id="toggle", title="Toggle, pin and terminal under the drum", required="needed",
            choices=(
                fine("seen", "seen: toggle free, pin and [split pin] in, terminal clean and straight"),
                bad("hidden", "hidden by the drum", Grade.WATCH, Remedy.OPEN_UP, "Lift the drum and look at toggle, pin and terminal"),
                bad("no_toggle", "no toggle: the terminal is bent with every movement of the sail", Grade.FIRST, Remedy.REFIT, "Fit a toggle under the furler, and look at the terminal with dye"),
                bad("worn", "toggle, pin or link plates worn or bent", Grade.FIRST, Remedy.REPLACE, "Renew toggle, pin or link plates under the furler", damage=True),
                bad("missing", "a [split pin] missing, a screw of the link plates missing, or a crack", Grade.STOP, Remedy.REFIT, "Put right what holds the stay under the furler: new pin, [split pin], screws; renew what is cracked", damage=True),
            ),
        ),
        Observation(
            id="turning", title="Turning", required="needed",
            choices=(
                fine("free", "turns freely by hand both ways"),
                bad("rough", "rough or stiff", Grade.PLAN, Remedy.CLEAN, "Flush drum and swivel with fresh water; renew the bearings where that does not help"),
                bad("jams", "jams, or needs a winch", Grade.FIRST, Remedy.REPAIR, "Find why the furler jams before it is used again: halyard wrap, bearings, line"),
            ),
        ),
        Observation(
            id="foil", title="Foil", required="needed",
            choices=(
                fine("straight", "straight, joints tight, screws in"),
                bad("powder", "white powder at joints or screws", Grade.WATCH, Remedy.CLEAN, "Wash the joints and look at their screws"),
                bad("joint", "a joint loose or a screw missing", Grade.FIRST, Remedy.REPAIR, "Put the foil's joint right: new screws, locked"),
                bad("bent", "bent, cracked, or it has slid down onto the drum", Grade.FIRST, Remedy.REPAIR, "Repair the foil, and look at the stay inside where it was bent", damage=True),
            ),
        ),
        Observation(
            id="halyard", title="Swivel and halyard lead", required="needed",
            choices=(
                fine("leads", "swivel near the top, halyard leads off aft of the stay and cannot wrap"),
                bad("low", "swivel low on the foil: a pendant is missing", Grade.PLAN, Remedy.REFIT, "Fit a pendant so that the swivel stands near the top"),
                bad("wraps", "halyard runs along the stay or has wrapped", Grade.FIRST, Remedy.REFIT, "Lead the halyard off by a restrainer or pendant, and look at the stay where it wrapped"),
                bad("torn", "swivel seized or worn, or strands of stay or halyard cut by a wrap", Grade.STOP, Remedy.REPLACE, "Renew what the wrap has cut, stay first, and put the lead right", damage=True),
            ),
        ),
        Observation(
            id="line", title="Furling line and its leads",
            choices=(
                fine("good", "line whole, wraps left with the sail rolled hard, leads fair"),
                bad("worn", "chafed or hard", Grade.PLAN, Remedy.REPLACE, "Renew the furling line"),
                bad("few", "no wraps left with the sail rolled hard, or it overrides in the drum", Grade.FIRST, Remedy.ADJUST, "Give the drum more wraps of line and a fair lead"),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
