"""Labels of a drawing: a part's name and grade beside its sign, cut to the room there is.

Comes in: text and a box in points. Goes out: shapes, and the box they take. The width of text is estimated a little
on the large side, since a plugin knows no font; nothing here knows a part of a boat.
"""

from __future__ import annotations

import unicodedata
from typing import Literal, NamedTuple

from reporter.contract import Grade, Path, Shape, Sign, Words

SIZE = 8.0
LINE = 9.6
SIGN = 9.0
GAP = 3.0
MORE = "…"
TAIL = " ,;.:…"
HELD = (range(0x20, 0x7F), range(0xA0, 0x17F), range(0x386, 0x3CF), range(0x400, 0x460))
"""Latin, Greek and Cyrillic: any other character is reckoned as the code in brackets that is printed for what the type lacks."""
_NARROW, _WIDE = frozenset("iljtfrI.,:;'’|()!·-/ "), frozenset("mwMWQO@%&—")
_EMS = (
    {"+": 0.5, "[": 0.31, "]": 0.31, "ď": 0.58, "…": 0.95}
    | dict.fromkeys("0123456789", 0.5)
    | dict.fromkeys("–•‘’“”", 0.56)
)
"""Shares of the size that are known better than by class; the tests hold all of them against the report's own type."""


class Box(NamedTuple):
    """A rectangle, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box) -> bool:
        """True when the two share more than an edge."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


class Label(NamedTuple):
    """A label ready to be drawn, and the room it takes."""

    shapes: tuple[Shape, ...]
    box: Box


def text_width(text: str, size: float = SIZE, *, strong: bool = False) -> float:
    """Estimated width in points; never under the real one for the report's own type."""
    composed = unicodedata.normalize("NFC", text)
    return sum(map(_em, composed)) * size * (1.06 if strong else 1.0)


def _em(character: str) -> float:
    if character in _EMS:
        return _EMS[character]
    if character in _NARROW:
        return 0.37
    if character in _WIDE:
        return 0.92
    unassigned = unicodedata.category(character) == "Cn"
    if unassigned or not any(ord(character) in script for script in HELD):
        return sum(map(_em, f"[U+{ord(character):04X}]"))
    base = unicodedata.normalize("NFD", character)[0]
    if not base.isascii() or base in _WIDE:
        return 0.97 if base.isupper() else 0.84
    return 0.68 if base.isupper() else 0.56


def wrapped(text: str, room: float, lines: int) -> tuple[str, ...]:
    """`text` broken into at most `lines` lines of `room` points; what does not fit ends in an ellipsis."""
    rows: list[str] = []
    for word in text.replace("\n", " ").split(" "):
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and text_width(longer, strong=True) <= room:
            rows[-1] = longer
        else:
            rows.append(word)
    kept = rows[:lines]
    if len(rows) > lines:
        kept[-1] = kept[-1].rstrip(TAIL) + MORE
    return tuple(cut(row, room) for row in kept)


def cut(text: str, room: float, *, strong: bool = True) -> str:
    """`text` in `room` points, its end replaced by an ellipsis where it is too long."""
    if text_width(text, strong=strong) <= room:
        return text
    while text and text_width(text + MORE, strong=strong) > room:
        text = text[:-1]
    return text.rstrip(TAIL) + MORE


def label(
    name: str,
    word: str,
    grade: Grade | None,
    *,
    at: tuple[float, float],
    room: float,
    anchor: Literal["start", "middle"] = "start",
    rise: bool = False,
    lines: int = 2,
) -> Label:
    """The sign (none for a part that is not listed), the name in bold, the grade's word (and more lines) beneath.

    `at` is the upper edge at the left end or the middle; with `rise` it is the lower edge. `room` is the width.
    """
    lead = SIGN + GAP if grade else 0.0
    names = wrapped(name, room - lead, lines)
    # A grade is never cut for its sign's sake: in a narrow place it begins beneath the sign.
    indent = lead if max(map(text_width, word.split("\n"))) <= room - lead else 0.0
    words = tuple(cut(each, room - indent, strong=False) for each in word.split("\n"))
    wide = max(
        indent + max(map(text_width, words)), lead + max(text_width(row, strong=True) for row in names)
    )
    high = LINE * (len(names) + len(words))
    left = at[0] - (wide / 2 if anchor == "middle" else 0.0)
    top = at[1] - (high if rise else 0.0)
    texts: list[Shape] = [
        Words(
            at=(left + (lead if row < len(names) else indent), top + LINE * row + SIZE * 0.9),
            text=text,
            size=SIZE,
            strong=bool(grade) and row < len(names),
            ink="ink" if row < len(names) else "second",
        )
        for row, text in enumerate((*names, *words))
    ]
    if grade:
        texts.append(Sign(at=(left + SIGN / 2, top + LINE / 2 + 0.6), grade=grade, side=SIGN))
    return Label(tuple(texts), Box(left, top, left + wide, top + high))


def moved(made: Label, across: float) -> Label:
    """The label shifted sideways."""
    left, top, right, bottom = made.box
    shifted = [
        shape.model_copy(update={"at": (shape.at[0] + across, shape.at[1])})
        for shape in made.shapes
        if isinstance(shape, Words | Sign)
    ]
    return Label(tuple(shifted), Box(left + across, top, right + across, bottom))


def leader(start: tuple[float, float], end: tuple[float, float]) -> Path:
    """The fine line from a label to its part."""
    return Path(points=(start, end), weight="fine", stroke="second")
