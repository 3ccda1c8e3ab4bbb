"""Shapes moved, scaled and turned into a larger picture, and the hatch of what was not seen.

Comes in: shapes in their own drawing. Goes out: shapes. Nothing here knows a job or a part.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from reporter.contract import XY, Arc, Ellipse, Path, Shape, Sign

from .deck_shapes import Deck

HATCH = 5.0
"""Points between the lines of a hatch, which lie at 45 degrees."""
_CORNERS = 16


def moved(shapes: Iterable[Shape], scale: float, corner: XY) -> Iterator[Shape]:
    """The shapes, scaled and moved; type keeps its size."""
    for shape in shapes:
        yield _put(shape, lambda point: placed(point, scale, corner), scale)


def placed(point: XY, scale: float, corner: XY) -> XY:
    """A point, scaled and moved."""
    return (corner[0] + point[0] * scale, corner[1] + point[1] * scale)


def bow_up(shape: Shape, deck: Deck, scale: float, bow: XY) -> Shape:
    """A shape of the deck plan turned so that the bow is at the top, starboard on the right."""
    turned = _put(shape, lambda point: turn(point, deck, scale, bow), scale)
    if isinstance(turned, Ellipse):
        return turned.model_copy(update={"radii": (turned.radii[1], turned.radii[0])})
    return turned.model_copy(update={"start": turned.start + 90}) if isinstance(turned, Arc) else turned


def turn(point: XY, deck: Deck, scale: float, bow: XY) -> XY:
    """A point of the deck plan with the bow at the top; `bow` is where the bow goes."""
    return (bow[0] - (point[1] - deck.middle) * scale, bow[1] + (point[0] - deck.bow) * scale)


def _put(shape: Shape, at: Callable[[XY], XY], scale: float) -> Shape:
    if isinstance(shape, Path):
        return shape.model_copy(update={"points": tuple(at(point) for point in shape.points)})
    if isinstance(shape, Ellipse):
        radii = (shape.radii[0] * scale, shape.radii[1] * scale)
        return shape.model_copy(update={"centre": at(shape.centre), "radii": radii})
    if isinstance(shape, Arc):
        return shape.model_copy(update={"centre": at(shape.centre), "radius": shape.radius * scale})
    side = {"side": shape.side * scale} if isinstance(shape, Sign) else {}
    return shape.model_copy(update={"at": at(shape.at), **side})


def hatched(corners: Sequence[XY]) -> Iterator[Shape]:
    """Lines rising to the right across a convex outline, and the outline itself, dashed."""
    sums = [x + y for x, y in corners]
    for step in range(math.ceil(min(sums) / HATCH), math.floor(max(sums) / HATCH) + 1):
        crossed = sorted(_crossings(corners, step * HATCH))
        if len(crossed) > 1 and math.dist(crossed[0], crossed[-1]) > 1:
            yield Path(points=(crossed[0], crossed[-1]), weight="fine", stroke="second")
    yield Path(points=tuple(corners), closed=True, weight="fine", stroke="second", dashed=True)


def _crossings(corners: Sequence[XY], level: float) -> Iterator[XY]:
    """Where the line x + y = `level` crosses the outline."""
    for (x, y), (to_x, to_y) in itertools.pairwise([*corners, corners[0]]):
        start, end = x + y, to_x + to_y
        if (start - level) * (end - level) <= 0 and not math.isclose(start, end):
            share = (level - start) / (end - start)
            yield (x + (to_x - x) * share, y + (to_y - y) * share)


def hatched_disc(centre: XY, radius: float) -> Iterator[Shape]:
    """A round hatched patch."""
    turns = (2 * math.pi * step / _CORNERS for step in range(_CORNERS))
    yield from hatched(
        [(centre[0] + radius * math.cos(at), centre[1] + radius * math.sin(at)) for at in turns]
    )
