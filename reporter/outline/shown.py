"""What the gravest parts look like: a photo or two of each, small, with the finding; the rest stands in the attached data.

Comes in: the context. Goes out: photos in pairs. For templates that tell no part in full.
"""

from __future__ import annotations

from reporter.model.assessment import Graded
from reporter.model.report import Block, Photo, Span, words_of
from reporter.model.terms import Grade
from reporter.outline.blocks import heading, note
from reporter.outline.context import Context
from reporter.outline.photos import in_pairs, known_by, photo_of, taken_at


def write(context: Context) -> list[Block]:
    """The deciding photo of every part graded `stop` or `first`; nothing where no such part was photographed."""
    parts = [*context.with_grade(Grade.STOP), *context.with_grade(Grade.FIRST)]
    found = [photo for part in parts if (photo := decisive(context, part))]
    if not found:
        return []
    files = [(photo.plate, file) for photo in found if (file := context.job.photo(photo.file))]
    known = known_by(context, files)
    return [heading(context, "shown"), *([note(known)] if known else []), *in_pairs(found)]


def decisive(context: Context, part: Graded) -> Photo | None:
    """The part's deciding photo, or else its last (the close-up follows the context), with part and grade named."""
    uses = sorted(enumerate(part.component.photos), key=lambda pair: (not pair[1].decides, -pair[0]))
    words = context.words
    for place, use in uses:
        photo, file = photo_of(context, part, place, use, dated=False), context.job.photo(use.file)
        if photo is None or file is None:
            continue
        name = f"{part.title}, {context.grade_word(part)}. "
        lead = Span(text=words("photo.caption", number=photo.plate, caption=name), style="strong")
        said = words_of(photo.caption)
        said = said.removeprefix(words("photo.caption", number=photo.plate, caption=""))
        text = (lead, Span(text=f"{said} {taken_at(context, file)}."))
        return photo.model_copy(update={"size": "half", "caption": text})
    return None
