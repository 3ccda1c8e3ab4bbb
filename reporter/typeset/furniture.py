"""What every page carries beside its content: running head, foot, page number, the draft's word. All declared artifacts.

Comes in: the report and the page's number. Goes out: painting. Must not touch the content.
"""

from __future__ import annotations

from dataclasses import dataclass

from reporter.model.terms import Grade
from reporter.typeset.glyphs import text_width
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.setting import broken
from reporter.typeset.styles import INK, MM, RULE, RUNNING, WATER, Type
from reporter.typeset.tags import Artifact

_DRAFT = Type("Semibold", 8.5, 11, WATER[Grade.STOP])
_LONGEST_TAB = 64 * MM
_TAB = 6.5 * MM
"""From the paper's edge to the line that a tab's words stand on."""


@dataclass(frozen=True, slots=True)
class Tab:
    """The section that a page belongs to: its name, its number from 0, and how many there are."""

    text: str
    number: int
    count: int


def furnish(context: PrintContext, pen: Pen, number: int, count: int, tab: Tab | None = None) -> None:
    """Paint head, foot and section tab of page `number` (from 0) of `count`; the first page has no head, its title says it all."""
    report, look = context.report, context.look
    draft = context.clean(report.draft).strip()
    head = context.clean(report.running_head).strip() if number else ""
    if head or draft:
        with pen.mark(Artifact("header")):
            _line(pen, head, "" if look.is_narrow and head else draft, look.head_line)
            if number:
                y = look.head_line + 2 * MM
                pen.rule((pen.left, y), (pen.left + look.block, y), 0.35, RULE)
    page = context.clean(report.page_word).replace("{page}", str(number + 1)).replace("{pages}", str(count))
    base = pen.page[1] - look.foot_line
    with pen.mark(Artifact("footer")):
        if not look.is_narrow:
            foot = context.clean(report.running_foot).strip()
            _line(pen, foot, "", base, less=text_width(page, RUNNING) + 40 * MM)
        pen.words(page, RUNNING.but(ink=INK), pen.left + look.block, base, "end")
        if draft:
            pen.words(draft, _DRAFT, pen.left + look.block - text_width(page, RUNNING) - 6 * MM, base, "end")
    if tab is not None and not look.is_narrow:
        _tab(context, pen, tab)


def _tab(context: PrintContext, pen: Pen, tab: Tab) -> None:
    """The section's name along the outer edge, lower for each later section, so that the edges make an index.

    It stands on bare paper: a tint would be printed in dots where there is no grey, and its small letters be lost.
    """
    look = context.look
    text = _cut(context.clean(tab.text), _LONGEST_TAB)
    long = text_width(text, RUNNING) + 4 * MM
    top = look.top + tab.number * (look.room - long) / max(tab.count - 1, 1)
    edge = pen.page[0] - _TAB
    with pen.mark(Artifact("header")):
        pen.rule((edge - 1.4 * MM, top), (edge - 1.4 * MM, top + long), 1.4, INK)
        with pen.on_its_side((edge, top), turned=True):
            pen.words(text, RUNNING.but(ink=INK), edge + 2 * MM, top - 0.6 * MM)


def _line(pen: Pen, left: str, right: str, base: float, less: float = 0.0) -> None:
    """Words at the left, cut where they would meet those at the right."""
    block = pen.look.block
    room = block - less - (text_width(right, _DRAFT) + 6 * MM if right else 0.0)
    pen.words(_cut(left, room), RUNNING, pen.left, base)
    if right:
        pen.words(right, _DRAFT, pen.left + block, base, "end")


def _cut(text: str, room: float) -> str:
    text = " ".join(text.split())
    if text_width(text, RUNNING) <= room:
        return text
    return broken(text, RUNNING, room - text_width("…", RUNNING))[0] + "…"
