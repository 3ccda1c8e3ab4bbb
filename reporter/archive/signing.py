"""Room for digital signatures: one unsigned, visible field per signature line, ready for a signing tool.

The lines and words around a field are page content already; a field paints nothing itself.
"""

from __future__ import annotations

from dataclasses import replace

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from reporter.archive.wording import storable
from reporter.model.pages import Element, Linked, Marked, Pages, SignatureField

_PRINT_AND_LOCKED = 132
_HAS_SIGNATURE_FIELDS = 1


def add_fields(pdf: pikepdf.Pdf, pages: Pages) -> Element:
    """Put the signature fields on their pages and return the structure tree with one Form element for each.

    Field and widget are one object (ISO 32000-1, 12.7.4.5); its label is the TU and the widget's Contents
    (ISO 14289-1, 7.18.1 and 7.18.4). It carries an empty appearance, since a visible widget must have one
    (ISO 19005-3, 6.3.3).
    """
    if not pages.fields:
        return pages.tree
    widgets = Array([])
    tree = pages.tree
    for field in pages.fields:
        page = pdf.pages[field.page].obj
        if "/Annots" not in page:
            page.Annots = Array([])
        widget = pdf.make_indirect(_widget(pdf, field, page))
        page.Annots.append(widget)
        widgets.append(widget)
        tree = _with_form(tree, Linked(field.page, len(page.Annots) - 1, field.label))
    pdf.Root.AcroForm = Dictionary(Fields=widgets, SigFlags=_HAS_SIGNATURE_FIELDS)
    return tree


def _widget(pdf: pikepdf.Pdf, field: SignatureField, page: pikepdf.Object) -> Dictionary:
    left, bottom, right, top = (round(edge, 3) for edge in field.rect)
    appearance = pdf.make_stream(b"")
    appearance.Type = Name.XObject
    appearance.Subtype = Name.Form
    appearance.BBox = Array([0, 0, round(right - left, 3), round(top - bottom, 3)])
    appearance.Resources = Dictionary()
    return Dictionary(
        Type=Name.Annot,
        Subtype=Name.Widget,
        FT=Name.Sig,
        T=String(storable(field.name)),
        TU=String(storable(field.label)),
        Rect=Array([left, bottom, right, top]),
        F=_PRINT_AND_LOCKED,
        P=page,
        AP=Dictionary(N=appearance),
    )


def _with_form(tree: Element, widget: Linked) -> Element:
    """Put a Form element after the last top element that begins on the widget's page or before it."""
    place = 0
    for at, kid in enumerate(tree.kids, 1):
        page = _begins(kid)
        if page is not None and page <= widget.page:
            place = at
    form = Element("Form", kids=(widget,))
    return replace(tree, kids=(*tree.kids[:place], form, *tree.kids[place:]))


def _begins(kid: Element | Marked | Linked) -> int | None:
    if not isinstance(kid, Element):
        return kid.page
    return next((page for below in kid.kids if (page := _begins(below)) is not None), None)
