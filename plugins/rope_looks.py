"""What is seen and felt of a fibre rope: chafe, inside, evenness, heat, weather, and its working end.

Comes in: the actions that put each kind of rope right. Goes out: observations to be declared.
"""

from __future__ import annotations

from reporter.contract import Choice, Grade, Observation, Remedy

MANUAL = "EM 385-1-1, 15.D.05 as taught: signs of wear in synthetic rope"


def looks(renew: str, shift: str) -> tuple[Observation, ...]:
    """What is seen and felt of a rope. `renew` and `shift` are actions: a new rope, and moving the wear elsewhere."""
    return (_cover(renew, shift), _inside(renew), _shape(renew), _heat(renew, shift), _weather(renew))


def _cover(renew: str, shift: str) -> Observation:
    return Observation(
        id="chafe", title="Chafe", required="needed", basis=MANUAL,
        choices=(
            Choice(id="none", words="no chafe beyond a light fur all along", grade=Grade.CLEAR),
            Choice(id="furry", words="thick fur or worn yarns at one place, the cover still whole", grade=Grade.WATCH, remedy=Remedy.REFIT, action=shift),
            Choice(id="through", words="cover worn through, core showing; or a strand worn flat", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=renew),
            Choice(id="cut", words="core or strand cut or broken", grade=Grade.STOP, remedy=Remedy.REPLACE, damage=True, action=renew),
        ),
        help="At sheaves, clutches, fairleads and knots; let the whole length run through the hands.",
    )  # fmt: skip


def _inside(renew: str) -> Observation:
    return Observation(
        id="inside", title="Inside of the rope", basis=MANUAL,
        choices=(
            Choice(id="clean", words="clean and bright where the strands were opened", grade=Grade.CLEAR),
            Choice(
                id="grit", words="salt or grit between the strands", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                action="Rinse the rope in fresh water, let it dry in the shade, and open the strands again",
            ),
            Choice(id="powder", words="powder of worn fibre between the strands", grade=Grade.PLAN, remedy=Remedy.REPLACE, action=renew),
            Choice(id="broken", words="broken fibres inside", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=renew),
        ),
    )  # fmt: skip


def _shape(renew: str) -> Observation:
    return Observation(
        id="shape", title="Evenness", required="needed", basis=MANUAL,
        choices=(
            Choice(id="even", words="even, round and supple all along", grade=Grade.CLEAR),
            Choice(
                id="twisted", words="twisted or kinked, and comes free again", grade=Grade.WATCH, remedy=Remedy.REFIT,
                action="Take the turns out of the rope: let it hang or stream free, and coil it the way it was laid",
            ),
            Choice(id="slack_cover", words="loose or bunched cover, core slipping in it", grade=Grade.PLAN, remedy=Remedy.REFIT,
                   action="Milk the cover down to the end, cut and whip it again, and see whether it slips again"),
            Choice(id="lump", words="a hard lump, or a thin or soft place", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=renew),
        ),
    )  # fmt: skip


def _heat(renew: str, shift: str) -> Observation:
    return Observation(
        id="heat", title="Heat", basis=MANUAL,
        choices=(
            Choice(id="none", words="no hard or shiny place", grade=Grade.CLEAR),
            Choice(id="glazed", words="a glazed place where it ran over a winch or through a clutch", grade=Grade.PLAN, remedy=Remedy.REFIT, action=shift),
            Choice(id="melted", words="fibres melted together", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=renew),
        ),
    )  # fmt: skip


def _weather(renew: str) -> Observation:
    return Observation(
        id="weather", title="Sun and age", basis=MANUAL,
        choices=(
            Choice(id="good", words="colour kept, supple", grade=Grade.CLEAR),
            Choice(id="faded", words="faded or stiff, fibres still tough", grade=Grade.WATCH, remedy=Remedy.CLEAN,
                   action="Wash the rope in fresh water, and feel at the next look whether it has become supple"),
            Choice(id="brittle", words="fibres break or powder when rubbed", grade=Grade.FIRST, remedy=Remedy.REPLACE, damage=True, action=renew),
        ),
    )  # fmt: skip


def end_look(remake: str) -> Observation:
    """The working end; `remake` is the action for an end that is done."""
    return Observation(
        id="end", title="Splice or knot at the end", required="needed",
        choices=(
            Choice(id="good", words="splice or knot whole, thimble tight where there is one", grade=Grade.CLEAR),
            Choice(id="frayed", words="whipping or stitching gone, the end fraying", grade=Grade.WATCH, remedy=Remedy.REPAIR,
                   action="Whip or stitch the end again"),
            Choice(id="loose", words="thimble loose or cracked, or the eye worn", grade=Grade.PLAN, remedy=Remedy.REFIT, action=remake),
            Choice(id="drawing", words="splice drawing out, or the rope worn through at the knot", grade=Grade.STOP, remedy=Remedy.REFIT, damage=True, action=remake),
        ),
    )  # fmt: skip
