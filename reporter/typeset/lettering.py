"""The labels of a drawing set in the report's own type, at the places that the placer finds for them.

Comes in: a `Drawing` and the scale at which it is printed. Goes out: shapes in points from the drawing's upper left corner:
signs, words and leaders, all inside the drawing. What finds no place there is numbered and stands in a key beneath it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from reporter.model.drawing import LEFT_OF, XY, Drawing, Ellipse, Ink, Label, Path, Shape, Sign, Words
from reporter.typeset.glyphs import text_width
from reporter.typeset.ink import InkMap
from reporter.typeset.placer import LINE, NUMBER, Candidate, PlacedLabel, place_labels
from reporter.typeset.places import Area
from reporter.typeset.setting import broken
from reporter.typeset.styles import Type

SIZE, SIGN, LEAD = 8.0, 9.0, 12.0
_NAME, _WORD = Type("Semibold", SIZE, LINE), Type("Regular", SIZE, LINE)
_EDGE, _LONGEST_WORD = 3.0, 96.0
_NARROWEST = {1: 1e6, 2: 72.0, 3: 52.0}
"""By the lines of the name: words of a grade are not broken before they are so wide."""
_KEY_COLUMNS, _KEY_GAP, _KEY_INDENT, _KEY_MOST, _LEAST_NAME = 3, 10.0, 14.0, 250.0, 0.35
_MORE, _BESIDE = "…", 4.0
_INSIDE = re.compile(r"(?<![:,;]) ")
Clean = Callable[[str], str]


class Lettering(NamedTuple):
    """Everything that is set on a drawing, the height of the key beneath it in points, and where each part is named."""

    shapes: tuple[Shape, ...]
    key: float = 0.0
    named: tuple[tuple[str, Area], ...] = ()


class Lettered(NamedTuple):
    """A label in lines of a certain width: its name, then its word in a quieter ink."""

    names: tuple[str, ...]
    words: tuple[str, ...]
    lead: float
    strong: bool
    in_row: bool = False
    """The word stands behind the name, in one row."""

    @property
    def size(self) -> XY:
        """Width and height in points."""
        if self.in_row:
            return (
                self.lead + text_width(self.names[0], _NAME) + _BESIDE + text_width(self.words[0], _WORD),
                LINE,
            )
        wide = [
            *(text_width(row, _NAME) for row in self.names),
            *(text_width(row, _WORD) for row in self.words),
        ]
        return (self.lead + max(wide), LINE * (len(self.names) + len(self.words)))


def letter(drawing: Drawing, scale: float, clean: Clean) -> Lettering:
    """The labels of a drawing that is printed at `scale` points to the unit; `clean` makes text printable."""
    if not drawing.labels:
        return Lettering(())
    size = (drawing.width * scale, drawing.height * scale)
    frame = Area(_EDGE, _EDGE, size[0] - _EDGE, size[1] - _EDGE)
    ink = InkMap(size, drawing.shapes, scale, [_scaled(label.at, scale) for label in drawing.labels])
    taken = [_words_area(shape, scale, clean) for shape in drawing.shapes if isinstance(shape, Words)]
    blocks = [_blocks(label, clean) for label in drawing.labels]
    one_number = (text_width(str(len(blocks)), _NAME) + 1, LINE)
    items = [
        Candidate(
            at=_scaled(label.at, scale),
            rooms=tuple(Area(*(edge * scale for edge in room)) for room in label.rooms),
            sizes=tuple(each.size for each in made),
            number=one_number,
            priority=label.priority,
        )
        for label, made in zip(drawing.labels, blocks, strict=True)
    ]
    places = place_labels(items, ink, frame, taken)
    shapes: list[Shape] = []
    keyed: list[tuple[str, Label]] = []
    named = [(label.part, where.area) for label, where in zip(drawing.labels, places, strict=True) if where]
    for label, made, where in zip(drawing.labels, blocks, places, strict=True):
        if where is None:
            keyed.append(("–", label))
        elif where.size == NUMBER:
            keyed.append((str(len(keyed) + 1), label))
            number = _row(keyed[-1][0], (where.area.left + 0.5, where.area.top), strong=True)
            shapes += [*_leader(where), number]
        else:
            shapes += [*_leader(where), *_set(made[where.size], label, (where.area.left, where.area.top))]
    key, height = _key(keyed, size, clean)
    return Lettering((*shapes, *key), height, tuple(named))


def _scaled(spot: XY, scale: float) -> XY:
    return (spot[0] * scale, spot[1] * scale)


def _words_area(shape: Words, scale: float, clean: Clean) -> PlacedLabel:
    wide = text_width(clean(shape.text), Type("Semibold" if shape.strong else "Regular", shape.size, LINE))
    x, base = _scaled(shape.at, scale)
    left = x - LEFT_OF[shape.anchor] * wide
    return PlacedLabel(Area(left, base - shape.size, left + wide, base + shape.size * 0.3), 0, None)


def _blocks(label: Label, clean: Clean) -> list[Lettered]:
    """A label in one, two and three lines to its name; no line is cut."""
    name, lead = clean(label.text).replace("\n", " ").strip() or " ", LEAD if label.grade else 0.0
    words = [clean(row) for row in label.word.split("\n")] if label.word else []
    kind = _NAME if label.grade else _WORD
    found: dict[tuple[str, ...], Lettered] = {}
    for count, least in _NARROWEST.items():
        names = _in_lines(name, kind, count)
        wide = max(*(text_width(row, kind) for row in names), least)
        told = tuple(row for each in words for row in _told(each, wide))
        found.setdefault((*names, *told), Lettered(names, told, lead, bool(label.grade)))
    return list(found.values())


def _in_lines(text: str, kind: Type, count: int) -> tuple[str, ...]:
    """Text in at most so many lines as even as they can be, words whole unless one is very long."""
    high = text_width(text, kind) + 0.01
    low = min(
        max(text_width(word, kind) for word in text.split(" ")) + 0.01, max(_LONGEST_WORD, high / count)
    )
    if count == 1 or low >= high:
        return (text,) if count == 1 else broken(text, kind, max(low, high / count))
    # The narrowest measure that still gives so many lines makes them most even; nine halvings come near enough.
    for _ in range(9):
        middle = (low + high) / 2
        low, high = (low, middle) if len(broken(text, kind, middle)) <= count else (middle, high)
    return broken(text, kind, high)


def _told(text: str, measure: float) -> tuple[str, ...]:
    """A grade's word in lines that end where its sense does ("starboard:", "stop,"), if so they fit."""
    bound = _INSIDE.sub("\u00a0", text)
    if max(text_width(piece, _WORD) for piece in bound.split(" ")) > measure:
        return broken(text, _WORD, measure)
    return tuple(row.replace("\u00a0", " ") for row in broken(bound, _WORD, measure))


