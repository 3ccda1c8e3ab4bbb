"""Ink: strokes of an SVG file as lines and curves in a field; each command against the curve it stands for."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest

from reporter.errors import UsageError
from reporter.seal.ink import MARGIN, bounds, moved, outline, strokes, transformation
from tests.seal.made import INK, Made


def points(data: str) -> list[tuple[str, list[tuple[float, float]]]]:
    return [
        (verb, [(round(x, 6), round(y, 6)) for x, y in found]) for verb, found in outline("path", {"d": data})
    ]


@pytest.mark.parametrize(
    ("short", "long"),
    [
        ("m1 2 3 4 5 6", "M1 2L4 6L9 12"),
        ("M0 0h5v5H0V0z", "M0 0L5 0L5 5L0 5L0 0Z"),
        ("M0 0c1 1 2 2 3 3s2 2 3 3", "M0 0C1 1 2 2 3 3C4 4 5 5 6 6"),
        ("M0 0q3 6 6 0t6 0", "M0 0Q3 6 6 0Q9 -6 12 0"),
        ("M10-5L.5.5", "M10 -5L0.5 0.5"),
        ("M0 0L1e1,0", "M0 0L10 0"),
        ("M0 0s1 1 2 2", "M0 0C0 0 1 1 2 2"),
        ("M1 1l1 1zl1 0", "M1 1L2 2ZL2 1"),
    ],
)
def test_short_forms_are_their_long_forms(short: str, long: str) -> None:
    """SVG 2, 9.3.3 to 9.3.7."""
    assert points(short) == points(long)


def test_a_quadratic_curve_is_the_same_cubic_one() -> None:
    """Both at nine places, by de Casteljau's rule."""
    (_, (_,)), (_, (first, second, end)) = outline("path", {"d": "M1 2Q5 9 8 1"})
    begin, middle = (1.0, 2.0), (5.0, 9.0)
    for step in range(11):
        t = step / 10
        for axis in (0, 1):
            quadratic = (1 - t) ** 2 * begin[axis] + 2 * t * (1 - t) * middle[axis] + t**2 * end[axis]
            cubic = (
                (1 - t) ** 3 * begin[axis]
                + 3 * t * (1 - t) ** 2 * first[axis]
                + 3 * t**2 * (1 - t) * second[axis]
                + t**3 * end[axis]
            )
            assert cubic == pytest.approx(quadratic)


def test_transformations_are_applied_inside_out() -> None:
    """CSS Transforms 1, 8: translate after scale moves by the unscaled amount."""
    matrix = transformation("translate(10 20) scale(2)")
    assert moved([("line", ((1.0, 1.0),))], matrix) == [("line", ((12.0, 22.0),))]
    assert moved([("line", ((1.0, 0.0),))], transformation("rotate(90)"))[0][1][0] == pytest.approx(
        (0.0, 1.0)
    )


def test_the_drawing_fills_its_field_upright() -> None:
    """The lower point of the page is the larger y of SVG and the smaller one of PDF."""
    svg = '<svg xmlns="http://www.w3.org/2000/svg"><path fill="none" d="M0 0L100 0L100 50"/></svg>'
    told = strokes(svg, 206, 56).decode()
    places = [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+) [ml]\b", told)]
    assert places == [(MARGIN, 53.0), (103.0, 53.0), (103.0, MARGIN)]


@pytest.mark.parametrize(
    "svg",
    [
        "",
        "no svg",
        "<svg/>",
        "<svg><text>Rowan</text></svg>",
        '<svg><image href="x.png"/></svg>',
        '<svg><path d="M0 0A1 1 0 0 1 2 2"/></svg>',
        '<svg><path d="M0 0L1"/></svg>',
        '<svg><path d="M0 0 L x"/></svg>',
        '<svg><path d="M0 0Z1"/></svg>',
        '<svg><g transform="skewX(3)"><path d="M0 0L1 1"/></g></svg>',
        '<!DOCTYPE svg [<!ENTITY a "b">]><svg><path d="M0 0L1 1"/></svg>',
    ],
)  # fmt: skip
def test_what_is_not_understood_is_refused_not_left_out(svg: str) -> None:
    with pytest.raises(UsageError):
        strokes(svg, 200, 50)


def test_a_filled_shape_is_filled_and_a_stroke_is_drawn() -> None:
    """SVG 2, 13.3: a shape is filled unless told otherwise, a group's word holds for what is in it."""
    svg = '<svg><path d="M0 0L9 0L9 9Z"/><g style="fill:none"><path d="M0 0L9 9"/></g></svg>'
    assert re.findall(r"\b[fS]\b", strokes(svg, 50, 50).decode()) == ["f", "S"]


def test_the_edges_of_nothing_are_none() -> None:
    assert bounds([]) == (0.0, 0.0, 0.0, 0.0)


def test_another_reader_paints_the_ink_in_its_field(signed: Made, tmp_path: Path) -> None:
    """PDFium on the sealed page: ink where the author signed, none where nobody did."""
    (tmp_path / "file.pdf").write_bytes(signed.sealed)
    with pypdfium2.PdfDocument(tmp_path / "file.pdf") as pdf:
        pdf.init_forms()
        page = pdf[0]
        dark = [_blue(page, field) for field in _rects(signed.sealed)]
    assert dark[0] > 100
    assert dark[1] == dark[2] == 0
    assert INK


def _rects(document: bytes) -> list[tuple[float, float, float, float]]:
    from io import BytesIO

    import pikepdf

    with pikepdf.open(BytesIO(document)) as pdf:
        return [tuple(float(each) for each in field.Rect) for field in pdf.Root.AcroForm.Fields]  # type: ignore[misc]


def _blue(page: pypdfium2.PdfPage, rect: tuple[float, float, float, float]) -> int:
    """Pixels of night blue within a field, its rule left out."""
    picture = page.render(scale=2, may_draw_forms=True).to_pil().convert("RGB")
    left, bottom, right, top = rect
    high = page.get_height()
    cut = picture.crop((int(2 * left), int(2 * (high - top)), int(2 * right), int(2 * (high - bottom)) - 4))
    return sum(blue > red + 40 and red < 100 for red, _, blue in zip(*[iter(cut.tobytes())] * 3, strict=True))
