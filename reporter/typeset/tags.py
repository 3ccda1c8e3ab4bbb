"""The logical tree while it grows: one node per structure element, kids in order of first paint.

Goes out: the frozen `Element` tree that the archive stage writes (ISO 32000-1, 14.7 and 14.8).
Must not know ReportLab.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Literal

from reporter.model.pages import Element, Linked, Marked

ArtifactKind = Literal["header", "footer", "watermark", "layout", "background"]


@dataclass(frozen=True, slots=True)
class Artifact:
    """Something painted that is no content: said so on purpose (ISO 32000-1, 14.8.2.2)."""

    kind: ArtifactKind

    @property
    def properties(self) -> str:
        """The property list of the artifact's BDC operator."""
        return _PROPERTIES[self.kind]


_PROPERTIES: dict[ArtifactKind, str] = {
    "header": "<</Type/Pagination/Subtype/Header/Attached[/Top]>>",
    "footer": "<</Type/Pagination/Subtype/Footer/Attached[/Bottom]>>",
    "watermark": "<</Type/Pagination/Subtype/Watermark>>",
    "layout": "<</Type/Layout>>",
    "background": "<</Type/Layout>>",
}


_TOLD = [each.name for each in fields(Element) if each.name != "kids"]
"""What an element and a tag of it say alike."""


@dataclass(eq=False, slots=True)
class Tag:
    """A structure element under construction; it joins its parent when first painted or attached."""

    role: str
    parent: Tag | None = None
    alt: str = ""
    lang: str = ""
    title: str = ""
    scope: str = ""
    column_span: int = 1
    row_span: int = 1
    numbering: str = ""
    bbox: tuple[float, float, float, float] | None = None
    kids: list[Tag | Marked | Linked] = field(default_factory=list)
    attached: bool = False

    def attach(self) -> Tag:
        """Join the parent, and it its own, unless that is done; an empty cell needs this. Returns itself."""
        if not self.attached:
            self.attached = True
            if self.parent is not None:
                self.parent.attach()
                self.parent.kids.append(self)
        return self

    def add(self, kid: Marked | Linked) -> None:
        """Take a mark or an annotation as the next kid."""
        self.attach()
        self.kids.append(kid)

    def freeze(self) -> Element:
        """The finished element with all its kids."""
        kids = tuple(kid.freeze() if isinstance(kid, Tag) else kid for kid in self.kids)
        return Element(kids=kids, **{name: getattr(self, name) for name in _TOLD})
