"""Winches: pawls, gears, drum and base.

Comes in: Evidence of one winch or of a pair. Goes out: nothing beyond the declaration. How long ago it was serviced is
held against customary figures in winch.toml; whether a pawl sticks is heard and felt.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Care,
    Choice,
    DetailField,
    Evidence,
    ExaminationItem,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Remedy,
    load_limits,
)

STRIP = (
    "Strip the winch, wash its parts, look at pawls, springs, gears and bearings, grease gears and oil pawls"
)
PAWLS = "Strip the winch and renew pawls and springs as a set; oil pawls, never grease them"
FASTEN = "Fasten the winch by through-bolts on a backing plate, nuts locked, bedded against water"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations and the age of the last service decide."""
    return Assessment()


plugin = Plugin(
    kind="winch",
    title="Winches",
    plural="Winches",
    system="running",
    load_path=False,
    station="cockpit",
    purpose="take the load of sheets and halyards, and hold it",
    cautions=(
        "A pawl that lets go throws the handle round: keep head and arms out of its circle, and take the handle out when it is not turned.",
        "Ease turns off a loaded drum with the flat of the hand, fingers closed.",
        "Work over a tray or a cloth: springs and pawls roll overboard.",
    ),
    tools=("winch handle", "screwdriver and hex keys", "soft brush and degreaser", "tray", "torch"),
    supplies=("winch grease for gears and bearings", "light oil for pawls", "pawls and springs of the right size", "circlip of the right size"),
    examination=(
        ExaminationItem(id="turned", words="every winch turned both ways with the handle, in every speed, listening"),
        ExaminationItem(id="loaded", words="every winch loaded by its line and held"),
        ExaminationItem(id="base", words="the base rocked, and looked at from below where that can be done"),
    ),
    proof=(
        ProofItem(id="speeds", words="every speed turns, every pawl clicks, the drum turns one way only"),
        ProofItem(id="loaded", words="loaded once by its line, holds without a handle"),
        ProofItem(id="parts", words="no part left over"),
    ),
    details=(
        DetailField(
            id="drive", title="Drive", holds="choice",
            choices={"hand": "by hand", "electric": "electric", "hydraulic": "hydraulic"},
        ),
        DetailField(id="speeds", title="Speeds", holds="count", plausible=(1, 4)),
        DetailField(id="count", title="How many", holds="count", plausible=(1, 16)),
        DetailField(id="self_tailing", title="Self-tailing", holds="choice", choices={"yes": "self-tailing", "no": "plain drum"}),
        DetailField(id="serviced", title="Last stripped and greased", holds="date"),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    observations=(
        Observation(
            id="pawls", title="Pawls", required="needed", loaded_test=True,
            choices=(
                Choice(id="click", words="every pawl clicks evenly, the drum holds against a hard pull", grade=Grade.CLEAR),
                Choice(id="dull", words="clicks dull or uneven, still holds", grade=Grade.PLAN, remedy=Remedy.LUBRICATE, action=STRIP),
                Choice(id="sticks", words="a pawl sticks, a click is missing", grade=Grade.FIRST, remedy=Remedy.REPAIR, action=PAWLS),
                Choice(id="slips", words="the drum slips back or jumps", grade=Grade.STOP, remedy=Remedy.REPAIR, action=PAWLS),
            ),
            help="Turn slowly with the handle and listen; then take a turn and pull hard the way the drum must not go.",
        ),
        Observation(
            id="gears", title="Gears and bearings", required="needed",
            choices=(
                Choice(id="smooth", words="turns smoothly in every speed", grade=Grade.CLEAR),
                Choice(id="dry", words="turns dry or stiffly", grade=Grade.WATCH, remedy=Remedy.LUBRICATE, action=STRIP),
                Choice(id="grinds", words="grinds, or a tooth is chipped", grade=Grade.PLAN, remedy=Remedy.OPEN_UP, action=STRIP),
                Choice(id="skips", words="a gear skips, or a speed is gone", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Strip the winch and renew the gear, its spindle and key"),
                Choice(id="seized", words="seized", grade=Grade.STOP, remedy=Remedy.REPAIR, action="Strip the winch and free it, or lead the line to another"),
            ),
        ),
        Observation(
            id="drum", title="Drum",
            choices=(
                Choice(id="grips", words="grips the rope, runs true", grade=Grade.CLEAR),
                Choice(id="polished", words="worn smooth: more turns needed than before", grade=Grade.WATCH, remedy=Remedy.LOOK,
                       action="Take one turn more, and have the drum roughened when the winch is next stripped"),
                Choice(id="wobbles", words="wobbles or rocks on its spindle", grade=Grade.PLAN, remedy=Remedy.OPEN_UP, action=STRIP),
                Choice(id="sharp", words="cracked, or with an edge that cuts the rope", grade=Grade.FIRST, remedy=Remedy.REPLACE, action="Renew the drum, and look at the rope that ran on it"),
            ),
        ),
        Observation(
            id="base", title="Base and fastenings", required="needed",
            choices=(
                Choice(id="fast", words="fast, dry below", grade=Grade.CLEAR),
                Choice(id="weeps", words="fast, but water comes through", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Take the winch off, bed it again, and look at the core of the deck there"),
                Choice(id="moves", words="moves when the winch is loaded", grade=Grade.FIRST, remedy=Remedy.TIGHTEN, action=FASTEN),
                Choice(id="lifting", words="lifting, or the deck cracked round it", grade=Grade.STOP, remedy=Remedy.REPAIR, action=FASTEN),
            ),
        ),
        Observation(
            id="tailer", title="Self-tailer and stripper arm", asked="on_request",
            choices=(
                Choice(id="holds", words="holds the tail, arm fast", grade=Grade.CLEAR),
                Choice(id="slips", words="lets the tail slip, jaws worn", grade=Grade.WATCH, remedy=Remedy.ADJUST, action="Set the jaws to the rope's size, or renew them"),
                Choice(id="loose", words="arm loose or broken", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Fasten or renew the stripper arm"),
            ),
        ),
        Observation(
            id="handle", title="Handle and its lock",
            choices=(
                Choice(id="locks", words="fits, locks in and comes out", grade=Grade.CLEAR),
                Choice(id="worn", words="rocks in its socket, or the lock is gone", grade=Grade.PLAN, remedy=Remedy.REPLACE, action="Renew the handle; where the socket is worn, the spindle with it"),
            ),
        ),
        Observation(
            id="power", title="Power drive and its switches", asked="on_request",
            choices=(
                Choice(id="works", words="turns only while the switch is pressed, covers whole", grade=Grade.CLEAR),
                Choice(id="weak", words="slow, or a switch cover torn", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Put cable joints and switch covers right, and measure the voltage at the motor under load"),
                Choice(id="fails", words="does not turn under power", grade=Grade.FIRST, remedy=Remedy.REPAIR, action="Put the drive right, or mark the winch as turned by hand"),
                Choice(id="runs_on", words="runs on by itself, or starts by itself", grade=Grade.STOP, remedy=Remedy.REPAIR, action="Isolate the drive at its breaker until switch and relay have been renewed"),
            ),
        ),
    ),
    limits=load_limits(__package__, "winch.toml"),
    care=(Care(id="strip", what=STRIP, supply="winch grease for gears and bearings, light oil for pawls", months=12),),
    assess=assess,
)  # fmt: skip
