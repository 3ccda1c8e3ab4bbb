"""PDFs as strangers and other programs make them: spoilt as bytes, or with objects exchanged, lost, led round in a circle, or locked."""

from __future__ import annotations

import io
import random
import warnings

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Stream

from tests.hard import spoiling

_NOTHING: tuple[object, ...] = (
    None, 0, -1, 2**31, True, "", "x" * 5000, "\u202e", "\x1b[31m", Name.X, Array([]), Array([None] * 50), Dictionary(),
)  # fmt: skip


def spoilt(chance: random.Random, content: bytes) -> bytes:
    """What comes in the document's place."""
    if chance.random() < 0.5:
        for _ in range(chance.choice((1, 1, 3))):
            content = spoiling.file(chance, content)
        return content
    return _exchanged(chance, content)


def _exchanged(chance: random.Random, content: bytes) -> bytes:
    """One to forty places of the file's objects hold something else than they did."""
    with warnings.catch_warnings(action="ignore"), pikepdf.open(io.BytesIO(content)) as pdf:
        objects = [each for each in pdf.objects if _holds(each)]
        near = [pdf.Root, *_within(pdf.Root), pdf.trailer]
        for _ in range(chance.choice((1, 1, 2, 5, 40))):
            _spoil(chance, chance.choice(near if chance.random() < 0.6 else objects), objects, pdf)
        return _saved(chance, pdf)


def _holds(one: Object) -> bool:
    return (
        bool(len(one))
        if isinstance(one, Array)
        else isinstance(one, Dictionary | Stream) and bool(one.keys())
    )


def _within(root: Object, depth: int = 4) -> list[Object]:
    """What hangs near the root, where the attached files, the fields and what the file says of itself are."""
    found: list[Object] = []
    for key, each in root.items() if isinstance(root, Dictionary) else []:
        if depth and key not in {"/Parent", "/P", "/StructTreeRoot", "/Pages"}:
            inner = list(each) if isinstance(each, Array) else [each]
            for one in inner[:30]:
                if isinstance(one, Dictionary):
                    found += [one, *_within(one, depth - 1)]
    return found


def _spoil(chance: random.Random, one: Object, objects: list[Object], pdf: pikepdf.Pdf) -> None:
    other = chance.choice((*_NOTHING, *chance.sample(objects, 5), pdf.Root))
    try:
        if isinstance(one, Array):
            one[chance.randrange(len(one))] = other
        elif isinstance(one, Stream) and chance.random() < 0.5:
            one.write(spoiling.file(chance, one.read_raw_bytes()))
        else:
            key = chance.choice(sorted(one.keys()))
            if chance.random() < 0.3:
                del one[key]
            else:
                one[key] = other
    except (pikepdf.PdfError, ValueError, TypeError, KeyError, IndexError, RuntimeError):
        return  # what the library does not let anybody write


def _saved(chance: random.Random, pdf: pikepdf.Pdf) -> bytes:
    file = io.BytesIO()
    locked = pikepdf.Encryption(owner="o", user=chance.choice(("", "u"))) if chance.random() < 0.1 else False
    modes = pikepdf.ObjectStreamMode
    try:
        pdf.save(
            file,
            encryption=locked,
            object_stream_mode=chance.choice((modes.disable, modes.generate, modes.preserve)),
        )
    except (pikepdf.PdfError, ValueError, RuntimeError):
        return file.getvalue()
    return file.getvalue()
