"""A part's photos: context and close-up kept together, the deciding one large, captions with time and its basis."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, assert_never

from reporter.model.assessment import Graded
from reporter.model.photo import Mark, PhotoFile, PhotoUse, Ruler, Taken
from reporter.model.report import Block, Photo, PhotoPair, plain
from reporter.outline.blocks import sentence
from reporter.outline.context import BOAT, Context
from reporter.outline.plainly import runs
from reporter.wording import Catalogue, date
from reporter.wording.numbers import number


def photos(context: Context, part: Graded) -> Iterator[Block]:
    """The photos in the order given; two that follow each other as context and close-up make a pair."""
    waiting: Photo | None = None
    for place, use in enumerate(part.component.photos):
        photo = photo_of(context, part, place, use)
        if photo is None:
            continue
        if waiting is not None and use.shows == "close_up" and not use.decides:
            halves = [each.model_copy(update={"size": "half"}) for each in (waiting, photo)]
            yield PhotoPair(left=halves[0], right=halves[1])
            waiting = None
            continue
        if waiting is not None:
            yield waiting
        waiting = photo if use.shows == "context" and not use.decides else None
        if waiting is None:
            yield photo
    if waiting is not None:
        yield waiting


def in_pairs(found: list[Photo]) -> Iterator[Block]:
    """Photos two by two, the last three abreast where their number is odd; a single one has its caption beside it."""
    small = [photo.model_copy(update={"size": "half"}) for photo in found]
    odd = small[-3:] if len(small) > 1 and len(small) % 2 else []
    even = small[: len(small) - len(odd)]
    for left, right in zip(even[::2], even[1::2], strict=False):
        yield PhotoPair(left=left, right=right)
    if odd:
        yield PhotoPair(left=odd[0], right=odd[1], third=odd[2])
    if len(small) == 1:
        yield small[0]


def of_the_boat(context: Context) -> list[Photo]:
    """The photos of the boat herself and of the number on her hull, where they were given."""
    words, found = context.words, []
    for place, (key, name) in enumerate(context.job.sheet.vessel.photos.items()):
        if file := context.job.photo(name):
            said = words(f"photo.of_{key}", name=context.job.sheet.vessel.name)
            found.append(_block(context, file, context.plates[BOAT, place], said))
    return found


def _block(context: Context, file: PhotoFile, plate: int, said: str) -> Photo:
    """A photo without marks, small; when it was taken is told where the register is not near."""
    told = said if context.brief else f"{said} {taken_words(context, file)}"
    return Photo(
        file=file.name,
        sha256=file.sha256,
        width_px=file.width,
        height_px=file.height,
        plate=plate,
        caption=plain(context.words("photo.caption", number=plate, caption=told)),
        alt=context.words("photo.alt", number=plate, caption=said, marks=""),
        size="half",
    )


def photo_of(
    context: Context, part: Graded, place: int, use: PhotoUse, *, dated: bool = True
) -> Photo | None:
    """One use of a photo as a block, or None when its file is not there; `dated` tells when it was taken and how that is known."""
    file = context.job.photo(use.file)
    if file is None:
        return None
    plate = context.plates[part.component.id, place]
    caption = sentence(use.caption or context.words("photo.no_caption"))
    if dated and not context.brief:
        caption = f"{caption} {taken_words(context, file)}"
    if any(isinstance(mark, Ruler) and mark.length for mark in use.marks):
        caption = f"{caption} {context.words('photo.entered')}"
    marks = [text for mark in use.marks if (text := mark_in_words(context.words, mark))]
    marked = context.words("photo.marks", list=context.words.listed(marks)) if marks else ""
    return Photo(
        file=file.name,
        sha256=file.sha256,
        width_px=file.width,
        height_px=file.height,
        plate=plate,
        caption=plain(context.words("photo.caption", number=plate, caption=caption)),
        alt=context.words(
            "photo.alt", number=plate, caption=sentence(use.caption or part.title), marks=marked
        ),
        marks=use.marks,
        size="full" if use.decides else _size(context, part),
    )


def _size(context: Context, part: Graded) -> Literal["full", "column", "half"]:
    sizes = context.template.photo_sizes
    if part.grade == "stop":
        return sizes.get("stop", "full")
    return sizes.get("first", "column") if part.grade == "first" else sizes.get("other", "column")


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
    basis = context.words(f"photo.basis_{taken.offset_basis}")
    if taken.correction:
        basis = f"{basis}; {corrected(taken.correction, context.words)}"
    return context.words("photo.when", when=clock(taken), basis=basis)


def taken_at(context: Context, file: PhotoFile) -> str:
    """When a photo was taken; how that is known is told once for many of them by `known_by`."""
    taken = file.taken
    return clock(taken) if taken else context.words("photo.no_time")


def known_by(context: Context, plates: Sequence[tuple[int, PhotoFile]]) -> str:
    """How the times of photos are known, told once for all of which the same is known; "" where none has a time."""
    words = context.words
    same: dict[str, list[int]] = {}
    for plate, file in plates:
        if taken := file.taken:
            basis = words(f"photo.basis_{taken.offset_basis}")
            said = f"{basis}; {corrected(taken.correction, words)}" if taken.correction else basis
            same.setdefault(said, []).append(plate)
    told = [words("photo.known", numbers=runs(found), basis=said) for said, found in same.items()]
    return " ".join([words("photo.known_by"), *told]) if told else ""


def corrected(seconds: float, words: Catalogue) -> str:
    """How far a camera's clock was off, in hours and minutes; `seconds` were added to what it showed."""
    minutes = round(abs(seconds) / 60)
    hours, rest = divmod(minutes, 60)
    time = words("photo.seconds", seconds=number(abs(seconds), decimals=0))
    if minutes:
        time = (
            words("photo.hours", hours=hours, minutes=rest) if hours else words("photo.minutes", minutes=rest)
        )
    return words("photo.behind" if seconds > 0 else "photo.ahead", time=time)


def clock(taken: Taken) -> str:
    """Date, time and offset: "12 May 2026, 10:42 +01:00"."""
    hours, minutes = divmod(abs(taken.offset_minutes), 60)
    sign = "+" if taken.offset_minutes >= 0 else "−"
    return f"{date(taken.time.date())}, {taken.time:%H:%M} {sign}{hours:02d}:{minutes:02d}"
