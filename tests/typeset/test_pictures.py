"""The heights of photos and drawings on the page, and which labels go to the caption; worked out by hand in points."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, cast

import pytest

from reporter.model.drawing import XY, Drawing, Ellipse, Numeral
from reporter.model.photo import LabelMark
from reporter.model.report import Block, Figure, Paragraph, PhotoPair, plain
from reporter.model.terms import Grade
from reporter.typeset import pictures
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.signs import paint_numeral
from reporter.typeset.slices import Slice
from reporter.typeset.styles import Type
from tests.typeset import samples
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, links, text

MM = 72 / 25.4
LINE, GAP, LEAST = 11.5, 1.6 * MM, 0.68
"""Leading of a caption, the space above it, and how far a photo may shrink."""
THREE_LINES = "first\nsecond\nthird"


def context(folder: Path, *blocks: Block) -> PrintContext:
    """A context with a level photo (4 to 3), an upright one (3 to 4), and a flat one (10 to 1)."""
    shown = samples.pictures(folder) | {"flat": samples.picture(folder, "flat", (200, 20))}
    return PrintContext(samples.report(*blocks), shown)


def composed(made: list[Slice]) -> tuple[float, float]:
    """Height and least height of the only slice."""
    (only,) = made
    assert only.wide
    assert only.snap
    return only.height, only.least


def test_a_photo_of_full_width_has_its_caption_below(tmp_path: Path) -> None:
    """174 mm wide would be 130.5 high, over the 128 mm allowed; only the photo shrinks, not the words."""
    block = samples.photo("chain", THREE_LINES, size="full")
    below = 3 * LINE + GAP
    assert composed(pictures.photo(context(tmp_path), block)) == pytest.approx(
        (128 * MM + below, LEAST * 128 * MM + below)
    )


def test_an_upright_photo_is_as_high_as_allowed(tmp_path: Path) -> None:
    """128 mm high and 96 wide; beside a caption 96 mm, and 80 at half width."""
    for size, high, below in (("full", 128 * MM, LINE + GAP), ("column", 96 * MM, 0), ("half", 80 * MM, 0)):
        made = pictures.photo(context(tmp_path), samples.photo("wire", size=size))
        assert composed(made) == pytest.approx((high + below, LEAST * high + below))


def test_a_caption_beside_a_flat_photo_sets_the_height(tmp_path: Path) -> None:
    """A photo 12 mm high beside ten lines: they may not be cut when the photo shrinks."""
    block = samples.photo("flat", "\n".join("abcdefghij"), size="column")
    assert composed(pictures.photo(context(tmp_path), block)) == pytest.approx((10 * LINE, 10 * LINE))


def test_a_pair_is_as_high_as_its_taller_photo_and_its_longer_caption(tmp_path: Path) -> None:
    """85 mm wide: the level one 63.75 high, the upright one held at 80."""
    pair = PhotoPair(left=samples.photo("chain", THREE_LINES), right=samples.photo("wire", "one"))
    below = GAP + 3 * LINE
    assert composed(pictures.photo_pair(context(tmp_path), pair)) == pytest.approx(
        (80 * MM + below, LEAST * 80 * MM + below)
    )


def test_a_drawing_fills_its_width_and_has_its_caption_below(tmp_path: Path) -> None:
    """Of 100 by 40: 174 by 69.6 mm, or 142 by 56.8; no gap without words."""
    for width, words, high in (
        ("full", THREE_LINES, 69.6 * MM + GAP + 3 * LINE), ("full", "", 69.6 * MM), ("column", "one", 56.8 * MM + GAP + LINE),
    ):  # fmt: skip
        block = Figure.model_validate(
            {"drawing": samples.DRAWING, "width": width, "caption": plain(words) if words else ()}
        )
        (made,) = pictures.figure(context(tmp_path), block)
        assert made.height == pytest.approx(high)
        assert made.wide == (width == "full")


def test_a_tall_drawing_is_held_at_the_pages_height(tmp_path: Path) -> None:
    """Four fifths of the 250 mm between the margins."""
    tall = samples.DRAWING.model_copy(update={"height": 400})
    (made,) = pictures.figure(context(tmp_path), Figure(drawing=tall))
    assert made.height == pytest.approx(200 * MM)


def test_labels_without_room_even_on_the_shrunk_photo_stand_in_the_caption(tmp_path: Path) -> None:
    """Each once, under its letter, one line each; a label that fits at both sizes does not."""
    texts = [f"rust at the foot of the bracket, number {number}" for number in range(12)]
    marks = [LabelMark(at=(0.05 + 0.08 * number, 0.5), text=text) for number, text in enumerate(texts)]
    at, few = context(tmp_path), samples.photo("flat", "one", marks[:1], size="full")
    none = pictures.print_of(at, samples.photo("chain", "one", marks[:1]), 300, 300)
    none.set_caption(at, 300)
    assert (none.keyed, len(none.caption.lines)) == ((), 1)
    # 300 points wide and 30 high: no plate of three lines has room, at 0.68 of that still less.
    assert pictures.print_of(at, few, 300, 300).keyed == (texts[0],)
    many = pictures.print_of(at, samples.photo("flat", "one", marks, size="full"), 480, 480)
    many.set_caption(at, 480)
    assert set(many.keyed) <= set(texts)
    assert len(many.keyed) == len(set(many.keyed))
    words = [line.text for line in many.caption.lines]
    assert [line[0] for line in words[1:]] == [*"abcdefghijkl"][: len(many.keyed)]


def test_a_photo_in_less_height_keeps_its_shape(tmp_path: Path) -> None:
    item = pictures.print_of(context(tmp_path), samples.photo("chain"), 240, 300)
    assert item.size == pytest.approx((240, 180))
    assert item.at(90) == pytest.approx((120, 90))
    assert item.at(400) == pytest.approx((240, 180))


def test_the_plate_number_opens_the_caption_once(tmp_path: Path) -> None:
    """Its own number is not put before a caption that begins with it."""
    for words, shown in (("The chain", "3 The chain"), ("Photo 3. The chain", "Photo 3. The chain")):
        at = context(tmp_path)
        item = pictures.print_of(at, samples.photo("chain", words), 240, 300)
        item.set_caption(at, 240)
        assert item.caption.lines[0].text == shown


class Recorder:
    """Keeps where pictures and lines of words are painted; the block begins 50 points from the page's left edge."""

    left = 50.0

    def __init__(self) -> None:
        self.images: list[tuple[XY, XY]] = []
        self.lines: list[XY] = []
        self.boxes: list[tuple[float, ...]] = []

    def image(self, _file: Path, corner: XY, size: XY) -> None:
        """A picture."""
        self.images.append((corner, size))

    def line(self, _line: object, left: float, top: float, _leading: float) -> None:
        """A line of words."""
        self.lines.append((left, top))

    def box(self, *sides: float) -> tuple[float, ...]:
        """A figure's own box."""
        self.boxes.append(sides)
        return sides

    @contextmanager
    def mark(self, _tag: object) -> Iterator[None]:
        """What is painted within belongs to the figure."""
        yield

    @contextmanager
    def on_its_side(self, *_: object, turned: bool) -> Iterator[None]:
        """Only a narrow page turns a drawing."""
        assert not turned
        yield

    @contextmanager
    def clipped(self, *_: object) -> Iterator[None]:
        """Marks are cut at the photo's edges."""
        yield

    def rectangle(self, *_: object, **__: object) -> None:
        """Frames stand where the picture does."""


