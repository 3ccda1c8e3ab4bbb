"""The sail plan in words: every part with its grade, from the bow aft, then from the deck up.

Comes in: a Job, the sorted rig and its sizes. Goes out: one text that says everything the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Job

from .rig_parts import Parts, Rig, grade_word
from .rig_sizes import Sizes

OPENING = "Sail plan from the side, bow to the left, and the rig from ahead beside it, to one scale."
GROUPS = (
    ("At the bow", ("forestay", "inner_forestay", "furler", "stem", "bobstay")),
    ("Mast and boom", ("mast", "mast_foot", "spreader", "boom")),
    (
        "Shrouds",
        ("cap_shroud", "intermediate", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate"),
    ),
    ("At the stern", ("backstay", "backstay_gear", "running_backs", "stern")),
)


def describe(job: Job, rig: Rig, size: Sizes, titles: dict[str, str], due: set[str]) -> str:
    """What the drawing shows, part by part."""
    sentences = [OPENING, _form(job, size)]
    for title, places in GROUPS:
        told = [
            each for place in places for each in _told(rig.at(place), titles[place] if place in due else "")
        ]
        sentences += [f"{title}: {'; '.join(told)}."] if told else []
    if rig.undrawn:
        sentences.append(f"Listed, not drawn: {'; '.join(_told(rig.undrawn, ''))}.")
    if rig.not_fitted:
        sentences.append(f"Not fitted: {'; '.join(part.title for part in rig.not_fitted)}.")
    return " ".join(sentences)


def _form(job: Job, size: Sizes) -> str:
    form = "masthead" if size.masthead else "fractional"
    pairs = "one pair of spreaders" if size.spreaders == 1 else f"{size.spreaders or 'no'} pairs of spreaders"
    rig = f"{form} rig with {pairs}" if size.stayed else "mast without stays"
    step = f", mast stepped on the {job.sheet.vessel.mast_step}" if job.sheet.vessel.mast_step else ""
    given = (
        f"Drawn to the {', '.join(size.given)} that were given; the rest is a sketch."
        if size.given
        else "A sketch, not to scale."
    )
    return f"Drawn as a {rig}{step}. {given}"


def _told(parts: Parts, name: str) -> Iterator[str]:
    if not parts and name:
        yield f"{name.lower()} not listed, drawn dashed"
    for part in parts:
        yield f"{part.title}: {grade_word(part)}"
