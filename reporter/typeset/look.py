"""The grid and the type of one document: which paper, how large the words.

Comes in: the report's page and text size. Goes out: lengths in points and types to scale. One grid serves A4 and Letter:
a block of 174 mm with a text column, a gutter, and a side column for place, numbers and sources. A page for the phone is one column. Must not paint.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from reporter.model.report import PageShape, TextSize
from reporter.typeset.styles import BODY, LEAST_SIZE, MM, Type

_PAPERS: dict[PageShape, tuple[float, float]] = {
    "A4": (210 * MM, 297 * MM),
    "Letter": (612.0, 792.0),
    "A5": (148 * MM, 210 * MM),
    "phone": (90 * MM, 190 * MM),
}
_LARGE = 13.0 / BODY.size
"""How much larger body text is in large print."""
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
    block: float = 174 * MM
    column: float = 142 * MM
    gutter: float = 4 * MM
    first_top: float = 19 * MM
    top: float = 24 * MM
    bottom: float = 23 * MM
    head_line: float = 15 * MM
    foot_line: float = 13.5 * MM
    photo: float = 122 * MM
    """Width of a photo with its caption beside it."""
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
    size, is_large = _PAPERS[page], text == "large"
    if dense:
        look = _one_column(size, size[0] - 2 * _EDGE, (6, 9.5, 7.5), (6, 4.5))
        return replace(look, scale=0.9, titles=0.55, set=0.9, air=0.15)
    if page == "phone":
        look = _one_column(size, 80 * MM, (12, 14, 12), (8, 6))
        return replace(look, scale=_LARGE if is_large else _PHONE_SCALE, titles=1.05 if is_large else 0.85)
    return Look(size, scale=_LARGE, titles=1.2) if is_large else Look(size)


def _one_column(
    size: tuple[float, float], block: float, edges: tuple[float, float, float], lines: tuple[float, float]
) -> Look:
    """Text and photos as wide as the block; `edges` (first page's top, top, bottom) and `lines` (head, foot) in mm."""
    first_top, top, bottom = (edge * MM for edge in edges)
    return Look(
        size, block=block, column=block, photo=block, first_top=first_top, top=top, bottom=bottom,
        head_line=lines[0] * MM, foot_line=lines[1] * MM,
    )  # fmt: skip
