"""The sail plan: drawn to the boat's own sizes, every part told, dashed where not listed, no label over another.

Widths of text are those of the report's own type (`reporter.typeset.glyphs`), not the drawing's own estimate.
"""

from __future__ import annotations

import importlib
import itertools
from collections.abc import Mapping
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.drawing import Drawing, Ellipse, Path, Sign, Words
from reporter.model.terms import Extent, Grade
from reporter.typeset.glyphs import Cleaner, width
from reporter.typeset.styles import Type
from tests.plugins.evidence import REGISTRY
from tests.plugins.rigs import Given, part, rig

system = REGISTRY.systems["rig"]
columns = importlib.import_module("reporter_plugins.drawings.label_columns")
WIDTH, MOST_HIGH = 482, 430


class Box(NamedTuple):
    """A rectangle, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box) -> bool:
        """True when the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


FULL: tuple[Given, ...] = (
    part("standing_wire", "Forestay", Grade.UNSEEN, role="forestay"),
    part("standing_wire", "Baby stay", role="inner_forestay"),
    part("furler", "Furler", Grade.WATCH),
    part("bobstay", "Bobstay", Grade.FIRST, sprit_length=0.9),
    part("standing_wire", "Cap shroud, port", role="cap_shroud"),
    part("standing_wire", "Cap shroud, starboard", Grade.STOP, role="cap_shroud"),
    part("rod", "Diagonals", Grade.PLAN, role="intermediate"),
    part("standing_wire", "Aft lowers", role="aft_lower"),
    part("standing_wire", "Backstay", role="backstay"),
    part("backstay", "Backstay adjuster and insulators", Grade.FIRST),
    part("running_backs", "Running backstays"),
    part("terminal", "Terminals at the masthead", Grade.UNSEEN, position="upper"),
    part("terminal", "Swaged ends at deck level", Grade.FIRST, position="lower"),
    part("rigging_screw", "Rigging screws", Grade.PLAN),
    part("chainplate", "Chainplates", Grade.WATCH, holds="shrouds"),
    part("chainplate", "Stem fitting", holds="stem"),
    part("chainplate", "Stern chainplate", holds="stern"),
    part("mast", "Mast", height=15.8, spreader_pairs=2.0),
    part("mast_foot", "Mast foot", Grade.PLAN),
    part("spreader", "Spreaders", Grade.UNSEEN),
    part("boom", "Boom and vang", length=4.6),
)
SIZES = {"length_overall": 11.8, "length_waterline": 9.9, "beam": 3.8, "draught": 2.0}


def drawn(
    *parts: Given,
    extents: dict[int, Extent] | None = None,
    terms: str = "uk",
    metres: Mapping[str, float] | None = None,
) -> Drawing:
    """The drawing of these parts."""
    drawing = system.draw(*rig(*parts, extents=extents, terms=terms, metres=metres))
    assert drawing is not None
    return drawing


def texts(drawing: Drawing) -> list[str]:
    """Every line of text."""
    return [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


def boxes(drawing: Drawing) -> list[Box]:
    """The room that each line of text takes in the report's own type, and each sign."""
    found = []
    clean = Cleaner().clean
    for shape in drawing.shapes:
        if isinstance(shape, Words):
            wide = width(
                clean(shape.text),
                Type("Semibold" if shape.strong else "Regular", shape.size, shape.size * 1.2),
            )
            left = shape.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[shape.anchor]
            found.append(
                Box(left, shape.at[1] - shape.size * 0.75, left + wide, shape.at[1] + shape.size * 0.22)
            )
        if isinstance(shape, Sign):
            half = shape.side / 2
            found.append(Box(shape.at[0] - half, shape.at[1] - half, shape.at[0] + half, shape.at[1] + half))
    return found


def leaders(drawing: Drawing) -> list[Path]:
    """The fine lines from labels to parts."""
    return [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path) and shape.weight == "fine" and len(shape.points) == 3 and not shape.closed
    ]


def hold(drawing: Drawing) -> None:
    """No label over another, none off the sheet, none under a leader."""
    taken = boxes(drawing)
    for one, other in itertools.combinations(taken, 2):
        assert not one.overlaps(other), (one, other)
    for box in taken:
        assert box.left >= 0
        assert box.top >= 0
        assert box.right <= drawing.width
        assert box.bottom <= drawing.height
    points = [point for shape in drawing.shapes if isinstance(shape, Path) for point in shape.points]
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)
    for line in leaders(drawing):
        for (x, y), (to_x, to_y) in itertools.pairwise(line.points):
            for step in range(21):
                at = (x + (to_x - x) * step / 20, y + (to_y - y) * step / 20)
                assert not any(
                    box.left < at[0] < box.right and box.top < at[1] < box.bottom for box in taken
                ), (line.points, at)


