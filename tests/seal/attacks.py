"""What somebody might do to a sealed report: each attack as an update of the file by the library that also signs it.

The table holds what this program must say of each. An attack is tried alone, and hidden in one update with a stranger's signature.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from pyhanko.pdf_utils.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    NumberObject,
    StreamObject,
    TextStringObject,
)
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.sign import PdfSignatureMetadata, PdfSigner
from pyhanko.sign.fields import SigFieldSpec, SigSeedSubFilter, append_signature_field

from reporter.seal.keys import Key
from reporter.seal.sealing import _QuietWriter, _signer, _Style

Writer = IncrementalPdfFileWriter
N = NameObject


@dataclass(frozen=True)
class Attack:
    """One way to change a file, and the words that this program has for it when it stands alone."""

    name: str
    do: Callable[[Writer], None]
    told: str = "verify.revision_unsigned"


def _stream(content: bytes, **entries: Any) -> StreamObject:
    return StreamObject({N(f"/{key}"): value for key, value in entries.items()}, stream_data=content)


def _page(writer: Writer) -> Any:
    return writer.root["/Pages"]["/Kids"][0]


def _field(writer: Writer, number: int) -> Any:
    return writer.root["/AcroForm"]["/Fields"][number]


def page_added(writer: Writer) -> None:
    """A page more at the end."""
    pages = writer.root["/Pages"]
    new = DictionaryObject(
        {N("/Type"): N("/Page"), N("/MediaBox"): ArrayObject(map(NumberObject, (0, 0, 9, 9)))}
    )
    new[N("/Parent")] = writer.root.raw_get("/Pages")
    pages["/Kids"].append(writer.add_object(new))
    pages[N("/Count")] = NumberObject(pages["/Count"] + 1)
    writer.update_container(pages)


def content_swapped(writer: Writer) -> None:
    """Other words on the page."""
    page = _page(writer)
    page[N("/Contents")] = writer.add_object(_stream(b"0 0 100 100 re f"))
    writer.update_container(page)


def annotation(writer: Writer) -> None:
    """A square laid over a grade."""
    page = _page(writer)
    note = DictionaryObject(
        {
            N("/Type"): N("/Annot"),
            N("/Subtype"): N("/Square"),
            N("/Rect"): ArrayObject(map(FloatObject, (0, 0, 99, 99))),
        }
    )
    page["/Annots"].append(writer.add_object(note))
    writer.update_container(page)
    writer.update_container(page["/Annots"])


def text_field(writer: Writer) -> None:
    """A field of text with a value."""
    new = DictionaryObject(
        {N("/FT"): N("/Tx"), N("/T"): TextStringObject("note"), N("/V"): TextStringObject("clear")}
    )
    writer.root["/AcroForm"]["/Fields"].append(writer.add_object(new))
    writer.update_root()


def _attachments(writer: Writer) -> Any:
    return writer.root["/Names"]["/EmbeddedFiles"]


def attachment_added(writer: Writer) -> None:
    """A file more among the data."""
    names = _attachments(writer)
    held = names["/Names"] if "/Names" in names else names["/Kids"][0]["/Names"]
    spec = DictionaryObject({N("/Type"): N("/Filespec"), N("/F"): TextStringObject("z.txt")})
    held.append(TextStringObject("z.txt"))
    held.append(writer.add_object(spec))
    writer.update_container(held)


def attachment_swapped(writer: Writer) -> None:
    """Other data behind the same name."""
    spec = writer.root["/AF"][0]
    spec["/EF"][N("/F")] = writer.add_object(_stream(b"format: 2\n", Type=N("/EmbeddedFile")))
    writer.update_container(spec["/EF"])
    writer.update_container(spec)


def data_cut_off(writer: Writer) -> None:
    """The document no longer associated with its data."""
    writer.root[N("/AF")] = ArrayObject()
    writer.update_root()


def tree_emptied(writer: Writer) -> None:
    """Nothing left to be read aloud."""
    tree = writer.root["/StructTreeRoot"]
    tree[N("/K")] = ArrayObject()
    writer.update_container(tree)


def open_action(writer: Writer) -> None:
    """Something done when the file is opened."""
    action = DictionaryObject({N("/S"): N("/URI"), N("/URI"): TextStringObject("http://example.org")})
    writer.root[N("/OpenAction")] = action
    writer.update_root()


def _shown(writer: Writer, number: int, content: bytes, side: int) -> None:
    field = _field(writer, number)
    box = ArrayObject(map(NumberObject, (0, 0, side, side)))
    drawn = _stream(content, Type=N("/XObject"), Subtype=N("/Form"), BBox=box, Resources=DictionaryObject())
    field[N("/AP")] = DictionaryObject({N("/N"): writer.add_object(drawn)})
    writer.update_container(field)


def signed_appearance(writer: Writer) -> None:
    """Another line drawn where the author signed."""
    _shown(writer, 0, b"0 0 m 9 9 l S", 10)


def empty_appearance(writer: Writer) -> None:
    """A line drawn where nobody signed yet."""
    _shown(writer, 1, b"0 0 m 9 9 l S", 10)


def appearance_enlarged(writer: Writer) -> None:
    """The signed field made as large as the page, to hide what is under it."""
    field = _field(writer, 0)
    field[N("/Rect")] = ArrayObject(map(FloatObject, (0, 0, 595, 842)))
    writer.update_container(field)


def field_over_page(writer: Writer) -> None:
    """A new field to sign over the whole page."""
    append_signature_field(writer, SigFieldSpec("more", on_page=0, box=(0, 0, 595, 842)))


def xmp_replaced(writer: Writer) -> None:
    """Another title and author in the metadata."""
    writer.root[N("/Metadata")] = writer.add_object(_stream(b"<x/>", Type=N("/Metadata"), Subtype=N("/XML")))
    writer.update_root()


def xmp_in_place(writer: Writer) -> None:
    """The same, in the object that was there."""
    reference = writer.root.raw_get("/Metadata").reference
    writer.objects[(0, reference.idnum)] = _stream(b"<x/>", Type=N("/Metadata"), Subtype=N("/XML"))


def orphan(writer: Writer) -> None:
    """An object that nothing leads to: room for a second text."""
    writer.add_object(_stream(b"hidden"))


def security_store(writer: Writer) -> None:
    """A store for certificates, which readers allow after a signature."""
    writer.root[N("/DSS")] = writer.add_object(DictionaryObject({N("/Certs"): ArrayObject()}))
    writer.update_root()


def empty_update(writer: Writer) -> None:
    """An update without an object."""
    writer._force_write_when_empty = True


def trailer_entry(writer: Writer) -> None:
    """An entry of one's own where the file begins to be read."""
    writer._force_write_when_empty = True
    writer.set_custom_trailer_entry(N("/Also"), N("/this"))


