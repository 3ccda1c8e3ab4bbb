"""The grid and the type of one document: which paper, how large the words.

Comes in: the report's page and text size. Goes out: lengths in points and types to scale. One grid serves A4 and Letter;
a page for the phone is one column. Must not paint.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from reporter.model.report import PageShape, TextSize
from reporter.typeset.styles import (
    BLOCK,
    BODY,
    BOTTOM,
    COLUMN,
    FIRST_TOP,
    FOOT_LINE,
    GUTTER,
    HEAD_LINE,
    LARGE_BODY,
    LEAST_SIZE,
    MM,
    PAGE_SIZES,
    PHOTO_WIDTH,
    TOP,
    Type,
)

_PHONE_BLOCK = 80 * MM
_PHONE_SCALE = 1.1
"""A page for the phone is shown smaller than it is: its text is set larger."""
_EDGE = 7 * MM
"""Printers leave some 5 mm at the paper's edges white."""
_BIG = 12.0
"""Types above this size are titles, which grow less than what is read."""


@dataclass(frozen=True, slots=True)
class Look:
    """Lengths in points: paper, block, text column, gutter, side column (none on a phone), edges of the text.

    `scale` enlarges what is read, `titles` what stands above it.
    """

    size: tuple[float, float]
    block: float = BLOCK
    column: float = COLUMN
    gutter: float = GUTTER
    first_top: float = FIRST_TOP
    top: float = TOP
    bottom: float = BOTTOM
    head_line: float = HEAD_LINE
    foot_line: float = FOOT_LINE
    photo: float = PHOTO_WIDTH
    scale: float = 1.0
    titles: float = 1.0
    set: float = 1.0
    """How close lines are set, beside what the size asks for."""
    air: float = 1.0
    """How much of the usual space stands around headings."""
    _types: dict[Type, Type] = field(default_factory=dict, compare=False)

    @property
    def side(self) -> float:
        """Width of the side column; nothing where there is none."""
        return max(0.0, self.block - self.column - self.gutter)

    @property
    def is_narrow(self) -> bool:
        """True on a page of one column: no side column, nothing side by side."""
        return self.side == 0.0

    @property
    def half(self) -> float:
        """Width of one of two things side by side."""
        return self.block if self.is_narrow else self.part(2)

    @property
    def left(self) -> float:
        """The block's left edge on the paper."""
        return (self.size[0] - self.block) / 2

    @property
    def room(self) -> float:
        """Height of the text on every page but the first."""
        return self.size[1] - self.top - self.bottom

    def part(self, count: int) -> float:
        """Width of one of `count` things side by side."""
        return (self.block - (count - 1) * self.gutter) / count

    def of(self, kind: Type) -> Type:
        """A type to the document's scale."""
        if self.scale == self.titles == 1.0:
            return kind
        if kind not in self._types:
            factor = self.titles if kind.size > _BIG else self.scale
            size = max(LEAST_SIZE, kind.size * factor)
            self._types[kind] = replace(kind, size=size, leading=kind.leading * factor * self.set)
        return self._types[kind]


def look_of(page: PageShape, text: TextSize, *, dense: bool = False) -> Look:
    """The look of a page shape and text size; a dense one reaches to where printers still print."""
    if dense:
        return _dense(page)
    if page == "phone":
        return Look(
            PAGE_SIZES[page],
            block=_PHONE_BLOCK,
            column=_PHONE_BLOCK,
            photo=_PHONE_BLOCK,
            first_top=12 * MM,
            top=14 * MM,
            bottom=12 * MM,
            head_line=8 * MM,
            foot_line=6 * MM,
            scale=LARGE_BODY / BODY.size if text == "large" else _PHONE_SCALE,
            titles=1.05 if text == "large" else 0.85,
        )
    if text == "large":
        return Look(PAGE_SIZES[page], scale=LARGE_BODY / BODY.size, titles=1.2)
    return Look(PAGE_SIZES[page])


def _dense(page: PageShape) -> Look:
    size = PAGE_SIZES[page]
    block = size[0] - 2 * _EDGE
    return Look(
        size,
        block=block,
        column=block,
        photo=block,
        first_top=6 * MM,
        top=9.5 * MM,
        bottom=7.5 * MM,
        head_line=6 * MM,
        foot_line=4.5 * MM,
        scale=0.9,
        titles=0.55,
        set=0.9,
        air=0.15,
    )
