"""A form's words, boxes and blanks set one after the other, composed into slices: one slice a line.

Comes in: a `Fields` block. Goes out: slices; when painted, the fields stand on the context. Must not make form fields: the
archive stage writes those.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import zip_longest

from reporter.model.pages import FormField
from reporter.model.report import FieldItem, Fields, FillIn, Said, Space, Text, TickBox, plain
from reporter.typeset.glyphs import strip_controls, text_width
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.setting import Run
from reporter.typeset.slices import Paint, Slice, Stick, stick_edges
from reporter.typeset.styles import FORM, FORM_TITLE, INK, MM, RISE, SECOND, Type
from reporter.typeset.tags import Artifact, Tag

_BOX = 2.7 * MM
_CELL = 3.1 * MM
"""Height of a blank of one line: nearly the line itself, since a hand writes large."""
_AFTER_BOX = 0.7 * MM
_APART = 1.7 * MM
_SIZES = {"tiny": 9 * MM, "short": 12 * MM, "medium": 24 * MM, "long": 40 * MM}
_LEAST_REST = 36 * MM
_TALL_LINE = 3.3 * MM
_HANGING = 3 * MM
"""How far a line goes in that goes on with a question: the eye finds the next one at the edge."""
_LAYOUT = Artifact("layout")


@dataclass(slots=True, eq=False)
class _Atom:
    """What is never parted: a word, a box, a blank. `glued` to the one before it, or `joins` it in one run of words."""

    wide: float
    run: Run | None = None
    item: FieldItem | None = None
    glued: bool = False
    joins: bool = False
    begins: bool = False
    apart: float = 0.0
    stretches: bool = False
    x: float = 0.0

    @property
    def end(self) -> float:
        return self.x + self.wide

    @property
    def lines(self) -> int:
        return self.item.lines if isinstance(self.item, FillIn | Space) else 1


def fields(context: PrintContext, block: Fields) -> list[Slice]:
    """The slices of a form's part: its title leads the first line, a thin rule stands above it."""
    kind = context.look.of(FORM) if context.look.scale > 1 else FORM
    tag = context.tag("P")
    lines = _broken(list(_atoms(context, block, kind, tag)), context.look.block)
    slices = []
    for number, line in enumerate(lines):
        height = kind.leading + (max(atom.lines for atom in line) - 1) * _TALL_LINE
        paint = _painter(context, line, kind, tag, ruled=bool(block.title) and number == 0)
        slices.append(Slice(height, paint, wide=True))
    if not slices:
        return []
    slices[0].above = 1.2 * MM if block.title else 0.4 * MM
    return stick_edges(slices, Stick.FIRM) if block.title else stick_edges(slices, Stick.SOFT)


def _atoms(context: PrintContext, block: Fields, kind: Type, tag: Tag) -> Iterator[_Atom]:
    if block.title:
        yield from _words(context, plain(block.title), FORM_TITLE, context.tag("H3"), apart=0.0)
    after_words = True
    for item in block.items:
        if isinstance(item, Said):
            yield from _words(context, item.text, kind, tag, apart=_APART, begins=item.begins)
        elif isinstance(item, TickBox):
            yield _Atom(_BOX, item=item, apart=_APART)
            yield from _words(context, plain(item.text), kind, tag, apart=_AFTER_BOX, glued=True)
        elif isinstance(item, FillIn):
            rest = item.size == "rest"
            wide = _LEAST_REST if rest else _SIZES[item.size]
            # A blank stands on the line of the word that says what goes into it.
            yield _Atom(wide, item=item, apart=1 * MM, stretches=rest, glued=after_words)
        else:
            yield _Atom(_LEAST_REST, item=item, apart=_APART, stretches=True)
        after_words = isinstance(item, Said)


def _words(
    context: PrintContext,
    text: Text,
    kind: Type,
    tag: Tag,
    *,
    apart: float,
    glued: bool = False,
    begins: bool = False,
) -> Iterator[_Atom]:
    """Word for word; the first keeps `apart` from what stands before it."""
    space = text_width(" ", kind)
    for number, run in enumerate(context.runs(text, kind, tag)):
        for place, word in enumerate(run.text.split()):
            first = number == place == 0
            yield _Atom(
                text_width(word, run.kind),
                Run(word, run.kind, run.tag),
                glued=glued and first,
                joins=place > 0,
                begins=begins and first,
                apart=apart if first else space,
            )


