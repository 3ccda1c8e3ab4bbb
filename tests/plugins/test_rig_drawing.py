"""The sail plan: drawn to the boat's own sizes, every part told, dashed where not listed, no label over another."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.drawing import Drawing, Ellipse, Path, Sign, Words
from reporter.model.findings import on_mizzen
from reporter.model.terms import Extent, Grade
from tests.effort import tries
from tests.plugins.evidence import REGISTRY
from tests.plugins.on_paper import outside, overlapping, set_out, struck_through, told
from tests.plugins.rigs import Given, part, rig

system = REGISTRY.systems["rig"]
WIDTH, MOST_HIGH = 482, 430


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
    drawing = system.draw(*rig(*parts, extents=extents, terms=terms, metres=metres), told)
    assert drawing is not None
    return set_out(drawing)


def texts(drawing: Drawing) -> list[str]:
    """Every line of text."""
    return [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


def hold(drawing: Drawing) -> None:
    """No label over another, none off the sheet, none under a leader."""
    assert outside(drawing) == []
    assert overlapping(drawing) == []
    assert struck_through(drawing) == []


def test_nothing_of_a_rig_is_no_drawing() -> None:
    assert system.draw(*rig(), told) is None


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


def test_the_grade_signs_are_those_of_the_parts() -> None:
    drawing = drawn(*FULL, metres=SIZES)
    grades = [shape.grade for shape in drawing.shapes if isinstance(shape, Sign)]
    assert sorted(grades) == sorted(grade for _, _, grade, _ in FULL)


def test_parts_of_one_place_and_side_share_a_label() -> None:
    pair = [
        part("terminal", f"{name} swage, port", grade, position="lower")
        for name, grade in (("Fore", Grade.STOP), ("Aft", Grade.CLEAR))
    ]
    assert "stop, worst of 2" in texts(drawn(*pair))
    assert "clear, all 2" in texts(drawn(pair[1], pair[1]))


@pytest.mark.parametrize(("name", "way"), [("Rigging screw, port cap shroud", 1), ("Starboard screw", -1)])
def test_what_has_a_side_is_pointed_out_on_it(name: str, way: int) -> None:
    """Seen from ahead, port is on the right."""
    drawing = drawn(part("rigging_screw", name), metres=SIZES)
    label = next(each for each in drawing.labels if each.text == name)
    middle = next(each.at[0] for each in drawing.labels if each.text == "Terminals aloft")
    assert way * (label.at[0] - middle) > 5
    assert all(way * (room[0 if way > 0 else 2] - middle) > 0 for room in label.rooms)


def test_what_is_not_listed_is_dashed_and_said() -> None:
    drawing = drawn(FULL[4])
    hold(drawing)
    assert "forestay not listed, drawn dashed" in drawing.alt
    assert texts(drawing).count("not listed") == drawing.alt.count("not listed, drawn dashed")
    assert len([shape for shape in drawing.shapes if getattr(shape, "dashed", False)]) > 10
    assert any("a sketch:" in text for text in texts(drawing))


def test_what_is_not_fitted_is_neither_dashed_nor_missed() -> None:
    parts = (FULL[17], part("standing_wire", "Backstay", role="backstay"), part("spreader", "Spreaders"))
    drawing = drawn(*parts, extents={1: Extent.NOT_FITTED, 2: Extent.NOT_FITTED}, metres=SIZES)
    assert "Not fitted, not drawn: Backstay; Spreaders." in drawing.alt
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
        and min(x for x, _ in shape.points) > 350
    ]
    assert len(level) == 2 * pairs
    hold(drawing)


def test_fractional_by_mast_or_by_the_vessels_text() -> None:
    assert "fractional rig" in drawn(part("mast", "Mast", height=13.0, hounds=11.0)).alt
    assert "fractional rig" in drawn(part("mast", "Mast", rig_form="fractional")).alt
    assert "masthead rig" in drawn(part("mast", "Mast")).alt
    by_text = system.draw(*rig(part("mast", "Mast"), rig="7/8 sloop"), told)
    assert by_text is not None
    assert "fractional rig" in by_text.alt
    assert "backstay" not in by_text.alt.lower(), "a fractional rig may have none: it is not missed"


def test_a_mast_without_stays_is_given_none() -> None:
    drawing = drawn(part("mast", "Mast", rig_form="unstayed", height=9.0), metres={"length_overall": 7.0})
    assert "mast without stays" in drawing.alt
    assert "shroud" not in drawing.alt
    hold(drawing)


MIZZEN = (
    part("standing_wire", "Mizzen cap shroud, port", Grade.STOP, role="cap_shroud"),
    part("standing_wire", "Mizzen cap shroud, starboard", role="cap_shroud"),
    part("mast", "Mizzen mast"),
    part("boom", "Mizzen boom"),
    part("standing_wire", "Mizzen stay", Grade.FIRST),
)


def test_a_mizzen_is_drawn_and_what_comes_first_on_it_is_named() -> None:
    """Also a stay whose role nobody told; the others of a place stand together, and none counts for the main mast."""
    main = drawn(*FULL, metres=SIZES)
    drawing = drawn(*FULL, *MIZZEN, metres=SIZES)
    hold(drawing)
    written = " ".join(texts(drawing))
    for name in ("Mizzen cap shroud, port", "Mizzen stay", "Mizzen mast", "Mizzen boom"):
        assert name in written
    assert "Mizzen: Mizzen cap shroud, port: stop; Mizzen cap shroud, starboard: clear" in drawing.alt
    assert any(text.endswith("From ahead, the main mast only.") for text in texts(drawing))
    spars = len([shape for shape in drawing.shapes if isinstance(shape, Path)])
    assert spars >= len([shape for shape in main.shapes if isinstance(shape, Path)]) + 3


def test_a_mizzen_is_sketched_where_only_a_stay_of_it_is_listed() -> None:
    drawing = drawn(*FULL, MIZZEN[0], metres=SIZES)
    hold(drawing)
    assert "Mizzen cap shroud, port" in " ".join(texts(drawing))
    dashed = [shape for shape in drawing.shapes if getattr(shape, "dashed", False)]
    assert len(dashed) == 2, "her mast and her boom are not listed"


def test_a_part_of_the_mizzen_mast_is_of_the_mizzen() -> None:
    job, _ = rig(part("mast", "Besanmast"), part("standing_wire", "Wire", role="cap_shroud"))
    stay = job.components[1].model_copy(update={"part_of": job.components[0].id})
    belongs = {each.id: each for each in (job.components[0], stay)}
    assert on_mizzen(stay, belongs)
    assert not on_mizzen(job.components[1], belongs)
    loop = stay.model_copy(update={"part_of": stay.id})
    assert not on_mizzen(loop, {loop.id: loop}), "a part of itself ends as well"


def test_a_stay_without_a_role_is_placed_by_its_name_or_told() -> None:
    drawing = drawn(
        part("standing_wire", "Starboard lower shroud"), part("standing_wire", "Third wire from aft")
    )
    assert "Shrouds: cap shrouds not listed, drawn dashed" in drawing.alt
    assert "Starboard lower shroud: clear" in drawing.alt
    assert "Listed, not drawn: Third wire from aft: clear." in drawing.alt
    assert "Listed, not drawn: Third wire from aft (clear)." in texts(drawing)
    many = drawn(*(part("standing_wire", f"Wire number {place} of an odd rig") for place in range(9)))
    hold(many)
    assert "Wire number 8 of an odd rig (clear)." in " ".join(texts(many))


def test_one_unseen_among_clear_ones_speaks() -> None:
    drawing = drawn(part("rigging_screw", "Forward"), part("rigging_screw", "After", Grade.UNSEEN))
    assert "not seen, worst of 2" in texts(drawing)


def test_words_of_the_us() -> None:
    assert "Turnbuckles" in texts(drawn(part("mast", "Mast"), terms="us"))
    assert "Upper shrouds" in texts(drawn(part("mast", "Mast"), terms="us"))


def test_keel_stepped_mast_goes_below() -> None:
    job, graded = rig(part("mast", "Mast"), part("mast_foot", "Foot"), mast_step="keel")
    drawing = system.draw(job, graded, told)
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
    assert any("a sketch:" in text for text in texts(drawing))
    hold(drawing)


NAMES = st.one_of(
    st.just(""),
    st.text(st.characters(codec="utf-8", categories=("L", "N", "Zs", "P")), min_size=1, max_size=60),
)
SOME = st.lists(
    st.tuples(st.sampled_from(FULL), NAMES, st.sampled_from(list(Grade))), min_size=1, max_size=26
)


@pytest.mark.slow
@given(SOME, st.floats(5, 24), st.floats(0.7, 2.2), st.floats(0.25, 0.5), st.integers(0, 5))
@settings(max_examples=tries(80, 25), deadline=None, derandomize=True)
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


def test_terminals_are_dots_at_both_ends() -> None:
    drawing = drawn(*FULL, metres=SIZES)
    dots = [shape for shape in drawing.shapes if isinstance(shape, Ellipse) and shape.fill == "ink"]
    assert len(dots) == 4
