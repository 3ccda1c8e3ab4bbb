"""Reads a laid-out PDF back with pikepdf: every marked sequence, what is painted outside one, and the text of each."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pikepdf

from reporter.model.pages import Element, Linked, Marked

PAINTING = frozenset(["S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "Tj", "TJ", "'", '"'])


@dataclass
class Read:
    """What the streams hold: text by page and MCID, text of artifacts, and faults."""

    marked: dict[tuple[int, int], str] = field(default_factory=dict)
    artifacts: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    annotations: list[int] = field(default_factory=list)
    sizes: set[float] = field(default_factory=set)


def read(path: Path) -> Read:
    """Walk the content of every page."""
    found = Read()
    with pikepdf.open(path) as pdf:
        for number, page in enumerate(pdf.pages):
            _Walk(found, number, page).run()
            found.annotations.append(len(page.obj.get("/Annots", [])))
    return found


class _Walk:
    def __init__(self, found: Read, number: int, page: Any) -> None:
        self.found, self.number, self.page = found, number, page
        self.fonts = {name: _decoder(font) for name, font in page.obj.Resources.get("/Font", {}).items()}
        self.font: dict[int, str] = {}
        self.open: object = None
        self.text = ""
        self.in_text = False
        self.painted = False

    def run(self) -> None:
        for instruction in pikepdf.parse_content_stream(self.page):
            operands, operator = instruction.operands, str(instruction.operator)
            if operator in {"BDC", "BMC"}:
                self._begin(operands)
            elif operator == "EMC":
                self._end()
            elif operator in {"BT", "ET"}:
                self.in_text = operator == "BT"
            elif operator == "Tf":
                self.font = self.fonts[str(operands[0])]
                self.found.sizes.add(float(operands[1]))
            if operator in PAINTING:
                self._paint(operator, operands)
        if self.open is not None:
            self._fault("a mark stays open")

    def _begin(self, operands: Any) -> None:
        if self.open is not None:
            self._fault("marks nest")
        if self.in_text:
            self._fault("a mark opens inside a text object")
        is_artifact = str(operands[0]) == "/Artifact"
        self.open = "artifact" if is_artifact else int(operands[1].MCID)
        self.text, self.painted = "", False

    def _end(self) -> None:
        if self.in_text:
            self._fault("a mark closes inside a text object")
        if not self.painted:
            self._fault("an empty mark")
        if self.open == "artifact":
            self.found.artifacts.append(self.text)
        else:
            key = (self.number, int(str(self.open)))
            if key in self.found.marked:
                self._fault(f"MCID {key[1]} twice")
            self.found.marked[key] = self.text
        self.open = None

    def _paint(self, operator: str, operands: Any) -> None:
        self.painted = True
        if self.open is None:
            self._fault(f"{operator} outside a mark")
        if operator == "Tj":
            self.text += "".join(self.font.get(code, "\ufffd") for code in bytes(operands[0]))

    def _fault(self, what: str) -> None:
        self.found.faults.append(f"page {self.number}: {what}")


def _decoder(font: Any) -> dict[int, str]:
    """Codes to characters, from the font's ToUnicode map."""
    cmap = font.ToUnicode.read_bytes().decode("latin-1")
    table: dict[int, str] = {}
    for block in re.findall(r"beginbfchar(.*?)endbfchar", cmap, re.DOTALL):
        for code, text in re.findall(r"<(\w+)>\s*<(\w+)>", block):
            table[int(code, 16)] = bytes.fromhex(text).decode("utf-16-be")
    for block in re.findall(r"beginbfrange(.*?)endbfrange", cmap, re.DOTALL):
        for first, _last, listed in re.findall(r"<(\w+)>\s*<(\w+)>\s*\[(.*?)\]", block, re.DOTALL):
            for step, text in enumerate(re.findall(r"<(\w+)>", listed)):
                table[int(first, 16) + step] = bytes.fromhex(text).decode("utf-16-be")
    return table


def elements(tree: Element, role: str = "") -> Iterator[Element]:
    """Every element, or those of one role, in reading order."""
    if role in {"", tree.role}:
        yield tree
    for kid in tree.kids:
        if isinstance(kid, Element):
            yield from elements(kid, role)


def marks(tree: Element) -> list[Marked]:
    """Every mark below an element, in reading order."""
    found: list[Marked] = []
    for kid in tree.kids:
        if isinstance(kid, Marked):
            found.append(kid)
        elif isinstance(kid, Element):
            found += marks(kid)
    return found


def links(tree: Element) -> list[Linked]:
    """Every annotation below an element."""
    return [kid for element in elements(tree) for kid in element.kids if isinstance(kid, Linked)]


def text(tree: Element, found: Read) -> str:
    """The text of an element in reading order."""
    return "".join(found.marked[mark.page, mark.mcid] for mark in marks(tree))
