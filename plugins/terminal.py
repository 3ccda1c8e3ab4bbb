"""Terminals of standing rigging: swaged, compression or spliced, with the pin that holds them.

Comes in: Evidence of one end, or of a set of like ends (say `at`: cap shroud port, lower). Goes out: what was not seen
from close by. A crack decides at once; no published figure was read for how far a swage may be out of line.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
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

RENEW = "Renew the terminal, with its wire where it is swaged or spliced"
NEW_PIN = "Refit with a new pin of full size and a new [split pin]"


def assess(evidence: Evidence) -> Assessment:
    """Observations decide; ends aloft that were seen from deck are missing."""
    return Assessment(missing=tuple(not_close(evidence, "the terminal")))


plugin = Plugin(
    kind="terminal",
    title="Terminal",
    plural="Terminals",
    system="rig",
    load_path=True,
    station="screws",
    purpose="holds the end of a stay to its tang, toggle or screw",
    cautions=(
        CAUTION_STAYED, *CAUTIONS_ALOFT,
        "Dye and its cleaner burn and stain: gloves, no flame, none of it on rope, rubber or teak.",
    ),
    tools=("magnifier of seven times or more", "fine abrasive pad", "dye penetrant", "torch and mirror", "pliers", "straight edge"),
    supplies=("[split pin]s of every size", "clevis pins of every size", "tape", "dye penetrant with cleaner and developer"),
    examination=(
        ExaminationItem(id="body", words="the body all round, cleaned, with a magnifier"),
        ExaminationItem(id="mouth", words="the mouth where the wire goes in"),
        ExaminationItem(id="pin", words="its pin and [split pin]"),
        ExaminationItem(id="movement", words="its movement in tang or toggle, both ways"),
    ),
    proof=(
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="seated", words="the terminal seen home in its tang or toggle, free both ways"),
        ProofItem(id="after_sail", words="looked at again after the first sail"),
    ),
    details=(
        DetailField(
            id="form", title="How it holds the wire", holds="choice",
            choices={"swaged": "swaged", "compression": "compression, with cone", "spliced": "spliced or served round a thimble", "sleeve": "pressed sleeve round a thimble", "rod": "rod head"},
        ),
        DetailField(
            id="fitting", title="Its other end", holds="choice",
            choices={"fork": "fork", "eye": "eye", "tee": "T or ball in a backing plate", "stud": "stud", "other": "another"},
        ),
        DetailField(
            id="position", title="Where on the stay", holds="choice",
            choices={"lower": "lower end", "upper": "upper end", "both": "both ends", "spreader": "at a spreader"},
        ),
        DetailField(id="pin", title="Pin", holds="length", unit="mm", imperial="in", plausible=(3, 40)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    observations=(
        looked("it was", within_reach=True),
        Observation(
            id="cracks", title="Cracks", required="needed", basis="handbook of yacht rigging: swage cracked, replace; common practice",
            choices=(
                fine("none", "no crack in the body, cleaned and under a magnifier"),
                bad("doubt", "a line that could be a crack or a die mark", Grade.FIRST, Remedy.TEST, "Test the line with dye penetrant before the next passage"),
                bad("cracked", "a crack", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
            help="Cracks in a swage run lengthwise from its mouth. Die marks stand opposite each other and stop at the neck.",
        ),
        Observation(
            id="straight", title="Straightness", required="needed", basis="yacht check list: swaged fittings straight",
            choices=(
                fine("straight", "straight, in line with its wire"),
                bad("banana", "swaged out of straight, a curve along its body", Grade.PLAN, Remedy.REPLACE, RENEW, damage=True),
                bad("bent", "bent, or bent at its neck", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="mouth", title="Mouth", required="needed", basis="FAA AC 43.13-1B, 7-149 a-b, by analogy; common practice",
            choices=(
                fine("dry", "clean and dry, every wire whole"),
                bad("stain", "rust stain at the mouth", Grade.WATCH, Remedy.CLEAN, "Clean the mouth, rinse it with fresh water, and look again in a month: stain that comes back comes from within"),
                bad("filled", "filled with wax, sealant or tape that hides the wire", Grade.WATCH, Remedy.CLEAN, "Take the filling off and look at the wire where it goes in"),
                bad("weeping", "rust weeping from within, or pits", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("broken", "a wire broken at the mouth", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="slip", title="Slip", required="needed",
            choices=(
                fine("none", "nothing slipped: mark, paint or turns where they were"),
                bad("turned", "a compression fitting not screwed home or not locked", Grade.FIRST, Remedy.REFIT, "Open the fitting, look at cone and wires, make it up anew and lock it"),
                bad("slipped", "the wire has slipped in the fitting", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="movement", title="Movement in tang or toggle", required="needed", basis="yacht check list: T-terminal articulation",
            choices=(
                fine("free", "moves freely both ways, pulls in line"),
                bad("stiff", "stiff with salt or paint", Grade.WATCH, Remedy.CLEAN, "Free the joint with fresh water and work it both ways"),
                bad("side_pull", "bears on one side, or pulled out of line", Grade.FIRST, Remedy.REFIT, "Fit a toggle or turn the tang, so that the terminal pulls in line"),
                bad("unseated", "a T or ball not home in its plate, or its keeper missing", Grade.STOP, Remedy.REFIT, "Seat the terminal in its plate and fit its keeper, stay slackened under another one"),
            ),
        ),
        Observation(
            id="pins", title="Pin and [split pin]", required="needed", basis="trade page on clevis pins: leg 1.5 × pin diameter, legs spread 15° or more",
            choices=(
                fine("fitted", "pin of full size, [split pin] in and spread a little, no sharp end"),
                fine("no_pin", "a form without a pin"),
                bad("taped_over", "taped over, not seen", Grade.WATCH, Remedy.LOOK, "Take the tape off and look at pin and [split pin]"),
                bad("legs", "[split pin] cut short, bent right back, or used before", Grade.PLAN, Remedy.REPLACE, "Fit a new [split pin], legs one and a half pin diameters long and spread a little"),
                bad("ring", "a ring in place of a [split pin] where lines can catch it", Grade.PLAN, Remedy.REPLACE, "Fit a [split pin] in place of the ring"),
                bad("worn", "pin grooved, bent or too thin for its hole", Grade.FIRST, Remedy.REPLACE, NEW_PIN, damage=True),
                bad("missing", "a [split pin] missing, or a pin working out", Grade.STOP, Remedy.REFIT, NEW_PIN),
            ),
        ),
        Observation(
            id="splice", title="Splice, sleeve or thimble", asked="on_request",
            choices=(
                fine("whole", "whole: tucks, serving and thimble as made"),
                bad("serving", "serving or leather worn, wire beneath not seen", Grade.PLAN, Remedy.OPEN_UP, "Open the serving, look at the splice, and serve it anew"),
                bad("thimble", "thimble loose, pinched or cracked", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("drawn", "a tuck drawn, or a sleeve cracked", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
    ),
    assess=assess,
)  # fmt: skip
