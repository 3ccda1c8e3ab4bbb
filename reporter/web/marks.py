"""Marks over a photo as inline SVG: strokes grow with the picture, discs and plates keep their size.

Comes in: marks in fractions of the upright photo, its height by its width, the pictures of its insets. Goes out: one SVG
to lie over the photo, and the labels that found no room. Blur marks give nothing: what they cover is destroyed already.
All places are percentages, so that they hold at any width; what has its size in pixels hangs at such a place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import assert_never

from reporter.model.drawing import XY
from reporter.model.photo import Arrow, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.typeset.marks import INSET_PARTS
from reporter.typeset.places import Round, is_clear
from reporter.web.lettering import lines_of, plate, plate_size
from reporter.web.markup import Markup, joined, share, tag
from reporter.web.places import FluidArea, FluidPlaces

DISC = 9.0
"""Radius (px) of a callout's disc."""
_LETTERS = (24, 14)
"""Longest line of a plate: the first try and the second."""
_LARGEST_TARGET = 0.3
_LARGEST_INSET, _SCAN = 0.36, 12
_REACHES = (16.0, 28.0, 44.0, 66.0, 92.0)
_DIRECTIONS = tuple((math.cos(turn * math.pi / 8), math.sin(turn * math.pi / 8)) for turn in range(-2, 14))


