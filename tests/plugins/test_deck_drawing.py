"""The deck plan and the schematic of the ground tackle: every part told once, nothing overlapping, nothing outside."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.assessment import Assessments, Check, Graded
from reporter.model.drawing import Drawing, Ellipse, Path, Sign, Words
from reporter.model.findings import Component, Examined, Fact
from reporter.model.job import Job
from reporter.model.sheet import Inspection, Issue, JobSheet, Particulars, Person
from reporter.model.terms import Basis, Extent, Grade, Verdict
from tests.effort import tries
from tests.plugins.evidence import REGISTRY, value
from tests.plugins.on_paper import outside, overlapping, set_out, struck_through, told

Parts = Sequence[Graded]
GRADES = itertools.cycle((Grade.CLEAR, Grade.STOP, Grade.WATCH, Grade.UNSEEN, Grade.FIRST, Grade.PLAN))
NUMBERS = itertools.count()
DRAWN = ("ground", "running", "safety")
KINDS = {
    system: [each.kind for each in REGISTRY.plugins.values() if each.system == system] for system in DRAWN
}
NAMES = (
    "", "Primary winch, starboard", "Gate stanchion, port", "Genoa track of an owner who likes very long names indeed, port", "舵輪舵輪", "ЛЕБЁДКА ЯКОРНАЯ",
    "WWWWWWWWWW MMMMMMMM", "a" * 60, "Masthead sheaves", "Clutches on the coachroof", "Quarter block, port", "Pushpit, starboard half",
    "舵" * 40, "ſƁƕ Ŵŵ ՀԱՅ", "Ŵ" * 30, "𝕎𝕎 😀", "@" * 20 + " " + "@" * 20,
)  # fmt: skip


def part(
    kind: str,
    name: str = "",
    grade: Grade | None = None,
    *,
    group: str = "",
    place: str = "",
    extent: Extent = Extent.SEEN,
) -> Graded:
    """One graded part."""
    plugin = REGISTRY.plugins[kind]
    component = Component(
        id=f"p{next(NUMBERS)}",
        kind=kind,
        name=name,
        group=group,
        place=place,
        examined=Examined(extent=extent, because="not opened"),
    )
    graded = grade or next(GRADES)
    return Graded(
        component=component, title=name or plugin.title, system=plugin.system, station=plugin.station, load_path=plugin.load_path, grade=graded,
        computed=graded,
    )  # fmt: skip


def job(
    parts: Parts,
    facts: dict[int, dict[str, Fact]] | None = None,
    *,
    length: float | None = 11.8,
    beam: float = 3.85,
) -> Job:
    """A job of these parts; `facts` by the part's place in the list."""
    sizes = {} if length is None else {"length_overall": value(length, "m"), "beam": value(beam, "m")}
    sheet = JobSheet(
        format=1, purpose="handover", report=Issue(number="T-1"), vessel=Particulars.model_validate({"name": "Marram", **sizes}),
        people=(Person(role="author", name="Rowan Teale"),), inspection=Inspection(dates=(dt.date(2026, 5, 12),), place="Skerrow Haven"),
    )  # fmt: skip
    told = {parts[place].component.id: fact for place, fact in (facts or {}).items()}
    return Job(sheet=sheet, components=tuple(each.component for each in parts), facts=told)


def drawn(
    system: str, parts: Parts, facts: dict[int, dict[str, Fact]] | None = None, **sizes: Any
) -> Drawing:
    """The drawing of a system that lists these parts."""
    drawing = REGISTRY.systems[system].draw(
        job(parts, facts, **sizes), Assessments(components=tuple(parts)), told
    )
    assert drawing is not None
    return set_out(drawing)


def choice(**chosen: str) -> dict[str, Fact]:
    """Details that are choices."""
    return {name: Fact(basis=Basis.SEEN, choice=each) for name, each in chosen.items()}


def hold(drawing: Drawing) -> None:
    """What every drawing keeps."""
    assert drawing.width == 482
    assert outside(drawing) == []
    assert overlapping(drawing) == []
    assert struck_through(drawing) == []


