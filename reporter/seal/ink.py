"""A signature drawn by hand: the strokes of an SVG file as painting operators of a PDF, scaled into a field.

Comes in: SVG text with `path`, `polyline`, `polygon` or `line` (SVG 2, chapter 9). Goes out: content of straight and curved
lines alone, no picture and no font; quadratic curves become cubic ones exactly. Ink proves nothing, for anybody can copy it; the seal does.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping, Sequence

from reporter.errors import UsageError

LONGEST = 1_000_000
"""Characters of an SVG file: a signature has some thousands."""
MARGIN = 3.0
"""Points between the ink and the edges of its field."""
LEAST = 1.0
"""Units of the drawing that count as its least width and height: a dot is not blown up."""
WEIGHT = 1.2
"""Points; the same in every field, whatever the size of the drawing."""
NIGHT_BLUE = "0.05 0.1 0.35"
_OPERATOR = {"move": "m", "line": "l", "curve": "c", "close": "h"}
_DRAWN = {"path", "polyline", "polygon", "line"}
Point = tuple[float, float]
Segment = tuple[str, tuple[Point, ...]]
"""A verb (move, line, curve, close) and its points."""
Matrix = tuple[float, float, float, float, float, float]
_NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_TOKEN = re.compile(rf"([MmLlHhVvCcSsQqTtZzAa])|({_NUMBER})|([^\s,])")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "Z": 0}


def strokes(svg: str, width: float, height: float) -> bytes:
    """The drawing as large as a field of `width` by `height` points allows, at its left lower edge.

    A shape with a fill is filled, all others are drawn with a round pen. UsageError where there is nothing to draw, or
    something that is not understood: a signature must not lose a stroke in silence.
    """
    shapes = list(_shapes(_root(svg), transformation(""), filled=True))
    if not shapes:
        raise UsageError("The ink file holds no stroke.", "Save the drawing as paths (SVG).")
    left, top, right, bottom = bounds([each for segments, _ in shapes for each in segments])
    across, down = max(right - left, LEAST), max(bottom - top, LEAST)
    scale = min((width - 2 * MARGIN) / across, (height - 2 * MARGIN) / down)
    into = (scale, 0.0, 0.0, -scale, MARGIN - left * scale, MARGIN + bottom * scale)
    lines = [f"q {NIGHT_BLUE} RG {NIGHT_BLUE} rg {WEIGHT} w 1 J 1 j"]
    for segments, is_filled in shapes:
        lines += [_written(each) for each in moved(segments, into)]
        lines.append("f" if is_filled else "S")
    return " ".join([*lines, "Q"]).encode("ascii")


def _written(segment: Segment) -> str:
    verb, points = segment
    figures = " ".join(f"{value:.2f}" for point in points for value in point)
    return f"{figures} {_OPERATOR[verb]}".strip()


def _root(svg: str) -> ET.Element:
    if len(svg) > LONGEST or "<!DOCTYPE" in svg or "<!ENTITY" in svg:
        raise UsageError("The ink file is no plain drawing.", "Save it as plain SVG.")
    try:
        return ET.fromstring(svg)  # noqa: S314 - entities are refused above
    except ET.ParseError as error:
        raise UsageError(f"The ink file is no SVG: {error}.") from error


def _shapes(element: ET.Element, matrix: Matrix, *, filled: bool) -> Iterator[tuple[list[Segment], bool]]:
    """Every drawn shape in page order, its transformations applied; a fill is inherited (SVG 2, 13.3)."""
    tag = str(element.tag).rpartition("}")[2]
    if tag in {"defs", "metadata", "title", "desc", "style", "namedview"}:
        return
    matrix = transformation(element.get("transform", ""), matrix)
    fill = _fill(element)
    filled = filled if fill is None else fill
    if tag in _DRAWN:
        yield moved(outline(tag, element.attrib), matrix), filled and tag != "line"
    elif tag not in {"svg", "g", "a"}:
        raise UsageError(
            f"The ink file holds a '{tag}', which is no stroke.", "Save the drawing as paths (SVG)."
        )
    for child in element:
        yield from _shapes(child, matrix, filled=filled)


def _fill(element: ET.Element) -> bool | None:
    """Whether the element's own fill paints; None where it says nothing."""
    style = re.search(r"(?:^|;)\s*fill\s*:\s*([^;]+)", element.get("style", ""))
    fill = style[1] if style else element.get("fill")
    return None if fill is None else fill.strip() not in {"none", "transparent"}


def outline(tag: str, attributes: Mapping[str, str]) -> list[Segment]:
    """The segments of one drawn element."""
    if tag == "path":
        return list(_Path(attributes.get("d", "")).segments())
    if tag == "line":
        ends = [float(attributes.get(name, "0") or 0) for name in ("x1", "y1", "x2", "y2")]
        return [("move", ((ends[0], ends[1]),)), ("line", ((ends[2], ends[3]),))]
    numbers = [float(each) for each in re.findall(_NUMBER, attributes.get("points", ""))]
    corners = list(zip(numbers[::2], numbers[1::2], strict=False))
    found: list[Segment] = [
        ("move" if place == 0 else "line", (corner,)) for place, corner in enumerate(corners)
    ]
    return [*found, ("close", ())] if tag == "polygon" and found else found