def test_nothing_of_a_rig_is_no_drawing() -> None:
    assert system.draw(*rig()) is None


def test_a_full_rig_is_calm_and_complete() -> None:
    drawing = drawn(*FULL, metres=SIZES)
    assert drawing.width == WIDTH
    assert drawing.height <= MOST_HIGH
    hold(drawing)
    for _, name, grade, _ in FULL:
        word = "not seen" if grade is Grade.UNSEEN else grade.value
        assert f"{name}: {word}" in drawing.alt
    assert not [shape for shape in drawing.shapes if getattr(shape, "dashed", False)], (
        "all is listed, nothing is dashed"
    )
    assert "stop, worst of 2" in texts(drawing)


def test_the_grade_signs_are_those_of_the_parts() -> None:
    drawing = drawn(*FULL, metres=SIZES)
    grades = [shape.grade for shape in drawing.shapes if isinstance(shape, Sign)]
    expected = [grade for _, name, grade, _ in FULL if name != "Cap shroud, port"]
    assert sorted(grades) == sorted(expected), "two shrouds of one place share a sign, the worse one's"


def test_what_is_not_listed_is_dashed_and_said() -> None:
    drawing = drawn(FULL[4])
    hold(drawing)
    assert "forestay not listed, drawn dashed" in drawing.alt
    assert texts(drawing).count("not listed") == drawing.alt.count("not listed, drawn dashed")
    assert len([shape for shape in drawing.shapes if getattr(shape, "dashed", False)]) > 10
    assert "a sketch" in texts(drawing)[-1]


def test_what_is_not_fitted_is_neither_dashed_nor_missed() -> None:
    parts = (FULL[17], part("standing_wire", "Backstay", role="backstay"), part("spreader", "Spreaders"))
    drawing = drawn(*parts, extents={1: Extent.NOT_FITTED, 2: Extent.NOT_FITTED}, metres=SIZES)
    assert "Not fitted: Backstay; Spreaders." in drawing.alt
    assert "backstay not listed" not in drawing.alt
    assert "spreaders not listed" not in drawing.alt
    hold(drawing)


def mast_of(drawing: Drawing) -> Path:
    """The mast from the side: the tallest closed box."""
    spars = [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path) and shape.closed and len(shape.points) == 4
    ]
    return max(spars, key=lambda path: max(y for _, y in path.points) - min(y for _, y in path.points))


def hull_of(drawing: Drawing) -> Path:
    """The hull from the side: the widest closed shape."""
    closed = [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path) and shape.closed and shape.stroke == "ink"
    ]
    return max(closed, key=lambda path: max(x for x, _ in path.points) - min(x for x, _ in path.points))


def span(path: Path, axis: int) -> float:
    """Width (0) or height (1) of a path in points."""
    return max(point[axis] for point in path.points) - min(point[axis] for point in path.points)


@pytest.mark.parametrize(("height", "overall"), [(15.8, 11.8), (9.0, 7.0), (22.0, 12.0), (12.0, 14.0)])
def test_mast_and_hull_are_to_one_scale(height: float, overall: float) -> None:
    drawing = drawn(
        part("mast", "Mast", height=height),
        metres={"length_overall": overall, "beam": overall / 3, "draught": overall / 6},
    )
    assert span(mast_of(drawing), 1) / span(hull_of(drawing), 0) == pytest.approx(height / overall, rel=0.01)
    hold(drawing)
    assert drawing.height <= MOST_HIGH


@pytest.mark.parametrize("pairs", [0, 1, 2, 3, 4])
def test_as_many_spreaders_as_the_mast_has(pairs: int) -> None:
    drawing = drawn(
        part("mast", "Mast", height=16.0, spreader_pairs=float(pairs)),
        *([part("spreader", "Spreaders")] if pairs else []),
        metres=SIZES,
    )
    # Seen from ahead, a spreader is a level box on either side of the mast.
    level = [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path)
        and shape.closed
        and len(shape.points) == 4
        and span(shape, 1) < 6 < span(shape, 0)
        and min(x for x, _ in shape.points) > 390
    ]
    assert len(level) == 2 * pairs
    hold(drawing)


