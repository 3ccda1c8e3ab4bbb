"""What a page's content stream says about itself: is everything painted inside one mark, and inside which."""

from __future__ import annotations

import pikepdf
from pikepdf import Dictionary, Name, Object

_PAINTING = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "Tj", "TJ", "'", '"', "INLINE IMAGE"}
_ARTIFACT = Name.Artifact
_Instruction = pikepdf.ContentStreamInstruction | pikepdf.ContentStreamInlineImage
_WANTED = " ".join([*sorted(_PAINTING - {"INLINE IMAGE"}), "BI ID EI BT ET BMC BDC EMC"])


def read_marks(page: pikepdf.Page) -> tuple[list[int], list[str]]:
    """Return the page's MCIDs in painting order, and what is wrong with its marks, in plain sentences.

    Holds ISO 14289-1, 7.1 (all content is tagged or an artifact, and never both) and ISO 32000-1, 14.6.1 (a
    mark lies wholly inside a text object or wholly outside).
    """
    reading = _Stream(page)
    for instruction in pikepdf.parse_content_stream(page, _WANTED):
        reading.take(str(instruction.operator), instruction)
    reading.end()
    return list(reading.mcids), reading.findings


class _Stream:
    """The state while a content stream is read: the open marks, and how many there were when text began."""

    def __init__(self, page: pikepdf.Page) -> None:
        self.resources = page.obj.get("/Resources", Dictionary())
        self.open: list[str] = []
        self.text_from: int | None = None
        self.mcids: dict[int, None] = {}
        self.findings: list[str] = []

    def take(self, operator: str, instruction: _Instruction) -> None:
        # Operands are made only where they are looked at: there are tens of thousands of instructions.
        if operator in _PAINTING:
            if not any(self.open):
                self._find(f"{operator} paints outside every mark")
        elif operator in {"BDC", "BMC"}:
            self._begin(list(instruction.operands))
        elif operator == "EMC":
            self._close()
        elif operator == "BT":
            self.text_from = len(self.open)
        elif operator == "ET":
            if self.text_from != len(self.open):
                self._find("a mark crosses the end of a text object")
            self.text_from = None

    def end(self) -> None:
        if self.open:
            self._find("a mark is not closed at the end of the page")

    def _begin(self, operands: list[Object]) -> None:
        # A mark that is neither content nor artifact (a span of language, say) counts as no mark: "".
        kind = ""
        if operands[0] == _ARTIFACT:
            kind = "artifact"
        elif (mcid := self._mcid(operands)) is not None:
            kind = f"mark {mcid}"
            if mcid in self.mcids:
                self._find(f"MCID {mcid} is used twice")
            self.mcids[mcid] = None
        around = next((each for each in self.open if each), "")
        if kind and around:
            self._find(f"{kind} lies inside {around}")
        self.open.append(kind)

    def _mcid(self, operands: list[Object]) -> int | None:
        properties = operands[1] if len(operands) > 1 else None
        if isinstance(properties, Name):
            properties = self.resources.get("/Properties", Dictionary()).get(properties)
        if isinstance(properties, Dictionary) and "/MCID" in properties:
            return int(properties["/MCID"])
        return None

    def _close(self) -> None:
        if not self.open:
            self._find("a mark is closed that was never opened")
            return
        self.open.pop()
        if self.text_from is not None and len(self.open) < self.text_from:
            self._find("a mark crosses the start of a text object")
            self.text_from = len(self.open)

    def _find(self, finding: str) -> None:
        if finding not in self.findings:
            self.findings.append(finding)
