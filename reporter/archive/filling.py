"""The fields of a form: what typesetting left room for becomes fields that any reader of PDF can fill in.

Comes in: the open file and the form's fields with their places. Goes out: the file, changed in place. Boxes and lines
around the fields are page content already; a field paints only what is filled in, in an embedded font (ISO 14289-1,
7.21.4.1), and says what it is called (7.18.1) by its TU.
"""

from __future__ import annotations

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, String

from reporter.archive.wording import storable
from reporter.model.pages import FieldFont, FormField, Pages

_PRINT = 4
_SEVERAL_LINES = 1 << 12
_DROPS_DOWN, _FREE = 1 << 17, 1 << 18
"""A list that drops down, and takes other words as well (ISO 32000-1, table 230)."""
_NONSYMBOLIC = 32
_FONT = "/Form"
_ON, _OFF = "/Yes", "/Off"
_INSET = 1.6
"""From a field's edge to its text, in points."""


def complete(pdf: pikepdf.Pdf, pages: Pages) -> None:
    """Make fields of the places that typesetting left (ISO 32000-1, 12.7); nothing where there is no form."""
    if not pages.form or pages.font is None:
        return
    looks = _Looks(pdf, pages.font)
    fields = Array([])
    for field in pages.form:
        widget = _widget(pdf, field)
        widget.T = String(storable(field.name))
        widget.TU = String(storable(field.label))
        widget.F = _PRINT
        widget.P = pdf.pages[field.page].obj
        if field.sort == "tick":
            looks.tick(widget, field)
        else:
            looks.text(widget, field)
        fields.append(widget)
    pdf.Root.AcroForm = Dictionary(Fields=fields, DR=looks.resources, DA=String(looks.style))


def _widget(pdf: pikepdf.Pdf, field: FormField) -> Object:
    annotations = pdf.pages[field.page].obj.Annots
    widget = annotations[field.annotation]
    if not widget.is_indirect:
        widget = pdf.make_indirect(widget)
        annotations[field.annotation] = widget
    return widget


class _Looks:
    """What fields look like: the font, the cross of a ticked box, the text of a blank."""

    def __init__(self, pdf: pikepdf.Pdf, font: FieldFont) -> None:
        self._pdf = pdf
        self._size = font.size
        self._widths = font.widths
        self._boxes: dict[tuple[float, float], Dictionary] = {}
        self._blank: dict[tuple[float, float], Object] = {}
        self.resources = pdf.make_indirect(Dictionary(Font=Dictionary({_FONT: _font(pdf, font)})))
        self.style = f"{_FONT} {font.size:g} Tf 0 g"

    def tick(self, widget: Object, field: FormField) -> None:
        """A box that is ticked or not (ISO 32000-1, 12.7.4.2.3); all of one size share their looks."""
        if field.size not in self._boxes:
            near, right, top = 1.2, round(field.size[0] - 1.2, 3), round(field.size[1] - 1.2, 3)
            cross = f"q 1.3 w 1 J {near} {near} m {right} {top} l {near} {top} m {right} {near} l S Q"
            states = {_ON: self._form(cross.encode(), field), _OFF: self._form(b"", field)}
            self._boxes[field.size] = Dictionary(N=Dictionary(states))
        widget.FT = Name.Btn
        widget.V = widget.AS = widget.DV = Name(_ON if field.value else _OFF)
        widget.AP = self._boxes[field.size]

    def text(self, widget: Object, field: FormField) -> None:
        """A blank for words, or for one of several (ISO 32000-1, 12.7.4.3 and 12.7.4.4)."""
        widget.FT = Name.Ch if field.options else Name.Tx
        widget.DA = String(self.style)
        widget.V = widget.DV = String(storable(field.value))
        if field.options:
            widget.Ff = _DROPS_DOWN | _FREE
            widget.Opt = Array([Array([String(value), String(words)]) for value, words in field.options])
        elif field.several_lines:
            widget.Ff = _SEVERAL_LINES
        shown = dict(field.options).get(field.value, field.value)
        if not shown and field.size not in self._blank:
            self._blank[field.size] = self._form(b"/Tx BMC EMC", field)
        drawn = self._form(self._drawn(shown, field), field) if shown else self._blank[field.size]
        widget.AP = Dictionary(N=drawn)

    def _drawn(self, text: str, field: FormField) -> bytes:
        """The words between the marks that readers look for when they draw them anew (ISO 32000-1, 12.7.3.3)."""
        wide, high = field.size
        base = high - self._size * 0.95 if field.several_lines else (high - self._size * 0.66) / 2
        lines = self._lines(text, wide - 2 * _INSET) if field.several_lines else [" ".join(text.split())]
        head = f"/Tx BMC q 0 0 {wide} {high} re W n BT {self.style} {self._size * 1.15:g} TL {_INSET} {base:.3f} Td "
        return head.encode() + b" T* ".join(b"(%s) Tj" % _escaped(line) for line in lines) + b" ET Q EMC"

    def _lines(self, text: str, room: float) -> list[str]:
        """The text broken where it fills the field; what runs over its lower edge is there, though not seen."""
        lines = [""]
        for word in text.split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and self._long(longer) > room:
                lines.append(word)
            else:
                lines[-1] = longer
        return lines

    def _long(self, text: str) -> float:
        codes = text.encode("cp1252", "replace")
        return sum(self._widths[code - 32] for code in codes if code >= 32) * self._size / 1000  # noqa: PLR2004

    def _form(self, content: bytes, field: FormField) -> Object:
        made = self._pdf.make_stream(content)
        made.Type = Name.XObject
        made.Subtype = Name.Form
        made.BBox = Array([0, 0, *field.size])
        made.Resources = self.resources
        return made


def _escaped(text: str) -> bytes:
    raw = text.encode("cp1252", "replace")
    return raw.replace(b"\\", b"\\\\").replace(b"(", b"\\(").replace(b")", b"\\)")


def _font(pdf: pikepdf.Pdf, font: FieldFont) -> Object:
    """A simple TrueType font with the Windows code page (ISO 32000-1, 9.6.3; ISO 14289-1, 7.21.6)."""
    file = pdf.make_stream(font.file)
    file.Length1 = len(font.file)
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=Name(f"/{font.name}"),
        Flags=_NONSYMBOLIC,
        FontBBox=Array([round(edge) for edge in font.box]),
        ItalicAngle=0,
        Ascent=round(font.ascent),
        Descent=round(font.descent),
        CapHeight=round(font.capitals),
        StemV=round(font.stem),
        FontFile2=file,
    )
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.TrueType,
            BaseFont=Name(f"/{font.name}"),
            FirstChar=32,
            LastChar=255,
            Widths=pdf.make_indirect(Array([round(wide) for wide in font.widths])),
            FontDescriptor=pdf.make_indirect(descriptor),
            Encoding=Name.WinAnsiEncoding,
        )
    )
