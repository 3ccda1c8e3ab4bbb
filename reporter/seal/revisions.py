"""What a revision after the report may hold: one signature, and nothing else.

Readers differ in what they let pass after a signature; this list is shorter than any of theirs. A revision holds its field,
of which only value and appearance changed, one appearance of strokes, one signature dictionary and one cross-reference stream;
the first one also the catalogue, which names the certification (ISO 32000-1, 12.8.2.2 and 12.8.4).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from itertools import pairwise
from typing import Any

from pyhanko.pdf_utils.generic import IndirectObject, Reference
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.fields import enumerate_sig_fields

from reporter.model.sealed import Remark, remark

_TAIL = re.compile(rb"endobj\s+startxref\s+\d+\s+%%EOF\s*\Z")
_HEAD = re.compile(rb"\A\d+ \d+ obj\s")
_PAINTS = {b"q", b"Q", b"RG", b"rg", b"w", b"J", b"j", b"m", b"l", b"c", b"h", b"S", b"f"}
_FIGURE = re.compile(rb"-?\d+(?:\.\d+)?")
_SIGNATURE_KEYS = {"/Type", "/Filter", "/SubFilter", "/Contents", "/ByteRange", "/M"}
_APPEARANCE_KEYS = {"/Type", "/Subtype", "/BBox", "/Resources", "/Length"}
_STREAM_KEYS = {"/W", "/Type", "/Filter", "/Info", "/Root", "/Size", "/ID", "/Prev", "/Index", "/Length"}
NOWHERE = -1
"""The number of an object that is not there."""
_APPENDED_ONLY = 3
_ROUNDED = 1.0
"""Points by which the library rounds the size of an appearance."""


@dataclass
class Revision:
    """One revision after the report: which objects it holds, and where in the file."""

    document: bytes
    reader: PdfFileReader
    number: int
    offsets: dict[int, int] = field(init=False)

    def __post_init__(self) -> None:
        data = self.reader.xrefs.get_xref_data(self.number)
        self.offsets = {number: int(place) for number, (_, place) in data.standard_xrefs.items()}

    @property
    def start(self) -> int:
        """Where its first object begins."""
        return min(self.offsets.values(), default=len(self.document))

    @property
    def has_other_tables(self) -> bool:
        """Whether it frees objects, packs them, gives them another generation or has a second table."""
        data = self.reader.xrefs.get_xref_data(self.number)
        freed = {number for number in data.freed if number}
        later = any(generation for generation, _ in data.standard_xrefs.values())
        return bool(freed or data.xrefs_in_objstm or data.hybrid or later)

    def now(self, number: int) -> Any:
        """An object as this revision has it."""
        return _object(self.reader, number, self.number)

    def before(self, number: int) -> Any:
        """The same object in the revision before; None where it is new."""
        return _object(self.reader, number, self.number - 1)


def ends_of(document: bytes, revisions: list[Revision]) -> list[int]:
    """Where each revision ends: at the next one, the last at the end of the file."""
    return [each.start for each in revisions[1:]] + [len(document)] * bool(revisions)


def whole_faults(document: bytes, revisions: list[Revision], fields: list[str]) -> Iterator[Remark]:
    """Do the revisions follow each other without a gap, and is the first one the certification of the first field."""
    for revision, end in zip(revisions, ends_of(document, revisions), strict=True):
        if not document[revision.start - 8 : revision.start].rstrip(b"\r\n").endswith(b"%%EOF"):
            yield remark("verify.revision_gap", number=revision.number)
        yield from _bytes_faults(revision, end)
    if revisions:
        first = revisions[0]
        names = [name for name, _, _ in enumerate_sig_fields(first.reader.get_historical_resolver(0))]
        if names != fields:
            yield remark("verify.fields_changed")
        certified = _signed_field(first)
        if not names or certified != names[0]:
            yield remark("verify.not_sealed_first")


def _bytes_faults(revision: Revision, end: int) -> Iterator[Remark]:
    """Every byte belongs to one of the listed objects or to the closing lines."""
    places = [*sorted(revision.offsets.values()), end]
    pieces = [revision.document[start:stop] for start, stop in pairwise(places)]
    whole = all(_HEAD.match(piece) and piece.count(b"endobj") == 1 for piece in pieces)
    closed = all(piece.rstrip().endswith(b"endobj") for piece in pieces[:-1])
    if not pieces or not whole or not closed or not _TAIL.search(pieces[-1]):
        yield remark("verify.revision_loose", number=revision.number)


def revision_faults(revision: Revision, name: str) -> Iterator[Remark]:
    """What this revision holds beyond the signature in the field `name`."""
    number = revision.number
    place = _reference(revision, name)
    changed = revision.now(place)
    value, drawn = _target(changed, "/V"), _target(entry(changed, "/AP"), "/N")
    table = revision.reader.xrefs.get_xref_container_info(number).stream_ref
    stream = int(table.idnum) if table else NOWHERE
    root = int(revision.reader.trailer.raw_get("/Root").idnum)
    allowed = {place, value, drawn, stream} | ({root} if number == 1 else set())
    if set(revision.offsets) != allowed or revision.has_other_tables:
        extra = sorted(str(each) for each in set(revision.offsets) - allowed)
        yield remark("verify.revision_beyond", number=number, objects=", ".join(extra) or "–")
        return
    is_new = all(revision.before(each) is None for each in (value, drawn, stream))
    if not is_new or not _same_trailer(revision, revision.now(stream)):
        yield remark("verify.revision_beyond", number=number, objects=str(stream))
    yield from _field_faults(revision, place, changed, name)
    if not _only_strokes(revision.now(drawn), changed):
        yield remark("verify.appearance", field=name)
    if not _is_signature(revision.now(value), certifies=number == 1):
        yield remark("verify.dictionary", field=name)
    if number == 1 and not _only_certified(revision.before(root), revision.now(root), value):
        yield remark("verify.catalogue", number=number)


def _field_faults(revision: Revision, place: int, changed: Any, name: str) -> Iterator[Remark]:
    """Only value and appearance of the field changed, and it had no value."""
    earlier = revision.before(place)
    if earlier is None or "/V" in earlier or _plain(earlier, "/AP") != _plain(changed, "/AP", "/V"):
        yield remark("verify.field_changed", field=name)
    if set(changed["/AP"]) != {"/N"}:
        yield remark("verify.appearance", field=name)


def _only_strokes(appearance: Any, changed: Any) -> bool:
    """Straight and curved lines in the field's own size: no text, no picture, nothing larger."""
    left, bottom, right, top = (float(each) for each in changed["/Rect"])
    box = [float(each) for each in appearance.get("/BBox", [])]
    tokens = appearance.data.split()
    return (
        set(appearance) <= _APPEARANCE_KEYS
        and not appearance.get("/Resources", {})
        and len(box) == 4  # noqa: PLR2004 - a rectangle
        and abs(abs(box[2] - box[0]) - (right - left)) <= _ROUNDED
        and abs(abs(box[3] - box[1]) - (top - bottom)) <= _ROUNDED
        and all(token in _PAINTS or _FIGURE.fullmatch(token) for token in tokens)
    )