SIDES = ("port", "starboard")
FULL = {
    "safety": [
        part("pulpit", "Pulpit"), part("pulpit", "Pushpit"), part("jackstay", "Jackstays"),
        *(part(kind, f"{title}, {side}", group=side) for side in SIDES for kind, title in (("stanchion", "Stanchions"), ("lifeline", "Lifelines"))),
    ],
    "running": [
        *(part("winch", f"Primary winch, {side}", group=side) for side in SIDES), part("winch", "Halyard winch", place="coachroof, starboard"),
        *(part("block", f"Genoa track, {side}", group=side) for side in SIDES), part("block", "Clutches, starboard bank"),
        part("halyard", "Main halyard"), part("halyard", "Genoa halyard, port"), part("sheet", "Genoa sheets"), part("sheet", "Mainsheet"),
    ],
    "ground": [part(kind) for kind in ("anchor", "shackle", "swivel", "anchor_chain", "rode", "windlass", "bitter_end")],
}  # fmt: skip
each_system = pytest.mark.parametrize("system", DRAWN)


@each_system
def test_nothing_of_it_is_no_drawing(system: str) -> None:
    assert REGISTRY.systems[system].draw(job([]), Assessments(), told) is None


@each_system
def test_a_usual_boat_is_calm_and_complete(system: str) -> None:
    drawing = drawn(system, FULL[system])
    hold(drawing)
    assert drawing.height <= 320
    signs = sorted(shape.grade for shape in drawing.shapes if isinstance(shape, Sign))
    assert signs == sorted(each.grade for each in FULL[system])
    for each in FULL[system]:
        word = "not seen" if each.grade is Grade.UNSEEN else each.grade.value
        assert any(f"{each.title}{both}: {word}" in drawing.alt for both in ("", " (drawn on both sides)")), (
            each.title
        )


@each_system
@pytest.mark.parametrize("kind_place", range(4))
def test_what_is_not_listed_is_dashed_and_said(system: str, kind_place: int) -> None:
    kind = KINDS[system][kind_place]
    drawing = drawn(system, [part(kind)])
    hold(drawing)
    assert any(shape.dashed for shape in drawing.shapes if isinstance(shape, Path | Ellipse))
    assert "not listed, drawn dashed" in drawing.alt
    assert any(isinstance(shape, Words) and shape.text == "not listed" for shape in drawing.shapes)


@each_system
def test_everything_listed_leaves_nothing_dashed(system: str) -> None:
    bold = [shape for shape in drawn(system, FULL[system]).shapes if isinstance(shape, Path) and shape.dashed]
    # The chain on its way down to the locker runs unseen below the deck, and is drawn so.
    assert len(bold) == (1 if system == "ground" else 0)
    assert "not listed" not in drawn(system, FULL[system]).alt


@each_system
def test_what_was_looked_for_and_not_found_says_so(system: str) -> None:
    parts = [part(KINDS[system][0], grade=Grade.FIRST, extent=Extent.NOT_FOUND)]
    drawing = drawn(system, parts)
    assert "not found: first" in drawing.alt
    assert any(shape.dashed for shape in drawing.shapes if isinstance(shape, Path | Ellipse))


@pytest.mark.slow
@each_system
@settings(max_examples=tries(30, 10), deadline=None)
@given(data=st.data())
def test_labels_never_overlap(system: str, data: st.DataObject) -> None:
    """Any parts, names, sides and sizes."""
    chosen = data.draw(
        st.lists(
            st.tuples(st.sampled_from(KINDS[system]), st.sampled_from(NAMES), st.sampled_from(("", *SIDES))),
            min_size=1,
            max_size=18,
        )
    )
    length, ratio = data.draw(st.floats(4, 40)), data.draw(st.floats(0.15, 0.7))
    hold(
        drawn(
            system,
            [part(kind, name, group=group) for kind, name, group in chosen],
            length=length,
            beam=length * ratio,
        )
    )


@pytest.mark.slow
@pytest.mark.parametrize("system", ["running", "safety"])
def test_many_parts_share_labels_and_keep_their_signs(system: str) -> None:
    parts = [part(KINDS[system][at % 4], f"Fitting with a rather long name, number {at}") for at in range(44)]
    drawing = drawn(system, parts)
    hold(drawing)
    assert any("of" in shape.text for shape in drawing.shapes if isinstance(shape, Words))
    assert all(f"{each.title}" in drawing.alt for each in parts)


def outline(drawing: Drawing) -> Path:
    """The hull: the first closed line."""
    return next(shape for shape in drawing.shapes if isinstance(shape, Path) and shape.closed)


