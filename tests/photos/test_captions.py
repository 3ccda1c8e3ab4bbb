"""Captions come through from every sort of file that a phone or a camera writes, and so do the photos themselves."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from reporter.door import read_captions
from reporter.door.formats import open_image
from tests.photos.conftest import SHARED
from tests.photos.scenes import scene

SAID = "The chain: dry, Kürzel <9>"
PACKET = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><dc:description><rdf:Alt><rdf:li xml:lang="x-default">'
    "The chain: dry, Kürzel &lt;9&gt;</rdf:li></rdf:Alt></dc:description></x:xmpmeta>"
).encode()


def by_pillow(file: Path) -> None:
    """JPEG, WebP, AVIF, and two JPEGs in one file, as the name says."""
    several: dict[str, Any] = {"save_all": True, "append_images": [scene(64, 48)]}
    scene(64, 48).save(file, xmp=PACKET, **(several if file.suffix == ".mpo" else {}))


def by_an_encoder(file: Path) -> None:
    """A HEIC from its pixels; what the program itself brings along can only read one."""
    pillow_heif = pytest.importorskip(
        "pillow_heif", reason="pillow-heif is not installed: nothing makes a HEIC here"
    )
    made = pillow_heif.from_pillow(scene(64, 48))
    made.info["xmp"] = PACKET
    made.save(file)


def by_a_phone(file: Path) -> None:
    """A real HEIC, its packet exchanged for one of the same length."""
    taken = SHARED / "files/iphonexs_offset_basepos.heic"
    if not taken.exists():
        pytest.skip("../shared/photos is not here: no real HEIC to write into")
    data = taken.read_bytes()
    packet = open_image(data).info["xmp"]
    assert data.count(packet) == 1
    file.write_bytes(data.replace(packet, PACKET.ljust(len(packet))))


FILES = [
    ("a.jpg", by_pillow),
    ("a.webp", by_pillow),
    ("a.avif", by_pillow),
    ("a.mpo", by_pillow),
    ("a.heic", by_an_encoder),
    ("a.heic", by_a_phone),
    ("IMG_1.HIF", by_a_phone),
]


@pytest.mark.parametrize(("name", "make"), FILES)
def test_a_caption_comes_through(name: str, make: Callable[[Path], None], tmp_path: Path) -> None:
    make(tmp_path / name)
    assert read_captions([tmp_path / name], tmp_path) == {name: SAID}


def described(file: Path, model: str, said: str) -> Path:
    """A JPEG in whose EXIF a camera or a person wrote a description, as UTF-8."""
    exif = Image.Exif()
    exif[0x0110] = model
    if said:
        exif[0x010E] = said.encode()
    scene(64, 48).save(file, exif=exif)
    return file


def test_a_description_in_exif_counts_where_a_cameras_photos_differ_in_it(tmp_path: Path) -> None:
    """What a camera writes on every photo is nobody's caption; nor is what stands on its only one, which may be that."""
    told = [("a", "Invented 1", "Kürzel: the chain"), ("b", "Invented 1", ""), ("c", "Invented 1", "the chain"),
            ("d", "Invented 2", "INVENTED DIGITAL CAMERA"), ("e", "Invented 2", "INVENTED DIGITAL CAMERA"),
            ("f", "Invented 3", "one alone")]  # fmt: skip
    files = [described(tmp_path / f"{name}.jpg", model, said) for name, model, said in told]
    assert read_captions(files, tmp_path) == {"a.jpg": "Kürzel: the chain", "c.jpg": "the chain"}


def test_a_caption_stands_before_the_description_in_exif(tmp_path: Path) -> None:
    file, other = tmp_path / "a.jpg", described(tmp_path / "b.jpg", "Invented 1", "")
    exif = Image.Exif()
    exif[0x0110], exif[0x010E] = "Invented 1", "of the camera"
    scene(64, 48).save(file, exif=exif, xmp=PACKET)
    assert read_captions([file, other], tmp_path) == {"a.jpg": SAID}
