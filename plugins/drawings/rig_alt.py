"""The sail plan in words: every part with its grade, from the bow aft, then from the deck up.

Comes in: a Job, the sorted rig and its sizes. Goes out: one text that says everything the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import DrawingWords, Job

from .naming import Parts, sentence
from .rig_parts import Rig
from .rig_sizes import Sizes

GROUPS = (
    ("drawing.rig_bow", ("forestay", "inner_forestay", "furler", "stem", "bobstay")),
    ("drawing.rig_mast", ("mast", "mast_foot", "spreader", "boom")),
    (
        "drawing.rig_shrouds",
        ("cap_shroud", "intermediate", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate"),
    ),
    ("drawing.rig_stern", ("backstay", "backstay_gear", "running_backs", "stern")),
)


def describe(
    job: Job, rig: Rig, size: Sizes, titles: dict[str, str], due: set[str], told: DrawingWords
) -> str:
    """What the drawing shows, part by part."""
    sentences = [told.say("drawing.rig_opening"), _form(job, size, told)]
    for group, places in GROUPS:
        said = [
            each
            for place in places
            for each in _said(rig.at(place), titles[place] if place in due else "", told)
        ]
        sentences += [sentence(told.say(group), said)] if said else []
    if aft := [part for parts in rig.mizzen.values() for part in parts]:
        sentences.append(sentence(told.say("drawing.rig_mizzen"), _said(tuple(aft), "", told)))
    if rig.undrawn:
        sentences.append(sentence(told.say("drawing.undrawn"), _said(rig.undrawn, "", told)))
    if rig.not_fitted:
        sentences.append(sentence(told.say("drawing.not_fitted"), [part.title for part in rig.not_fitted]))
    return " ".join(sentences)


def _form(job: Job, size: Sizes, told: DrawingWords) -> str:
    step = told.say(f"drawing.rig_step_{job.sheet.vessel.mast_step}") if job.sheet.vessel.mast_step else ""
    sizes = ", ".join(told.say(f"drawing.size_{name}") for name in size.given)
    given = told.say("drawing.rig_given", sizes=sizes) if sizes else told.say("drawing.rig_sketch")
    if not size.stayed:
        return told.say("drawing.rig_unstayed", step=step, given=given)
    many = {0: "none", 1: "one"}.get(size.spreaders, "many")
    spreaders = told.say(f"drawing.rig_spreaders_{many}", count=size.spreaders)
    form = "drawing.rig_masthead" if size.masthead else "drawing.rig_fractional"
    return told.say(form, spreaders=spreaders, step=step, given=given)


def _said(parts: Parts, name: str, told: DrawingWords) -> Iterator[str]:
    if not parts and name:
        yield told.say("drawing.dashed", title=name)
    for part in parts:
        yield f"{part.title}: {told(part)}"