def near(shown: Any) -> Any:
    """Figures within rounding."""
    return pytest.approx(shown)


def painted(made: list[Slice], height: float | None = None) -> Recorder:
    """The only slice painted from 100 points below the page's upper edge, at its own height or a lesser one."""
    (only,) = made
    pen = Recorder()
    only.paint(cast("Pen", pen), 100.0, only.height if height is None else height)
    return pen


def test_a_photo_of_full_width_is_painted_above_its_caption(tmp_path: Path) -> None:
    """Shrunk to 100 points with its words, it keeps its shape and its left edge, and the words move up."""
    made = pictures.photo(context(tmp_path), samples.photo("chain", THREE_LINES, size="full"))
    pen = painted(made)
    assert pen.images == [((50, 100), near((128 * 4 / 3 * MM, 128 * MM)))]
    below = 100 + 128 * MM + GAP
    assert pen.lines == [(50, near(below + LINE * number)) for number in range(3)]
    pen = painted(made, 100 + GAP + 3 * LINE)
    assert pen.images == [((50, 100), near((100 * 4 / 3, 100)))]
    assert pen.lines[0] == (50, near(200 + GAP))


@pytest.mark.parametrize(("size", "across"), [("column", 126), ("half", 89)])
def test_a_smaller_photo_is_painted_beside_its_caption(size: str, across: float, tmp_path: Path) -> None:
    """The words begin 4 mm past a photo of 122 mm, or past a half of 85 mm."""
    pen = painted(pictures.photo(context(tmp_path), samples.photo("chain", "one\ntwo", size=size)))
    assert pen.images[0][0] == (50, 100)
    assert pen.lines == [near((50 + across * MM, 100 + LINE * number)) for number in range(2)]


