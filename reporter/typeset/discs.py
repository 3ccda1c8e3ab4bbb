"""The numbered disc: one look for the number of an action or a callout in text, on photos and on drawings.

Comes in: the number and where it goes. Goes out: painting inside a mark that the caller opened. Must not number anything.
"""

from __future__ import annotations

from reporter.model.drawing import XY
from reporter.typeset.pen import Pen
from reporter.typeset.styles import DISC, INK, RISE, WHITE

REACH = 5.6
"""Radius with its white rim, in points."""


def disc(pen: Pen, centre: XY, text: str) -> None:
    """A dark disc with a white rim, so that it shows on dark and on light; `text` has two characters at most."""
    x, y = centre
    pen.ellipse((x, y), (REACH - 0.4, REACH - 0.4), stroke=WHITE, fill=INK, weight=0.8)
    pen.words(text, DISC, x, y + DISC.size * RISE, "middle")
