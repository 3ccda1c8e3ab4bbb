"""Drawings painted from their primitives.

Comes in: a `Drawing` in its own units with y downwards. Goes out: painting inside a mark that the caller opened. Sizes of words
are points on the page whatever the scale. Must not decide where the drawing stands.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import singledispatchmethod
from typing import TypeGuard

from reporter.model.drawing import LEFT_OF, XY, Arc, Drawing, Ellipse, Ink, Numeral, Path, Shape, Sign, Words
from reporter.typeset.glyphs import text_width
from reporter.typeset.lettering import Lettering, letter
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.signs import paint_numeral, paint_sign
from reporter.typeset.styles import INKS, LEAST_SIZE, RGB, WEIGHTS, WHITE, Type
from reporter.typeset.tags import Tag

_TRIES, _LEAST = 3, 0.7


def lettered(drawing: Drawing, room: XY, context: PrintContext) -> tuple[float, Lettering]:
    """The scale at which a drawing fits the room's width and, with the key of its labels, its height; and its lettering."""
    wide, tallest = room
    scale = min(wide / max(drawing.width, 1e-6), tallest / max(drawing.height, 1e-6))
    lettering = letter(drawing, scale, context.clean)
    for _ in range(_TRIES):
        most = (tallest - lettering.key) / max(drawing.height, 1e-6)
        if most >= scale:
            break
        scale = max(most, scale * _LEAST)
        lettering = letter(drawing, scale, context.clean)
    return scale, lettering


@dataclass(frozen=True, slots=True)
class Easel:
    """Where a drawing stands: upper left corner on the page, points per drawing unit."""

    context: PrintContext
    pen: Pen
    corner: XY
    scale: float

    def draw(self, drawing: Drawing, lettering: Lettering) -> None:
        """Paint every shape in order, but for numerals that lead somewhere; then the labels, which are set in points."""
        for shape in drawing.shapes:
            if not leads(shape):
                self.show(shape)
        on_top = replace(self, scale=1.0)
        for shape in lettering.shapes:
            on_top.show(shape)

    def link(self, shape: Numeral, owner: Tag) -> None:
        """Paint a numeral as a link of its own within the figure `owner`; call it outside the figure's mark."""
        tag = Tag("Link", owner)
        with self.pen.mark(tag):
            corner, size = paint_numeral(self.pen, self._at(shape.at), shape.text, shape.grade)
        href = self.context.address(shape.href)
        self.pen.canvas.link(tag, self.pen.box(*corner, *size), href, f"{shape.text} {shape.alt}".strip())

    def _at(self, point: XY) -> XY:
        return (self.corner[0] + point[0] * self.scale, self.corner[1] + point[1] * self.scale)

    @singledispatchmethod
    def show(self, shape: object) -> None:
        """Paint one shape."""
        message = f"unknown shape {type(shape).__name__}"
        raise TypeError(message)

    @show.register
    def _(self, shape: Path) -> None:
        self.pen.path(
            [self._at(point) for point in shape.points],
            stroke=_ink(shape.stroke),
            fill=_ink(shape.fill),
            weight=WEIGHTS[shape.weight],
            closed=shape.closed,
            dashed=shape.dashed,
        )

    @show.register
    def _(self, shape: Ellipse) -> None:
        self.pen.ellipse(
            self._at(shape.centre),
            (shape.radii[0] * self.scale, shape.radii[1] * self.scale),
            stroke=_ink(shape.stroke),
            fill=_ink(shape.fill),
            weight=WEIGHTS[shape.weight],
            dashed=shape.dashed,
        )

    @show.register
    def _(self, shape: Arc) -> None:
        ink = _ink(shape.stroke)
        if ink is not None:
            self.pen.arc(
                self._at(shape.centre),
                shape.radius * self.scale,
                shape.start,
                shape.sweep,
                ink,
                WEIGHTS[shape.weight],
                dashed=shape.dashed,
            )

    @show.register
    def _(self, shape: Words) -> None:
        size = max(shape.size, LEAST_SIZE)
        kind = Type(
            "Semibold" if shape.strong else "Regular", size, size * 1.3, _ink(shape.ink) or INKS["ink"]
        )
        text = self.context.clean(shape.text).replace("\n", " ")
        x, base = self._at(shape.at)
        if shape.plate:
            wide = text_width(text, kind)
            left = x - LEFT_OF[shape.anchor] * wide
            self.pen.rectangle(
                (left - 2, base - size * 0.85), (wide + 4, size * 1.15), fill=WHITE, opacity=0.85
            )
        self.pen.words(text, kind, x, base, shape.anchor)

    @show.register
    def _(self, shape: Sign) -> None:
        side = shape.side * self.scale
        x, y = self._at(shape.at)
        paint_sign(self.pen, (x - side / 2, y - side / 2), side, shape.grade)

    @show.register
    def _(self, shape: Numeral) -> None:
        paint_numeral(self.pen, self._at(shape.at), self.context.clean(shape.text), shape.grade)


def leads(shape: Shape) -> TypeGuard[Numeral]:
    """Whether the shape is a numeral that leads somewhere."""
    return isinstance(shape, Numeral) and bool(shape.href)


def _ink(name: Ink) -> RGB | None:
    return None if name == "none" else INKS[name]