@pytest.mark.parametrize(("length", "beam"), [(8.0, 2.8), (11.8, 3.85), (16.0, 4.6)])
def test_the_outline_follows_length_and_beam(length: float, beam: float) -> None:
    points = outline(drawn("safety", FULL["safety"], length=length, beam=beam)).points
    across = max(y for _, y in points) - min(y for _, y in points)
    along = max(x for x, _ in points) - min(x for x, _ in points)
    assert across / along == pytest.approx(beam / length, rel=0.01)


def test_unknown_sizes_are_said() -> None:
    drawing = drawn("safety", FULL["safety"], length=None)
    assert "length or beam not given" in drawing.alt
    hold(drawing)


def test_two_hulls_are_drawn_as_two() -> None:
    drawing = drawn("safety", FULL["safety"], length=12.0, beam=6.9)
    hold(drawing)
    points = outline(drawing).points
    middle = (max(y for _, y in points) + min(y for _, y in points)) / 2
    bows = [y for x, y in points if x == min(x for x, _ in points)]
    assert len(bows) == 2
    assert bows[0] - middle == pytest.approx(middle - bows[1])


def test_starboard_is_above_and_bow_to_the_left() -> None:
    drawing = drawn(
        "safety",
        [
            part("stanchion", "Stanchions", Grade.PLAN, group="starboard"),
            part("stanchion", "Stanchions", Grade.STOP, group="port"),
        ],
    )
    signs = {shape.grade: shape.at for shape in drawing.shapes if isinstance(shape, Sign)}
    assert signs[Grade.PLAN][1] < signs[Grade.STOP][1]
    ends = drawn("safety", [part("pulpit", "Pulpit", Grade.PLAN), part("pulpit", "Pushpit", Grade.STOP)])
    signs = {shape.grade: shape.at for shape in ends.shapes if isinstance(shape, Sign)}
    assert signs[Grade.PLAN][0] < signs[Grade.STOP][0]


def test_a_stated_end_stands_above_a_name() -> None:
    rails = [part("pulpit", "Rail A", Grade.PLAN), part("pulpit", "Rail B", Grade.STOP)]
    drawing = drawn("safety", rails, {0: choice(end="stern"), 1: choice(end="bow")})
    signs = {shape.grade: shape.at for shape in drawing.shapes if isinstance(shape, Sign)}
    assert signs[Grade.STOP][0] < signs[Grade.PLAN][0]


def test_one_unseen_among_clear_ones_speaks() -> None:
    drawing = drawn(
        "ground",
        [
            part("shackle", "One", Grade.CLEAR),
            part("shackle", "Two", Grade.UNSEEN),
            part("shackle", "Three", Grade.CLEAR),
        ],
    )
    assert any(isinstance(shape, Words) and shape.text == "not seen, worst of 3" for shape in drawing.shapes)


def test_a_kedge_has_a_line_of_its_own() -> None:
    parts = [*FULL["ground"], part("anchor", "Kedge"), part("rode", "Kedge rope", group="kedge")]
    drawing = drawn("ground", parts, {7: choice(use="kedge")})
    hold(drawing)
    assert "Another rode (kedge): Kedge: " in drawing.alt
    assert drawing.height > drawn("ground", FULL["ground"]).height


def test_no_swivel_is_drawn_where_none_is_listed() -> None:
    without = drawn(
        "ground", [each for each in FULL["ground"] if each.component.kind not in {"swivel", "rode"}]
    )
    assert "swivel not listed, not drawn" in without.alt
    assert not any(
        isinstance(shape, Words) and shape.text in {"Swivel", "Rope rode"} for shape in without.shapes
    )


@pytest.mark.parametrize(
    ("system", "kind"),
    [
        ("safety", "jackstay"),
        ("safety", "stanchion"),
        ("running", "block"),
        ("ground", "windlass"),
        ("ground", "swivel"),
    ],
)
def test_what_is_not_fitted_is_neither_dashed_nor_missed(system: str, kind: str) -> None:
    parts = [each for each in FULL[system] if each.component.kind != kind]
    drawing = drawn(system, [*parts, part(kind, "The absent one", Grade.UNSEEN, extent=Extent.NOT_FITTED)])
    hold(drawing)
    assert drawing.alt.endswith("Not fitted, not drawn: The absent one.")
    assert "not listed" not in drawing.alt
    assert not any(
        isinstance(shape, Words) and shape.text.startswith("The absent") for shape in drawing.shapes
    )


