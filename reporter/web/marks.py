"""Marks over a photo as inline SVG: strokes grow with the picture, discs and plates keep their size.

Comes in: marks in fractions of the upright photo, its height by its width, the pictures of its insets. Goes out: one SVG
to lie over the photo, and the labels that found no room. On the sheet lengths are parts of the picture's width; in the
SVG all places are percentages, so that they hold at any width; what has its size in pixels hangs at such a place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Literal

from reporter.model.drawing import XY
from reporter.model.photo import Mark
from reporter.typeset.marking import DiscSpot, MarkSheet
from reporter.typeset.places import Area, between, moved, round_spots
from reporter.web.lettering import lines_of, plate, plate_size
from reporter.web.markup import Markup, share, tag
from reporter.web.places import FluidArea, FluidPlaces

DISC = 9.0
"""Radius (px) of a callout's disc."""
_LETTERS = (24, 14)
"""Longest line of a plate: the first try and the second."""
_REACHES = (16.0, 28.0, 44.0, 66.0, 92.0)
_ENDS = {
    "": {},
    "head": {"marker_end": "url(#g-head-{})"},
    "ticks": {"marker_start": "url(#g-tick-{})", "marker_end": "url(#g-tick-{})"},
}


class FluidOverlay(MarkSheet):
    """A photo shown at any width; `ratio` is its height by its width, `insets` the addresses of its insets' pictures."""

    def __init__(self, ratio: float, insets: Sequence[str]) -> None:
        super().__init__((1.0, ratio), turns=16, edge=0.005)
        self.places = FluidPlaces(ratio)
        self._insets = insets
        self._under: list[Markup] = []
        self._over: list[Markup] = []

    def lay(self, marks: Sequence[Mark]) -> Markup:
        """All marks as one SVG; nothing where there are none."""
        self.lay_marks(marks)
        return tag("svg", *self._under, *self._over, class_="marks") if self._under else Markup()

    def _draw_ring(self, centre: XY, reach: float) -> None:
        x, y = self._fraction(centre)
        ry = reach / self.size[1]
        self._stroke("ellipse", cx=share(x), cy=share(y), rx=share(reach), ry=share(ry))

    def _draw_box(self, area: Area) -> None:
        self._stroke("rect", **self._shares(area))

    def _draw_line(self, start: XY, end: XY, ends: Literal["", "head", "ticks"]) -> None:
        """A line, its ends told by markers that keep their size; one has the halo's look, one the core's."""
        (x1, y1), (x2, y2) = self._fraction(start), self._fraction(end)
        spots = {"x1": share(x1), "y1": share(y1), "x2": share(x2), "y2": share(y2)}
        for cut in ("halo", "core"):
            markers = {key: value.format(cut) for key, value in _ENDS[ends].items()}
            self._under.append(tag("line", class_=cut, **spots, **markers))
        # Small squares along it stand for the line: a rectangle round a slanting one would keep words off half the photo.
        for step in range(9):
            self._keep_clear(Area.round(between(start, end, step / 8), 0), 4, lightly=True)

    def _keep_clear(self, area: Area, more: float, *, lightly: bool) -> None:
        (self.places.unwelcome if lightly else self.places.taken).append(self._fluid(area, more))

    def _draw_inset(self, number: int, side: float, spots: Sequence[XY], source: XY) -> XY:
        """The magnified piece where it hides least, near its source; its frame keeps its shape whatever the picture's."""
        areas = {self._fluid(area): area for area in (Area.round(spot, side / 2) for spot in spots)}
        # Measured to its upper left corner: of places that lie as near, the one on the right is taken.
        at = self._fraction(source)
        near = sorted(areas, key=lambda area: math.dist((area.part.left, area.part.top), at))
        best, _ = self.places.best(near)
        self.places.taken.append(best)
        picture = tag(
            "image",
            href=self._insets[number],
            width=100,
            height=100,
            preserveAspectRatio="xMidYMid slice",
            clip_path="url(#g-round)",
        )
        rims = (tag("circle", class_=cut, cx=50, cy=50, r=49) for cut in ("halo", "core"))
        place = self._shares(areas[best])
        self._over.append(tag("svg", picture, *rims, viewBox="0 0 100 100", class_="glass", **place))
        return areas[best].middle

    def _draw_disc(self, text: str, spots: Sequence[DiscSpot]) -> None:
        areas = [
            FluidArea.held(
                self._fraction(moved(spot.centre, spot.way, spot.reach)),
                Area.round(moved((0, 0), spot.way, DISC + spot.gap), DISC + 1),
            )
            for spot in spots
        ]
        area, _ = self.places.best(areas)
        self.places.taken.append(area)
        x, y = area.fixed.middle
        ground = tag("circle", class_="disc", cx=x, cy=y, r=DISC)
        self._over.append(_hung(area, ground, tag("text", text, class_="on-disc", x=x, y=y + 4)))

    def _draw_plate(self, text: str, at: XY, *, leader: bool) -> bool:
        """A plate near its place; narrower where that helps."""
        for letters in _LETTERS:
            lines = lines_of(text, letters)
            area, clash = self.places.best(_around(self._fraction(at), plate_size(lines)))
            if not clash:
                break
        else:
            return False
        self.places.taken.append(area)
        if leader:
            x, y = area.fixed.nearest((0.0, 0.0))
            strokes = [tag("line", class_=cut, x1=0, y1=0, x2=x, y2=y) for cut in ("halo", "core")]
            self._under.append(_hung(area, *strokes, tag("circle", class_="dot", r=2.2)))
        self._over.append(_hung(area, plate(lines, area.fixed.left, area.fixed.top)))
        return True

    def _fraction(self, spot: XY) -> XY:
        return (spot[0], spot[1] / self.size[1])

    def _fluid(self, area: Area, more: float = 0.0) -> FluidArea:
        (left, top), (right, bottom) = map(self._fraction, (area.corners[0], area.corners[2]))
        return FluidArea(Area(left, top, right, bottom), Area.round((0, 0), more))

    def _shares(self, area: Area) -> dict[str, str]:
        part = self._fluid(area).part
        sides = {"x": part.left, "y": part.top, "width": part.width, "height": part.height}
        return {side: share(length) for side, length in sides.items()}

    def _stroke(self, name: str, **places: str) -> None:
        """Halo first, then core, so that the mark shows on dark and on light."""
        self._under += [tag(name, class_=cut, **places) for cut in ("halo", "core")]


def _hung(area: FluidArea, *inside: str) -> Markup:
    """What keeps its size, hung up at the place of the picture at which its area hangs."""
    return tag("svg", *inside, x=share(area.part.left), y=share(area.part.top), class_="hung")


def _around(at: XY, size: XY) -> Iterator[FluidArea]:
    """Places of a plate all round a spot, the nearest first."""
    wide, high = size
    for reach in _REACHES:
        for across, down in round_spots((0, 0), 1, 16):
            x, y = across * (reach + wide / 2), down * (reach + high / 2)
            yield FluidArea.held(at, Area(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))
