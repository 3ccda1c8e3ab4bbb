"""What every page carries beside its content: running head, foot, page number, the draft's word. All declared artifacts.

Comes in: the report and the page's number. Goes out: painting. Must not touch the content.
"""

from __future__ import annotations

from reporter.model.terms import Grade
from reporter.typeset.desk import Desk
from reporter.typeset.glyphs import width
from reporter.typeset.pen import Pen
from reporter.typeset.setting import Run, set_lines
from reporter.typeset.styles import BLOCK, FOOT_LINE, HEAD_LINE, INK, MM, RULE, RUNNING, WATER, Type
from reporter.typeset.tags import Artifact, Tag

_DRAFT = Type("Semibold", 8.5, 11, WATER[Grade.STOP])


def furnish(desk: Desk, pen: Pen, number: int, count: int) -> None:
    """Paint head and foot of page `number` (from 0) of `count`; the first page has no head, its title says it all."""
    report = desk.report
    draft = desk.clean(report.draft).strip()
    head = desk.clean(report.running_head).strip()
    head = head if number else ""
    if head or draft:
        with pen.mark(Artifact("header")):
            _line(pen, head, draft, HEAD_LINE)
            if number:
                pen.rule((pen.left, HEAD_LINE + 2 * MM), (pen.left + BLOCK, HEAD_LINE + 2 * MM), 0.35, RULE)
    page = desk.clean(report.page_word).replace("{page}", str(number + 1)).replace("{pages}", str(count))
    base = pen.page[1] - FOOT_LINE
    with pen.mark(Artifact("footer")):
        _line(pen, desk.clean(report.running_foot).strip(), "", base, less=width(page, RUNNING) + 40 * MM)
        pen.words(page, RUNNING.but(ink=INK), pen.left + BLOCK, base, "end")
        if draft:
            pen.words(draft, _DRAFT, pen.left + BLOCK - width(page, RUNNING) - 6 * MM, base, "end")


def _line(pen: Pen, left: str, right: str, base: float, less: float = 0.0) -> None:
    """Words at the left, cut where they would meet those at the right."""
    room = BLOCK - less - (width(right, _DRAFT) + 6 * MM if right else 0.0)
    pen.words(_cut(left, room), RUNNING, pen.left, base)
    if right:
        pen.words(right, _DRAFT, pen.left + BLOCK, base, "end")


def _cut(text: str, room: float) -> str:
    text = " ".join(text.split())
    if width(text, RUNNING) <= room:
        return text
    line = set_lines([Run(text, RUNNING, Tag("Span"))], room - width("…", RUNNING))[0]
    return "".join(piece.text for piece in line.pieces) + "…"
