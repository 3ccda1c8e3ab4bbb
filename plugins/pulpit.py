"""Pulpit and pushpit: the rails at bow and stern that the lifelines end on.

Comes in: Evidence of one of them. Goes out: nothing beyond the declaration. The one limit stands in pulpit.toml and is a
rule for racing; cracked welds and loose feet are observations.
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

WELD = "Have the crack welded by somebody who knows the metal, foot off the deck; look at every other weld in the same light"
FASTEN = "Fasten the foot by through-bolts on a backing plate, nuts locked, bedded against water"


def assess(_evidence: Evidence) -> Assessment:
    """Nothing to reckon: observations and the opening decide."""
    return Assessment()


plugin = Plugin(
    kind="pulpit",
    title="Pulpit or pushpit",
    plural="Pulpits and pushpits",
    system="safety",
    load_path=True,
    station="ends",
    purpose="closes bow or stern, and takes the pull of the lifelines",
    cautions=("Look and pull from inside the rail; under way only on a harness line made fast to something else.",),
    tools=("torch and magnifier", "[spanner]s", "cloth", "tape"),
    supplies=("self-locking nuts", "bedding compound", "[split pin]s of the right size"),
    examination=(
        ExaminationItem(id="welds", words="every weld all round, wiped dry, in a low light"),
        ExaminationItem(id="feet", words="every foot pushed and pulled, and looked at from below where that can be done"),
        ExaminationItem(id="eyes", words="every eye that a lifeline ends on"),
    ),
    proof=(
        ProofItem(id="pulled", words="pulled hard all four ways, nothing moves"),
        ProofItem(id="lifelines", words="lifelines set up again and leaned on"),
    ),
    details=(
        DetailField(id="end", title="Where", holds="choice", choices={"bow": "pulpit, at the bow", "stern": "pushpit, at the stern"}),
        DetailField(id="form", title="Form", holds="choice", choices={"closed": "closed all round", "open": "open at the middle", "gate": "with a gate"}),
        DetailField(id="installed", title="Fitted", holds="date"),
    ),
    readings=(
        Quantity(
            id="opening", title="Opening of an open pulpit", dimension=Dimension.LENGTH, unit="mm", imperial="in", plausible=(50, 1500),
            method="tape, rail to rail, at the height of the lifelines", expected_u=5, only_if={"form": ("open",)},
        ),
    ),
    observations=(
        Observation(
            id="welds", title="Welds and tube", required="needed",
            choices=(
                Choice(id="whole", words="no crack and no rust line at any weld", grade=Grade.CLEAR),
                Choice(id="stained", words="rust stain that wipes off, metal below unbroken", grade=Grade.WATCH, remedy=Remedy.CLEAN, action="Clean the welds to bright metal and look at them again with a magnifier"),
                Choice(id="bent", words="tube bent or dented, no crack", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the rail straightened, and look at its welds and feet"),
                Choice(id="pitted", words="a rust line that comes back at a weld", grade=Grade.FIRST, remedy=Remedy.OPEN_UP, action=WELD),
                Choice(id="cracked", words="a weld or a tube cracked", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=WELD),
            ),
        ),
        Observation(
            id="feet", title="Feet", required="needed",
            choices=(
                Choice(id="fast", words="every foot fast and dry below", grade=Grade.CLEAR),
                Choice(id="weeps", words="fast, but water comes through", grade=Grade.PLAN, remedy=Remedy.REFIT, action="Take the foot off, dry and mend the core, and bed it again"),
                Choice(id="works", words="a foot works when the rail is pulled", grade=Grade.FIRST, remedy=Remedy.TIGHTEN, action=FASTEN),
                Choice(id="loose", words="a foot loose, a fastening missing, or the deck soft", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action=FASTEN),
            ),
        ),
        Observation(
            id="eyes", title="Eyes for the lifelines", required="needed",
            choices=(
                Choice(id="full", words="full and whole", grade=Grade.CLEAR),
                Choice(id="worn", words="worn by pin or shackle", grade=Grade.PLAN, remedy=Remedy.REPAIR, action="Have the eye built up or renewed"),
                Choice(id="thin", words="worn thin, or its weld cracked", grade=Grade.STOP, remedy=Remedy.REPAIR, damage=True, action="Take the lifeline's end to another strong point until the eye has been welded"),
            ),
        ),
    ),
    limits=load_limits(__package__, "pulpit.toml"),
    assess=assess,
)  # fmt: skip