def _leader(where: PlacedLabel) -> list[Shape]:
    """A fine line, and a dot where it ends."""
    if where.leader is None:
        return []
    return [
        Path(points=where.leader, weight="fine", stroke="second"),
        Ellipse(centre=where.leader[1], radii=(1.1, 1.1), weight="fine", stroke="second", fill="second"),
    ]


def _set(block: Lettered, label: Label, corner: XY) -> list[Shape]:
    """The sign, the name beside it, and the word beneath or behind the name."""
    left, top = corner
    across, row = block.lead, len(block.names)
    if block.in_row:
        across, row = block.lead + text_width(block.names[0], _NAME) + _BESIDE, 0
    drawn: list[Shape] = [
        _row(name, (left + block.lead, top), number, strong=block.strong)
        for number, name in enumerate(block.names)
    ]
    drawn += [
        _row(word, (left + across, top), number, ink="second") for number, word in enumerate(block.words, row)
    ]
    if label.grade:
        drawn.append(Sign(at=(left + SIGN / 2, top + LINE / 2 + 0.6), grade=label.grade, side=SIGN))
    return drawn


def _row(text: str, corner: XY, row: int = 0, *, strong: bool = False, ink: Ink = "ink") -> Words:
    """A line of a label, so many rows below its corner."""
    left, top = corner
    return Words(at=(left, top + LINE * row + SIZE * 0.9), text=text, size=SIZE, strong=strong, ink=ink)


def _key(labels: Sequence[tuple[str, Label]], size: XY, clean: Clean) -> tuple[list[Shape], float]:
    """Names in columns beneath the drawing: in full where the height allows it, else cut with an ellipsis."""
    if not labels:
        return [], 0.0
    wide = (size[0] - 2 * _EDGE - _KEY_GAP * (_KEY_COLUMNS - 1)) / _KEY_COLUMNS
    for most in (12, 2, 1):
        entries = [_entry(label, wide - _KEY_INDENT, most, clean) for _, label in labels]
        columns, high = _columns(entries)
        if high <= _KEY_MOST:
            break
    drawn: list[Shape] = []
    for (number, label), block, (column, down) in zip(labels, entries, columns, strict=True):
        left, top = _EDGE + column * (wide + _KEY_GAP), size[1] + 4 + down
        drawn.append(_row(number, (left, top), ink="second"))
        drawn += _set(block, label, (left + _KEY_INDENT, top))
    return drawn, high + 8


def _entry(label: Label, measure: float, most: int, clean: Clean) -> Lettered:
    """A label in the key, with at most so many lines to its name; with one, its word stands in the same row if it can."""
    lead = LEAD if label.grade else 0.0
    name, word = clean(label.text).replace("\n", " ").strip() or " ", "; ".join(clean(label.word).split("\n"))
    beside = measure - lead - _BESIDE - text_width(word, _WORD)
    if most == 1 and word and beside > measure * _LEAST_NAME:
        return Lettered((_cut(name, beside),), (word,), lead, bool(label.grade), in_row=True)
    names = broken(name, _NAME, measure - lead)
    if len(names) > most:
        names = (*names[: most - 1], _cut(" ".join(names[most - 1 :]), measure - lead))
    return Lettered(names, _told(word, measure - lead), lead, bool(label.grade))


def _cut(text: str, measure: float) -> str:
    """Text that ends in an ellipsis where it is too long."""
    if text_width(text, _NAME) <= measure:
        return text
    while text and text_width(text + _MORE, _NAME) > measure:
        text = text[:-1]
    return text.rstrip(" ,;.:") + _MORE


def _columns(entries: Sequence[Lettered]) -> tuple[list[tuple[int, float]], float]:
    """Column and depth of each entry, and the depth of the deepest column."""
    share = sum(entry.size[1] + 2 for entry in entries) / _KEY_COLUMNS
    places: list[tuple[int, float]] = []
    column, down, deepest = 0, 0.0, 0.0
    for entry in entries:
        high = entry.size[1] + 2
        if down and down + high / 2 > share and column < _KEY_COLUMNS - 1:
            column, down = column + 1, 0.0
        places.append((column, down))
        down += high
        deepest = max(deepest, down)
    return places, deepest
