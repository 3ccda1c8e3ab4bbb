"""What the gravest parts look like: a photo or two of each, small, with the finding; the rest stands in the attached data.

Comes in: the context. Goes out: photos in pairs. For templates that tell no part in full.
"""

from __future__ import annotations

from reporter.model.assessment import Graded
from reporter.model.report import Block, Photo, Span
from reporter.model.terms import Grade
from reporter.outline.blocks import heading
from reporter.outline.context import Context
from reporter.outline.photos import in_pairs, photo_of


def write(context: Context) -> list[Block]:
    """The deciding photo of every part graded `stop` or `first`; nothing where no such part was photographed."""
    parts = [*context.with_grade(Grade.STOP), *context.with_grade(Grade.FIRST)]
    found = [photo for part in parts if (photo := decisive(context, part))]
    return [heading(context, "shown"), *in_pairs(found)] if found else []


def decisive(context: Context, part: Graded) -> Photo | None:
    """The part's deciding photo, or else its last (the close-up follows the context), with part and grade named."""
    uses = sorted(enumerate(part.component.photos), key=lambda pair: (not pair[1].decides, -pair[0]))
    photo = next((found for place, use in uses if (found := photo_of(context, part, place, use))), None)
    if photo is None:
        return None
    lead = Span(text=f"{part.title}, {context.grade_word(part)}. ", style="strong")
    return photo.model_copy(update={"size": "half", "caption": (lead, *photo.caption)})
