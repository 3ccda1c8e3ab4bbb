"""The steering schematic: every part told once in the drawing and in words, nothing overlapping, nothing outside."""

from __future__ import annotations

import datetime as dt
import importlib
import itertools
from functools import cache
from typing import Any

import pytest

from reporter.model.assessment import Assessments, Graded
from reporter.model.drawing import Drawing, Path, Sign, Words
from reporter.model.findings import Component, Examined, Fact
from reporter.model.job import Job
from reporter.model.sheet import Inspection, Issue, JobSheet, Particulars, Person
from reporter.model.terms import Basis, Extent, Grade
from tests.plugins.evidence import REGISTRY, value
from tests.plugins.on_paper import outside, overlapping, set_out, struck_through, told

SYSTEM = REGISTRY.systems["steering"]
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
    **more: Any,
) -> Graded:
    """One graded part of the steering gear."""
    component = Component(
        id=ident or kind,
        kind=kind,
        name=name,
        group=group,
        place=place,
        examined=Examined(extent=extent, because="not opened"),
        **more,
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
    drawing = SYSTEM.draw(*case(parts, **vessel), told)
    assert drawing is not None
    return set_out(drawing)


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
QUICK = {
    "0 a side",
    "1 a side",
    "3 a side",
    "chain alone",
    "long names",
    "twin wheels",
    "twin rudders",
    "hydraulic",
    "tiller",
}
"""One of each arrangement; the others, the crowded ones among them, are tried with the slow tests."""
each_case = pytest.mark.parametrize(
    "name", [name if name in QUICK else pytest.param(name, marks=pytest.mark.slow) for name in CASES]
)


@cache
def of(name: str) -> Drawing:
    parts, vessel = CASES[name]
    return drawn(parts, **vessel)


@pytest.mark.slow
@each_case
def test_nothing_stands_outside(name: str) -> None:
    drawing = of(name)
    assert drawing.width == 482
    assert outside(drawing) == []


@each_case
def test_no_label_overlaps_another(name: str) -> None:
    assert overlapping(of(name)) == []


@each_case
def test_no_line_runs_through_a_label(name: str) -> None:
    """Wires, leaders and outlines leave every word free."""
    assert struck_through(of(name)) == []


@each_case
def test_the_words_tell_every_part_with_its_grade_in_order(name: str) -> None:
    parts, _ = CASES[name]
    alt = of(name).alt
    for each in parts:
        assert any(f"{each.title}{both}: {told(each)}" in alt for both in ("", " (drawn on both runs)")), (
            each.title
        )
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
    assert any(shape.text == "first, worst of 2" for shape in drawing.shapes if isinstance(shape, Words))


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
    assert SYSTEM.draw(*case([]), told) is None
    rig = part("chain").model_copy(update={"system": "rig"})
    assert SYSTEM.draw(*case([rig]), told) is None


def test_parts_without_a_place_are_told() -> None:
    assert (
        "Listed, not drawn: "
        in drawn([part("chain"), part("spares", Grade.PLAN, name="Steering spares")]).alt
    )


def test_a_sheave_says_its_side_even_where_its_name_does_not() -> None:
    drawing = drawn(
        [
            part("sheave", Grade.PLAN, name="Quarter sheave", group="port"),
            part("sheave", name="Port idler", group="port", ident="i"),
        ]
    )
    words = {label.text: label.word for label in drawing.labels}
    assert words["Quarter sheave"] == "port: plan"
    assert words["Port idler"] == "clear"


def test_the_wheel_is_seen_from_above_as_everything_is() -> None:
    """On edge: as long athwartships as its diameter, and no broader than its rim."""
    drawing = drawn([part("wheel"), part("chain")])
    anchor = next(label.at for label in drawing.labels if label.part == "wheel")
    rim = max(
        (
            shape
            for shape in drawing.shapes
            if isinstance(shape, Path) and shape.closed and abs(shape.points[0][0] - anchor[0]) < 12
        ),
        key=lambda path: path.points[2][1] - path.points[0][1],
    )
    xs, ys = [x for x, _ in rim.points], [y for _, y in rim.points]
    assert max(ys) - min(ys) == pytest.approx(88)
    assert max(xs) - min(xs) < 8


def test_each_helm_has_the_parts_that_belong_to_it() -> None:
    """Two wheels told by their sides; what is a part of one stands in its line, whatever its own side is."""
    parts = [
        part("wheel", name="Wheel P", ident="p", side="port"),
        part("wheel", name="Wheel S", ident="s", side="starboard"),
        part("wheel_brake", name="Brake of P", ident="brake", part_of="p"),
        part("steering_wire", name="Wire of P", ident="wire", part_of="p", side="starboard"),
    ]
    sorted_parts = importlib.import_module("reporter_plugins.drawings.steering_parts").sorted_parts
    layout = sorted_parts(*case(parts, steering="twin_wheels"))
    assert layout is not None
    starboard, port = layout.helms
    assert [each.title for each in port.kinds["wheel"]] == ["Wheel P"]
    assert [each.title for each in port.kinds["wheel_brake"]] == ["Brake of P"]
    assert [each.title for each in port.runs["starboard"].wires] == ["Wire of P"]
    assert not port.runs["port"].wires
    assert [each.title for each in starboard.kinds["wheel"]] == ["Wheel S"]
    assert not starboard.kinds["wheel_brake"]
