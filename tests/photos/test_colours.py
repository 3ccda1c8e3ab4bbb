"""Colours of the copies against values worked out by hand from the published primaries and curves.

sRGB: IEC 61966-2-1:1999, by the colorants of the International Color Consortium's own sRGB2014.icc. Display P3: primaries
of SMPTE EG 432-1 with the sRGB curve, by the profile that a real phone wrote. Adobe RGB (1998), version 2005-05: primaries
(0.64, 0.33), (0.21, 0.71), (0.15, 0.06), white D65, gamma 563/256, as its public descriptions agree. Adaptation to D50:
Bradford, ICC.1:2004-10 Annex E. Lab: CIE 15. White points, Bradford matrix and clause numbers are from memory; the first
test holds them against the consortium's file.
"""

from __future__ import annotations

import struct
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms

from reporter.develop import develop
from reporter.develop.colour import ADOBE_CURVE, ADOBE_RGB, matrix_profile

from .conftest import ReportOf
from .scenes import near, pixel

PROFILE = Path(__file__).parents[2] / "reporter" / "develop" / "sRGB2014.icc"
Row = list[float]
Matrix = list[Row]
D65, D50 = (0.3127, 0.3290), (0.34567, 0.35850)
SRGB = ((0.640, 0.330), (0.300, 0.600), (0.150, 0.060))
P3 = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))
ADOBE = ((0.640, 0.330), (0.210, 0.710), (0.150, 0.060))
BRADFORD: Matrix = [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]

COLOURS = ((200, 100, 60), (90, 140, 180), (128, 128, 128), (60, 90, 70), (235, 230, 220), (150, 120, 40))


def _times(matrix: Matrix, column: Row) -> Row:
    return [sum(a * b for a, b in zip(row, column, strict=True)) for row in matrix]


def _product(first: Matrix, second: Matrix) -> Matrix:
    columns = [_times(first, [row[place] for row in second]) for place in range(3)]
    return [[column[place] for column in columns] for place in range(3)]


def _inverse(m: Matrix) -> Matrix:
    minor = [[m[(i + 1) % 3][(j + 1) % 3] * m[(i + 2) % 3][(j + 2) % 3] - m[(i + 1) % 3][(j + 2) % 3]
              * m[(i + 2) % 3][(j + 1) % 3] for i in range(3)] for j in range(3)]  # fmt: skip
    determinant = sum(m[0][j] * minor[j][0] for j in range(3))
    return [[each / determinant for each in row] for row in minor]


def _white(xy: tuple[float, float]) -> Row:
    return [xy[0] / xy[1], 1.0, (1 - xy[0] - xy[1]) / xy[1]]


def _to_xyz(primaries: tuple[tuple[float, float], ...]) -> Matrix:
    columns = [_white(xy) for xy in primaries]
    raw = [[column[place] for column in columns] for place in range(3)]
    scale = _times(_inverse(raw), _white(D65))
    return [[each * factor for each, factor in zip(row, scale, strict=True)] for row in raw]


def _adapt(source: tuple[float, float], target: tuple[float, float]) -> Matrix:
    before, after = _times(BRADFORD, _white(source)), _times(BRADFORD, _white(target))
    gain: Matrix = [[after[i] / before[i] if i == j else 0.0 for j in range(3)] for i in range(3)]
    return _product(_inverse(BRADFORD), _product(gain, BRADFORD))


def _linear(level: float) -> float:
    return level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4


def _encoded(xyz: Row) -> tuple[int, ...]:
    """8-bit sRGB of XYZ under D65."""
    levels = [min(max(each, 0.0), 1.0) for each in _times(_inverse(_to_xyz(SRGB)), xyz)]
    curve = [12.92 * each if each <= 0.0031308 else 1.055 * each ** (1 / 2.4) - 0.055 for each in levels]
    return tuple(round(255 * each) for each in curve)


def _colorants(primaries: tuple[tuple[float, float], ...]) -> Matrix:
    """XYZ (D50) of the three primaries, one row each."""
    adapted = _product(_adapt(D65, D50), _to_xyz(primaries))
    return [[adapted[row][column] for row in range(3)] for column in range(3)]


def test_the_arithmetic_gives_the_published_colorants() -> None:
    """Those of sRGB as in the consortium's own profile; our constants for Adobe RGB as worked out from its primaries."""
    profile = ImageCms.getOpenProfile(str(PROFILE)).profile
    published = [
        each[0] for each in (profile.red_colorant, profile.green_colorant, profile.blue_colorant) if each
    ]
    assert len(published) == 3
    for found, expected in ((_colorants(SRGB), published), (_colorants(ADOBE), ADOBE_RGB)):
        for row, values in zip(found, expected, strict=True):
            assert row == pytest.approx(list(values), abs=6e-4)


