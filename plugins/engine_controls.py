"""Engine controls at the helm: levers, cables and their ends, which share the pedestal with the steering.

Comes in: Evidence of the controls of one helm. Goes out: nothing beyond the declaration. The one limit stands in
engine_controls.toml; everything else is an observation.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Choice,
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

RENEW = "Renew the control cable"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations and the declared limit decide."""
    return Assessment()


plugin = Plugin(
    kind="engine_controls",
    title="Engine controls",
    plural="Engine controls",
    system="steering",
    load_path=False,
    station="pedestal",
    purpose="take throttle and shift from the helm to the engine",
    cautions=(
        "Try ahead and astern with the boat well moored and everybody told: a cable off its lever means she does not stop.",
        "Do not grease a sealed cable core.",
    ),
    tools=("[spanner]s", "pliers", "torch and mirror"),
    supplies=("[split pin]s of the right size", "clevis pins", "cable clamps"),
    examination=(
        ExaminationItem(id="helm_end", words="the ends at the helm: pins, clamps, locknuts"),
        ExaminationItem(id="engine_end", words="the ends at engine and gearbox: pins, clamps, locknuts"),
        ExaminationItem(id="travel", words="both levers over their whole travel, engine stopped"),
    ),
    proof=(
        ProofItem(id="ahead_astern", words="ahead gives ahead and astern gives astern, boat moored"),
        ProofItem(id="full_travel", words="full travel at gearbox and throttle, both ways"),
        ProofItem(id="pins", words="pins and locknuts seen"),
        ProofItem(id="stop", words="engine stops from the helm"),
    ),
    details=(
        DetailField(
            id="levers", title="Levers", holds="choice",
            choices={"single": "one lever for throttle and shift", "two": "two levers", "electronic": "electronic", "other": "other levers"},
        ),
        DetailField(id="installed", title="Cables fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="bend_radius", title="Radius of the tightest bend", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(10, 3000),
            method="rule or template along the inside of the bend", expected_u=10, asked="on_request",
        ),
    ),
    observations=(
        Observation(
            id="ends", title="Clevis pins and [split pin]s", required="needed",
            choices=(
                Choice(id="pinned", words="every clevis pin unworn and kept by a [split pin]", grade=Grade.CLEAR),
                Choice(
                    id="stopgap", words="wire, ring or clip in place of a [split pin]", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Fit new [split pin]s at both ends of both cables",
                ),
                Choice(
                    id="worn", words="a pin, clevis or lever hole worn", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Renew the worn pin or clevis, with a new [split pin]",
                ),
                Choice(
                    id="missing", words="a [split pin] missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Fit new [split pin]s at both ends of both cables",
                ),
            ),
            help="A single failed [split pin] has cost a ferry her controls in a harbour.",
        ),
        Observation(
            id="clamps", title="Jacket clamped at both ends", required="needed",
            choices=(
                Choice(id="both", words="clamped tight at both ends", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="a clamp loose, the jacket moving with the lever", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Clamp the jackets at both ends, and try the whole travel again",
                ),
                Choice(
                    id="missing", words="a clamp broken or missing", grade=Grade.STOP, remedy=Remedy.REFIT,
                    action="Clamp the jackets at both ends, and try the whole travel again",
                ),
            ),
        ),
        Observation(
            id="locknuts", title="Locknuts", required="needed",
            choices=(
                Choice(id="tight", words="tight, threads well into the clevis", grade=Grade.CLEAR),
                Choice(
                    id="loose", words="loose, or the clevis on its last threads", grade=Grade.FIRST, remedy=Remedy.TIGHTEN,
                    action="Set clevis and travel, then tighten the locknuts",
                ),
            ),
        ),
        Observation(
            id="jacket", title="Jacket and core",
            choices=(
                Choice(id="whole", words="jacket whole, core bright where it comes out", grade=Grade.CLEAR),
                Choice(id="rust", words="rust where the core comes out", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=RENEW),
                Choice(id="cracked", words="jacket cracked, swollen, melted or kinked", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=RENEW),
                Choice(id="frayed", words="core frayed or bent", grade=Grade.FIRST, remedy=Remedy.REPLACE, action=RENEW),
            ),
        ),
        Observation(
            id="movement", title="Levers over their travel", required="needed",
            choices=(
                Choice(id="easy", words="move easily, neutral felt clearly", grade=Grade.CLEAR),
                Choice(
                    id="stiff", words="stiff", grade=Grade.PLAN, remedy=Remedy.LOOK,
                    action="Find what is stiff: take the cable off its lever and move each by itself; renew a stiff cable, do not grease it",
                ),
                Choice(
                    id="short", words="full travel not reached at gearbox or throttle", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Set the cables so that lever, gearbox and throttle reach full travel both ways",
                ),
                Choice(
                    id="slips", words="slips out of gear, or neutral cannot be found", grade=Grade.STOP, remedy=Remedy.REPAIR,
                    action="Set or renew the shift cable before the engine is used for manoeuvring",
                ),
            ),
        ),
        Observation(
            id="friction", title="Friction brake",
            choices=(
                Choice(id="throttle", words="on the throttle only, or none", grade=Grade.CLEAR),
                Choice(
                    id="shift", words="a friction brake on the shift cable", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Take the friction brake off the shift cable: it hides whether the gear is fully in",
                ),
            ),
        ),
        Observation(
            id="routing", title="Run of the cables",
            choices=(
                Choice(id="clear", words="wide bends, clear of exhaust, bilge, chain and wire", grade=Grade.CLEAR),
                Choice(
                    id="tight", words="a tight bend, or lying in the bilge", grade=Grade.PLAN, remedy=Remedy.ADJUST,
                    action="Lead the control cable in wide bends, clear of the bilge",
                ),
                Choice(
                    id="hot", words="near the exhaust, or touched by chain or wire", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Lead the control cable clear of exhaust, chain and wire, and look at its jacket there",
                ),
            ),
        ),
        Observation(
            id="start_in_gear", title="Starting in gear",
            choices=(
                Choice(id="no", words="the starter turns in neutral only", grade=Grade.CLEAR),
                Choice(
                    id="yes", words="the starter turns with a gear in", grade=Grade.PLAN, remedy=Remedy.REPAIR,
                    action="Have the neutral switch set or fitted; until then look at the lever before every start",
                ),
            ),
        ),
    ),
    limits=load_limits(__package__, "engine_controls.toml"),
    assess=assess,
)  # fmt: skip
