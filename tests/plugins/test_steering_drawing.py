"""The steering schematic: every part told once in the drawing and in words, nothing overlapping, nothing outside.

Widths of text are those of the report's own type (`reporter.typeset.glyphs`), not the drawing's own estimate.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator
from typing import Any

import pytest

from reporter.model.assessment import Assessments, Graded
from reporter.model.drawing import Drawing, Path, Sign, Words
from reporter.model.job import (
    Component,
    Examined,
    Fact,
    Inspection,
    Issue,
    Job,
    JobSheet,
    Particulars,
    Person,
)
from reporter.model.terms import Basis, Extent, Grade
from reporter.typeset.glyphs import Cleaner, width
from reporter.typeset.styles import Type
from tests.plugins.evidence import REGISTRY, value

SYSTEM = REGISTRY.systems["steering"]
Box = tuple[float, float, float, float]
Parts = list[Graded]


def part(
    kind: str,
    grade: Grade = Grade.CLEAR,
    *,
    name: str = "",
    group: str = "",
    place: str = "",
    ident: str = "",
    extent: Extent = Extent.SEEN,
) -> Graded:
    """One graded part of the steering gear."""
    component = Component(
        id=ident or kind,
        kind=kind,
        name=name,
        group=group,
        place=place,
        examined=Examined(extent=extent, because="not opened"),
    )
    plugin = REGISTRY.plugins[kind]
    return Graded(
        component=component,
        title=name or plugin.title,
        system="steering",
        station=plugin.station,
        load_path=True,
        grade=grade,
        computed=grade,
    )


def case(parts: Parts, **vessel: Any) -> tuple[Job, Assessments]:
    """A job that lists these parts; the quadrants have a radius."""
    radius = Fact(basis=Basis.MEASURED, value=value(254, "mm"))
    job = Job(
        sheet=JobSheet(
            format=1,
            purpose="handover",
            report=Issue(number="T-1"),
            vessel=Particulars(name="Marram", **vessel),
            people=(Person(role="author", name="Rowan Teale"),),
            inspection=Inspection(dates=(dt.date(2026, 5, 12),), place="Skerrow Haven"),
        ),
        components=tuple(each.component for each in parts),
        facts={each.component.id: {"radius": radius} for each in parts if each.component.kind == "quadrant"},
    )
    return job, Assessments(components=tuple(parts))


def drawn(parts: Parts, **vessel: Any) -> Drawing:
    drawing = SYSTEM.draw(*case(parts, **vessel))
    assert drawing is not None
    return drawing


GRADES = list(Grade)


def sheaves(side: str, count: int) -> Parts:
    names = [
        "Pedestal idler",
        "Turning sheave under the cockpit sole",
        "Bulkhead sheave",
        "Quarter sheave",
        "Sheave at the quadrant",
    ]
    return [
        part(
            "sheave", GRADES[at % 6], name=f"{names[at % 5]}, {side}", group=side, ident=f"sheave_{side}_{at}"
        )
        for at in range(count)
    ]


def helm(group: str = "", count: int = 2) -> Parts:
    wires = [
        part(
            "steering_wire",
            Grade.STOP,
            name=f"Steering wire, {side}",
            group=group or side,
            ident=f"wire_{group}_{side}",
        )
        for side in ("port", "starboard")
    ]
    own = [
        part(kind, Grade.WATCH, group=group, ident=f"{kind}{group}")
        for kind in ("wheel", "wheel_brake", "pedestal", "chain")
    ]
    rollers = [] if group else [*sheaves("port", count), *sheaves("starboard", count)]
    if group:
        rollers = [
            part(
                "sheave",
                name=f"{side.title()} sheave of the {group} helm",
                group=group,
                ident=f"s_{group}_{side}_{at}",
            )
            for side in ("port", "starboard")
            for at in range(count)
        ]
    return [*own, *rollers, *wires]


def rudder(group: str = "") -> Parts:
    return [
        part(kind, grade, group=group, ident=f"{kind}{group}")
        for kind, grade in (
            ("quadrant", Grade.FIRST),
            ("rudder_bearing", Grade.PLAN),
            ("rudder_blade", Grade.UNSEEN),
        )
    ]


SPARE = [part("pilot_drive", Grade.PLAN), part("emergency_tiller", Grade.FIRST, extent=Extent.NOT_FOUND)]
LONG = [
    part(
        each.component.kind,
        Grade.STOP,
        name=f"{each.title} of an owner who likes very long names indeed",
        group=each.component.group,
        ident=each.component.id,
    )
    for each in (*helm(count=3), *rudder(), *SPARE)
]
FOREIGN = [
    part(each.component.kind, Grade.PLAN, name=name, group=each.component.group, ident=each.component.id)
    for each, name in zip(
        (*helm(count=4), *rudder(), *SPARE),
        itertools.cycle(
            [
                "ШТУРВАЛЬНАЯ ЦЕПЬ ЖЁЛОБ",
                "Ρόδα Οδηγός ΩΩΩ",
                "舵輪舵輪",
                "עוגן הגה",
                "Łańcuch przekładni",
                "WWWWWWWWWW MMMMMMMM",
                "⚓⛵ wheel",
                "a" * 60,
            ]
        ),
        strict=False,
    )
]
CASES: dict[str, tuple[Parts, dict[str, Any]]] = {
    **{f"{count} a side": ([*helm(count=count), *rudder(), *SPARE], {}) for count in range(9)},
    "chain alone": ([part("chain", Grade.WATCH)], {}),
    "pairs": ([part("wheel"), part("chain"), part("sheave", name="Idlers in the pedestal foot", ident="i"), *sheaves("port", 1), *sheaves("starboard", 2), part("steering_wire"), *rudder()], {}),
    "long names": (LONG, {}),
    "foreign names": (FOREIGN, {}),
    "twin wheels": ([*helm("port"), *helm("starboard"), *rudder(), *SPARE], {"steering": "twin_wheels"}),
    "twin wheels, one sheave": ([*helm("port", 1), *helm("starboard", 1), *rudder(), *SPARE], {"steering": "twin_wheels"}),
    "twin wheels, none": ([*helm("port", 0), *helm("starboard", 4), *rudder()], {"steering": "twin_wheels"}),
    "twin both": ([*helm("port"), *helm("starboard"), *rudder("port"), *rudder("starboard"), *SPARE], {"steering": "twin_wheels", "rudders": 2}),
    "twin rudders": ([*helm(count=3), *rudder("port"), *rudder("starboard"), *SPARE], {"rudders": 2}),
    "twin rudders, one sheave": ([*helm(count=1), *rudder("port"), *rudder("starboard"), *SPARE], {"rudders": 2}),
    "hydraulic": ([part("wheel"), *rudder(), *SPARE], {"steering_gear": "hydraulic"}),
    "tiller": (rudder()[1:], {"steering": "tiller", "steering_gear": "direct"}),
    "tiller with all": ([*rudder(), *SPARE], {"steering": "tiller", "steering_gear": "direct"}),
}  # fmt: skip
each_case = pytest.mark.parametrize("name", CASES)


def of(name: str) -> Drawing:
    parts, vessel = CASES[name]
    return drawn(parts, **vessel)


def word_boxes(drawing: Drawing) -> Iterator[tuple[str, Box]]:
    """Every line of text with the room it takes on paper."""
    clean = Cleaner().clean
    for shape in drawing.shapes:
        if isinstance(shape, Words):
            wide = width(
                clean(shape.text),
                Type("Semibold" if shape.strong else "Regular", shape.size, shape.size * 1.2),
            )
            left = shape.at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor] * wide
            yield (
                shape.text,
                (left, shape.at[1] - shape.size * 0.75, left + wide, shape.at[1] + shape.size * 0.22),
            )


def sign_boxes(drawing: Drawing) -> Iterator[tuple[str, Box]]:
    for shape in drawing.shapes:
        if isinstance(shape, Sign):
            (x, y), half = shape.at, shape.side / 2
            yield f"sign {shape.grade}", (x - half, y - half, x + half, y + half)


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@each_case
def test_nothing_stands_outside(name: str) -> None:
    drawing = of(name)
    assert drawing.width == 482
    for text, (left, top, right, bottom) in (*word_boxes(drawing), *sign_boxes(drawing)):
        assert left >= 0, text
        assert top >= 0, text
        assert right <= drawing.width, text
        assert bottom <= drawing.height, text
    for shape in drawing.shapes:
        if isinstance(shape, Path):
            assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in shape.points)


@each_case
def test_no_label_overlaps_another(name: str) -> None:
    drawing = of(name)
    boxes = [*word_boxes(drawing), *sign_boxes(drawing)]
    for (text, box), (other, second) in itertools.combinations(boxes, 2):
        assert not overlap(box, second), f"'{text}' and '{other}'"


@each_case
def test_no_line_runs_through_a_label(name: str) -> None:
    """Wires, leaders and outlines leave every word free."""
    drawing = of(name)
    for text, box in (*word_boxes(drawing), *sign_boxes(drawing)):
        for shape in drawing.shapes:
            if isinstance(shape, Path):
                points = [*shape.points, shape.points[0]] if shape.closed else shape.points
                assert not any(crosses(one, other, box) for one, other in itertools.pairwise(points)), text


def crosses(start: tuple[float, float], end: tuple[float, float], box: Box) -> bool:
    """Whether a segment meets a box (Liang and Barsky's clipping)."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        way, near, far = end[axis] - start[axis], box[axis] - start[axis], box[axis + 2] - start[axis]
        if way == 0:
            if near > 0 or far < 0:
                return False
            continue
        enters, leaves = sorted((near / way, far / way))
        low, high = max(low, enters), min(high, leaves)
    return low < high


@each_case
def test_the_words_tell_every_part_with_its_grade_in_order(name: str) -> None:
    parts, _ = CASES[name]
    alt = of(name).alt
    told = {Grade.UNSEEN: "not seen"}
    for each in parts:
        word = told.get(each.grade, each.grade.value)
        word = f"not found: {word}" if each.component.examined.extent is Extent.NOT_FOUND else word
        assert any(f"{each.title}{both}: {word}" in alt for both in ("", " (drawn on both runs)")), each.title
    places = [alt.find(word) for word in ("Helm", "Rudder") if word in alt]
    assert places == sorted(places)


def test_the_words_follow_the_pull_from_the_rim_to_the_tip() -> None:
    alt = drawn([*rudder(), *SPARE, *helm(count=1)]).alt
    order = [
        "Wheel",
        "Steering chain",
        "starboard run, Pedestal idler",
        "starboard run, Steering wire",
        "Quadrant",
        "radius 254 mm",
        "Pilot",
        "Rudder bearings",
        "Rudder blade",
        "Emergency tiller",
    ]
    places = [alt.find(word) for word in order]
    assert -1 not in places
    assert places == sorted(places)


@each_case
def test_every_part_has_its_sign_at_the_part(name: str) -> None:
    """One sign for each part that has a place; parts that share a place are counted by the worst of them."""
    parts, _ = CASES[name]
    drawing = of(name)
    signs = [shape.grade for shape in drawing.shapes if isinstance(shape, Sign)]
    assert sorted(signs) == sorted(each.grade for each in parts)


@each_case
def test_no_grade_word_is_cut(name: str) -> None:
    """However narrow the place: the sign alone does not tell a grade."""
    drawing = of(name)
    texts = [shape.text for shape in drawing.shapes if isinstance(shape, Words) and shape.ink == "second"]
    for grade in Grade:
        word = "not seen" if grade is Grade.UNSEEN else grade.value
        signs = [shape for shape in drawing.shapes if isinstance(shape, Sign) and shape.grade is grade]
        assert sum(word in text for text in texts) >= len(signs), word


def test_more_sheaves_than_can_be_named_share_the_last_place() -> None:
    drawing = drawn(sheaves("port", 12))
    words = [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
    assert len([shape for shape in drawing.shapes if isinstance(shape, Sign)]) == 8
    assert any(text.startswith(("not seen", "stop")) for text in words)
    assert drawing.alt.count("port run, ") == 12 + 1


@pytest.mark.parametrize("grade", list(Grade))
def test_grade_words_stand_beside_the_sign(grade: Grade) -> None:
    drawing = drawn([part("chain", grade)])
    assert [shape.grade for shape in drawing.shapes if isinstance(shape, Sign)] == [grade]
    word = "not seen" if grade is Grade.UNSEEN else grade.value
    assert word in [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
    assert f"Steering chain and sprocket: {word}" in drawing.alt


def test_what_is_not_listed_is_dashed_and_says_so() -> None:
    drawing = drawn([part("chain")])
    words = [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
    assert sum("not listed" in text for text in words) == 9
    assert drawing.alt.count("not listed, drawn dashed") == 9
    whole = drawn([*helm(), *rudder(), part("emergency_tiller")])
    assert not any(isinstance(shape, Path) and shape.dashed for shape in whole.shapes)
    assert "not listed" not in whole.alt


def test_not_fitted_is_not_the_same_as_not_listed() -> None:
    drawing = drawn([part("chain"), part("emergency_tiller", Grade.UNSEEN, extent=Extent.NOT_FITTED)])
    assert "Emergency tiller: not fitted" in drawing.alt
    assert "not fitted" in [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


def test_two_parts_in_one_place_show_the_worse_and_tell_both() -> None:
    drawing = drawn(
        [
            part("pilot_drive", Grade.CLEAR, name="Ram"),
            part("pilot_drive", Grade.FIRST, name="Wheel pilot", ident="p2"),
        ]
    )
    signs = [shape.grade for shape in drawing.shapes if isinstance(shape, Sign)]
    assert signs == [Grade.FIRST]
    assert "Ram: clear" in drawing.alt
    assert "Wheel pilot: first" in drawing.alt
    assert any(shape.text == "first (+1 more)" for shape in drawing.shapes if isinstance(shape, Words))


def test_a_run_without_a_side_is_drawn_on_both_and_named_once() -> None:
    drawing = drawn([part("sheave", name="Idlers", ident="i"), part("chain")])
    words = [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
    assert words.count("Idlers") == 1
    assert "both runs: clear" in words
    assert drawing.alt.count("Idlers (drawn on both runs): clear") == 2


@pytest.mark.parametrize(
    ("given", "run"),
    [({"group": "port"}, "port"), ({"name": "Sheave, port"}, "port"), ({"name": "Stbd sheave"}, "starboard"), ({"ident": "sheave_starboard_2"}, "starboard"), ({"place": "lazarette, port side"}, "port"), ({"name": "Sheave for the transport rail"}, "both"), ({"name": "Port and starboard idlers"}, "both")],
)  # fmt: skip
def test_the_side_is_told_by_group_name_id_or_place(given: dict[str, str], run: str) -> None:
    alt = drawn([part("sheave", **given)]).alt  # type: ignore[arg-type]  # passed on to the factory
    on = {
        side
        for side in ("port", "starboard")
        if f"{side} run, {given.get('name') or REGISTRY.plugins['sheave'].title}" in alt
    }
    assert on == ({run} if run != "both" else {"port", "starboard"})


def test_twin_wheels_are_two_helms_starboard_first() -> None:
    alt = of("twin wheels").alt
    assert 0 < alt.find("Helm (starboard)") < alt.find("Helm (port)") < alt.find("Rudder:")
    starboard = alt[alt.find("Helm (starboard)") : alt.find("Helm (port)")]
    assert "port run, Port sheave of the starboard helm" in starboard
    assert "of the port helm" not in starboard


def test_text_of_the_job_is_never_taken_for_a_pattern() -> None:
    odd = [part("wheel", group="{0}", name="{name}"), part("chain", name="100 %s {", group="}")]
    assert "{name}: clear" in drawn(odd, steering="twin_wheels").alt


def test_a_group_in_capitals_is_the_same_group() -> None:
    alt = drawn(
        [
            part("wheel", group="Port"),
            part("wheel", group="starboard", ident="w2"),
            part("chain", group="PORT"),
        ]
    ).alt
    assert alt.count("steering chain and sprocket not listed") == 1


def test_nothing_of_the_steering_is_no_drawing() -> None:
    assert SYSTEM.draw(*case([])) is None
    rig = part("chain").model_copy(update={"system": "rig"})
    assert SYSTEM.draw(*case([rig])) is None


def test_parts_without_a_place_are_told() -> None:
    assert (
        "Listed, not drawn: "
        in drawn([part("chain"), part("spares", Grade.PLAN, name="Steering spares")]).alt
    )
