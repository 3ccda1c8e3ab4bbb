"""Path data of SVG (SVG 2, chapter 9) as straight and curved segments; quadratic curves become cubic ones exactly."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence

from reporter.errors import UsageError

Point = tuple[float, float]
Segment = tuple[str, tuple[Point, ...]]
"""A verb (move, line, curve, close) and its points."""
Matrix = tuple[float, float, float, float, float, float]

_NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_TOKEN = re.compile(rf"([MmLlHhVvCcSsQqTtZzAa])|({_NUMBER})|([^\s,])")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "Z": 0}


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
