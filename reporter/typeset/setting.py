"""Text broken into lines of a given width.

Comes in: runs (text in one type, owned by one tag). Goes out: lines of placed pieces. A word longer than the line
is broken within; nothing is ever wider than asked. Must not paint or know pages.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from reporter.typeset.glyphs import text_width
from reporter.typeset.styles import Type
from reporter.typeset.tags import Tag

# A line may end at a space, and after a hyphen, dash or slash inside a word; a narrow or fixed space binds.
_ATOMS = re.compile(r"\n| +|[^ \n]*?[-‐–—/](?=[^\d \n])|[^ \n]+")


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """Text in one type; `tag` owns it, `href` makes it a link (then `tag` is the Link element)."""

    text: str
    kind: Type
    tag: Tag
    href: str = ""


@dataclass(slots=True, eq=False)
class Piece:
    """A stretch of one run on one line, `x` from the line's start; `trail` is a space for readers of the text."""

    text: str
    run: Run
    x: float
    width: float
    trail: str = ""


@dataclass(slots=True, eq=False)
class SetLine:
    """Pieces side by side, and their whole width in points."""

    pieces: list[Piece] = field(default_factory=list)
    width: float = 0.0

    @property
    def text(self) -> str:
        """Its words."""
        return "".join(piece.text for piece in self.pieces)

    def put(self, text: str, run: Run) -> None:
        """Append text, joining it to the last piece when that is of the same run."""
        wide = text_width(text, run.kind)
        if self.pieces and self.pieces[-1].run is run:
            self.pieces[-1].text += text
            self.pieces[-1].width += wide
        else:
            self.pieces.append(Piece(text, run, self.width, wide))
        self.width += wide


_Atom = tuple[str, Run]


def set_lines(runs: Sequence[Run], measure: float) -> list[SetLine]:
    """Break `runs` into lines no wider than `measure` points; at least one line, which may be empty."""
    lines = [SetLine()]
    space: _Atom | None = None
    for word in _words(runs):
        text, run = word[0]
        if text == "\n":
            space = None
            _end(lines, word[0])
            continue
        if not text.strip(" "):
            space = (" ", run) if lines[-1].pieces else None
            continue
        wide = sum(text_width(part, owner.kind) for part, owner in word)
        gap = text_width(" ", space[1].kind) if space else 0.0
        # A space counts only once the word after it stands on the same line: at a line's end it would be white.
        if lines[-1].pieces and lines[-1].width + gap + wide > measure:
            _end(lines, space)
            space = None
        if space:
            lines[-1].put(*space)
            space = None
        if wide <= measure:
            for part, owner in word:
                lines[-1].put(part, owner)
        else:
            _put_broken(lines, word, measure)
    return lines


def broken(text: str, kind: Type, measure: float) -> tuple[str, ...]:
    """The lines of a text that no element owns: it is painted as part of a picture."""
    return tuple(line.text for line in set_lines([Run(text, kind, Tag("Span"))], measure))


def _words(runs: Iterable[Run]) -> Iterator[list[_Atom]]:
    """Unbreakable stretches, spaces and line feeds; a word may reach over several runs."""
    word: list[_Atom] = []
    for run in runs:
        for match in _ATOMS.finditer(run.text):
            text = match.group()
            if text[0] in " \n":
                if word:
                    yield word
                    word = []
                yield [(text, run)]
                continue
            word.append((text, run))
            if match.end() < len(run.text) and run.text[match.end()] not in " \n":
                yield word
                word = []
    if word:
        yield word


def _end(lines: list[SetLine], space: _Atom | None) -> None:
    """Begin a new line; the ended one keeps a space for text extraction, outside its width."""
    if space and lines[-1].pieces:
        lines[-1].pieces[-1].trail = " "
    lines.append(SetLine())


def _put_broken(lines: list[SetLine], word: list[_Atom], measure: float) -> None:
    for part, run in word:
        for character in part:
            line = lines[-1]
            if line.pieces and line.width + text_width(character, run.kind) > measure:
                lines.append(SetLine())
            lines[-1].put(character, run)
