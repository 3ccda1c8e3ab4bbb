"""A component's opening line: sign, grade word, name, place, and the finding in one sentence.

Comes in: a `GradeLine`. Goes out: slices. Its bookmark carries the grade as a word.
"""

from __future__ import annotations

from reporter.model.report import GradeLine, Span, plain
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext, beside
from reporter.typeset.signs import paint_sign
from reporter.typeset.slices import Paint, Slice, Stick, paint_first, stick_all
from reporter.typeset.styles import MM, RULE, Type
from reporter.typeset.tags import Artifact

_SIDES = {1: 6.2 * MM, 2: 5.6 * MM, 3: 4.6 * MM}
_NAMES = {1: Type("Semibold", 16, 21), 2: Type("Semibold", 14, 18), 3: Type("Semibold", 12, 16)}
_SENTENCE = Type("Regular", 10, 13.5)


def grade_line(context: PrintContext, block: GradeLine, index: int, level: int) -> list[Slice]:
    """The opening line under a thin rule; it holds to what follows."""
    look = context.look
    kind, said, side = look.of(_NAMES[level]), look.of(_SENTENCE), _SIDES[level]
    hang = side + 3 * MM
    tag = context.tag(f"H{level}")
    named = (Span(text=f"{block.word}  ", style="quiet"), Span(text=block.name))
    slices = context.lines(named, kind, tag, look.column - hang).slices(hang)
    paint_first(slices[0], _sign(block, side, kind))
    slices.insert(0, Slice(3 * MM, _rule, wide=True, above=5.5 * MM, snap=True))
    context.bookmark(slices[0], context.anchor_of(index), f"{block.name} · {block.word}", level)
    slices += beside(context, (Span(text=block.place, href=block.place_href),), slices[1], kind, hang)
    if block.sentence:
        sentence = context.lines(plain(block.sentence), said, context.tag("P"), look.column - hang)
        slices += sentence.slices(hang)
    slices[-1].below = 1.5 * MM
    slices[-1].stick = Stick.FIRM
    return stick_all(slices, Stick.FIRM)


def _rule(pen: Pen, top: float, _height: float) -> None:
    with pen.mark(Artifact("layout")):
        pen.rule((pen.left, top), (pen.left + pen.look.block, top), 0.7, RULE)


def _sign(block: GradeLine, side: float, kind: Type) -> Paint:
    """The sign is an artifact here: the word beside it says the same."""

    def paint(pen: Pen, top: float, _height: float) -> None:
        with pen.mark(Artifact("layout")):
            paint_sign(pen, (pen.left, top + (kind.leading - side) / 2), side, block.grade)

    return paint
