"""An ICC profile for photos that say "Adobe RGB" in their EXIF and carry no profile, as some cameras' do.

Comes in: nothing. Goes out: the bytes of a matrix profile. Pure. ICC.1:2001-04 (version 2): header 6.1, tags
6.3 and 6.4, matrix profile 6.3.1.2, `curv` 6.5.3. The colorants are worked out
in the tests from the primaries of Adobe RGB (1998), version 2005-05. Clause numbers are from memory.
"""

from __future__ import annotations

import struct
from collections.abc import Sequence

ADOBE_RGB = ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457))
ADOBE_CURVE = (563,)
"""One number is a gamma, in parts of 256."""
_WHITE = (0.9642, 1.0, 0.8249)


def matrix_profile(colorants: Sequence[Sequence[float]], levels: Sequence[int]) -> bytes:
    """A display profile from the XYZ (D50) of red, green and blue, and one `curv` for all three."""
    curve = b"curv" + struct.pack(f">4xI{len(levels)}H", len(levels), *levels)
    words = b"RGB"
    tags = {
        b"desc": b"desc" + struct.pack(">4xI", len(words) + 1) + words + bytes(1 + 12 + 67),
        b"cprt": b"text" + bytes(4) + b"none\0",
        b"wtpt": _xyz(_WHITE),
        **{name: _xyz(colour) for name, colour in zip((b"rXYZ", b"gXYZ", b"bXYZ"), colorants, strict=True)},
        **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve),
    }
    table, body, place = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for name, content in tags.items():
        padded = content + bytes(-len(content) % 4)
        table += name + struct.pack(">II", place + len(body), len(content))
        body += padded
    header = struct.pack(
        ">I4xI4s4s4s12x4s", place + len(body), 0x02200000, b"mntr", b"RGB ", b"XYZ ", b"acsp"
    )
    return header.ljust(68, b"\0") + _numbers(_WHITE) + bytes(48) + table + body


def _xyz(values: Sequence[float]) -> bytes:
    return b"XYZ " + bytes(4) + _numbers(values)


def _numbers(values: Sequence[float]) -> bytes:
    """s15Fixed16 numbers."""
    return b"".join(struct.pack(">i", round(value * 65536)) for value in values)