@dataclass(slots=True)
class FluidOverlay:
    """The photo while marks are laid on it; `keyed` holds letter and words of labels without room."""

    ratio: float
    insets: Sequence[str]
    under: list[Markup] = field(default_factory=list)
    over: list[Markup] = field(default_factory=list)
    keyed: list[tuple[str, str]] = field(default_factory=list)
    kept: list[Round] = field(default_factory=list)
    """What no magnified piece may cover, in parts of the width both ways: what others magnify, and other pieces."""
    places: FluidPlaces = field(init=False)
    _discs: list[tuple[str, list[tuple[XY, XY]]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.places = FluidPlaces(self.ratio)

    def lay(self, marks: Sequence[Mark]) -> Markup:
        """All marks: what is pointed at first, then insets, discs and plates, which must not cover it."""
        for mark in marks:
            self._outline(mark)
        insets = [mark for mark in marks if isinstance(mark, Inset)]
        for inset, file in zip(insets, self.insets, strict=True):
            self._glass(inset, file)
        for words, spots in self._discs:
            self._disc(words, spots)
        for mark in marks:
            if isinstance(mark, Ruler) and mark.length.strip():
                self._plate(mark.length.strip(), _along(mark.start, mark.end, 0.5), leader=False)
            elif isinstance(mark, LabelMark):
                words = mark.text if mark.callout is None else f"{mark.callout} {mark.text}"
                self._plate(words, mark.at, leader=True)
        return tag("svg", *self.under, *self.over, class_="marks") if self.under else Markup()

    def _outline(self, mark: Mark) -> None:
        match mark.kind:
            case "ring" | "inset":
                self._ring(mark)
            case "box":
                self._box(mark)
            case "arrow":
                self._arrow(mark)
            case "line":
                self._ruler(mark)
            case "label":
                self.places.taken.append(FluidArea.held(mark.at, (-4, -4, 4, 4)))
            case "blur":
                return
            case _:
                assert_never(mark)

    def _ring(self, mark: Ring | Inset) -> None:
        (x, y), across = mark.at, mark.radius
        down = across / self.ratio
        if isinstance(mark, Inset):
            self.kept.append((self._square(mark.at), across))
        self._stroke("ellipse", cx=share(x), cy=share(y), rx=share(across), ry=share(down))
        self._protect(FluidArea((x - across, y - down, x + across, y + down)))
        self._number(
            mark,
            [((x + across * way[0], y + down * way[1]), _times(way, DISC + 2)) for way in _DIRECTIONS],
        )

    def _box(self, mark: Box) -> None:
        left, right = sorted((mark.corner[0], mark.opposite[0]))
        top, bottom = sorted((mark.corner[1], mark.opposite[1]))
        size = {"width": share(right - left), "height": share(bottom - top)}
        self._stroke("rect", x=share(left), y=share(top), **size)
        self._protect(FluidArea((left, top, right, bottom)))
        middle, half = ((left + right) / 2, (top + bottom) / 2), ((right - left) / 2, (bottom - top) / 2)
        ways = [(across, down) for down in (-1, 0, 1) for across in (-1, 1, 0) if across or down]
        self._number(
            mark,
            [
                ((middle[0] + way[0] * half[0], middle[1] + way[1] * half[1]), _times(way, DISC + 2))
                for way in ways
            ],
        )

    def _arrow(self, mark: Arrow) -> None:
        self._line(mark.tail, mark.head, marker_end="url(#g-head{})")
        self.places.taken.append(FluidArea.held(mark.head, (-5, -5, 5, 5)))
        back = _unit(mark.head, mark.tail, self.ratio)
        ways = [back, *(way for way in _DIRECTIONS if way[0] * back[0] + way[1] * back[1] > 0)]
        self._number(mark, [(mark.tail, _times(way, DISC + 2)) for way in ways])

    def _ruler(self, mark: Ruler) -> None:
        self._line(mark.start, mark.end, marker_start="url(#g-tick{})", marker_end="url(#g-tick{})")
        for spot in (mark.start, mark.end):
            self.places.taken.append(FluidArea.held(spot, (-3, -3, 3, 3)))
        along = _unit(mark.start, mark.end, self.ratio)
        ends = [(mark.end, _times(along, DISC + 3)), (mark.start, _times(along, -DISC - 3))]
        self._number(mark, ends + [(mark.start, _times(way, DISC + 6)) for way in _DIRECTIONS])

    def _line(self, start: XY, end: XY, **ends: str) -> None:
        """A line that plates had better not hide; `ends` are markers with room for the halo's or the core's name."""
        spots = {"x1": share(start[0]), "y1": share(start[1]), "x2": share(end[0]), "y2": share(end[1])}
        for cut in ("halo", "core"):
            told = {key: value.format("-" + cut) for key, value in ends.items()}
            self.under.append(tag("line", class_=cut, **spots, **told))
        for step in range(9):
            spot = _along(start, end, step / 8)
            self.places.unwelcome.append(FluidArea.held(spot, (-4, -4, 4, 4)))

    def _stroke(self, name: str, **places: str) -> None:
        """Halo first, then core, so that the mark shows on dark and on light."""
        self.under += [tag(name, class_=cut, **places) for cut in ("halo", "core")]

    def _protect(self, area: FluidArea) -> None:
        """Keep plates off `area`, unless it takes up so much of the photo that they could go nowhere."""
        left, top, right, bottom = area.part
        is_large = (right - left) * (bottom - top) > _LARGEST_TARGET
        (self.places.unwelcome if is_large else self.places.taken).append(area)

    def _number(self, mark: Mark, spots: list[tuple[XY, XY]]) -> None:
        if mark.callout is not None:
            self._discs.append((str(mark.callout), spots))

    def _glass(self, mark: Inset, file: str) -> None:
        """The magnified piece in the corner that hides least, joined to its source by a line."""
        whole = min(2 * mark.radius * mark.zoom, _LARGEST_INSET * min(1.0, self.ratio))
        kept = [each for each in self.kept if each[0] != self._square(mark.at)]
        sizes = (part * whole for part in INSET_PARTS)
        found = ((wide, self._corners(wide, kept)) for wide in sizes)
        least = INSET_PARTS[-1] * whole
        wide, corners = next((each for each in found if each[1]), (least, self._corners(least, ())))
        high = wide / self.ratio
        near = sorted(corners, key=lambda spot: math.dist(spot, mark.at))
        area, _ = self.places.best(FluidArea((x, y, x + wide, y + high)) for x, y in near)
        self.places.taken.append(area)
        x, y = area.part[:2]
        middle = (x + wide / 2, y + high / 2)
        self.kept.append((self._square(middle), wide / 2))
        way = _unit(mark.at, middle, self.ratio)
        start = _moved(mark.at, way, mark.radius, self.ratio)
        end = _moved(middle, way, -wide / 2, self.ratio)
        self._line(start, end)
        self.over.append(_piece((x, y), (wide, high), file))

    def _square(self, spot: XY) -> XY:
        """A place in parts of the width both ways."""
        return (spot[0], spot[1] * self.ratio)

    def _corners(self, wide: float, kept: Sequence[Round]) -> list[XY]:
        """Upper left corners for a piece `wide` across: corners and edges of the photo where it covers nothing of `kept`.

        Where none of them is so free, places all over the photo.
        """
        high, margin = wide / self.ratio, 0.015 / self.ratio
        lefts, tops = (0.015, 0.985 - wide, 0.5 - wide / 2), (margin, 1 - margin - high, 0.5 - high / 2)
        steps = [step / _SCAN for step in range(_SCAN + 1)]
        over = [
            (0.015 + x * (0.97 - wide), margin + y * (1 - 2 * margin - high))
            for x, y in product(steps, steps)
        ]
        for spots in (list(product(lefts, tops))[:-1], over):
            free = [
                (x, y)
                for x, y in spots
                if is_clear((self._square((x + wide / 2, y + high / 2)), wide / 2), kept)
            ]
            if free:
                return free
        return []

    def _disc(self, words: str, spots: list[tuple[XY, XY]]) -> None:
        """A disc at the best of `spots`: a place of the picture, and pixels from there."""
        areas = {
            FluidArea.held(at, (x - DISC - 1, y - DISC - 1, x + DISC + 1, y + DISC + 1)): (at, (x, y))
            for at, (x, y) in spots
        }
        area, _ = self.places.best(areas)
        self.places.taken.append(area)
        at, (x, y) = areas[area]
        ground = tag("circle", class_="disc", cx=x, cy=y, r=DISC)
        self.over.append(_hung(at, ground, tag("text", words, class_="on-disc", x=x, y=y + 4)))

    def _plate(self, words: str, at: XY, *, leader: bool) -> None:
        """A plate near its place; narrower where that helps; else a lettered disc."""
        for letters in _LETTERS:
            lines = lines_of(words, letters)
            area, clash = self.places.best(_around(at, plate_size(lines)))
            if not clash:
                break
        else:
            letter = chr(ord("a") + len(self.keyed) % 26)
            self.keyed.append((letter, words))
            self._disc(letter, [(at, _times(way, DISC + 6)) for way in _DIRECTIONS])
            return
        self.places.taken.append(area)
        left, top, right, bottom = area.fixed
        if leader:
            near = {"x2": min(max(0.0, left), right), "y2": min(max(0.0, top), bottom)}
            strokes = [tag("line", class_=cut, x1=0, y1=0, **near) for cut in ("halo", "core")]
            self.under.append(_hung(at, *strokes, tag("circle", class_="dot", r=2.2)))
        self.over.append(_hung(at, plate(lines, left, top)))


def key_of(keyed: Sequence[tuple[str, str]]) -> Markup:
    """The labels without room, as letter and words for the caption."""
    return joined(joined(["\n", tag("strong", letter), f"  {words}"]) for letter, words in keyed)


def _piece(corner: XY, size: XY, file: str) -> Markup:
    """An inset's own picture in a round frame: the frame keeps its shape whatever the picture's."""
    picture = tag(
        "image",
        href=file,
        width=100,
        height=100,
        preserveAspectRatio="xMidYMid slice",
        clip_path="url(#g-round)",
    )
    rims = (tag("circle", class_=cut, cx=50, cy=50, r=49) for cut in ("halo", "core"))
    place = {"x": share(corner[0]), "y": share(corner[1]), "width": share(size[0]), "height": share(size[1])}
    return tag("svg", picture, *rims, viewBox="0 0 100 100", class_="glass", **place)


def _hung(at: XY, *inside: str) -> Markup:
    """What keeps its size, hung up at a place of the picture."""
    return tag("svg", *inside, x=share(at[0]), y=share(at[1]), class_="hung")


def _around(at: XY, size: XY) -> Iterator[FluidArea]:
    """Places of a plate all round a spot, the nearest first."""
    wide, high = size
    for reach in _REACHES:
        for across, down in _DIRECTIONS:
            x, y = across * (reach + wide / 2), down * (reach + high / 2)
            yield FluidArea.held(at, (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))


def _times(way: XY, by: float) -> XY:
    return (way[0] * by, way[1] * by)


def _along(start: XY, end: XY, part: float) -> XY:
    return (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)


def _unit(start: XY, end: XY, ratio: float) -> XY:
    """The way from one place to another, of length 1 as it is seen."""
    across, down = end[0] - start[0], (end[1] - start[1]) * ratio
    far = math.hypot(across, down)
    return (across / far, down / far) if far else (1.0, 0.0)


def _moved(spot: XY, way: XY, by: float, ratio: float) -> XY:
    """The place `by` (of the picture's width) from `spot` that way."""
    return (spot[0] + way[0] * by, spot[1] + way[1] * by / ratio)
