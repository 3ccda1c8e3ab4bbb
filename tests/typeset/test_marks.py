"""Marks on photos: plates and discs stay inside, apart, and off what is pointed at."""

from __future__ import annotations

from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.photo import Arrow, Blur, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.outline.photos import mark_in_words
from reporter.typeset.glyphs import text_width
from reporter.typeset.marks import Disc, Glass, Oval, Overlay, Plate, Stroke, overlay
from reporter.typeset.places import Area
from reporter.typeset.styles import LABEL
from reporter.web.marks import FluidOverlay
from reporter.wording import catalogue
from tests.typeset.samples import MARKS

SIZE = (340.0, 255.0)
_PART = st.floats(0, 1)
_SPOT = st.tuples(_PART, _PART)
_CALL = st.none() | st.integers(1, 99)
_WORDS = st.sampled_from(
    ["dry link", "split pin, legs opened", "crack", "rust at the foot of the bracket, port side"]
)
ANY_MARK: st.SearchStrategy[Mark] = st.one_of(
    st.builds(Ring, at=_SPOT, radius=st.floats(0.01, 0.12), callout=_CALL),
    st.builds(Box, corner=_SPOT, opposite=_SPOT, callout=_CALL),
    st.builds(Arrow, tail=_SPOT, head=_SPOT, callout=_CALL),
    st.builds(Ruler, start=_SPOT, end=_SPOT, length=st.sampled_from(["", "254 mm"]), callout=_CALL),
    st.builds(LabelMark, at=_SPOT, text=_WORDS, callout=_CALL),
    st.builds(Inset, at=_SPOT, radius=st.floats(0.02, 0.08), callout=_CALL),
)


def _wrap(text: str, measure: float) -> list[str]:
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, LABEL) > measure:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def lay(marks: list[Mark], size: tuple[float, float] = SIZE) -> Overlay:
    return overlay(marks, size, _wrap, lambda text: text_width(text, LABEL))


def _areas(laid: Overlay, *kinds: type) -> list[Area]:
    return [
        shape.area
        for shape in laid.shapes
        if isinstance(shape, Disc | Plate | Glass) and isinstance(shape, kinds)
    ]


@settings(max_examples=60, deadline=None)
@given(st.lists(ANY_MARK, max_size=5))
def test_plates_stay_inside_apart_and_off_their_targets(marks: list[Mark]) -> None:
    laid = lay(marks)
    whole = Area(0, 0, *SIZE)
    plates = _areas(laid, Plate)
    assert all(whole.holds(area) for area in _areas(laid, Plate, Disc))
    for plate in plates:
        for other in _areas(laid, Plate, Disc, Glass):
            assert other is plate or plate.overlap(other) == 0
        for mark in marks:
            if isinstance(mark, LabelMark):
                target = Area.round((mark.at[0] * SIZE[0], mark.at[1] * SIZE[1]), 2)
                assert plate.overlap(target) == 0
            if isinstance(mark, Arrow):
                assert plate.overlap(Area.round((mark.head[0] * SIZE[0], mark.head[1] * SIZE[1]), 2)) == 0
    printed = {" ".join(shape.lines) for shape in laid.shapes if isinstance(shape, Plate)}
    words = {f"{mark.callout or ''} {mark.text}".strip() for mark in marks if isinstance(mark, LabelMark)}
    assert words <= printed | {text for _, text in laid.keyed}


def test_a_usual_photo_has_room_for_everything() -> None:
    laid = lay(list(MARKS))
    assert not laid.keyed
    areas = _areas(laid, Plate, Disc, Glass)
    assert len(areas) == 2 + 3 + 1
    assert all(one.overlap(other) == 0 for one, other in combinations(areas, 2))


def test_labels_without_room_go_to_the_caption() -> None:
    marks: list[Mark] = [
        LabelMark(at=(0.12 * x, 0.4 * y), text="rust at the foot of the bracket")
        for x in range(8)
        for y in range(3)
    ]
    laid = lay(marks, (150, 110))
    assert laid.keyed
    assert laid.keyed[0][0] == "a"
    plates = _areas(laid, Plate)
    assert all(one.overlap(other) == 0 for one, other in combinations(plates, 2))


def test_blur_is_never_painted() -> None:
    assert lay([Blur(corner=(0, 0), opposite=(1, 1), callout=None)]).shapes == ()


def test_ring_and_arrow_point_where_they_should() -> None:
    laid = lay([Ring(at=(0.5, 0.5), radius=0.1), Arrow(tail=(0, 0), head=(1, 1))])
    (ring,) = (shape for shape in laid.shapes if isinstance(shape, Oval))
    assert (ring.centre, ring.radii) == ((170, 127.5), (34, 34))
    shaft, head = (shape for shape in laid.shapes if isinstance(shape, Stroke))
    assert shaft.points == ((0, 0), SIZE)
    assert head.points[0] == SIZE


EVERY_MARK: tuple[Mark, ...] = (*MARKS, Blur(corner=(0.1, 0.1), opposite=(0.2, 0.2)))


def test_a_sample_of_every_kind_of_mark_is_at_hand() -> None:
    assert {type(mark) for mark in EVERY_MARK} == set(get_args(get_args(Mark)[0]))


@pytest.mark.parametrize("mark", EVERY_MARK, ids=lambda mark: str(mark.kind))
def test_every_kind_of_mark_has_words_and_is_drawn_on_paper_and_in_a_browser(mark: Mark) -> None:
    """All but the blur, which is in the pixels and must not be pointed at."""
    hidden = isinstance(mark, Blur)
    assert bool(mark_in_words(catalogue(), mark)) is not hidden
    laid = overlay([mark], SIZE, lambda text, _: [text], lambda text: 4.0 * len(text))
    assert bool(laid.shapes) is not hidden
    insets = ("inset.jpg",) if isinstance(mark, Inset) else ()
    assert bool(FluidOverlay(0.75, insets).lay([mark])) is not hidden
