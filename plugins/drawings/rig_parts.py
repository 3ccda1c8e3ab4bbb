"""The parts of a standing rig sorted into the places of its drawing.

Comes in: a Job and its Assessments. Goes out: parts by place, and those that the drawing has no place for. A stay whose
role nobody gave is placed by its name where that tells it. It draws nothing and grades nothing.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from reporter.contract import Assessments, DrawingWords, Extent, Graded, Job, on_mizzen

from .naming import Parts

PLACES = (
    "forestay", "inner_forestay", "furler", "stem", "bobstay", "mast", "boom", "mast_foot", "spreader", "cap_shroud",
    "intermediate", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate", "backstay", "backstay_gear",
    "running_backs", "stern",
)  # fmt: skip
US = {"cap_shroud", "rigging_screw"}
"""Places that have another name in the US."""
_ROLES = {
    "forestay": "forestay", "inner_forestay": "inner_forestay", "backstay": "backstay", "cap_shroud": "cap_shroud",
    "intermediate": "intermediate", "lower": "lower", "forward_lower": "lower", "aft_lower": "lower",
}  # fmt: skip
_NAMED = (
    ("inner_forestay", r"inner|baby|cutter stay"),
    ("forestay", r"forestay|headstay"),
    ("backstay", r"backstay"),
    ("intermediate", r"intermediate|diagonal"),
    ("cap_shroud", r"\bcaps?\b|upper shroud|uppers"),
    ("lower", r"lower"),
)
_PLATES = {"stem": "stem", "stern": "stern", "shrouds": "chainplate", "inner": "chainplate"}
_OWN = {
    "furler", "bobstay", "mast", "boom", "mast_foot", "spreader", "rigging_screw", "running_backs",
}  # fmt: skip


class Rig(NamedTuple):
    """Parts by place, parts without one, and the places that stay empty because the boat has no such part."""

    places: dict[str, Parts]
    undrawn: Parts
    not_fitted: Parts
    gone: frozenset[str]
    mizzen: dict[str, Parts] = {}
    """Parts of the mizzen by place; those whose place nothing tells under ""."""

    def at(self, place: str) -> Parts:
        """The parts of one place."""
        return self.places.get(place, ())


def titles(terms: str, told: DrawingWords) -> dict[str, str]:
    """What each place is called where no part of it names it."""
    return {
        place: told.say(f"drawing.part_{place}{'_us' if terms == 'us' and place in US else ''}")
        for place in PLACES
    }


def sorted_parts(job: Job, assessments: Assessments) -> Rig | None:
    """The rig's parts in their places; None when the job lists none."""
    parts = [part for part in assessments.components if part.system == "rig"]
    if not parts:
        return None
    places: dict[str, list[Graded]] = {}
    mizzen: dict[str, list[Graded]] = {}
    undrawn: list[Graded] = []
    absent: list[Graded] = []
    for part in parts:
        place = place_of(job, part)
        if part.component.examined.extent is Extent.NOT_FITTED:
            absent.append(part)
        elif of_mizzen(job, part):
            mizzen.setdefault(place, []).append(part)
        else:
            places.setdefault(place, []).append(part) if place else undrawn.append(part)
    drawn = {place: tuple(found) for place, found in places.items()}
    gone = frozenset(place_of(job, part) for part in absent if not of_mizzen(job, part)) - set(drawn)
    aft = {place: tuple(found) for place, found in mizzen.items()}
    return Rig(drawn, tuple(undrawn), tuple(absent), gone, aft)


def place_of(job: Job, part: Graded) -> str:
    """The place that a part is drawn at; "" where nothing tells it."""
    kind = part.component.kind
    if kind in _OWN:
        return kind
    if kind == "backstay":
        return "backstay_gear"
    if kind == "chainplate":
        return _PLATES.get(job.choice(part.component.id, "holds"), "chainplate")
    if kind == "terminal":
        return _end(job, part)
    if kind in {"standing_wire", "rod"}:
        return _ROLES.get(job.choice(part.component.id, "role")) or _by_name(part)
    return ""


def _end(job: Job, part: Graded) -> str:
    position = job.choice(part.component.id, "position")
    aloft = position in {"upper", "spreader"} or (
        not position and re.search(r"upper end|aloft|masthead|tang", _words(part))
    )
    return "upper_ends" if aloft else "lower_ends"


def _by_name(part: Graded) -> str:
    words = _words(part)
    return next((place for place, pattern in _NAMED if re.search(pattern, words)), "")


def _words(part: Graded) -> str:
    component = part.component
    return f"{component.name} {component.id} {component.place}".lower().replace("_", " ").replace("-", " ")


def of_mizzen(job: Job, part: Graded) -> bool:
    """Whether a part of the rig belongs to the mizzen, by its words or those of the mast that it is part of."""
    return part.system == "rig" and on_mizzen(part.component, job.by_id)