def _patches(mode: str, colours: tuple[tuple[int, ...], ...]) -> Image.Image:
    picture = Image.new(mode, (64 * len(colours), 64))
    for number, colour in enumerate(colours):
        picture.paste(colour, (64 * number, 0, 64 * number + 64, 64))
    return picture


def _developed(file: Path, report_of: ReportOf, count: int) -> list[tuple[int, ...]]:
    scratch = file.parent / "scratch"
    scratch.mkdir(exist_ok=True)
    picture = develop(report_of(file.parent, (file.name, "half", ())), file.parent, scratch)[file.name]
    with Image.open(picture.file) as copy:
        assert (copy.mode, copy.info.get("icc_profile")) == ("RGB", None)
        return [pixel(copy, 64 * number + 32, 32) for number in range(count)]


def _expected(
    primaries: tuple[tuple[float, float], ...], colour: tuple[int, ...], gamma: float = 0
) -> tuple[int, ...]:
    levels = [(each / 255) ** gamma if gamma else _linear(each / 255) for each in colour]
    return _encoded(_times(_to_xyz(primaries), levels))


def _compare(found: list[tuple[int, ...]], expected: list[tuple[int, ...]]) -> None:
    for one, other in zip(found, expected, strict=True):
        assert near(one, other, 4), (found, expected)


def test_display_p3(tmp_path: Path, report_of: ReportOf) -> None:
    curve = [round(65535 * _linear(step / 1023)) for step in range(1024)]
    profile = matrix_profile(_colorants(P3), curve)
    _patches("RGB", COLOURS).save(tmp_path / "x.jpg", quality=98, subsampling=0, icc_profile=profile)
    found = _developed(tmp_path / "x.jpg", report_of, len(COLOURS))
    _compare(found, [_expected(P3, colour) for colour in COLOURS])
    assert not near(found[0], COLOURS[0], 8), "the colour did not have to be converted at all"


def test_display_p3_by_the_profile_of_a_real_phone(
    real: list[dict[str, Any]], tmp_path: Path, report_of: ReportOf
) -> None:
    pytest.importorskip("pi_heif").register_heif_opener()
    path = next(row["path"] for row in real if row["file"] == "files/iphone8plus_orientation6.heic")
    with Image.open(path) as photo:
        profile = photo.info["icc_profile"]
    _patches("RGB", COLOURS).save(tmp_path / "x.jpg", quality=98, subsampling=0, icc_profile=profile)
    found = _developed(tmp_path / "x.jpg", report_of, len(COLOURS))
    _compare(found, [_expected(P3, colour) for colour in COLOURS])


def test_adobe_rgb_with_a_profile(tmp_path: Path, report_of: ReportOf) -> None:
    profile = matrix_profile(_colorants(ADOBE), ADOBE_CURVE)
    _patches("RGB", COLOURS).save(tmp_path / "x.png", icc_profile=profile)
    found = _developed(tmp_path / "x.png", report_of, len(COLOURS))
    _compare(found, [_expected(ADOBE, colour, 563 / 256) for colour in COLOURS])


