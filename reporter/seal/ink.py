"""A signature drawn by hand: the strokes of an SVG file as painting operators of a PDF, scaled into a field.

Comes in: SVG text with `path`, `polyline`, `polygon` or `line`. Goes out: content of straight and curved lines alone, no
picture and no font. Ink proves nothing, for anybody can copy it; the seal does.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator

from reporter.errors import UsageError
from reporter.seal.strokes import Matrix, Segment, bounds, moved, outline, transformation

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