def _broken(atoms: list[_Atom], measure: float) -> list[list[_Atom]]:
    """The atoms dealt out to lines no wider than `measure`."""
    lines: list[list[_Atom]] = []
    for atom, following in zip_longest(atoms, atoms[1:]):
        # What is glued to an atom goes with it.
        group = atom.wide + (following.apart + following.wide if following and following.glued else 0.0)
        full = not lines or lines[-1][-1].end + atom.apart + group > measure
        if not lines or (not atom.glued and (atom.begins or full)):
            atom.x = _HANGING if lines and not atom.begins else 0.0
            lines.append([])
        else:
            atom.x = lines[-1][-1].end + atom.apart
        lines[-1].append(atom)
    for line in lines:
        _stretch(line, measure)
    return lines


def _stretch(line: list[_Atom], measure: float) -> None:
    """What may grow takes the rest of its line."""
    more = max(0.0, measure - line[-1].end) / max(1, sum(atom.stretches for atom in line))
    shift = 0.0
    for atom in line:
        atom.x += shift
        if atom.stretches:
            atom.wide += more
            shift += more


def _painter(context: PrintContext, line: list[_Atom], kind: Type, tag: Tag, *, ruled: bool) -> Paint:
    """Words and blanks in the order in which they are read."""

    def paint(pen: Pen, top: float, height: float) -> None:
        if ruled:
            with pen.mark(_LAYOUT):
                pen.rule((pen.left, top - 0.5 * MM), (pen.left + pen.look.block, top - 0.5 * MM), 0.6, INK)
        for group in _groups(line):
            first = group[0]
            x = pen.left + first.x
            if first.run is not None:
                text = " ".join(atom.run.text for atom in group if atom.run)
                with pen.mark(first.run.tag):
                    pen.words(text, first.run.kind, x, top + kind.leading / 2 + first.run.kind.size * RISE)
            elif isinstance(first.item, Space):
                _space(pen, first.item, (x, top), (first.wide, height), kind)
            elif isinstance(first.item, TickBox | FillIn):
                _blank(context, pen, first, first.item, (x, top + kind.leading / 2), tag)

    return paint


def _groups(line: list[_Atom]) -> list[list[_Atom]]:
    """Words that follow each other in one run as one group, everything else alone."""
    groups: list[list[_Atom]] = []
    for atom in line:
        if groups and atom.joins and groups[-1][-1].run is not None:
            groups[-1].append(atom)
        else:
            groups.append([atom])
    return groups


def _space(pen: Pen, item: Space, corner: tuple[float, float], size: tuple[float, float], kind: Type) -> None:
    with pen.mark(_LAYOUT):
        pen.rectangle(
            (corner[0], corner[1] + 0.3 * MM), (size[0], size[1] - 0.6 * MM), stroke=SECOND, weight=0.4
        )
        pen.words(
            item.word,
            kind.but(ink=SECOND),
            corner[0] + 1 * MM,
            corner[1] + kind.leading / 2 + kind.size * RISE,
        )


def _blank(
    context: PrintContext, pen: Pen, atom: _Atom, item: TickBox | FillIn, place: tuple[float, float], tag: Tag
) -> None:
    """The outline, which is print, and the field's place, which is not; `place` is the left end of its line's middle."""
    x, middle = place
    one_line = _BOX if isinstance(item, TickBox) else _CELL
    upper, high = middle - one_line / 2, one_line + (atom.lines - 1) * _TALL_LINE
    with pen.mark(_LAYOUT):
        pen.rectangle((x, upper), (atom.wide, high), stroke=INK, weight=0.5)
    label = strip_controls(item.label)
    number = pen.canvas.field(Tag("Form", tag), pen.box(x, upper, atom.wide, high), label)
    made = FormField(
        page=pen.canvas.page_index,
        annotation=number,
        size=(round(atom.wide, 3), round(high, 3)),
        name=strip_controls(item.field),
        label=label,
        sort="tick",
        value="on" if isinstance(item, TickBox) and item.on else "",
    )
    if isinstance(item, FillIn):
        made = replace(
            made,
            sort="choice" if item.options else "text",
            value=strip_controls(item.value),
            options=item.options,
            several_lines=item.lines > 1,
        )
    context.form.append(made)
