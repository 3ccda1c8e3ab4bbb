"""Sheets and control lines: what trims the sails, reefs them and holds the boom.

Comes in: Evidence of one line or of a pair. Goes out: wear and loads of a fibre rope, and on request the load of a
genoa sheet by sail area and wind, which is an estimate and decides nothing. Limits stand in sheet.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Care,
    Check,
    Choice,
    Derived,
    DetailField,
    Dimension,
    Evidence,
    Grade,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    load_limits,
)
from reporter.engineering import work
from reporter.engineering.tackle import genoa_sheet

from . import fibre_rope as rope
from . import rope_looks
from .given import beside
from .worked import worked_out

RENEW = "Renew the line"
SHIFT = "Turn the line end for end, so that another place takes the wear, and find what it rubs on"


def assess(evidence: Evidence) -> Assessment:
    """Wear and loads of the rope, and the estimate of the sheet's load where area and wind were given."""
    made = rope.rope_checks(evidence, "the line")
    return made.model_copy(update={"checks": (*made.checks, *_by_wind(evidence))})


def _by_wind(evidence: Evidence) -> Iterator[Check]:
    for area in evidence.at("sail_area"):
        wind = beside(evidence, "wind", area)
        if wind:
            load, sum_ = work(genoa_sheet, {"area": area.value, "wind": wind.value})
            yield worked_out(
                "sheet", "sheet_load", "Genoa sheet load by area and wind", load, (sum_,), like=area
            )


plugin = Plugin(
    kind="sheet",
    title="Sheets and control lines",
    plural="Sheets and control lines",
    system="running",
    load_path=True,
    station="cockpit",
    purpose="trim, reef and hold the sails and the boom",
    cautions=(
        "A loaded line is a loaded spring: ease it before a hand goes near, and stand outside its bight.",
        "Lash the boom before the mainsheet or the topping lift is taken off.",
    ),
    tools=("tape or caliper", "fid", "knife"),
    supplies=("rope of the same size, construction and fibre", "whipping twine"),
    examination=rope.examination(),
    proof=(
        ProofItem(id="lead", words="led through every block, stopper knot or end fast where it belongs"),
        ProofItem(id="run", words="runs free over the whole travel"),
    ),
    details=(
        *rope.details(),
        DetailField(
            id="duty", title="What it does", holds="choice",
            choices={
                "head": "headsail sheet", "main": "mainsheet", "spinnaker": "spinnaker sheet or guy", "reef": "reefing line",
                "furling": "furling line", "kicker": "[kicker], outhaul or other trim", "traveller": "traveller line", "other": "another line",
            },
        ),
    ),
    readings=(
        *rope.readings(),
        Quantity(
            id="sail_area", title="Area of the genoa", dimension=Dimension.AREA, unit="m²", imperial="ft²", plausible=(3, 250),
            method="sail plan, or luff times foot over two", expected_u=1, asked="on_request",
        ),
        Quantity(
            id="wind", title="Apparent wind asked about", dimension=Dimension.SPEED, unit="kn", plausible=(5, 60),
            method="chosen for the estimate", expected_u=1, asked="on_request",
        ),
    ),
    derived=(
        *rope.derived(),
        Derived(id="sheet_load", title="Genoa sheet load by area and wind", dimension=Dimension.FORCE, unit="kgf", imperial="lbf"),
    ),
    observations=(
        *rope_looks.looks(RENEW, SHIFT),
        rope_looks.end_look("Make the line's end again, spliced where the rope is HMPE"),
        Observation(
            id="runs", title="Running", required="needed",
            choices=(
                Choice(id="free", words="runs free through every block", grade=Grade.CLEAR),
                Choice(
                    id="drags", words="drags, or rubs on a stay, a [guardrail] or the coachroof", grade=Grade.PLAN, remedy=Remedy.REFIT,
                    action="Lead the line clear of what it rubs on",
                ),
                Choice(
                    id="jams", words="jams under load, or rides over itself on the winch", grade=Grade.FIRST, remedy=Remedy.ADJUST,
                    action="Change the lead so that the line comes to its winch or clutch from a little below, and runs free under load",
                ),
            ),
        ),
        Observation(
            id="control", title="Holding at its clutch, cleat or winch",
            choices=(
                Choice(id="holds", words="holds, and can be let go under load", grade=Grade.CLEAR),
                Choice(
                    id="creeps", words="creeps slowly", grade=Grade.WATCH, remedy=Remedy.LOOK,
                    action="See whether the line is too thin for its clutch or the clutch is worn, and put that right",
                ),
                Choice(
                    id="slips", words="slips under load", grade=Grade.FIRST, remedy=Remedy.REPLACE,
                    action="Renew what slips, line or clutch; until then keep the line on a winch",
                ),
            ),
        ),
    ),
    limits=load_limits(__package__, "sheet.toml"),
    renewal=(RENEW,),
    care=(Care(id="rinse", what="Rinse the lines in fresh water, dry them in the shade, and turn them end for end", supply="fresh water", months=12, remedy=Remedy.CLEAN),),
    assess=assess,
)  # fmt: skip
