"""Sizes that a rig is drawn to: the boat's own where they were given, usual proportions where not.

Comes in: a Job and its sorted rig. Goes out: metres, and which of them were given. A proportion serves the picture only;
nothing is reckoned from it.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from reporter.contract import Graded, Job, Value

from .rig_parts import Rig

PROPORTIONS = {
    "overall": 11.0, "waterline": 0.87, "beam": 0.33, "draught": 0.17, "freeboard": 0.1, "height": 1.3, "hounds": 0.88,
    "foretriangle": 0.3, "boom": 0.36, "gooseneck": 0.11, "sprit": 0.09, "tall": 13.0,
}  # fmt: skip
"""Of the length overall (hounds: of the mast's height); `overall` and `tall` in metres."""
STAYS = (
    "forestay", "inner_forestay", "furler", "bobstay", "cap_shroud", "intermediate", "lower", "spreader", "upper_ends",
    "lower_ends", "rigging_screw", "chainplate", "backstay", "backstay_gear", "running_backs", "stem", "stern",
)  # fmt: skip
_FRACTIONAL = re.compile(r"fraction|\b\d+/\d+")
_LEAST, _MOST = 0.2, 5.0
"""How far a given size may stray from its proportion before the drawing leaves it out: a slip of the pen, not a boat."""


class Sizes(NamedTuple):
    """Metres, counts, and which sizes were given, by the names of these fields."""

    overall: float
    waterline: float
    beam: float
    draught: float
    freeboard: float
    height: float
    hounds: float
    foretriangle: float
    boom: float
    gooseneck: float
    sprit: float
    spreaders: int
    stayed: bool
    masthead: bool
    given: tuple[str, ...]


class _Taker:
    """Takes sizes one by one, and notes which were given."""

    def __init__(self, overall: float) -> None:
        self.overall = overall
        self.given: list[str] = []

    def take(self, name: str, value: Value | None, usual: float) -> float:
        """The given size where it is believable, else the usual one."""
        if value is None or not _LEAST * usual <= value.value <= _MOST * usual:
            return usual
        self.given.append(name)
        return value.value


def sizes(job: Job, rig: Rig) -> Sizes:
    """The sizes of the drawing."""
    vessel, usual = job.sheet.vessel, PROPORTIONS
    first = _Taker(0.0)
    overall = first.take("overall", vessel.length_overall, usual["overall"])
    take = _Taker(overall)
    height = take.take("height", _detail(job, rig, "mast", "height"), usual["height"] * overall)
    masthead = _is_masthead(job, rig)
    hounds = take.take("hounds", _detail(job, rig, "mast", "hounds"), usual["hounds"] * height)
    return Sizes(
        overall=overall,
        waterline=min(take.take("waterline", vessel.length_waterline, usual["waterline"] * overall), overall),
        beam=take.take("beam", vessel.beam, usual["beam"] * overall),
        draught=take.take("draught", vessel.draught, usual["draught"] * overall),
        freeboard=usual["freeboard"] * overall,
        height=height,
        hounds=height if masthead else min(hounds, height),
        foretriangle=take.take(
            "foretriangle", _detail(job, rig, "mast", "foretriangle"), usual["foretriangle"] * overall
        ),
        boom=take.take("boom", _detail(job, rig, "boom", "length"), usual["boom"] * overall),
        gooseneck=take.take("gooseneck", _detail(job, rig, "boom", "height"), usual["gooseneck"] * overall),
        sprit=take.take("sprit", _detail(job, rig, "bobstay", "sprit_length"), usual["sprit"] * overall)
        if rig.at("bobstay")
        else 0.0,
        spreaders=_spreaders(job, rig, height),
        stayed=_is_stayed(job, rig),
        masthead=masthead,
        given=(*first.given, *take.given),
    )


def _detail(job: Job, rig: Rig, place: str, detail: str) -> Value | None:
    found = (_value(job, part, detail) for part in rig.at(place))
    return next((value for value in found if value), None)


def _value(job: Job, part: Graded, detail: str) -> Value | None:
    fact = job.fact(part.component.id, detail)
    return fact.value if fact else None


def _is_stayed(job: Job, rig: Rig) -> bool:
    """A mast without stays is one that says so, and of which no stay is listed."""
    without = any(job.choice(part.component.id, "rig_form") == "unstayed" for part in rig.at("mast"))
    return not without or any(rig.at(place) for place in STAYS)


def _is_masthead(job: Job, rig: Rig) -> bool:
    forms = [form for part in rig.at("mast") if (form := job.choice(part.component.id, "rig_form"))]
    if forms:
        return forms[0] != "fractional"
    hounds, height = _detail(job, rig, "mast", "hounds"), _detail(job, rig, "mast", "height")
    if hounds and height and hounds.value < height.value:
        return False
    return not _FRACTIONAL.search(job.sheet.vessel.rig.lower())


def _spreaders(job: Job, rig: Rig, height: float) -> int:
    """Pairs as the mast says, else the highest pair that is listed, else one or two by the mast's height."""
    if "spreader" in rig.gone:
        return 0
    said = _detail(job, rig, "mast", "spreader_pairs")
    if said:
        # Spreaders that are listed are drawn, whatever the mast's own entry says.
        return min(max(int(said.value), 1 if rig.at("spreader") else 0), 6)
    listed = [int(value.value) for part in rig.at("spreader") if (value := _value(job, part, "pair"))]
    if listed:
        return min(max(listed), 6)
    return 1 if height < PROPORTIONS["tall"] else 2
