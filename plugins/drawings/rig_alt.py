"""The sail plan in words: every part with its grade, from the bow aft, then from the deck up.

Comes in: a Job, the sorted rig and its sizes. Goes out: one text that says everything the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Job, Told

from .naming import NOT_LISTED, Parts
from .rig_parts import Rig
from .rig_sizes import Sizes

OPENING = "The rig from the side, bow to the left; beside it, to the same scale, from ahead, with starboard on the left."
GROUPS = (
    ("At the bow", ("forestay", "inner_forestay", "furler", "stem", "bobstay")),
    ("Mast and boom", ("mast", "mast_foot", "spreader", "boom")),
    (
        "Shrouds",
        ("cap_shroud", "intermediate", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate"),
    ),
    ("At the stern", ("backstay", "backstay_gear", "running_backs", "stern")),
)


def describe(job: Job, rig: Rig, size: Sizes, titles: dict[str, str], due: set[str], told: Told) -> str:
    """What the drawing shows, part by part."""
    sentences = [OPENING, _form(job, size)]
    for title, places in GROUPS:
        said = [
            each
            for place in places
            for each in _said(rig.at(place), titles[place] if place in due else "", told)
        ]
        sentences += [f"{title}: {'; '.join(said)}."] if said else []
    if rig.undrawn:
        sentences.append(f"Listed, not drawn: {'; '.join(_said(rig.undrawn, '', told))}.")
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


def _said(parts: Parts, name: str, told: Told) -> Iterator[str]:
    if not parts and name:
        yield f"{name.lower()} {NOT_LISTED}, drawn dashed"
    for part in parts:
        yield f"{part.title}: {told(part)}"
