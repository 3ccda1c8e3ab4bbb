"""The structure tree in the file, clause by clause of ISO 32000-1, 14.7 and 14.8."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest
from pikepdf import Name

from tests.archive.broken import elements


@pytest.fixture
def pdf(good: Path) -> Iterator[pikepdf.Pdf]:
    """Open the good file."""
    with pikepdf.open(good) as opened:
        yield opened


def test_parent_tree_holds_pages_then_annotations_in_reading_order(pdf: pikepdf.Pdf) -> None:
    root = pdf.Root.StructTreeRoot
    numbers = pikepdf.NumberTree(root.ParentTree)
    assert list(numbers) == [0, 1, 2, 3]
    assert root.ParentTreeNextKey == 4
    assert [page.obj.StructParents for page in pdf.pages] == [0, 1]
    assert [page.obj.Annots[0].StructParent for page in pdf.pages] == [2, 3]
    assert [str(numbers[key].S) for key in (2, 3)] == ["/Link", "/Form"]
    assert [str(owner.S) for owner in numbers[1]] == ["/P", "/Note", "/Figure", "/Caption", "/P"]


def test_a_paragraph_over_a_page_break_names_the_second_page(pdf: pikepdf.Pdf) -> None:
    (broken,) = [
        each
        for each in elements(pdf, "P")
        if "/K" in each
        and isinstance(each.K, pikepdf.Array)
        and any(not isinstance(kid, int) and kid.get("/Type") == Name.MCR for kid in each.K)
    ]
    first, second = broken.K
    assert broken.Pg.objgen == pdf.pages[0].obj.objgen
    assert first == 12
    assert second.Pg.objgen == pdf.pages[1].obj.objgen
    assert second.MCID == 0


def test_every_element_with_content_has_a_page_and_an_empty_cell_none(pdf: pikepdf.Pdf) -> None:
    every = [
        each
        for each in pdf.objects
        if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == Name.StructElem
    ]
    assert [str(each.S) for each in every if "/Pg" not in each] == ["/TD"]
    assert all("/K" in each for each in every if "/Pg" in each)


def test_attributes_stand_under_their_owners(pdf: pikepdf.Pdf) -> None:
    heads = [(str(head.A.O), str(head.A.Scope), head.A.get("/ColSpan")) for head in elements(pdf, "TH")]
    assert sorted(heads, key=str) == [
        ("/Table", "/Column", 2), ("/Table", "/Column", None), ("/Table", "/Row", None),
    ]  # fmt: skip
    (listed,) = elements(pdf, "L")
    assert (str(listed.A.O), str(listed.A.ListNumbering)) == ("/List", "/Decimal")
    (figure,) = elements(pdf, "Figure")
    assert [int(edge) for edge in figure.A.BBox] == [50, 500, 250, 600]
    assert str(figure.Alt) == "The quadrant"
    (note,) = elements(pdf, "Note")
    assert str(note.Lang) == "fr"
    (heading,) = elements(pdf, "H2")
    assert str(heading["/T"]) == "Chain"


def test_a_note_can_be_found_by_its_id(pdf: pikepdf.Pdf) -> None:
    names = pikepdf.NameTree(pdf.Root.StructTreeRoot.IDTree)
    (note,) = elements(pdf, "Note")
    assert [(name, element.objgen) for name, element in names.items()] == [(str(note.ID), note.objgen)]


def test_a_link_says_where_it_leads(pdf: pikepdf.Pdf) -> None:
    (link,) = elements(pdf, "Link")
    annotation = link.K[1].Obj
    assert str(annotation.Contents) == "the method page (https://example.org/m)"
    assert annotation.F == 4
    assert str(annotation.A.URI) == "https://example.org/m"


def test_the_signature_field_stands_after_what_it_signs(pdf: pikepdf.Pdf) -> None:
    (form,) = elements(pdf, "Form")
    (document,) = pdf.Root.StructTreeRoot.K
    assert document.K[-1].objgen == form.objgen
    (field,) = pdf.Root.AcroForm.Fields
    assert form.K.Obj.objgen == field.objgen
    assert pdf.Root.AcroForm.SigFlags == 1
    assert (str(field.FT), str(field["/T"]), str(field.TU)) == (
        "/Sig",
        "surveyor",
        "Signature of the surveyor",
    )
    assert field.F == 132
    assert [int(edge) for edge in field.Rect] == [50, 360, 250, 410]
    assert [int(edge) for edge in field.AP.N.BBox] == [0, 0, 200, 50]
    assert "/V" not in field
