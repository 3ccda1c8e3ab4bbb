"""Whether a HEIF file turns itself: looks for the boxes `irot` and `imir` among the item properties.

Comes in: a file's bytes. Goes out: a truth value. ISO/IEC 23008-12, 6.5.10 and 6.5.12; box layout ISO/IEC
14496-12, 4.2 (clause numbers from memory). Decoders apply these boxes, and the EXIF orientation must then not
be applied again; phones exist that write neither.
"""

from __future__ import annotations

from collections.abc import Iterator


def turns_itself(data: bytes) -> bool:
    """True when the file has a rotation or mirror property. A damaged file has none."""
    for meta in _boxes(data, b"meta"):
        for properties in _boxes(meta[4:], b"iprp"):  # `meta` begins with four bytes of version and flags
            for container in _boxes(properties, b"ipco"):
                return any(kind in {b"irot", b"imir"} for kind, _ in _walk(container))
    return False


def _boxes(data: bytes, wanted: bytes) -> Iterator[bytes]:
    return (content for kind, content in _walk(data) if kind == wanted)


def _walk(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The kind and content of each box in a row."""
    place = 0
    while place + 8 <= len(data):
        size, head = int.from_bytes(data[place : place + 4]), 8
        if size == 1:
            size, head = int.from_bytes(data[place + 8 : place + 16]), 16
        end = len(data) if size == 0 else place + size
        if end < place + head or end > len(data):
            return
        yield data[place + 4 : place + 8], data[place + head : end]
        place = end
