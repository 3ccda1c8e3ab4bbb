"""The boat on one page: her picture with a numbered disc where something comes first, the key to it, and photos of her.

Comes in: the picture of the whole boat that a system gives, with the place of each part. Goes out: one figure and its key. A
disc leads to where its part is told, and the part's place leads back; a part that has no place is told in the key alone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from reporter.model.assessment import Graded
from reporter.model.base import grouped
from reporter.model.drawing import NUMERALS, XY, Drawing, Ellipse, Numeral, Path, Shape
from reporter.model.report import Block, Figure, Heading, Paragraph, PhotoPair, Span
from reporter.model.terms import Grade
from reporter.outline.blocks import note
from reporter.outline.context import Context, Drawn
from reporter.outline.jobs import urgent
from reporter.outline.photos import of_the_boat
from reporter.outline.plainly import runs

FEW = 3
"""Up to so many parts nobody needs to be shown where they are."""
REACH, NARROW = 17.0, 30.0
"""How far apart discs stand, in units of the picture; on a page for the phone, where it is smaller, and they are not."""
ALONE, BESIDE_PHOTOS, LARGE = 0.8, 0.6, 0.06
"""How much of a page the picture may take, so that its key stands under it; a key in large print takes so much more."""
EDGE, ROUNDS, DIRECTIONS, NEAR = 10.0, 9, 16, 2.0


def write(context: Context) -> list[Block]:
    """The boat and the key; nothing where nothing comes first or no system can draw her."""
    picture = drawn(context)
    if not picture:
        return []
    numbers = _numbers(context)
    spots = {label.part: label.at for label in picture.labels if label.part in numbers}
    photos = shown(context)
    return [
        Heading(level=2, text=context.words("head.boat"), anchor="boat", new_page=True),
        *photos,
        Figure(
            drawing=_numbered(context, picture, numbers, spots),
            together=True,
            most=(BESIDE_PHOTOS if photos else ALONE) - LARGE * (context.job.sheet.text == "large"),
        ),
        _key(context, numbers, set(spots)),
        note(context.words("boat.key")),
    ]


def shown(context: Context) -> list[Block]:
    """The boat herself and the number on her hull, side by side."""
    photos = of_the_boat(context)
    if len(photos) > 1:
        return [PhotoPair(left=photos[0], right=photos[1], together=True)]
    return [photo.model_copy(update={"together": True}) for photo in photos]


def drawn(context: Context) -> Drawing | None:
    """The picture of the whole boat, where the report has one."""
    few = len(context.assessments.components) <= FEW
    if few or "boat" not in context.template.sections or not urgent(context):
        return None
    draw = next((system.overview for system in context.systems.values() if system.overview), None)
    return draw(context.job, context.assessments, Drawn(context)) if draw else None


def _numbers(context: Context) -> dict[str, list[int]]:
    """Part -> the numbers of what comes first there."""
    by_part = grouped(urgent(context), lambda job: job[0].component.id)
    return {ident: [action.number for _, action in own] for ident, own in by_part.items()}


def _key(context: Context, numbers: dict[str, list[int]], shown: set[str]) -> Paragraph:
    """Number and name of each part, leading to where it is told; what no drawing shows is said."""
    spans: list[Span] = []
    for ident, own in numbers.items():
        part = context.assessments.part(ident)
        if part:
            spans += [
                Span(text=f"{runs(own)}\u00a0", style="strong"),
                Span(text=part.title, href=f"#{context.home(part)}"),
                Span(text=" · "),
            ]
    hidden = [number for ident, own in numbers.items() if ident not in shown for number in own]
    last = Span(text=f". {context.words('boat.not_drawn', numbers=runs(hidden))}" if hidden else ".")
    return Paragraph(text=(*spans[:-1], last), together=True)


def _numbered(
    context: Context, picture: Drawing, numbers: dict[str, list[int]], spots: dict[str, XY]
) -> Drawing:
    """The picture with its discs, in words as well."""
    parts = [part for ident in numbers if (part := context.assessments.part(ident))]
    told = "; ".join(f"{runs(numbers[part.component.id])} {part.title}" for part in parts)
    alt = context.words("boat.alt", what=picture.alt, told=told, unseen=_unseen(context))
    apart = NARROW if context.job.sheet.page == "phone" else REACH
    discs: list[Shape] = []
    taken: list[XY] = []
    for part in parts:
        if part.component.id in spots:
            at = _free(spots[part.component.id], taken, (picture.width, picture.height), apart)
            taken.append(at)
            discs += _disc(context, part, spots[part.component.id], at, runs(numbers[part.component.id]))
    return picture.model_copy(update={"shapes": (*picture.shapes, *discs), "labels": (), "alt": alt})


def _unseen(context: Context) -> str:
    """The parts that were not, or not all, seen."""
    hidden = [
        part.title
        for part in context.fitted()
        if (part.grade is Grade.UNSEEN and not part.unjudged) or part.not_included
    ]
    return context.words.listed(hidden) if hidden else context.words("boat.nothing")


def _free(spot: XY, taken: list[XY], size: XY, apart: float) -> XY:
    """The place itself, or the nearest round it at which a disc hides no other."""
    return next(
        (
            at
            for at in _round(spot, apart)
            if all(math.dist(at, other) >= apart for other in taken)
            and EDGE <= at[0] <= size[0] - EDGE
            and EDGE <= at[1] <= size[1] - EDGE
        ),
        spot,
    )


def _round(spot: XY, apart: float) -> Iterator[XY]:
    """The place, then places on wider and wider rings."""
    yield spot
    for ring in range(2, ROUNDS):
        for step in range(DIRECTIONS):
            turn = 2 * math.pi * step / DIRECTIONS
            yield (spot[0] + ring * apart / 2 * math.cos(turn), spot[1] + ring * apart / 2 * math.sin(turn))


def _disc(context: Context, part: Graded, spot: XY, at: XY, number: str) -> list[Shape]:
    """The disc, and where it had to stand aside, a line to its place."""
    aside: list[Shape] = []
    if math.dist(spot, at) > NEAR:
        aside = [
            Path(points=(spot, at), weight="normal"),
            Ellipse(centre=spot, radii=(1.6, 1.6), weight="fine", fill="ink"),
        ]
    stops = any(action.grade is Grade.STOP for action in part.actions if action.is_open)
    grade = Grade.STOP if stops else Grade.FIRST
    href = f"#{context.home(part)}"
    return [*aside, Numeral(at=at, text=_in_a_disc(number), grade=grade, href=href, alt=part.title)]


def _in_a_disc(numbers: str) -> str:
    """The first of the numbers where a disc does not hold them all; the key beneath tells every one."""
    if len(numbers) <= NUMERALS:
        return numbers
    return f"{numbers[: NUMERALS - 2].rpartition(',')[0]}, …"
