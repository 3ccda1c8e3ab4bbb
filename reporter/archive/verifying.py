"""Our own check of a written report: quick, without Java, and in words. Tests run the reference validator.

It reads a file and says what it finds; it changes nothing and trusts nothing in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, String

from reporter.archive.attached import attached_files
from reporter.archive.marked_content import read_marks
from reporter.archive.treewalk import ObjectNumber, Walk, number_of, walk_tree
from reporter.errors import UsageError

_PRINT = 0b100
_SEEN_FLAGS = 0b100111
"""Invisible, Hidden, Print and NoView: only Print may be set (ISO 19005-3, 6.3.2)."""

_PAIRS = {
    "/Title": "dc:title",
    "/Subject": "dc:description",
    "/Keywords": "pdf:Keywords",
    "/Producer": "pdf:Producer",
    "/Creator": "xmp:CreatorTool",
}
"""What Info and XMP must say alike."""

_UNREADABLE = (pikepdf.PdfError, TypeError, ValueError, KeyError, AttributeError, IndexError)


def find_faults(path: Path, *, is_form: bool = False) -> list[str]:
    """Do what `verify` promises: document first, then page by page against the tree."""
    if not path.is_file():
        raise UsageError(f"There is no file {path}.")
    try:
        with pikepdf.open(path) as pdf:
            return [*_document(pdf, is_form=is_form), *_pages_and_tree(pdf)]
    except _UNREADABLE as error:
        return [f"the file cannot be read as one of our reports ({type(error).__name__}: {error})"]


def _pages_and_tree(pdf: pikepdf.Pdf) -> Iterator[str]:
    root = pdf.Root.get("/StructTreeRoot")
    if not isinstance(root, Dictionary):
        yield "there is no structure tree"
        return
    walk = walk_tree(root)
    yield from walk.findings
    numbers = root.get("/ParentTree")
    parents = dict(pikepdf.NumberTree(numbers).items()) if numbers is not None else {}
    marks_met = annotations_met = 0
    for number, page in enumerate(pdf.pages, 1):
        mcids, wrong = read_marks(page)
        marks_met += len(mcids)
        yield from (f"page {number}: {finding}" for finding in wrong)
        yield from (f"page {number}: {finding}" for finding in _page(page.obj, mcids, walk, parents))
        for annotation in page.obj.get("/Annots", Array()):
            annotations_met += 1
            yield from (f"page {number}: {finding}" for finding in _annotation(annotation, walk, parents))
    marks_named = sum(map(len, walk.marks.values()))
    if marks_met != marks_named:
        yield f"the tree names {marks_named} marks, the pages hold {marks_met}"
    if annotations_met != len(walk.annotations):
        yield f"the tree names {len(walk.annotations)} annotations, the pages hold {annotations_met}"


def _page(page: Object, mcids: list[int], walk: Walk, parents: dict[int, Object]) -> Iterator[str]:
    if page.get("/Tabs") != Name.S:
        yield "the tab order does not follow the structure"
    row = parents.get(int(page.get("/StructParents", -1)))
    owners = _owners(row) if isinstance(row, Array) else {}
    marks = walk.marks.get(number_of(page), {})
    for mcid in mcids:
        owner = marks.get(mcid)
        if owner is None:
            yield f"mark {mcid} belongs to no element"
        elif owners.get(mcid) != owner:
            yield f"ParentTree does not lead mark {mcid} to its element"
    if len(owners) > len(mcids):
        yield f"ParentTree lists {len(owners)} marks, the page holds {len(mcids)}"


def _owners(row: Array) -> dict[int, ObjectNumber]:
    return {mcid: number_of(owner) for mcid, owner in enumerate(row) if isinstance(owner, Dictionary)}


def _annotation(annotation: Object, walk: Walk, parents: dict[int, Object]) -> Iterator[str]:
    kind = str(annotation.get("/Subtype", "/?"))[1:]
    owner = walk.annotations.get(number_of(annotation)) if annotation.is_indirect else None
    back = parents.get(int(annotation.get("/StructParent", -1)))
    if owner is None:
        yield f"a {kind} annotation belongs to no element"
    elif back is None or number_of(back) != owner:
        yield f"ParentTree does not lead a {kind} annotation to its element"
    if not str(annotation.get("/Contents", "")).strip():
        yield f"a {kind} annotation has no description"
    if int(annotation.get("/F", 0)) & _SEEN_FLAGS != _PRINT:
        yield f"a {kind} annotation is hidden or is not printed"
    if kind == "Widget" and not str(annotation.get("/TU", "")).strip():
        yield "a form field has no label"


def _document(pdf: pikepdf.Pdf, *, is_form: bool) -> Iterator[str]:
    root = pdf.Root
    if pdf.is_encrypted:
        yield "the file is encrypted"
    if not bool(root.get("/MarkInfo", Dictionary()).get("/Marked", False)):
        yield "the file does not say that it is tagged"
    if not str(root.get("/Lang", "")):
        yield "the language is missing"
    if not bool(root.get("/ViewerPreferences", Dictionary()).get("/DisplayDocTitle", False)):
        yield "readers are not asked to show the title"
    intents = root.get("/OutputIntents", Array())
    if not any(intent.get("/S") == Name.GTS_PDFA1 and "/DestOutputProfile" in intent for intent in intents):
        yield "there is no output intent"
    if any(key in root for key in ("/OpenAction", "/AA")) and _acts(root):
        yield "the file does something when it is opened"
    yield from _metadata(pdf, is_form=is_form)
    yield from _attachments(pdf)
    yield from _fonts(pdf)


def _acts(root: Object) -> bool:
    """Tell whether opening the file runs an action; an array as OpenAction only shows a page."""
    return "/AA" in root or not isinstance(root.get("/OpenAction"), Array)


def _metadata(pdf: pikepdf.Pdf, *, is_form: bool) -> Iterator[str]:
    stream = pdf.Root.get("/Metadata")
    if stream is None:
        yield "there is no XMP metadata"
        return
    if "/Filter" in stream:
        yield "the XMP metadata is compressed"
    said = pdf.open_metadata()
    wanted = {"pdfuaid:part": "1"} | ({} if is_form else {"pdfaid:part": "3", "pdfaid:conformance": "A"})
    yield from (f"XMP does not say {key} {value}" for key, value in wanted.items() if said.get(key) != value)
    info = pdf.trailer.get("/Info", Dictionary())
    for key, name in _PAIRS.items():
        if str(info.get(key, "")) != (said.get(name) or ""):
            yield f"Info {key} and XMP {name} differ"
    if not said.get("dc:title"):
        yield "the title is missing"
    for key, name in {"/CreationDate": "xmp:CreateDate", "/ModDate": "xmp:ModifyDate"}.items():
        if _digits(info.get(key, "")) != _digits(said.get(name) or ""):
            yield f"Info {key} and XMP {name} differ"


def _digits(date: object) -> str:
    return re.sub(r"\D", "", str(date))


def _attachments(pdf: pikepdf.Pdf) -> Iterator[str]:
    associated = {each.objgen for each in pdf.Root.get("/AF", Array())}
    for name, specification in attached_files(pdf):
        if specification.objgen not in associated:
            yield f"{name} is attached but not associated with the document"
        if "/AFRelationship" not in specification:
            yield f"{name} does not say how it relates to the document"
        if not isinstance(specification.get("/UF"), String) or "/F" not in specification:
            yield f"{name} has no file name"
        if "/Subtype" not in specification.EF.F:
            yield f"{name} has no media type"


def _fonts(pdf: pikepdf.Pdf) -> Iterator[str]:
    seen: set[ObjectNumber] = set()
    for page in pdf.pages:
        for font in page.obj.get("/Resources", Dictionary()).get("/Font", Dictionary()).values():
            if number_of(font) in seen:
                continue
            seen.add(number_of(font))
            described = font.DescendantFonts[0] if "/DescendantFonts" in font else font
            descriptor = described.get("/FontDescriptor", Dictionary())
            if not any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")):
                yield f"the font {str(font.get('/BaseFont', '/?'))[1:]} is not embedded"
