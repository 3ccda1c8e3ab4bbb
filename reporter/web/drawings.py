"""Drawings as inline SVG from their primitives, in the drawing's own units.

Comes in: a `Drawing`. Goes out: one SVG. Type has the size it has on paper, so the SVG asks for the room it takes there;
where there is less, the figure is moved sideways, not made unreadable.
"""

from __future__ import annotations

from typing import Literal, assert_never

from reporter.model.drawing import LEFT_OF, Arc, Drawing, Ellipse, Numeral, Path, Shape, Words
from reporter.model.terms import Grade
from reporter.typeset.lettering import Lettering, letter
from reporter.typeset.places import on_ellipse
from reporter.typeset.styles import SMALL_FIGURE
from reporter.web.lettering import screen_width
from reporter.web.markup import Markup, figure, tag
from reporter.web.signs import sign_at
from reporter.web.web_context import WebContext

_BLOCK = 482.0
"""Width (pt) of a full figure on paper, 170 mm."""
_COLUMN = 340.0
_TALLEST = 581.0
_PIXELS = 1.5
"""Pixels for a point: the smallest type of 7.5 pt comes out at 11 px."""
_LEAST = 7.5
_FINGER = 14.7
"""Radius (pt) of a surface to be tapped: 44 CSS pixels across, as WCAG 2.2 asks for in 2.5.5."""
_DISC = 6.0
"""Radius (pt) of a numbered disc."""


def drawing(
    context: WebContext | None,
    picture: Drawing,
    room: Literal["small", "column", "full"],
    *,
    tapped: bool = False,
) -> Markup:
    """The whole drawing; `alt` says what it shows to who cannot see it. Without a `context` its numerals lead nowhere.

    With `tapped` each part's place and name lie under a surface that carries its id as `data-part`.
    """
    wide = {"small": SMALL_FIGURE, "column": _COLUMN, "full": _BLOCK}[room]
    scale = min(wide / max(picture.width, 1e-6), _TALLEST / max(picture.height, 1e-6))
    # Labels are placed by the one placer, in points; here they stand in the same places.
    lettering = letter(picture, scale, str)
    high = picture.height + lettering.key / scale
    size = {"width": figure(picture.width * scale * _PIXELS, 0), "height": figure(high * scale * _PIXELS, 0)}
    leading = any(isinstance(shape, Numeral) and shape.href for shape in picture.shapes)
    shapes = [_led(context, shape, scale) for shape in picture.shapes]
    shapes.append(
        tag(
            "g",
            *(_shape(shape, 1.0) for shape in lettering.shapes),
            transform=f"scale({figure(1 / scale, 5)})",
        )
    )
    if tapped:
        shapes += _surfaces(picture, lettering, scale)
    box = f"0 0 {figure(picture.width)} {figure(high)}"
    # What holds links is no single picture to who hears the page.
    role = "group" if leading else "img"
    return tag("svg", *shapes, viewBox=box, role=role, aria_label=picture.alt, class_="drawing", **size)


def _led(context: WebContext | None, shape: Shape, scale: float) -> Markup:
    """A shape; a numeral that leads somewhere as a link."""
    drawn = _shape(shape, scale)
    if context is None or not isinstance(shape, Numeral) or not shape.href:
        return drawn
    return tag("a", drawn, href=context.address(shape.href), aria_label=f"{shape.text} {shape.alt}".strip())


def _surfaces(picture: Drawing, lettering: Lettering, scale: float) -> list[Markup]:
    """Where a finger may land: round the place that is meant, and on the name."""
    radius = _FINGER / scale
    round_places = [
        tag("circle", cx=each.at[0], cy=each.at[1], r=radius, class_="tap", data_part=each.part)
        for each in picture.labels
        if each.part
    ]
    names = [
        tag(
            "rect",
            x=area.left / scale,
            y=area.top / scale,
            width=area.width / scale,
            height=area.height / scale,
            class_="tap",
            data_part=part,
        )
        for part, area in lettering.named
        if part
    ]
    return [*round_places, *names]


def _shape(shape: Shape, scale: float) -> Markup:
    match shape.kind:
        case "path":
            return _path(shape)
        case "ellipse":
            (x, y), (across, down) = shape.centre, shape.radii
            return tag("ellipse", cx=x, cy=y, rx=across, ry=down, class_=_look(shape))
        case "arc":
            return _arc(shape)
        case "words":
            return _words(shape, scale)
        case "sign":
            corner = (shape.at[0] - shape.side / 2, shape.at[1] - shape.side / 2)
            return sign_at(shape.grade, corner, shape.side)
        case "numeral":
            return _numeral(shape, scale)
        case _:
            assert_never(shape)


def _numeral(shape: Numeral, scale: float) -> Markup:
    """The number of an action in a disc that keeps its size, longer for several; open where something comes first."""
    (x, y), radius = shape.at, _DISC / scale
    half = max(radius, screen_width(shape.text, _LEAST / scale) / 2 + 4 / scale)
    is_open = shape.grade is Grade.FIRST
    tone = shape.grade.value if shape.grade in {Grade.FIRST, Grade.STOP} and shape.grade else "ink"
    box: dict[str, float] = {
        "x": x - half, "y": y - radius, "width": 2 * half, "height": 2 * radius, "rx": radius,
    }  # fmt: skip
    rim = tag("rect", class_="s-white f-white bold", **box)
    disc = tag("rect", class_=f"s-{tone} f-{'white' if is_open else tone} bold", **box)
    look: dict[str, str | float] = {
        "font_size": _LEAST / scale,
        "text_anchor": "middle",
        "class_": f"w f-{'ink' if is_open else 'white'} strong",
    }
    number = tag("text", shape.text, x=x, y=y + 0.35 * _LEAST / scale, **look)
    return Markup(rim + disc + number)


def _path(shape: Path) -> Markup:
    points = " ".join(f"{figure(x)},{figure(y)}" for x, y in shape.points)
    return tag("polygon" if shape.closed else "polyline", points=points, class_=_look(shape))


def _arc(shape: Arc) -> Markup:
    """In two halves, since one command of SVG draws no full circle."""
    turns = (shape.start, shape.start + shape.sweep / 2, shape.start + shape.sweep)
    spots = (on_ellipse(shape.centre, (shape.radius, shape.radius), turn) for turn in turns)
    told = [f"{figure(x)} {figure(y)}" for x, y in spots]
    draw = f"A{figure(shape.radius)} {figure(shape.radius)} 0 0 {int(shape.sweep > 0)} "
    return tag("path", d=f"M{told[0]}{draw}{told[1]}{draw}{told[2]}", class_=_look(shape))


def _words(shape: Words, scale: float) -> Markup:
    size = max(shape.size, _LEAST) / scale
    words = shape.text.replace("\n", " ")
    ink = shape.ink if shape.ink != "none" else "ink"
    look = " ".join(part for part in ("w", f"f-{ink}", "strong" if shape.strong else "") if part)
    x, y = shape.at
    line = tag("text", words, x=x, y=y, font_size=size, text_anchor=shape.anchor, class_=look)
    if not shape.plate:
        return line
    wide = screen_width(words, size)
    left = x - LEFT_OF[shape.anchor] * wide
    ground = tag(
        "rect",
        x=left - 2 / scale,
        y=y - size * 0.85,
        width=wide + 4 / scale,
        height=size * 1.15,
        class_="ground",
    )
    return Markup(ground + line)


def _look(shape: Path | Ellipse | Arc) -> str:
    fill = "none" if isinstance(shape, Arc) else shape.fill
    return f"s-{shape.stroke} f-{fill} {shape.weight}{' dashed' if shape.dashed else ''}"