def test_adobe_rgb_told_by_exif_alone(tmp_path: Path, report_of: ReportOf) -> None:
    """InteroperabilityIndex R03 (DCF option file): cameras set to Adobe RGB write it, often without a profile."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA001] = 0xFFFF
    exif.get_ifd(0x8769)[0xA005] = {1: "R03"}
    _patches("RGB", COLOURS).save(tmp_path / "x.jpg", quality=98, subsampling=0, exif=exif)
    found = _developed(tmp_path / "x.jpg", report_of, len(COLOURS))
    _compare(found, [_expected(ADOBE, colour, 563 / 256) for colour in COLOURS])


def test_srgb_stays_as_it_is(tmp_path: Path, report_of: ReportOf) -> None:
    profile = PROFILE.read_bytes()
    for number, block in enumerate((None, profile, b"no profile at all" * 20)):
        file = tmp_path / f"{number}.jpg"
        _patches("RGB", COLOURS).save(file, quality=98, subsampling=0, icc_profile=block)
        _compare(_developed(file, report_of, len(COLOURS)), list(COLOURS))


INKS = ((0, 0, 0, 0), (255, 0, 0, 0), (0, 255, 0, 0), (0, 0, 255, 0), (0, 255, 255, 0), (0, 0, 0, 255))


def test_cmyk_without_a_profile(tmp_path: Path, report_of: ReportOf) -> None:
    """Plain inks: red = (1 - cyan)(1 - black), and so on; *common practice*."""
    colours = (*INKS, (100, 40, 20, 60))
    _patches("CMYK", colours).save(tmp_path / "x.jpg", quality=98)
    expected = [
        tuple(round((255 - ink) * (255 - colour[3]) / 255) for ink in colour[:3]) for colour in colours
    ]
    _compare(_developed(tmp_path / "x.jpg", report_of, len(colours)), expected)


def test_cmyk_with_a_profile(tmp_path: Path, report_of: ReportOf) -> None:
    lab = {(0, 0, 0): (100.0, 0.0, 0.0), (1, 0, 0): (60.0, -28.0, -30.0), (0, 1, 0): (55.0, 50.0, -5.0),
           (0, 0, 1): (85.0, -5.0, 55.0), (0, 1, 1): (52.0, 45.0, 30.0)}  # fmt: skip
    _patches("CMYK", INKS[:5]).save(tmp_path / "x.jpg", quality=98, icc_profile=_ink_profile(lab))
    expected = [_from_lab(lab[tuple(ink // 255 for ink in colour[:3])]) for colour in INKS[:5]]  # type: ignore[index]
    _compare(_developed(tmp_path / "x.jpg", report_of, 5), expected)


def _from_lab(lab: tuple[float, float, float]) -> tuple[int, ...]:
    """CIE Lab under D50, relative to paper white as black-point compensation leaves it (black is 0 here)."""
    middle = (lab[0] + 16) / 116
    roots = (middle + lab[1] / 500, middle, middle - lab[2] / 200)
    ratios = [root**3 if root > 6 / 29 else 3 * (6 / 29) ** 2 * (root - 4 / 29) for root in roots]
    xyz = [ratio * white for ratio, white in zip(ratios, _white(D50), strict=True)]
    return _encoded(_times(_adapt(D50, D65), xyz))


def _ink_profile(lab: dict[tuple[int, int, int], tuple[float, float, float]]) -> bytes:
    """A printer profile with a table of 2 x 2 x 2 x 2 inks (ICC.1:2001-04, lut8Type 6.5.8); black ink is black."""
    nodes = b""
    for cyan in (0, 1):
        for magenta in (0, 1):
            for yellow in (0, 1):
                light, a, b = lab.get((cyan, magenta, yellow), (20.0, 0.0, 0.0))
                nodes += bytes([round(light * 255 / 100), round(a) + 128, round(b) + 128]) + bytes(
                    [0, 128, 128]
                )
    ramp = bytes(range(256))
    unit = struct.pack(">9i", 65536, 0, 0, 0, 65536, 0, 0, 0, 65536)
    lut = b"mft1" + struct.pack(">4xBBBx", 4, 3, 2) + unit + ramp * 4 + nodes + ramp * 3
    tags = {
        b"desc": b"desc" + struct.pack(">4xI", 4) + b"ink\0" + bytes(12 + 67),
        b"cprt": b"text" + bytes(4) + b"none\0",
        b"wtpt": b"XYZ " + struct.pack(">4x3i", 63190, 65536, 54061),
        b"A2B0": lut,
    }
    table, body, place = struct.pack(">I", len(tags)), b"", 132 + 12 * len(tags)
    for name, content in tags.items():
        table += name + struct.pack(">II", place + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    header = struct.pack(
        ">I4xI4s4s4s12x4s", place + len(body), 0x02200000, b"prtr", b"CMYK", b"Lab ", b"acsp"
    )
    return header.ljust(68, b"\0") + struct.pack(">3i", 63190, 65536, 54061) + bytes(48) + table + body


@pytest.mark.parametrize("mode", ["L", "1", "P", "LA", "RGBA", "I;16", "I"])
def test_every_kind_of_pixel_becomes_colour(mode: str, tmp_path: Path, report_of: ReportOf) -> None:
    """A white, a middle and a black patch; what is transparent lies on white paper."""
    greys = Image.new("L", (192, 64), 255)
    greys.paste(128, (64, 0, 128, 64))
    greys.paste(0, (128, 0, 192, 64))
    if mode in {"I;16", "I"}:
        data = b"".join(struct.pack("<H", each * 257) for each in greys.tobytes())
        picture = Image.frombytes("I;16", greys.size, data)
        picture.save(tmp_path / ("x.png" if mode == "I;16" else "x.tif"))
    else:
        greys.convert(mode).save(tmp_path / "x.png")
    found = _developed(tmp_path / "x.png" if mode != "I" else tmp_path / "x.tif", report_of, 3)
    middle = found[1] if mode == "1" else (128, 128, 128)
    _compare(found, [(255, 255, 255), middle, (0, 0, 0)])


def test_transparent_parts_are_paper(tmp_path: Path, report_of: ReportOf) -> None:
    picture = Image.new("RGBA", (128, 64), (0, 0, 0, 0))
    picture.paste((200, 10, 10, 255), (64, 0, 128, 64))
    picture.save(tmp_path / "x.webp", lossless=True)
    _compare(_developed(tmp_path / "x.webp", report_of, 2), [(255, 255, 255), (200, 10, 10)])