class _Path:
    """The state while path data are read: where the pen is, where the contour began, the last control point."""

    def __init__(self, data: str) -> None:
        self._tokens = list(_TOKEN.finditer(data))
        self._pen = self._start = (0.0, 0.0)
        self._control: Point | None = None
        self._last = ""

    def segments(self) -> Iterator[Segment]:
        """Each command with its figures; figures left over repeat it, a move as lines (SVG 2, 9.3.3)."""
        place, command = 0, ""
        while place < len(self._tokens):
            token = self._tokens[place]
            if token[1]:
                command, place = token[1], place + 1
            if command.upper() not in _TAKES or token[3]:
                raise UsageError(f"The ink file holds path data that are not understood: {token[0]!r}.")
            count = _TAKES[command.upper()]
            figures = [each[2] for each in self._tokens[place : place + count]]
            if len(figures) < count or not all(figures) or (not count and not token[1]):
                raise UsageError("The ink file holds a path that breaks off.")
            place += count
            yield self._take(command, [float(each) for each in figures])
            command = {"M": "L", "m": "l"}.get(command, command)

    def _take(self, command: str, figures: list[float]) -> Segment:
        kind, shift = command.upper(), (self._pen if command.islower() else (0.0, 0.0))
        if kind == "Z":
            self._pen, self._control, self._last = self._start, None, kind
            return ("close", ())
        if kind in "HV":
            to = (
                (figures[0] + shift[0], self._pen[1])
                if kind == "H"
                else (self._pen[0], figures[0] + shift[1])
            )
            points = [to]
        else:
            points = [(x + shift[0], y + shift[1]) for x, y in zip(figures[::2], figures[1::2], strict=True)]
        return self._curved(kind, points) if kind in "CSQT" else self._straight(kind, points[0])

    def _straight(self, kind: str, to: Point) -> Segment:
        if kind == "M":
            self._start = to
        self._pen, self._control, self._last = to, None, kind
        return ("move" if kind == "M" else "line", (to,))

    def _curved(self, kind: str, points: list[Point]) -> Segment:
        """A smooth curve begins with the last control point mirrored, if the last command was of its family."""
        begin, end = self._pen, points[-1]
        mirrored = self._mirrored("CS" if kind in "CS" else "QT")
        if kind in "CS":
            first, second = (points[0], points[1]) if kind == "C" else (mirrored, points[0])
            self._control = second
        else:
            middle = points[0] if kind == "Q" else mirrored
            first, second = _third(begin, middle), _third(end, middle)
            self._control = middle
        self._pen, self._last = end, kind
        return ("curve", (first, second, end))

    def _mirrored(self, family: str) -> Point:
        if self._control is None or self._last not in family:
            return self._pen
        return (2 * self._pen[0] - self._control[0], 2 * self._pen[1] - self._control[1])


def _third(end: Point, middle: Point) -> Point:
    """A cubic's control point for a quadratic one: two thirds of the way from the end."""
    return (end[0] + 2 / 3 * (middle[0] - end[0]), end[1] + 2 / 3 * (middle[1] - end[1]))


def transformation(text: str, outer: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)) -> Matrix:
    """An element's `transform` put inside that of its parents (CSS Transforms 1, 8)."""
    for name, figures in re.findall(r"(\w+)\s*\(([^)]*)\)", text):
        outer = _times(outer, _single(name, [float(each) for each in re.split(r"[\s,]+", figures.strip())]))
    return outer


def _single(name: str, figures: list[float]) -> Matrix:
    if name == "matrix" and len(figures) == 6:  # noqa: PLR2004
        return (figures[0], figures[1], figures[2], figures[3], figures[4], figures[5])
    if name == "translate":
        return (1.0, 0.0, 0.0, 1.0, figures[0], figures[1] if len(figures) > 1 else 0.0)
    if name == "scale":
        return (figures[0], 0.0, 0.0, figures[-1], 0.0, 0.0)
    if name == "rotate" and len(figures) == 1:
        turn = math.radians(figures[0])
        return (math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), 0.0, 0.0)
    raise UsageError(f"The ink file holds a '{name}' that is not understood.", "Save it as plain SVG paths.")


def _times(left: Matrix, right: Matrix) -> Matrix:
    a, b, c, d, e, f = left
    g, h, i, j, k, m = right
    return (a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f)


def moved(segments: Sequence[Segment], matrix: Matrix) -> list[Segment]:
    """The segments with every point put through a matrix."""
    a, b, c, d, e, f = matrix
    return [
        (verb, tuple((a * x + c * y + e, b * x + d * y + f) for x, y in points)) for verb, points in segments
    ]


def bounds(segments: Sequence[Segment]) -> tuple[float, float, float, float]:
    """Left, upper, right and lower edge of all points; a curve lies within its control points."""
    points = [point for _, points in segments for point in points]
    across, down = [x for x, _ in points] or [0.0], [y for _, y in points] or [0.0]
    return min(across), min(down), max(across), max(down)