def test_nothing_fitted_is_drawn_without_parts() -> None:
    for system in DRAWN:
        drawing = drawn(
            system, [part(kind, grade=Grade.UNSEEN, extent=Extent.NOT_FITTED) for kind in KINDS[system]]
        )
        hold(drawing)
        assert not any(isinstance(shape, Sign) for shape in drawing.shapes)


def test_one_part_for_a_set_is_drawn_on_both_sides() -> None:
    """Four winches in cockpit and on the coachroof are two pairs, named once."""
    four = {"count": Fact(basis=Basis.SEEN, value=value(4, ""))}
    sets = [
        part("winch", "Winches", place="cockpit and coachroof"),
        part("block", "Deck blocks, tracks and clutches"),
        part("sheet"),
        part("halyard"),
    ]
    drawing = drawn("running", sets, {0: four, 1: choice(type="mixed")})
    hold(drawing)
    drums = [shape for shape in drawing.shapes if isinstance(shape, Ellipse) and shape.radii == (6.4, 6.4)]
    assert len(drums) == 4
    assert len([shape for shape in drawing.shapes if isinstance(shape, Sign)]) == 4
    assert "Winches (drawn on both sides): " in drawing.alt


def damaged(side: str = "", at: str = "", grade: Grade = Grade.STOP) -> Check:
    """A crack at one stanchion."""
    return Check(
        id="stanchion.base.0",
        subject="base",
        title="Base",
        verdict=Verdict.SEEN,
        grade=grade,
        side=side,
        at=at,
    )


@pytest.mark.parametrize(
    ("checks", "word", "above"),
    [
        ((damaged("starboard", "second from aft"),), "starboard: stop", True),
        ((damaged("port"),), "port: stop", False),
        ((damaged(at="lower line, port, at the gate"),), "port: stop", False),
        ((damaged("port"), damaged("starboard")), "both sides together: stop", True),
        ((damaged("port"), damaged()), "both sides together: stop", True),
        ((damaged("port", grade=Grade.PLAN), damaged("starboard")), "starboard: stop", True),
    ],
)
def test_damage_on_one_side_is_told_on_that_side(checks: tuple[Check, ...], word: str, above: bool) -> None:
    one = part("stanchion", "Stanchions", Grade.STOP).model_copy(update={"checks": checks})
    drawing = drawn("safety", [one])
    label = next(each for each in drawing.labels if each.text == "Stanchions")
    assert label.word == word
    middle = sum(y for _, y in outline(drawing).points) / len(outline(drawing).points)
    assert (label.at[1] < middle) is above
    if "together" not in word:
        assert f"Stanchions (drawn on both sides): {word}" in drawing.alt


@pytest.mark.parametrize(("at", "place"), [("second from aft", -2), ("first from the bow", 0), ("", -1)])
def test_the_stanchion_that_is_damaged_is_pointed_out(at: str, place: int) -> None:
    one = part("stanchion", "Stanchions", Grade.STOP).model_copy(
        update={"checks": (damaged("starboard", at),)}
    )
    drawing = drawn("safety", [one], {0: {"count": Fact(basis=Basis.SEEN, value=value(8, ""))}})
    label = next(each for each in drawing.labels if each.text == "Stanchions")
    posts = sorted(
        shape.centre for shape in drawing.shapes if isinstance(shape, Ellipse) and shape.radii == (2.4, 2.4)
    )
    starboard = [post for post in posts if (post[1] < 100) == (label.at[1] < 100)]
    assert len(starboard) == 4
    assert label.at == starboard[place]


def test_the_anchor_pulls_the_way_its_rode_leads() -> None:
    """The fluke's point is its lowest one: in the ground, and on the side of the shackle."""
    drawing = drawn("ground", FULL["ground"])
    at = {label.text: label.at for label in drawing.labels}
    anchor, shackle = (next(xy for name, xy in at.items() if word in name) for word in ("Anchor", "hackle"))
    bodies = [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Path)
        and shape.closed
        and shape.fill == "wash"
        and max(x for x, _ in shape.points) < shackle[0]
    ]
    fluke = max(bodies, key=lambda path: max(y for _, y in path.points))
    tip = max(fluke.points, key=lambda point: point[1])
    assert anchor[0] < shackle[0]
    assert tip[0] == max(x for x, _ in fluke.points)
    assert tip[1] > shackle[1] + 10
