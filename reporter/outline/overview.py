"""The boat on one page: the systems' drawings without their labels, with a numbered disc where something comes first.

Comes in: each system's drawing of itself. Goes out: one figure and its key. A disc stands at the place that the part's
label means; a part that no label names is told in the key alone.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from reporter.model.assessment import Graded, SystemGrade
from reporter.model.drawing import XY, Arc, Drawing, Ellipse, Label, Path, Shape, Sign, Words
from reporter.model.report import Block, Figure, Heading, Paragraph, Span
from reporter.model.terms import Grade
from reporter.outline.context import Context, Drawn
from reporter.outline.decision import urgent
from reporter.outline.plainly import runs

WIDTH = 482.0
"""The drawing's width in its own units; the text block is as wide in points, so that sizes of type hold."""
GAP = 14.0
TITLE = 16.0
DISC = 7.0
FEW = 3
"""Up to so many parts nobody needs to be shown where they are."""


def write(context: Context) -> list[Block]:
    """The overview; nothing where nothing comes first or no system draws itself."""
    numbers: dict[str, list[int]] = {}
    for action, part in urgent(context):
        numbers.setdefault(part.component.id, []).append(action.number)
    drawn = [
        (system, drawing)
        for system in context.assessments.systems
        if system.components and (drawing := _drawn(context, system))
    ]
    if not numbers or not drawn or len(context.assessments.components) <= FEW:
        return []
    title = Heading(level=2, text=context.words("head.boat"), anchor="boat")
    shown = {
        part.component.id
        for system, drawing in drawn
        for part in context.fitted()
        if part.system == system.id and _of(part, drawing.labels)
    }
    return [title, Figure(drawing=_sheet(context, drawn, numbers)), _key(context, numbers, shown)]


def _drawn(context: Context, system: SystemGrade) -> Drawing | None:
    return context.systems[system.id].draw(context.job, context.assessments, Drawn(context))


def _key(context: Context, numbers: dict[str, list[int]], shown: set[str]) -> Paragraph:
    """Number and name of each part, leading to where it is told; what no drawing shows is said."""
    spans: list[Span] = []
    for ident, own in numbers.items():
        part = context.assessments.part(ident)
        if part:
            spans += [
                Span(text=f"{runs(own)} ", style="strong"),
                Span(text=part.title, href=f"#{context.home(part)}"),
                Span(text=" · "),
            ]
    hidden = [number for ident, own in numbers.items() if ident not in shown for number in own]
    last = Span(text=f". {context.words('boat.not_drawn', numbers=runs(hidden))}" if hidden else ".")
    return Paragraph(text=(*spans[:-1], last))


def _sheet(
    context: Context, drawn: Sequence[tuple[SystemGrade, Drawing]], numbers: dict[str, list[int]]
) -> Drawing:
    """The drawings two abreast, each under its system's title."""
    abreast = 2 if len(drawn) > 1 else 1
    wide = (WIDTH - GAP * (abreast - 1)) / abreast
    shapes: list[Shape] = []
    top = 0.0
    for start in range(0, len(drawn), abreast):
        row = drawn[start : start + abreast]
        scales = [wide / drawing.width for _, drawing in row]
        for place, ((system, drawing), scale) in enumerate(zip(row, scales, strict=True)):
            left = place * (wide + GAP)
            shapes.append(Words(at=(left, top + 9), text=system.title, strong=True))
            parts = [
                part for part in context.fitted() if part.system == system.id and part.component.id in numbers
            ]
            shapes += _placed(_bare(drawing, parts, numbers, scale), scale, (left, top + TITLE))
        top += (
            TITLE + max(drawing.height * scale for (_, drawing), scale in zip(row, scales, strict=True)) + GAP
        )
    told = "; ".join(
        f"{runs(own)} {part.title}"
        for ident, own in numbers.items()
        if (part := context.assessments.part(ident))
    )
    return Drawing(width=WIDTH, height=top, shapes=tuple(shapes), alt=context.words("boat.alt", told=told))


def _bare(drawing: Drawing, parts: list[Graded], numbers: dict[str, list[int]], scale: float) -> list[Shape]:
    """The drawing without its labels, a disc at each place that they mean."""
    kept: list[Shape] = [shape for shape in drawing.shapes if not isinstance(shape, Words | Sign)]
    taken: list[XY] = []
    for part in parts:
        if label := _of(part, drawing.labels):
            spot = _clear_of(taken, label.at, 2.4 * DISC / scale)
            taken.append(spot)
            kept += _disc(spot, runs(numbers[part.component.id]), part.grade, scale)
    return kept


def _of(part: Graded, labels: Sequence[Label]) -> Label | None:
    """The part's own label; where several parts share one, that of its grade that has most words of its title."""
    own = next((label for label in labels if label.part == part.component.id), None)
    if own:
        return own
    wanted = _stems(part.title)
    same = [(len(wanted & _stems(label.text)), label) for label in labels if label.grade is part.grade]
    best = max(same, key=lambda pair: pair[0], default=(0, None))
    return best[1] if best[0] else None


def _stems(text: str) -> set[str]:
    return {word[:5].lower() for word in re.findall(r"\w{4,}", text)}


def _clear_of(taken: list[XY], spot: XY, reach: float) -> XY:
    """The place, moved down until it hides no disc that stands already."""
    while any(math.dist(spot, other) < reach for other in taken):
        spot = (spot[0], spot[1] + reach / 4)
    return spot


def _disc(spot: XY, number: str, grade: Grade, scale: float) -> list[Shape]:
    """A disc in the grade's colour that keeps its size on paper whatever the drawing's scale."""
    wide = DISC + 2.4 * max(len(number) - 2, 0)
    return [
        Ellipse(
            centre=spot,
            radii=(wide / scale, DISC / scale),
            stroke="white",
            fill="stop" if grade is Grade.STOP else "first",
        ),
        Words(at=(spot[0], spot[1] + 2.9 / scale), text=number, anchor="middle", strong=True, ink="white"),
    ]


def _placed(shapes: list[Shape], scale: float, corner: XY) -> list[Shape]:
    """The shapes, scaled and moved; type keeps its size."""

    def at(point: XY) -> XY:
        return (corner[0] + point[0] * scale, corner[1] + point[1] * scale)

    placed: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Path):
            placed.append(shape.model_copy(update={"points": tuple(at(point) for point in shape.points)}))
        elif isinstance(shape, Ellipse):
            radii = (shape.radii[0] * scale, shape.radii[1] * scale)
            placed.append(shape.model_copy(update={"centre": at(shape.centre), "radii": radii}))
        elif isinstance(shape, Arc):
            update = {"centre": at(shape.centre), "radius": shape.radius * scale}
            placed.append(shape.model_copy(update=update))
        else:
            placed.append(shape.model_copy(update={"at": at(shape.at)}))
    return placed