def test_a_pair_is_painted_side_by_side(tmp_path: Path) -> None:
    """89 mm apart; shrunk together, in the same measure; captions on one level below both."""
    pair = PhotoPair(left=samples.photo("chain", "one"), right=samples.photo("wire", "one"))
    made = pictures.photo_pair(context(tmp_path), pair)
    pen = painted(made, 40 * MM + GAP + LINE)
    (left, left_size), (right, right_size) = pen.images
    assert (left, right) == ((50, 100), (near(50 + 89 * MM), 100))
    assert left_size == near((85 / 2 * MM, 85 * 3 / 8 * MM))
    assert right_size == near((30 * MM, 40 * MM))
    assert [top for _, top in pen.lines] == near([100 + 40 * MM + GAP] * 2)
    assert [at for at, _ in pen.lines] == near([50, 50 + 89 * MM])


def test_a_drawing_is_painted_in_the_middle_above_its_caption(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One of 100 by 400 is 200 mm high with its caption, and a quarter of its own height wide; in the middle of 174 mm."""

    class Still:
        """Draws nothing; the drawing's own shapes are tested elsewhere."""

        def __init__(self, *_: object) -> None:
            pass

        def draw(self, _drawing: Any, _lettering: Any) -> None:
            pass

    monkeypatch.setattr(pictures, "Easel", Still)
    tall = samples.DRAWING.model_copy(update={"height": 400})
    pen = painted(pictures.figure(context(tmp_path), Figure(drawing=tall, caption=plain("one"))))
    high = 200 * MM - GAP - LINE
    assert pen.boxes == [near((50 + (174 * MM - high / 4) / 2, 100, high / 4, high))]
    assert pen.lines == [near((50, 100 + high + GAP))]


def test_a_numeral_that_leads_somewhere_is_a_link_within_its_figure(lay_out: LayOut) -> None:
    """The words are those of the part that it leads to."""
    drawing = Drawing(
        width=90,
        height=40,
        alt="a boat",
        shapes=(
            Ellipse(centre=(45, 20), radii=(30, 10)),
            Numeral(at=(45, 20), text="2, 3", href="#there", alt="Chain"),
        ),
    )
    blocks = (Figure(drawing=drawing), Paragraph(text=plain("Told here."), anchor="there"))
    pages, found = lay_out(*blocks)
    (figure,) = elements(pages.tree, "Figure")
    (link,) = elements(figure, "Link")
    assert figure.alt == "a boat"
    assert [each.contents for each in links(link)] == ["2, 3 Chain"]
    assert "2, 3" in text(link, found)


def test_an_open_disc_tells_what_comes_first_from_what_stops_her() -> None:
    """In print without colours: white inside and dark figures, or dark inside and white figures."""

    def inks(grade: Grade) -> list[tuple[float, ...]]:
        painted: list[tuple[float, ...]] = []

        class Spy:
            def rectangle(self, *_: object, fill: tuple[float, ...], **__: object) -> None:
                painted.append(fill)

            def words(self, _text: str, kind: Type, *_: object) -> None:
                painted.append(kind.ink)

        paint_numeral(cast("Pen", Spy()), (0, 0), "1", grade)
        return painted[-2:]

    assert [sum(ink) > 2.9 for ink in inks(Grade.FIRST)] == [True, False]
    assert [sum(ink) > 2.9 for ink in inks(Grade.STOP)] == [False, True]