def _is_signature(value: Any, *, certifies: bool) -> bool:
    """The dictionary that this program writes; only the first one says what may still be changed: P = 2."""
    wanted = _SIGNATURE_KEYS | ({"/Reference"} if certifies else set())
    if set(value) != wanted or value["/SubFilter"] != "/ETSI.CAdES.detached" or value["/Type"] != "/Sig":
        return False
    if not certifies:
        return True
    (reference,) = value["/Reference"]
    rule = reference["/TransformParams"]
    return (
        set(reference) == {"/Type", "/TransformMethod", "/TransformParams"}
        and reference["/TransformMethod"] == "/DocMDP"
        and set(rule) == {"/Type", "/V", "/P"}
        and rule["/P"] == 2  # noqa: PLR2004 - signatures and form fields, nothing else (table 254)
    )


def _only_certified(earlier: Any, changed: Any, value: int) -> bool:
    """The catalogue as before, with the certification and the sign that the file is only appended to."""
    form_before, form = earlier["/AcroForm"], changed["/AcroForm"]
    permissions = changed.get("/Perms", {})
    return (
        _plain(earlier, "/AcroForm") == _plain(changed, "/AcroForm", "/Perms", "/Extensions")
        and _plain(form_before, "/SigFlags") == _plain(form, "/SigFlags")
        and form.get("/SigFlags") == _APPENDED_ONLY
        and set(permissions) == {"/DocMDP"}
        and _target(permissions, "/DocMDP") == value
        and set(changed.get("/Extensions", {})) <= {"/ESIC"}
    )


def _same_trailer(revision: Revision, stream: Any) -> bool:
    """The table leads to the same catalogue and document information, and back to the revision before."""
    earlier = revision.reader.trailer.flatten(revision.number - 1)
    back = revision.reader.xrefs.get_startxref_for_revision(revision.number - 1)
    return (
        set(stream) <= _STREAM_KEYS
        and all(_written(stream.raw_get(key)) == _written(earlier.raw_get(key)) for key in ("/Root", "/Info"))
        and _written(stream["/ID"][0]) == _written(earlier["/ID"][0])
        and stream["/Prev"] == back
    )


def _signed_field(revision: Revision) -> str:
    """The field that has a value in this revision and had none before."""
    for name, value, _ in enumerate_sig_fields(revision.reader.get_historical_resolver(revision.number)):
        if value is not None:
            return str(name)
    return ""


def _reference(revision: Revision, name: str) -> int:
    for each, _, reference in enumerate_sig_fields(revision.reader.get_historical_resolver(revision.number)):
        if each == name:
            return int(reference.idnum)
    raise KeyError(name)


def _object(reader: PdfFileReader, number: int, revision: int) -> Any:
    place = reader.xrefs.get_historical_ref(Reference(number, 0), revision)
    return None if place is None else reader.get_historical_resolver(revision)(Reference(number, 0))


def _target(dictionary: Any, key: str) -> int:
    value = dictionary.raw_get(key) if key in dictionary else None
    return int(value.idnum) if isinstance(value, IndirectObject) else NOWHERE


def entry(dictionary: Any, key: str) -> Any:
    """An entry with what it refers to, which the library's `get` does not follow; an empty dictionary where it is missing."""
    try:
        return dictionary[key]
    except KeyError:
        return {}


def _plain(dictionary: Any, *without: str) -> dict[str, bytes]:
    """The entries as they would be written, in no order."""
    return {str(key): _written(dictionary.raw_get(key)) for key in dictionary if key not in without}


def _written(value: Any) -> bytes:
    out = BytesIO()
    value.write_to_stream(out, None)
    return out.getvalue()
