"""The caption that whoever took a photo wrote into the file, on the phone or at a desk.

Comes in: a photo file. Goes out: one line of text, or none. Asked for by `new` alone, which proposes photos to parts by it:
a caption may name anybody, so no other step reads it, and no report carries it unless it is copied into findings.yaml.

Description before title, and both before EXIF's ImageDescription (0x010E): IIM datasets 2:120 and 2:05, XMP `dc:description` and `dc:title`. Programs write IIM as UTF-8 or as
Latin-1 and seldom say which, so what reads as UTF-8 is taken for it. Numbers and custom by the tag list of exiftool and the
manual of libiptcdata; the standards themselves were not read. Into ImageDescription many cameras write the same words on every
photo, so it counts where a camera's photos differ in it.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from reporter.door import formats, metadata, workers
from reporter.door.frugal import frugal
from reporter.door.metadata import one_line

if TYPE_CHECKING:
    from PIL.ImageFile import ImageFile

LONGEST = 300
"""Characters of a caption that are kept."""
_MOST_XMP = 100_000
"""Bytes of a packet that are looked through; one segment of a JPEG, whose length has two bytes, holds 64 kB."""
_IPTC = ((2, 120), (2, 5))
_XMP = ("description", "title")
_DESCRIPTION = 0x010E


@dataclass(frozen=True, slots=True)
class Written:
    """What one file says: its caption, its ImageDescription, and the camera that may have written that."""

    caption: str
    described: str
    camera: str


def read_captions(files: Sequence[Path], folder: Path) -> dict[str, str]:
    """File name -> its caption, of those that have one; `folder` is what the files must lie in."""
    answers = workers.run_on_files(written, files, folder, workers=1)
    found = {file.name: each for file, each in zip(files, answers, strict=True) if isinstance(each, Written)}
    of_camera: dict[str, set[str]] = {}
    for each in found.values():
        of_camera.setdefault(each.camera, set()).add(each.described)
    told = {
        name: each.caption or (each.described if len(of_camera[each.camera]) > 1 else "")
        for name, each in found.items()
    }
    return {name: line for name, line in told.items() if line}


def written(path: str, root: str) -> Written:
    """What one file says, description before title; runs in a worker."""
    data = formats.take(Path(path), Path(root))
    image = formats.open_image(data)
    caption = next((line for each in _told(image) if (line := one_line(each, LONGEST))), "")
    return Written(caption, _described(image), metadata.read_tags(data, image).camera)


def _described(image: ImageFile) -> str:
    """EXIF's ImageDescription, which Pillow reads as Latin-1 whatever it was written in."""
    text: object = ""
    with frugal(), suppress(Exception):  # readers of damaged files raise nearly everything
        text = metadata.exif_of(image).get(_DESCRIPTION)
    return (
        one_line(_decoded(text.encode("latin-1", "replace")).split("\0")[0], LONGEST)
        if isinstance(text, str)
        else ""
    )


def _told(image: ImageFile) -> Iterator[str]:
    packet = _packet(image)
    fields = _iptc(image)
    for dataset, element in zip(_IPTC, _XMP, strict=True):
        yield fields.get(dataset, "")
        yield _element(packet, element)


def _iptc(image: ImageFile) -> dict[tuple[int, int], str]:
    from PIL.IptcImagePlugin import getiptcinfo

    try:
        found = getiptcinfo(image) or {}
    except (SyntaxError, ValueError, KeyError, TypeError, IndexError, OSError):
        return {}
    return {dataset: _decoded(value) for dataset in _IPTC if isinstance(value := found.get(dataset), bytes)}


def _decoded(text: bytes) -> str:
    try:
        return text.decode("utf-8")
    except UnicodeDecodeError:
        return text.decode("latin-1")


def _packet(image: ImageFile) -> str:
    """The XMP packet as text; JPEG, HEIF, WebP and AVIF keep it under one name, PNG under another."""
    held = image.info.get("xmp") or image.info.get("XML:com.adobe.xmp") or b""
    data = held.encode() if isinstance(held, str) else held
    return data[:_MOST_XMP].decode("utf-8", "replace") if isinstance(data, bytes) else ""


def _element(packet: str, name: str) -> str:
    """The first language of a Dublin Core element (`rdf:Alt`, a list of alternatives)."""
    # Looked up, not parsed: a packet is written by anybody, and nothing else of it is wanted.
    found = re.search(rf"<dc:{name}\b[^>]{{0,200}}>(.{{0,4000}}?)</dc:{name}>", packet, re.DOTALL)
    item = re.search(r"<rdf:li\b[^>]{0,200}>([^<]{0,4000})</rdf:li>", found[1]) if found else None
    return html.unescape(item[1]) if item else ""
