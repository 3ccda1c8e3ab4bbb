"""Photos proposed to parts: by captions as phones and desks write them, by names, by pauses; nothing where it is not plain."""

# ruff: noqa: DTZ001 - the times of cameras have no zone

from __future__ import annotations

import datetime as dt
import struct
from pathlib import Path

import pytest
from PIL import PngImagePlugin

from reporter.begin.proposing import meant, proposed, words_of
from reporter.door import read_captions
from reporter.model.photo import OffsetBasis, PhotoFile, Taken
from reporter.registry import find, load
from tests.photos.scenes import scene

REGISTRY = load(find())
WORDS = words_of([REGISTRY, REGISTRY.in_language("de")])
ABOARD = ("wheel", "wheel_brake", "chain", "steering_wire", "standing_wire", "other_steering")
PACKET = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:{0}><rdf:Alt><rdf:li xml:lang="x-default">'
    "{1}</rdf:li></rdf:Alt></dc:{0}></rdf:Description></rdf:RDF></x:xmpmeta>"
)


def iptc(*datasets: tuple[int, int, bytes]) -> bytes:
    """An APP13 segment: IIM datasets (marker 1C, record, dataset, length of two bytes) in image resource 0x0404."""
    block = b"".join(b"\x1c" + struct.pack(">BBH", *each[:2], len(each[2])) + each[2] for each in datasets)
    block += b"\0" * (len(block) % 2)
    data = b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0" + struct.pack(">I", len(block)) + block
    return b"\xff\xed" + struct.pack(">H", len(data) + 2) + data


@pytest.fixture
def captioned(tmp_path: Path) -> Path:
    """Photos with a caption in each of the ways that a file may hold one."""
    picture = scene(60, 40)
    picture.save(tmp_path / "xmp.jpg", xmp=PACKET.format("description", "Kette &amp; Rad\n oben").encode())
    picture.save(tmp_path / "title.webp", xmp=PACKET.format("title", "the wheel").encode())
    info = PngImagePlugin.PngInfo()
    info.add_itxt("XML:com.adobe.xmp", PACKET.format("description", "brake"))
    picture.save(tmp_path / "xmp.png", pnginfo=info)
    picture.save(tmp_path / "none.jpg")
    plain = (tmp_path / "none.jpg").read_bytes()
    utf8, caption = (1, 90, b"\x1b%G"), "Großes Rad\u202e".encode()
    (tmp_path / "utf8.jpg").write_bytes(plain[:2] + iptc(utf8, (2, 120, caption)) + plain[2:])
    (tmp_path / "latin.jpg").write_bytes(plain[:2] + iptc((2, 5, "Großes Rad".encode("latin-1"))) + plain[2:])
    (tmp_path / "broken.jpg").write_bytes(
        plain[:2] + iptc((2, 120, caption)).replace(b"\x1c", b"\x1d") + plain[2:]
    )
    return tmp_path


def test_captions_are_read_where_phones_and_desks_write_them(captioned: Path) -> None:
    assert read_captions(sorted(captioned.iterdir()), captioned) == {
        "xmp.jpg": "Kette & Rad oben",
        "title.webp": "the wheel",
        "xmp.png": "brake",
        "utf8.jpg": "Großes Rad",
        "latin.jpg": "Großes Rad",
    }


def photo(name: str, minute: float | None = None) -> PhotoFile:
    """A photo taken that many minutes into the visit."""
    time = None if minute is None else dt.datetime(2026, 5, 12, 9) + dt.timedelta(minutes=minute)
    basis = OffsetBasis.ASSUMED
    taken = Taken(camera_time=time, time=time, offset_minutes=0, offset_basis=basis) if time else None
    return PhotoFile(name=name, sha256="0" * 64, size_bytes=1, taken=taken)


def placed(photos: list[PhotoFile], captions: dict[str, str]) -> dict[str, str]:
    """Photo -> kind, of those that are proposed."""
    made = proposed(photos, captions, WORDS, ABOARD, 5)
    waiting = [each.photo.name for group in made.waiting for each in group]
    found = {each.photo.name: kind for kind, several in made.by_kind.items() for each in several}
    assert sorted([*waiting, *found]) == sorted(each.name for each in photos), "each photo once"
    return found


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Chain on its sprocket, dry", "chain"),
        ("die Steuerkette", "chain"),
        ("anchor chain", "anchor_chain"),
        ("wheel hubs", "wheel"),
        ("the wheel's brake", "wheel_brake"),
        ("a wire", ""),
        ("steering", ""),
        ("sunset over the harbour", ""),
        ("", ""),
    ],
)
def test_a_caption_names_one_kind_or_none(said: str, kind: str) -> None:
    found = placed([photo("IMG_1.jpg", 0)], {"IMG_1.jpg": said})
    assert found == ({"IMG_1.jpg": kind} if kind else {})


def test_a_caption_goes_before_a_name_and_a_camera_name_says_nothing() -> None:
    photos = [photo("chain_dry.jpg", 0), photo("PXL_2026_wheel.jpg", 60), photo("DSC0001.jpg", 120)]
    assert placed(photos, {"chain_dry.jpg": "the wheel"}) == {"chain_dry.jpg": "wheel"}
    assert placed(photos, {}) == {"chain_dry.jpg": "chain"}


def test_photos_taken_with_a_named_one_go_with_it_unless_two_parts_are_named() -> None:
    photos = [photo("IMG_1.jpg", 0), photo("IMG_2.jpg", 4), photo("IMG_3.jpg", 20)]
    assert placed(photos, {"IMG_1.jpg": "chain"}) == {"IMG_1.jpg": "chain", "IMG_2.jpg": "chain"}
    third = [*photos, photo("IMG_4.jpg", 2)]
    assert placed(third, {"IMG_1.jpg": "chain", "IMG_4.jpg": "wheel"}) == {
        "IMG_1.jpg": "chain",
        "IMG_4.jpg": "wheel",
    }
    timeless = [photo("IMG_1.jpg"), photo("IMG_2.jpg")]
    assert placed(timeless, {"IMG_1.jpg": "chain"}) == {"IMG_1.jpg": "chain"}


def test_every_kind_is_found_by_its_own_title() -> None:
    for kind, plugin in REGISTRY.plugins.items():
        found = proposed([photo("IMG_1.jpg", 0)], {"IMG_1.jpg": plugin.title}, WORDS, (), 5)
        assert list(found.by_kind) == [kind]


def test_of_equals_the_one_aboard_is_meant_and_a_rare_word_tells_more() -> None:
    assert meant({"wire"}, WORDS, ("steering_wire", "wheel")) == "steering_wire"
    assert meant({"wire"}, WORDS, ("steering_wire", "standing_wire")) == ""
    words = {"i": {"common", "rare"}, "j": {"common", "plain"}, "k": {"common", "plain"}}
    known = {kind: frozenset(own) for kind, own in words.items()}
    assert meant({"rare", "plain"}, known, ()) == "i"
