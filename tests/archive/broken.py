"""A good file spoilt in one way at a time: controls for our own check and for the reference validator alike.

A checker that silently stops checking must be noticed; so every change here names who must notice it, and by
what.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name, Object


@dataclass(frozen=True)
class Broken:
    """One way to spoil a file: the change, what `verify` must say, and the clause the validator must name.

    `flavour` is empty where no rule of the validator covers the fault.
    """

    name: str
    change: Callable[[pikepdf.Pdf], None]
    finding: str
    flavour: str = ""
    clause: str = ""

    def spoil(self, good: Path, folder: Path) -> Path:
        """Write the spoilt copy of `good` into `folder`."""
        spoilt = folder / f"{self.name.replace(' ', '_')}.pdf"
        with pikepdf.open(good) as pdf:
            self.change(pdf)
            pdf.save(spoilt, fix_metadata_version=False, deterministic_id=True)
        return spoilt


def elements(pdf: pikepdf.Pdf, role: str) -> Iterator[Object]:
    """Every structure element of a role."""
    for each in pdf.objects:
        if not isinstance(each, Dictionary) or each.get("/Type") != Name.StructElem:
            continue
        if str(each.S) == f"/{role}":
            yield each


def _no_alt(pdf: pikepdf.Pdf) -> None:
    del next(elements(pdf, "Figure")).Alt


def _no_bbox(pdf: pikepdf.Pdf) -> None:
    del next(elements(pdf, "Figure")).A


def _no_tree(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.StructTreeRoot


def _no_scope(pdf: pikepdf.Pdf) -> None:
    for head in elements(pdf, "TH"):
        del head.A.Scope


def _no_link_words(pdf: pikepdf.Pdf) -> None:
    del pdf.pages[0].obj.Annots[0].Contents


def _stray_link(pdf: pikepdf.Pdf) -> None:
    page = pdf.pages[1].obj
    page.Annots.append(
        pdf.make_indirect(
            Dictionary(
                Type=Name.Annot,
                Subtype=Name.Link,
                Rect=Array([10, 10, 20, 20]),
                F=4,
                Contents=pikepdf.String("stray"),
            )
        )
    )


def _unprinted_link(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].obj.Annots[0].F = 2


def _unmarked(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].contents_add(pdf.make_stream(b"0 0 m 99 99 l S"))


def _crossing(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].contents_add(pdf.make_stream(b"/Artifact BMC BT EMC ET"))


def _twice(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].contents_add(pdf.make_stream(b"/P <</MCID 0>> BDC 0 0 m 99 99 l S EMC"))


def _orphan(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].contents_add(pdf.make_stream(b"/P <</MCID 77>> BDC 0 0 m 99 99 l S EMC"))


def _nested(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].contents_add(pdf.make_stream(b"/P <</MCID 0>> BDC /Artifact BMC 0 0 m 99 99 l S EMC EMC"))


def _wrong_way_back(pdf: pikepdf.Pdf) -> None:
    row = pdf.Root.StructTreeRoot.ParentTree.Nums[1]
    row[0], row[1] = row[1], row[0]


def _wrong_parent(pdf: pikepdf.Pdf) -> None:
    next(elements(pdf, "Link")).P = next(elements(pdf, "Document"))


def _no_intent(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.OutputIntents


def _heading_jump(pdf: pikepdf.Pdf) -> None:
    next(elements(pdf, "H2")).S = Name.H3


def _unknown_role(pdf: pikepdf.Pdf) -> None:
    next(elements(pdf, "Note")).S = Name.Aside


def _row_astray(pdf: pikepdf.Pdf) -> None:
    next(elements(pdf, "Table")).S = Name.Sect


def _not_associated(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.AF


def _no_relationship(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.AF[0].AFRelationship


def _wrong_part(pdf: pikepdf.Pdf) -> None:
    _reword(pdf, b"<pdfaid:conformance>A<", b"<pdfaid:conformance>B<")


def _no_ua(pdf: pikepdf.Pdf) -> None:
    _reword(pdf, b"<pdfuaid:part>1</pdfuaid:part>", b"")


def _other_title(pdf: pikepdf.Pdf) -> None:
    pdf.trailer.Info.Title = pikepdf.String("Another title")


def _reword(pdf: pikepdf.Pdf, old: bytes, new: bytes) -> None:
    packet = pdf.Root.Metadata.read_bytes()
    assert old in packet
    pdf.Root.Metadata.write(packet.replace(old, new))


def _unembedded(pdf: pikepdf.Pdf) -> None:
    for font in pdf.pages[0].obj.Resources.Font.values():
        del font.FontDescriptor["/FontFile2"]


def _no_tabs(pdf: pikepdf.Pdf) -> None:
    del pdf.pages[0].obj.Tabs


def _no_language(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.Lang


def _no_marking(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.MarkInfo


def _file_name_shown(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.ViewerPreferences


def _unlabelled_field(pdf: pikepdf.Pdf) -> None:
    widget = pdf.Root.AcroForm.Fields[0]
    del widget.TU
    del widget.Contents


def _script(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=pikepdf.String("app.beep()"))


BROKEN = (
    Broken("no alt", _no_alt, "Figure has no alternative text", "ua1", "7.3-1"),
    Broken("no bounding box", _no_bbox, "Figure has no bounding box"),
    Broken("no structure tree", _no_tree, "there is no structure tree", "ua1", "7.1-11"),
    Broken("no scope", _no_scope, "TH has no scope", "ua1", "7.5-1"),
    Broken("no link words", _no_link_words, "a Link annotation has no description", "ua1", "7.18.5-2"),
    Broken("stray link", _stray_link, "a Link annotation belongs to no element", "ua1", "7.18.5-1"),
    Broken("unprinted link", _unprinted_link, "is hidden or is not printed", "3a", "6.3.2-2"),
    Broken("unmarked content", _unmarked, "paints outside every mark", "ua1", "7.1-3"),
    Broken("crossing", _crossing, "a mark crosses the start of a text object"),
    Broken("mark twice", _twice, "MCID 0 is used twice"),
    Broken("orphan mark", _orphan, "mark 77 belongs to no element", "ua1", "7.1-3"),
    Broken("artifact in a mark", _nested, "artifact lies inside mark 0", "ua1", "7.1-1"),
    Broken("wrong way back", _wrong_way_back, "ParentTree does not lead mark 0 to its element"),
    Broken("wrong parent", _wrong_parent, "Link does not point back to its parent"),
    Broken("no output intent", _no_intent, "there is no output intent", "3a", "6.2.4.3-2"),
    Broken("heading jump", _heading_jump, "H3 follows H1", "ua1", "7.4.2-1"),
    Broken("unknown role", _unknown_role, "Aside is not a standard structure type", "ua1", "7.1-5"),
    Broken("rows without table", _row_astray, "TR stands in Sect", "ua1", "7.2-4"),
    Broken("not associated", _not_associated, "attached but not associated", "3a", "6.8-4"),
    Broken("no relationship", _no_relationship, "does not say how it relates", "3a", "6.8-3"),
    Broken("wrong conformance", _wrong_part, "XMP does not say pdfaid:conformance A", "3a", "6.6.4-3"),
    Broken("no pdf ua mark", _no_ua, "XMP does not say pdfuaid:part 1", "ua1", "5-1"),
    Broken("other title", _other_title, "Info /Title and XMP dc:title differ"),
    Broken("unembedded font", _unembedded, "is not embedded", "ua1", "7.21.4.1-1"),
    Broken("no tab order", _no_tabs, "tab order does not follow", "ua1", "7.18.3-1"),
    Broken("no language", _no_language, "the language is missing", "ua1", "7.2-34"),
    Broken("not marked as tagged", _no_marking, "does not say that it is tagged", "3a", "6.7.2.2-1"),
    Broken("file name shown", _file_name_shown, "readers are not asked to show the title", "ua1", "7.1-10"),
    Broken("unlabelled field", _unlabelled_field, "a form field has no label", "ua1", "7.18.1-3"),
    Broken("script", _script, "does something when it is opened", "3a", "6.5.1-1"),
)