def author_unsigned(writer: Writer) -> None:
    """The author's signature taken away."""
    field = _field(writer, 0)
    del field["/V"]
    writer.update_container(field)


def fields_removed(writer: Writer) -> None:
    """The whole form taken away."""
    del writer.root["/AcroForm"]
    writer.update_root()


def label_changed(writer: Writer) -> None:
    """Other words for what the witness signs."""
    field = _field(writer, 2)
    field[N("/TU")] = TextStringObject("I have seen nothing")
    writer.update_container(field)


def witness_enlarged(writer: Writer) -> None:
    """The witness's own field made as large as the page."""
    field = _field(writer, 2)
    field[N("/Rect")] = ArrayObject(map(FloatObject, (0, 0, 595, 842)))
    writer.update_container(field)


ATTACKS = [
    Attack("page_added", page_added),
    Attack("content_swapped", content_swapped),
    Attack("annotation", annotation),
    Attack("text_field", text_field),
    Attack("attachment_added", attachment_added),
    Attack("attachment_swapped", attachment_swapped),
    Attack("data_cut_off", data_cut_off),
    Attack("tree_emptied", tree_emptied),
    Attack("open_action", open_action),
    Attack("signed_appearance", signed_appearance),
    Attack("empty_appearance", empty_appearance),
    Attack("appearance_enlarged", appearance_enlarged),
    Attack("field_over_page", field_over_page, "verify.fields_changed"),
    Attack("xmp_replaced", xmp_replaced),
    Attack("xmp_in_place", xmp_in_place),
    Attack("orphan", orphan),
    Attack("security_store", security_store),
    Attack("empty_update", empty_update),
    Attack("trailer_entry", trailer_entry),
    Attack("author_unsigned", author_unsigned),
    Attack("label_changed", label_changed),
    Attack("witness_enlarged", witness_enlarged),
    Attack("fields_removed", fields_removed, "verify.fields_changed"),
]
HIDDEN = [attack for attack in ATTACKS if attack.do not in {empty_update, fields_removed}]
"""Those that can be hidden in one update with a signature: an empty one is then nothing, and without fields none is signed."""


def alone(document: bytes, attack: Attack) -> bytes:
    """The attack as an update of its own."""
    writer = _QuietWriter(BytesIO(document))
    attack.do(writer)
    out = BytesIO()
    writer.write(out)
    assert out.getvalue() != document
    return out.getvalue()


def with_signature(
    document: bytes, attack: Attack | None, key: Key, field: str = "witness", **described: Any
) -> bytes:
    """The attack in one update with a signature in a field that may still be signed."""
    writer = _QuietWriter(BytesIO(document))
    if attack:
        attack.do(writer)
    style = described.pop("style", _Style())
    meta = PdfSignatureMetadata(
        field_name=field, md_algorithm="sha256", subfilter=SigSeedSubFilter.PADES, **described
    )
    out = BytesIO()
    PdfSigner(meta, _signer(key), stamp_style=style).sign_pdf(writer, existing_fields_only=True, output=out)
    return out.getvalue()
