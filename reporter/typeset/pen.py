"""The pen: the few strokes that blocks paint with, measured downwards from the top left corner of the page.

Comes in: points with y downwards. Goes out: painting on the tagged canvas. Text of lines marks itself; everything
else is painted inside a mark that the caller opened. Must not know blocks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from itertools import groupby
from pathlib import Path

from reporter.model.drawing import LEFT_OF, XY, Anchor
from reporter.typeset.canvas import TaggedCanvas
from reporter.typeset.glyphs import face_name, text_width
from reporter.typeset.look import Look
from reporter.typeset.setting import Piece, SetLine
from reporter.typeset.styles import INK, RGB, RISE, Type
from reporter.typeset.tags import Artifact, Tag

_DASHES = [2.4, 1.8]


class Pen:
    """Paints on one canvas; `left` is the block's left edge, `page` the page's width and height in points."""

    def __init__(self, canvas: TaggedCanvas, look: Look) -> None:
        self.canvas = canvas
        self.look = look
        self.page = look.size
        self.left = look.left

    def mark(self, owner: Tag | Artifact) -> AbstractContextManager[None]:
        """Everything painted inside belongs to `owner`."""
        return self.canvas.mark(owner)

    def box(self, x: float, y: float, wide: float, high: float) -> tuple[float, float, float, float]:
        """The rectangle with its top left corner at x, y in page points from the lower left corner."""
        low = self.page[1] - y - high
        return (round(x, 3), round(low, 3), round(x + wide, 3), round(low + high, 3))

    def line(self, line: SetLine, x: float, top: float, leading: float) -> None:
        """A set line with its upper edge at `top`: each run goes to its own tag, links get their annotation."""
        for tag, group in groupby(line.pieces, key=lambda piece: piece.run.tag):
            pieces = list(group)
            with self.mark(tag):
                self._pieces(pieces, x, top + leading / 2)
            for piece in pieces:
                if piece.run.href:
                    self._link(piece, x, top, leading)

    def words(self, text: str, kind: Type, x: float, base: float, anchor: Anchor = "start") -> None:
        """A few words on a baseline, inside an open mark."""
        # The space keeps words apart for whoever reads the text and not the picture.
        self._string(f"{text} ", kind, x - LEFT_OF[anchor] * text_width(text, kind), base)

    def rule(self, start: XY, end: XY, weight: float, ink: RGB, *, dashed: bool = False) -> None:
        """A straight line."""
        self.path([start, end], stroke=ink, weight=weight, dashed=dashed)

    def path(
        self,
        points: Sequence[XY],
        *,
        stroke: RGB | None = None,
        fill: RGB | None = None,
        weight: float = 0.7,
        closed: bool = False,
        dashed: bool = False,
    ) -> None:
        """Straight segments through `points`."""
        if len(points) <= 1 or (stroke is None and fill is None):
            return
        trace = self.canvas.beginPath()
        trace.moveTo(points[0][0], self._up(points[0][1]))
        for across, down in points[1:]:
            trace.lineTo(across, self._up(down))
        if closed:
            trace.close()
        with self._state(stroke, fill, weight, dashed=dashed) as how:
            self.canvas.drawPath(trace, **how)

    def rectangle(
        self,
        corner: XY,
        size: XY,
        *,
        stroke: RGB | None = None,
        fill: RGB | None = None,
        weight: float = 0.7,
        radius: float = 0.0,
        opacity: float = 1.0,
    ) -> None:
        """A rectangle from its top left corner, with rounded corners when asked."""
        low = self._up(corner[1] + size[1])
        with self._state(stroke, fill, weight, opacity=opacity) as how:
            if radius:
                self.canvas.roundRect(corner[0], low, size[0], size[1], radius, **how)
            else:
                self.canvas.rect(corner[0], low, size[0], size[1], **how)

    def ellipse(
        self,
        centre: XY,
        radii: XY,
        *,
        stroke: RGB | None = None,
        fill: RGB | None = None,
        weight: float = 0.7,
        dashed: bool = False,
    ) -> None:
        """An axis-parallel ellipse."""
        (x, y), (across, down) = (centre[0], self._up(centre[1])), radii
        with self._state(stroke, fill, weight, dashed=dashed) as how:
            self.canvas.ellipse(x - across, y - down, x + across, y + down, **how)

    def arc(
        self,
        centre: XY,
        radius: float,
        start: float,
        sweep: float,
        ink: RGB,
        weight: float,
        *,
        dashed: bool = False,
    ) -> None:
        """Part of a circle, degrees clockwise on the page from the +x axis."""
        x, y = centre[0], self._up(centre[1])
        with self._state(ink, None, weight, dashed=dashed):
            self.canvas.arc(x - radius, y - radius, x + radius, y + radius, -start, -sweep)

    def image(self, file: Path, corner: XY, size: XY) -> None:
        """A picture file, scaled to `size`."""
        self.canvas.picture(file, (corner[0], self._up(corner[1] + size[1])), size)

    @contextmanager
    def clipped(self, corner: XY, size: XY, radius: float = 0.0) -> Iterator[None]:
        """Paint only inside a rectangle (or, with `radius` half its side, a disc)."""
        self.canvas.saveState()
        trace = self.canvas.beginPath()
        low = self._up(corner[1] + size[1])
        if radius:
            trace.roundRect(corner[0], low, size[0], size[1], radius)
        else:
            trace.rect(corner[0], low, size[0], size[1])
        self.canvas.clipPath(trace, stroke=0, fill=0)
        yield
        self.canvas.restoreState()

    def hatch(self, corner: XY, size: XY, step: float, weight: float, ink: RGB) -> None:
        """Lines at 45 degrees over a rectangle, `step` points apart along its edges."""
        left, low = corner[0], self._up(corner[1] + size[1])
        trace = self.canvas.beginPath()
        for number in range(1, math.ceil(sum(size) / step)):
            reach = number * step
            start, end = max(0.0, reach - size[1]), min(reach, size[0])
            trace.moveTo(left + start, low + size[1] - (reach - start))
            trace.lineTo(left + end, low + size[1] - (reach - end))
        with self._state(ink, None, weight) as how:
            self.canvas.drawPath(trace, **how)

    @contextmanager
    def on_its_side(self, pivot: XY, *, turned: bool) -> Iterator[None]:
        """Paint what lies right of `pivot` downwards from it instead, a quarter turn clockwise; or plainly."""
        if not turned:
            yield
            return
        x, y = pivot[0], self._up(pivot[1])
        self.canvas.saveState()
        self.canvas.translate(x, y)
        self.canvas.rotate(-90)
        self.canvas.translate(-x, -y)
        yield
        self.canvas.restoreState()

    def _up(self, y: float) -> float:
        return self.page[1] - y

    def _string(self, text: str, kind: Type, x: float, base: float) -> None:
        out = self.canvas.beginText(x, self._up(base))
        out.setFont(face_name(kind.face), kind.size)
        out.setFillColorRGB(*kind.ink)
        out.textOut(text)
        self.canvas.drawText(out)

    def _pieces(self, pieces: list[Piece], x: float, middle: float) -> None:
        """Text objects stand wholly inside their mark, so BDC and EMC never cross BT and ET."""
        size = max(piece.run.kind.size for piece in pieces)
        for piece in pieces:
            kind = piece.run.kind
            if kind.disc:
                self._numbered(piece, x + piece.x, middle)
                continue
            self._string(piece.text + piece.trail, kind, x + piece.x, middle + size * RISE - kind.rise)

    def _numbered(self, piece: Piece, left: float, middle: float) -> None:
        """A number on its disc, which grows sideways with a long one."""
        kind = piece.run.kind
        plain = replace(kind, disc=False)
        self.rectangle(
            (left, middle - kind.reach), (piece.width, 2 * kind.reach), fill=INK, radius=kind.reach
        )
        shift = (piece.width - text_width(piece.text, plain)) / 2
        self._string(piece.text + piece.trail, plain, left + shift, middle + kind.size * RISE)

    def _link(self, piece: Piece, x: float, top: float, leading: float) -> None:
        """One annotation for each fragment of a line; its words are the link's own."""
        rect = self.box(x + piece.x, top, piece.width, leading)
        href = piece.run.href
        contents = piece.run.text.strip() if href.startswith("#") else f"{piece.run.text.strip()} ({href})"
        self.canvas.link(piece.run.tag, rect, href, contents)

    @contextmanager
    def _state(
        self,
        stroke: RGB | None,
        fill: RGB | None,
        weight: float,
        *,
        dashed: bool = False,
        opacity: float = 1.0,
    ) -> Iterator[dict[str, int]]:
        """Gives what of a path is to be painted, as the canvas asks for it."""
        self.canvas.saveState()
        if stroke is not None:
            self.canvas.setStrokeColorRGB(*stroke)
            self.canvas.setLineWidth(weight)
            self.canvas.setLineJoin(1)
            self.canvas.setLineCap(1 if not dashed else 0)
        if dashed:
            self.canvas.setDash(_DASHES)
        if fill is not None:
            self.canvas.setFillColorRGB(*fill)
        if not math.isclose(opacity, 1.0):
            self.canvas.setFillAlpha(opacity)
        yield {"stroke": int(stroke is not None), "fill": int(fill is not None)}
        self.canvas.restoreState()
