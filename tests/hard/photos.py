"""Photos as they should not be: spoilt, of another sort than their name says, and with headers made up to mislead."""

from __future__ import annotations

import io
import random
import struct
import zlib

from PIL import Image

from tests.hard import spoiling

_FORMATS = ("PNG", "GIF", "BMP", "TIFF", "WEBP", "PPM", "TGA", "ICO", "PDF")
_MODES = ("1", "L", "LA", "P", "RGB", "RGBA", "CMYK", "I", "F", "I;16", "LAB", "HSV")
_SIZES = (0, 1, 2, 65_500, 65_535, 100_000, 2**31 - 1)


def spoilt(chance: random.Random, content: bytes) -> bytes:
    """What stands in the photo's place."""
    made = chance.choice((_bits, _bits, _bits, _other, _other, _header, _png, _segment, _nothing))
    return made(chance, content)


def _bits(chance: random.Random, content: bytes) -> bytes:
    return spoiling.file(chance, content)


def _other(chance: random.Random, _content: bytes) -> bytes:
    """Another format or kind of pixel, whole or spoilt."""
    picture = Image.new(chance.choice(_MODES), (chance.choice((1, 2, 30, 500)), chance.choice((1, 3, 200))))
    file = io.BytesIO()
    try:
        picture.save(file, chance.choice(_FORMATS))
    except (OSError, ValueError, KeyError):
        picture.convert("RGB").save(file, "PNG")
    return spoiling.file(chance, file.getvalue()) if chance.random() < 0.5 else file.getvalue()


def _header(chance: random.Random, content: bytes) -> bytes:
    """A JPEG that says another size of itself (ITU-T T.81, B.2.2: SOF, length, precision, lines, samples)."""
    at = max(content.find(b"\xff\xc0"), content.find(b"\xff\xc2"))
    size = struct.pack(">HH", *(min(chance.choice(_SIZES), 65_535) for _ in range(2)))
    return content[: at + 5] + size + content[at + 9 :]


def _png(chance: random.Random, _content: bytes) -> bytes:
    """A PNG of a size made up, with few pixels behind it (ISO/IEC 15948, 11.2.2: IHDR)."""
    wide, high = chance.choice(_SIZES), chance.choice(_SIZES)
    head = struct.pack(
        ">IIBBBBB",
        wide,
        high,
        chance.choice((1, 8, 16)),
        chance.choice((0, 2, 3, 4, 6, 9)),
        0,
        0,
        chance.choice((0, 1)),
    )
    text = b"Comment\0" + zlib.compress(b"x" * chance.choice((10, 10_000_000)))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in (
            (b"IHDR", head),
            (b"zTXt", text),
            (b"IDAT", zlib.compress(bytes(400))),
            (b"IEND", b""),
        )
    )


def _segment(chance: random.Random, content: bytes) -> bytes:
    """EXIF made of chance behind a good beginning (Exif 2.32, 4.5: TIFF header, then entries)."""
    order = chance.choice((b"II*\0\x08\0\0\0", b"MM\0*\0\0\0\x08"))
    entries = chance.randbytes(2) + b"".join(
        struct.pack(chance.choice(("<HHII", ">HHII")), chance.choice((0x0112, 0x8769, 0x8825, 0x9003, 0x010E, 0x927C)),
                    chance.randint(0, 14), chance.choice((1, 2, 70, 2**31)), chance.choice((8, 10, 26, 2**31 - 1)))
        for _ in range(chance.choice((1, 40, 2000)))
    )  # fmt: skip
    data = b"Exif\0\0" + order + entries
    return (
        content[:2]
        + b"\xff\xe1"
        + struct.pack(">H", min(len(data) + 2, 65_535))
        + data[:65_533]
        + content[2:]
    )


def _nothing(chance: random.Random, _content: bytes) -> bytes:
    return chance.choice(
        (b"", b"\0" * 5000, b"\xff\xd8", b"\xff\xd8\xff", b"GIF89a", b"II*\0", b"%PDF-1.7\n", b"x" * 30)
    )
