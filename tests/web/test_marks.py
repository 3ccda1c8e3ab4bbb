"""Marks over a photo: where they stand against the same fractions, and that nothing hides what is pointed at."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.photo import Arrow, Blur, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.typeset.places import Area
from reporter.web.marks import DISC, FluidOverlay
from reporter.web.places import NARROW, WIDE, FluidArea, FluidPlaces
from tests.typeset.samples import MARKS
from tests.web.reading import parsed

RATIO = 0.75
FINE = 0.005
"""Half a percent of the picture's width."""


def laid(marks: tuple[Mark, ...], ratio: float = RATIO) -> tuple[FluidOverlay, list[dict[str, str]]]:
    """The overlay of some marks, and the attributes of every element in it."""
    overlay = FluidOverlay(ratio, ["data:,"] * sum(mark.kind == "inset" for mark in marks))
    svg = overlay.lay(marks)
    tree = parsed(f"<!DOCTYPE html><html><head><title>x</title></head><body>{svg}</body></html>")
    return overlay, [dict(each.attrib) for each in tree.iter()]


def per(value: str) -> float:
    return float(value.removesuffix("%")) / 100


def test_strokes_stand_where_the_fractions_say() -> None:
    _, parts = laid(MARKS)
    core = [each for each in parts if each.get("class") == "core"]
    ring = next(each for each in core if "rx" in each)
    box = next(each for each in core if "width" in each)
    arrow = next(each for each in core if "g-head" in each.get("marker-end", ""))
    ruler = next(each for each in core if "marker-start" in each)
    assert [per(ring[key]) for key in ("cx", "cy", "rx")] == pytest.approx([0.3, 0.3, 0.06], abs=FINE)
    assert per(ring["ry"]) * RATIO == pytest.approx(per(ring["rx"]), abs=FINE), "round on the screen"
    assert [per(box[key]) for key in ("x", "y", "width", "height")] == pytest.approx(
        [0.6, 0.6, 0.2, 0.2], abs=FINE
    )
    assert [per(arrow[key]) for key in ("x1", "y1", "x2", "y2")] == pytest.approx(
        [0.1, 0.9, 0.3, 0.7], abs=FINE
    )
    assert [per(ruler[key]) for key in ("x1", "y1", "x2", "y2")] == pytest.approx(
        [0.1, 0.5, 0.5, 0.5], abs=FINE
    )


def test_a_label_hangs_at_what_it_speaks_of() -> None:
    _, parts = laid((LabelMark(at=(0.7, 0.2), text="dry link"),))
    hung = [each for each in parts if each.get("class") == "hung"]
    assert hung
    assert {(each["x"], each["y"]) for each in hung} == {("70%", "20%")}


def test_a_blur_leaves_nothing() -> None:
    overlay, _ = laid((Blur(corner=(0.1, 0.1), opposite=(0.9, 0.9)),))
    assert not overlay.lay((Blur(corner=(0.1, 0.1), opposite=(0.9, 0.9)),))


SPOT = st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95))
SOME = st.lists(
    st.one_of(
        st.builds(Ring, at=SPOT, radius=st.just(0.05), callout=st.integers(1, 99)),
        st.builds(Box, corner=SPOT, opposite=SPOT, callout=st.integers(1, 99)),
        st.builds(Arrow, tail=SPOT, head=SPOT, callout=st.integers(1, 99)),
        st.builds(Ruler, start=SPOT, end=SPOT, length=st.just("254 mm")),
        st.builds(LabelMark, at=SPOT, text=st.sampled_from(["dry link", "cable end and locknut", "x" * 80])),
    ),
    max_size=5,
)


@given(SOME, st.sampled_from([0.56, 0.75, 1.33]))
def test_plates_stay_in_the_picture_and_off_each_other(marks: list[Mark], ratio: float) -> None:
    """On a phone and on a desk; a label without such a place goes to the caption by its letter."""
    overlay, _ = laid(tuple(marks), ratio)
    plates = [area for area in overlay.places.taken if area.fixed.width > 2 * DISC + 3]
    for wide in (NARROW, WIDE):
        edges = [area.on((wide, wide * ratio)) for area in plates]
        assert all(Area(0, 0, wide, wide * ratio).holds(each) for each in edges)
        assert not any(one.overlap(other) for one, other in combinations(edges, 2))
    labels = sum(mark.kind in {"label", "line"} for mark in marks)
    assert len(plates) + len(overlay.keyed) == labels


def test_a_crowd_of_labels_goes_to_the_caption() -> None:
    overlay, _ = laid(tuple(LabelMark(at=(0.5, 0.5), text="x y " * 20) for _ in range(12)))
    assert overlay.keyed
    assert overlay.keyed[0] == ("a", "x y " * 20)


def test_a_place_is_free_only_where_it_is_at_both_widths() -> None:
    places = FluidPlaces(1.0, taken=[FluidArea(Area(0.5, 0.0, 0.6, 0.1))])
    near = FluidArea.held((0.4, 0.05), Area(0, -5, 50, 5))
    clear = FluidArea.held((0.1, 0.9), Area(0, -5, 50, 5))
    assert near.on((WIDE, WIDE)).right <= 0.5 * WIDE, "free on a desk"
    assert places.best([near])[1], "but not on a phone"
    assert places.best([near, clear]) == (clear, False)


@settings(max_examples=30)
@given(
    st.lists(st.builds(Inset, at=st.tuples(*[st.floats(0, 1)] * 2), radius=st.floats(0.01, 0.1), zoom=st.floats(1.5, 6)),
             min_size=2, max_size=4, unique_by=lambda mark: mark.at),
    st.sampled_from([0.66, 1.0, 1.5]),
)  # fmt: skip
def test_a_magnified_piece_covers_no_others_source(marks: list[Inset], ratio: float) -> None:
    """Two discs are clear of one another when their middles lie as far apart as both radii together."""
    _, parts = laid(tuple(marks), ratio)
    pieces = [each for each in parts if each.get("class") == "glass"]
    assert len(pieces) == len(marks)
    for number, piece in enumerate(pieces):
        left, top, wide, high = (per(piece[key]) for key in ("x", "y", "width", "height"))
        for other, mark in enumerate(marks):
            far = math.hypot(left + wide / 2 - mark.at[0], (top + high / 2 - mark.at[1]) * ratio)
            assert number == other or far > wide / 2 + mark.radius - 0.001