def test_fractional_by_mast_or_by_the_vessels_text() -> None:
    assert "fractional rig" in drawn(part("mast", "Mast", height=13.0, hounds=11.0)).alt
    assert "fractional rig" in drawn(part("mast", "Mast", rig_form="fractional")).alt
    assert "masthead rig" in drawn(part("mast", "Mast")).alt
    by_text = system.draw(*rig(part("mast", "Mast"), rig="7/8 sloop"))
    assert by_text is not None
    assert "fractional rig" in by_text.alt
    assert "backstay" not in by_text.alt.lower(), "a fractional rig may have none: it is not missed"


def test_a_mast_without_stays_is_given_none() -> None:
    drawing = drawn(part("mast", "Mast", rig_form="unstayed", height=9.0), metres={"length_overall": 7.0})
    assert "mast without stays" in drawing.alt
    assert "shroud" not in drawing.alt
    hold(drawing)


def test_a_mizzen_is_told_and_not_drawn() -> None:
    drawing = drawn(
        *FULL, part("standing_wire", "Mizzen cap shroud", Grade.STOP, role="cap_shroud"), metres=SIZES
    )
    assert "Listed, not drawn: Mizzen cap shroud: stop." in drawing.alt
    assert texts(drawing)[-1].endswith("Main mast only.")


def test_a_stay_without_a_role_is_placed_by_its_name_or_told() -> None:
    drawing = drawn(
        part("standing_wire", "Starboard lower shroud"), part("standing_wire", "Third wire from aft")
    )
    assert "Shrouds: cap shrouds not listed, drawn dashed" in drawing.alt
    assert "Starboard lower shroud: clear" in drawing.alt
    assert "Listed, not drawn: Third wire from aft: clear." in drawing.alt


def test_one_unseen_among_clear_ones_speaks() -> None:
    drawing = drawn(part("rigging_screw", "Port"), part("rigging_screw", "Starboard", Grade.UNSEEN))
    assert "not seen, worst of 2" in texts(drawing)


def test_words_of_the_us() -> None:
    assert "Turnbuckles" in texts(drawn(part("mast", "Mast"), terms="us"))
    assert "Upper shrouds" in texts(drawn(part("mast", "Mast"), terms="us"))


def test_keel_stepped_mast_goes_below() -> None:
    job, graded = rig(part("mast", "Mast"), part("mast_foot", "Foot"), mast_step="keel")
    drawing = system.draw(job, graded)
    assert drawing is not None
    assert "stepped on the keel" in drawing.alt
    assert [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path) and shape.dashed and shape.stroke == "second"
    ]


def test_a_slip_of_the_pen_does_not_spoil_the_picture() -> None:
    """A mast of 158 m is left out, and the drawing says that it is a sketch."""
    drawing = drawn(part("mast", "Mast", height=158.0), metres=SIZES)
    assert "a sketch" in texts(drawing)[-1]
    hold(drawing)


NAMES = st.one_of(
    st.just(""),
    st.text(st.characters(codec="utf-8", categories=("L", "N", "Zs", "P")), min_size=1, max_size=60),
)
SOME = st.lists(
    st.tuples(st.sampled_from(FULL), NAMES, st.sampled_from(list(Grade))), min_size=1, max_size=26
)


@given(SOME, st.floats(5, 24), st.floats(0.7, 2.2), st.floats(0.25, 0.5), st.integers(0, 5))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_labels_never_overlap(
    some: list[tuple[Given, str, Grade]], overall: float, tall: float, beamy: float, pairs: int
) -> None:
    parts = [
        (kind, name or own, grade, details) for (kind, own, _, details), name, grade in some if kind != "mast"
    ]
    parts.append(part("mast", "Mast", height=overall * tall, spreader_pairs=float(pairs)))
    drawing = drawn(
        *parts, metres={"length_overall": overall, "beam": overall * beamy, "draught": overall / 6}
    )
    hold(drawing)
    assert drawing.height <= MOST_HIGH


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(8, 40)), max_size=14))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_columns_keep_their_order_and_their_gaps(labels: list[tuple[float, float]]) -> None:
    labels.sort()
    wishes, heights = [wish for wish, _ in labels], [high for _, high in labels]
    edges = columns.stacked(wishes, heights, 10, 340, 4)
    for (above, high), below in itertools.pairwise([*zip(edges, heights, strict=True), (1e9, 0)]):
        assert above >= 10
        assert below[0] >= above + high + 4 - 1e-6
    if labels and columns.room_for(heights, 4) <= 330:
        assert edges[-1] + heights[-1] <= 340 + 1e-6


def test_terminals_are_dots_at_both_ends() -> None:
    drawing = drawn(*FULL, metres=SIZES)
    dots = [shape for shape in drawing.shapes if isinstance(shape, Ellipse) and shape.fill == "ink"]
    assert len(dots) == 4
