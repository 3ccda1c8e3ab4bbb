"""The grade sign as SVG symbols, drawn once and used everywhere, and what else the pictures of a page share.

Comes in: a grade. Goes out: markup. The word always stands beside a sign, since neither colour nor shape may be the
only sign; so a sign is hidden from who hears the page.
"""

from __future__ import annotations

from reporter.model.terms import Grade
from reporter.typeset.signs import LEVELS, water_edge
from reporter.web.markup import Markup, figure, tag

_SIDE = 20


def grade_sign(grade: Grade) -> Markup:
    """The sign in a line of text."""
    return tag("svg", tag("use", href=f"#g-{grade.value}"), class_="sign", aria_hidden="true")


def sign_at(grade: Grade, corner: tuple[float, float], side: float) -> Markup:
    """The sign in a drawing."""
    return tag("use", href=f"#g-{grade.value}", x=corner[0], y=corner[1], width=side, height=side)


def store() -> Markup:
    """What is drawn once: the signs, ends of lines, the round frame of an inset. It takes no room."""
    square = tag("rect", x=1, y=1, width=18, height=18, rx=4)
    clips = (
        tag("clipPath", square, id="g-square"),
        tag("clipPath", tag("circle", cx=50, cy=50, r=49), id="g-round"),
    )
    parts = [*clips, *map(_symbol, Grade), *_ends()]
    return tag("svg", tag("defs", *parts), class_="store", aria_hidden="true", width=0, height=0)


def _symbol(grade: Grade) -> Markup:
    ground = tag("rect", class_="sign-ground", x=1, y=1, width=18, height=18, rx=4)
    rim = tag("rect", class_=f"sign-rim rim-{grade.value}", x=1, y=1, width=18, height=18, rx=4)
    inside = tag("path", d=_inside(grade), class_=f"in-{grade.value}", clip_path="url(#g-square)")
    return tag("symbol", ground, inside, rim, id=f"g-{grade.value}", viewBox=f"0 0 {_SIDE} {_SIDE}")


def _inside(grade: Grade) -> str:
    """Water up to the grade's level, or the hatch of what was not seen: lines at 45 degrees, a quarter of the side apart."""
    if grade is Grade.UNSEEN:
        return "".join(f"M0 {_SIDE * step // 4}L{_SIDE * step // 4} 0" for step in range(1, 8))
    if not LEVELS[grade]:
        return "M0 0"
    edge = (f"{figure(_SIDE * x)} {figure(_SIDE * y)}" for x, y in water_edge(grade))
    return f"M{'L'.join(edge)}V{_SIDE}H0Z"


def _ends() -> list[Markup]:
    """Arrowheads and a ruler's ticks, once as halo and once as core; they keep their size whatever the picture's."""
    room = {"markerUnits": "userSpaceOnUse", "orient": "auto", "overflow": "visible"}
    box = {"markerWidth": 20, "markerHeight": 20}
    made = []
    for cut in ("halo", "core"):
        head = tag("path", d="M0 0L-11 4.2L-11 -4.2Z", class_=f"{cut} filled")
        tick = tag("path", d="M0 -6V6", class_=cut)
        made += [
            tag("marker", head, id=f"g-head-{cut}", **room, **box),
            tag("marker", tick, id=f"g-tick-{cut}", **room, **box),
        ]
    return made
