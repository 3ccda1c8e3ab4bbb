"""Rigging screws with their toggles, clevis pins and split pins.

Comes in: Evidence of one screw or of a set (say `at` for each: cap shroud port, upper). Goes out: thread engaged in thread
diameters, and how unlike the ends are. Limits stand in rigging_screw.toml.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
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
    load_limits,
)

from .answers import bad, fine
from .screw_thread import thread

SET_UP = "Turn the screw until the thread holds alike at both ends, shorten or renew the wire where that gives too little, and lock it"
NEW_PIN = "Refit with a new pin of full size and a new [split pin]"
RENEW = "Renew the [rigging screw]"


def assess(evidence: Evidence) -> Assessment:
    """Thread engaged in figures; observations decide the rest."""
    return thread(evidence)


plugin = Plugin(
    kind="rigging_screw",
    title="Rigging screw",
    plural="Rigging screws",
    system="rig",
    load_path=True,
    station="screws",
    purpose="sets the length of a stay, and lets it move at the deck through its toggle",
    cautions=(
        "A stayed mast stands by every screw at once: slacken none before another stay holds in its place; not under way, engine stopped.",
        "Never turn a dry stainless thread under load: it seizes. Slacken, grease, then set up.",
    ),
    tools=("[spanner] and spike", "vernier caliper", "pliers", "magnifier", "probe or wire to feel the thread's end in a closed body"),
    supplies=("[split pin]s of every size", "clevis pins of every size", "grease for stainless threads", "tape or boots that let water out"),
    examination=(
        ExaminationItem(id="body", words="body and both threads, tape and boots off"),
        ExaminationItem(id="locking", words="what locks it, at both ends"),
        ExaminationItem(id="toggle", words="toggle, its pins and their [split pin]s"),
    ),
    proof=(
        ProofItem(id="locked", words="locked at both ends, by hand and eye"),
        ProofItem(id="ends", words="thread engaged alike at both ends, and enough of it"),
        ProofItem(id="pins", words="every pin with its [split pin] seen"),
        ProofItem(id="after_sail", words="looked at again after the first sail"),
    ),
    care=(Care(id="grease", what="Take tape and boots off, clean and grease the threads one stay at a time, and lock the screws with new [split pin]s", supply="grease for stainless threads", months=12),),
    details=(
        DetailField(id="thread", title="Diameter of the thread", holds="length", unit="mm", imperial="in", plausible=(4, 50)),
        DetailField(id="body", title="Body", holds="choice", choices={"open": "open", "closed": "closed", "calibrated": "with a scale"}),
        DetailField(
            id="locked_by", title="Locked by", holds="choice",
            choices={"split_pins": "[split pin]s through the threads", "wire": "locking wire", "locknuts": "locknuts", "other": "another means"},
        ),
        DetailField(id="pin", title="Clevis pin", holds="length", unit="mm", imperial="in", plausible=(4, 45)),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="thread_engaged", title="Thread engaged", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 200), expected_u=1,
            method="length of thread inside the body at that end: seen in an open one, felt with a wire or reckoned from the whole thread in a closed one",
            help="One line for each end; let `at` end in 'lower' or 'upper'.",
        ),
        Quantity(
            id="threads_visible", title="Threads showing outside the body", dimension=Dimension.COUNT, unit="", plausible=(0, 80), asked="on_request",
            method="counted at each end; the worse end counts",
        ),
        Quantity(
            id="take_up", title="Take-up left", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(0, 300), expected_u=2,
            method="rule: how far the ends can still come together", wears=True,
        ),
    ),
    derived=(
        Derived(id="engaged_ratio", title="Thread engaged, in thread diameters", dimension=Dimension.RATIO, unit="1", decimals=1),
        Derived(id="end_difference", title="Thread engaged, one end against the other", dimension=Dimension.LENGTH, unit="mm", imperial="in"),
    ),
    observations=(
        Observation(
            id="locking", title="Locking", required="needed", basis="FAA AC 43.13-1B, 7-179, 7-182, for aircraft: locked, wire never used twice; common practice",
            choices=(
                fine("locked", "locked at both ends"),
                bad("locknuts", "locknuts alone", Grade.WATCH, Remedy.LOOK, "Look at the locknuts after each sail, or pin or wire the screw"),
                bad("poor", "[split pin]s cut short, wire used twice, or tape in their place", Grade.PLAN, Remedy.REPLACE, "Lock the screw anew: new [split pin]s, or new wire with at least four turns round the shank"),
                bad("one_end", "one end not locked", Grade.FIRST, Remedy.REFIT, "Lock both ends of the screw with new [split pin]s or wire"),
                bad("unlocked", "not locked at all, or it has turned by itself", Grade.STOP, Remedy.REFIT, "Set up the stay again, lock both ends of the screw, and look why it turned"),
            ),
        ),
        Observation(
            id="thread_seen", title="Thread in the body", required="needed",
            choices=(
                fine("alike", "holds alike at both ends, well over the thread's own diameter"),
                bad("not_visible", "closed body: how much thread holds could not be made out", Grade.WATCH, Remedy.TEST, "Find out how much thread holds at each end: feel it with a wire, or count turns while another stay holds"),
                bad("uneven", "much more at one end than at the other", Grade.PLAN, Remedy.ADJUST, SET_UP),
                bad("bare", "hardly any thread left at one end", Grade.FIRST, Remedy.REFIT, SET_UP),
            ),
        ),
        Observation(
            id="take_up_seen", title="Take-up",
            choices=(
                fine("left", "take-up left"),
                bad("little", "nearly used up", Grade.WATCH, Remedy.LOOK, "Find what lengthened: wire, terminal, deck or step; keep the take-up under the eye"),
                bad("none", "used up, screw shut", Grade.PLAN, Remedy.REFIT, "Find what lengthened, then shorten or renew the wire"),
            ),
        ),
        Observation(
            id="straight", title="Straightness", required="needed", basis="yacht check list: rigging screws dead straight",
            choices=(
                fine("straight", "dead straight, shanks and body"),
                bad("bent", "a shank or the body bent", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="cracks", title="Cracks and corrosion", required="needed",
            choices=(
                fine("none", "no crack, clean threads"),
                bad("stained", "rust stain", Grade.WATCH, Remedy.CLEAN, "Clean the screw and look for cracks at forks, threads and the body's ends with a magnifier"),
                bad("dry", "threads dry or stiff", Grade.WATCH, Remedy.LUBRICATE, "Slacken, clean and grease the threads, one stay at a time and another in its place"),
                bad("doubt", "a line that could be a crack", Grade.FIRST, Remedy.TEST, "Test the line with dye penetrant before the next passage"),
                bad("thread", "thread stripped, galled or pitted", Grade.FIRST, Remedy.REPLACE, RENEW, damage=True),
                bad("cracked", "a crack", Grade.STOP, Remedy.REPLACE, RENEW, damage=True),
            ),
        ),
        Observation(
            id="toggle", title="Toggle", required="needed", basis="trade page on rig loads: universal movement, a toggle at the deck end of every wire",
            choices=(
                fine("free", "fitted, moves freely both ways, screw in line with its stay"),
                bad("stiff", "fitted, stiff with salt or paint", Grade.WATCH, Remedy.CLEAN, "Free the toggle with fresh water and work it both ways"),
                bad("worn", "fitted, its holes or bow worn", Grade.FIRST, Remedy.REPLACE, "Renew the toggle", damage=True),
                bad("missing", "none: the screw is bent by every movement of its stay", Grade.FIRST, Remedy.REFIT, "Fit a toggle between screw and chainplate"),
                bad("cracked", "a crack in the toggle", Grade.STOP, Remedy.REPLACE, "Renew the toggle", damage=True),
            ),
        ),
        Observation(
            id="pins", title="Clevis pins and [split pin]s", required="needed", basis="trade page on clevis pins: leg 1.5 × pin diameter, legs spread 15° or more",
            choices=(
                fine("fitted", "pins of full size, every [split pin] in and spread a little, no sharp end"),
                bad("taped_over", "taped over, not seen", Grade.WATCH, Remedy.LOOK, "Take the tape off and look at pins and [split pin]s"),
                bad("legs", "a [split pin] cut short, bent right back, or used before", Grade.PLAN, Remedy.REPLACE, "Fit new [split pin]s, legs one and a half pin diameters long and spread a little"),
                bad("worn", "a pin grooved, bent or too thin for its hole", Grade.FIRST, Remedy.REPLACE, NEW_PIN, damage=True),
                bad("missing", "a [split pin] missing, or a pin working out", Grade.STOP, Remedy.REFIT, NEW_PIN),
            ),
        ),
    ),
    limits=load_limits(__package__, "rigging_screw.toml"),
    assess=assess,
)  # fmt: skip
