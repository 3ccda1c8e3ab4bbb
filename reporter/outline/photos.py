"""A part's photos: context and close-up kept together, the deciding one large, captions with time and its basis."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, assert_never

from reporter.model.assessment import Graded
from reporter.model.base import grouped
from reporter.model.photo import Mark, PhotoFile, PhotoUse, Ruler, Taken
from reporter.model.report import Block, Photo, PhotoPair, Span, plain, words_of
from reporter.model.terms import Grade
from reporter.outline.blocks import heading, note, sentence
from reporter.outline.context import BOAT, Context
from reporter.outline.plainly import runs
from reporter.wording import Catalogue, date
from reporter.wording.numbers import number


def photos(context: Context, part: Graded) -> Iterator[Block]:
    """The photos in the order given; two that follow each other as context and close-up make a pair."""
    waiting: Photo | None = None
    for use, photo in shown(context, part):
        if waiting and use.shows == "close_up" and not use.decides:
            yield PhotoPair(left=small(waiting), right=small(photo))
            waiting = None
            continue
        if waiting:
            yield waiting
        waiting = photo if use.shows == "context" and not use.decides else None
        if waiting is None:
            yield photo
    if waiting:
        yield waiting


def shown(context: Context, part: Graded) -> list[tuple[PhotoUse, Photo]]:
    """Each use of a photo whose file is there, with its block."""
    uses = [(use, photo_of(context, part, place, use)) for place, use in enumerate(part.component.photos)]
    return [(use, photo) for use, photo in uses if photo]


def small(photo: Photo) -> Photo:
    """The photo as it stands beside another."""
    return photo.model_copy(update={"size": "half"})


def in_pairs(found: list[Photo]) -> Iterator[Block]:
    """Photos two by two, the last three abreast where their number is odd; a single one has its caption beside it."""
    halves = [small(photo) for photo in found]
    if len(halves) == 1:
        yield halves[0]
        return
    odd = halves[-3:] if len(halves) % 2 else []
    even = halves[: len(halves) - len(odd)]
    for left, right in zip(even[::2], even[1::2], strict=True):
        yield PhotoPair(left=left, right=right)
    if odd:
        yield PhotoPair(left=odd[0], right=odd[1], third=odd[2])


def of_the_boat(context: Context) -> list[Photo]:
    """The photos of the boat herself and of the number on her hull, where they were given."""
    words, found = context.words, []
    for place, (key, name) in enumerate(context.job.sheet.vessel.photos.items()):
        if file := context.job.photo(name):
            said = words(f"photo.of_{key}", name=context.job.sheet.vessel.name)
            # When it was taken is told where the register is not near.
            told = said if context.brief else f"{said} {taken_words(context, file)}"
            found.append(small(photo_block(words, file, context.plates[BOAT, place], told, alt=said)))
    return found


def photo_block(
    words: Catalogue, file: PhotoFile, plate: int, caption: str, *, alt: str, marks: tuple[Mark, ...] = ()
) -> Photo:
    """A photo with its number, its caption, and what stands for it where it is not seen: `alt`, and its marks in words."""
    told = [text for mark in marks if (text := mark_in_words(words, mark))]
    marked = words("photo.marks", list=words.listed(told)) if told else ""
    return Photo(
        file=file.name,
        sha256=file.sha256,
        width_px=file.width,
        height_px=file.height,
        plate=plate,
        caption=plain(words("photo.caption", number=plate, caption=caption)),
        alt=words("photo.alt", number=plate, caption=alt, marks=marked),
        marks=marks,
    )


def photo_of(
    context: Context, part: Graded, place: int, use: PhotoUse, *, dated: bool = True
) -> Photo | None:
    """One use of a photo as a block, or None when its file is not there; `dated` tells when it was taken and how that is known."""
    file = context.job.photo(use.file)
    if file is None:
        return None
    caption = sentence(use.caption or context.words("photo.no_caption"))
    if dated and not context.brief:
        caption = f"{caption} {taken_words(context, file)}"
    if any(isinstance(mark, Ruler) and mark.length for mark in use.marks):
        caption = f"{caption} {context.words('photo.entered')}"
    plate, alt = context.plates[part.component.id, place], sentence(use.caption or part.title)
    photo = photo_block(context.words, file, plate, caption, alt=alt, marks=use.marks)
    size = "full" if use.decides else _size(context, part)
    return photo.model_copy(update={"size": size})


def _size(context: Context, part: Graded) -> Literal["full", "column", "half"]:
    sizes = context.template.photo_sizes
    if part.grade == "stop":
        return sizes.get("stop", "full")
    return sizes.get("first" if part.grade == "first" else "other", "column")


def mark_in_words(words: Catalogue, mark: Mark) -> str:
    """A mark in words, for the alternative text."""
    match mark.kind:
        case "label":
            return words("photo.label", text=mark.text)
        case "line":
            return words("photo.line", length=mark.length) if mark.length else words("photo.line_plain")
        case "inset":
            return words("photo.inset")
        case "blur":
            return ""
        case "ring" | "box" | "arrow":
            numbered = f"photo.{mark.kind}" if mark.callout else f"photo.{mark.kind}_plain"
            return words(numbered, number=mark.callout)
        case _:
            assert_never(mark)


def taken_words(context: Context, file: PhotoFile) -> str:
    """When a photo was taken and how that is known; or that the file does not say."""
    taken = file.taken
    if taken is None:
        return context.words("photo.no_time")
    return context.words("photo.when", when=clock(taken), basis=_basis(taken, context.words))


def _basis(taken: Taken, words: Catalogue) -> str:
    """How a time is known, and by how much it was set right."""
    basis = words(f"photo.basis_{taken.offset_basis}")
    return f"{basis}; {corrected(taken.correction, words)}" if taken.correction else basis


def taken_at(context: Context, file: PhotoFile) -> str:
    """When a photo was taken; how that is known is told once for many of them by `known_by`."""
    taken = file.taken
    return clock(taken) if taken else context.words("photo.no_time")


def known_by(context: Context, plates: Sequence[tuple[int, PhotoFile]]) -> str:
    """How the times of photos are known, told once for all of which the same is known; "" where none has a time."""
    words = context.words
    known = [(plate, _basis(file.taken, words)) for plate, file in plates if file.taken]
    told = [
        words("photo.known", numbers=runs([plate for plate, _ in same]), basis=basis)
        for basis, same in grouped(known, lambda each: each[1]).items()
    ]
    return " ".join([words("photo.known_by"), *told]) if told else ""


def corrected(seconds: float, words: Catalogue) -> str:
    """How far a camera's clock was off, in hours and minutes; `seconds` were added to what it showed."""
    hours, minutes = divmod(round(abs(seconds) / 60), 60)
    time = words("photo.seconds", seconds=number(abs(seconds), decimals=0))
    if hours or minutes:
        time = words("photo.hours" if hours else "photo.minutes", hours=hours, minutes=minutes)
    return words("photo.behind" if seconds > 0 else "photo.ahead", time=time)


def clock(taken: Taken) -> str:
    """Date, time and offset: "12 May 2026, 10:42 +01:00"."""
    hours, minutes = divmod(abs(taken.offset_minutes), 60)
    sign = "+" if taken.offset_minutes >= 0 else "−"
    return f"{date(taken.time.date())}, {taken.time:%H:%M} {sign}{hours:02d}:{minutes:02d}"


def gravest(context: Context) -> list[Block]:
    """The deciding photo of every part graded `stop` or `first`, for templates that tell no part in full."""
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
