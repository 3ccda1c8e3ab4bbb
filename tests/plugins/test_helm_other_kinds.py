"""The kinds round the helm that reckon nothing: brake, pedestal, engine controls, spares, other gears, free findings."""

from __future__ import annotations

import datetime as dt

import pytest

from reporter.grade import grade
from reporter.model.findings import Component, Fact, Judgement
from reporter.model.job import Job, Reading
from reporter.model.sheet import Inspection, Issue, JobSheet, Particulars, Person
from reporter.model.terms import Basis, Dimension, Grade, Verdict
from tests.plugins.evidence import REGISTRY, TEMPLATE, best, check_of, fact, graded, known, spot, value


@pytest.mark.parametrize(("kind", "observation", "choice", "expected"), [
    ("wheel_brake", "holds", "no_hold", Grade.PLAN),
    ("wheel_brake", "release", "locked", Grade.STOP),
    ("wheel_brake", "screw", "seized", Grade.FIRST),
    ("wheel_brake", "lining", "thin", Grade.PLAN),
    ("pedestal", "mounting", "cracked", Grade.STOP),
    ("pedestal", "loaded", "rocks", Grade.FIRST),
    ("pedestal", "corrosion", "powder", Grade.WATCH),
    ("pedestal", "lamp", "swings", Grade.PLAN),
    ("engine_controls", "ends", "missing", Grade.STOP),
    ("engine_controls", "clamps", "loose", Grade.FIRST),
    ("engine_controls", "friction", "shift", Grade.PLAN),
    ("spares", "wire", "none", Grade.PLAN),
    ("other_steering", "leaks", "drips", Grade.FIRST),
    ("other_steering", "joints", "unlocked", Grade.STOP),
])  # fmt: skip
def test_observations_decide(kind: str, observation: str, choice: str, expected: Grade) -> None:
    """Common practice: no figure is published for any of these."""
    plugin = REGISTRY.plugin(kind)
    assert graded(plugin, known(plugin, observed=best(plugin, **{observation: choice}))).grade is expected


@pytest.mark.parametrize(("millimetres", "verdict", "expected"), [
    (160, Verdict.WITHIN, Grade.CLEAR), (152.4, Verdict.WITHIN, Grade.CLEAR), (150, Verdict.BEYOND, Grade.PLAN), (30, Verdict.BEYOND, Grade.PLAN),
])  # fmt: skip
def test_bend_radius_of_a_control_cable(millimetres: float, verdict: Verdict, expected: Grade) -> None:
    """6 in: trade note on engine control cables; a design figure, so never worse than `plan`."""
    plugin = REGISTRY.plugin("engine_controls")
    evidence = known(plugin, spots=[spot("bend_radius", millimetres, "mm")], observed=best(plugin))
    assert check_of(plugin, evidence, "engine_controls.bend_radius.least").verdict is verdict
    assert graded(plugin, evidence).grade is expected


def test_a_bend_too_near_the_limit_to_tell() -> None:
    plugin = REGISTRY.plugin("engine_controls")
    evidence = known(plugin, spots=[spot("bend_radius", 158, "mm", 10)], observed=best(plugin))
    assert graded(plugin, evidence).grade is Grade.WATCH


@pytest.mark.parametrize(("kind", "quantity", "number", "unit", "grade"), [
    ("wheel_brake", "holding_force", 20, "N", Grade.CLEAR), ("pedestal", "flex", 80, "mm", Grade.STOP),
    ("other_steering", "rim_play", 200, "mm", Grade.FIRST),
])  # fmt: skip
def test_wear_without_a_published_figure_is_graded_by_practice_and_a_brake_by_feel(
    kind: str, quantity: str, number: float, unit: str, grade: Grade
) -> None:
    plugin = REGISTRY.plugin(kind)
    evidence = known(
        plugin,
        spots=[spot(quantity, number, unit, 1)],
        observed=best(plugin),
        facts={"gear": fact(choice="worm")},
    )
    assert graded(plugin, evidence).grade is grade


def test_spares_never_grade_worse_than_plan() -> None:
    assert (
        max(choice.grade.rank for each in REGISTRY.plugin("spares").observations for choice in each.choices)
        == Grade.PLAN.rank
    )


def test_a_free_finding_needs_the_inspectors_word() -> None:
    unjudged = graded(REGISTRY.plugin("item"), known(REGISTRY.plugin("item")))
    assert unjudged.grade is Grade.UNSEEN
    assert "inspector's own grade" in unjudged.sentence
    judged = graded(
        REGISTRY.plugin("item"),
        known(
            REGISTRY.plugin("item"),
            judgement=Judgement(grade=Grade.FIRST, reason="the locker's lid falls on the quadrant"),
        ),
    )
    assert judged.grade is Grade.FIRST
    assert not judged.missing


def test_every_loaded_test_is_marked() -> None:
    plugins = REGISTRY.plugins
    loaded = {
        kind for kind, plugin in plugins.items() if any(each.loaded_test for each in plugin.observations)
    }
    assert {"wheel", "pedestal", "sheave", "other_steering"} <= loaded


def test_needs_are_resolved_through_a_job() -> None:
    """Wheel, chain, quadrant, wire and sheave of one helm give each other what their sums take."""
    detailed = {
        "wheel": {"diameter": fact(900, "mm")},
        "chain": {"size": fact(choice="08b_1"), "teeth": fact(13)},
        "quadrant": {"radius": fact(254, "mm")},
        "steering_wire": {"diameter": fact(6, "mm"), "construction": fact(choice="7x19")},
        "sheave": {"tread_diameter": fact(100, "mm")},
    }
    parts = grade(_job(detailed), REGISTRY, TEMPLATE)
    checks = {check.id.split("@")[0]: check for part in parts.components for check in part.checks}
    turns, play = checks["wheel.turns_predicted.worked"].value, checks["wheel.rudder_play.worked"].value
    assert turns
    assert turns.value == pytest.approx(1.880, abs=0.0005)
    assert play
    assert play.value == pytest.approx(0.0206, abs=0.0001)
    assert checks["sheave.ratio.7x19_least"].verdict is Verdict.BEYOND


def _job(detailed: dict[str, dict[str, Fact]]) -> Job:
    sheet = JobSheet(
        format=1,
        purpose="handover",
        report=Issue(number="1"),
        vessel=Particulars(name="Test"),
        people=(Person(role="author", name="A. N. Other"),),
        inspection=Inspection(dates=(dt.date(2026, 5, 12),), place="a harbour"),
    )
    angles = [("quadrant", "rudder_angle", side, value(35, "°")) for side in ("port", "starboard")]
    readings = [*angles, ("wheel", "rim_play", "", value(88.72, "mm"))]
    plugins = REGISTRY.plugins
    return Job(
        sheet=sheet,
        components=tuple(
            Component.model_validate({"id": kind, "kind": kind, "examined": "seen"}) for kind in detailed
        ),
        facts=detailed,
        readings=tuple(
            Reading.model_validate({"component": part, "quantity": what, "side": side, "value": number})
            for part, what, side, number in readings
        ),
        limits={limit.id: limit for plugin in plugins.values() for limit in plugin.limits},
    )


def test_facts_of_the_factory_are_what_a_folder_gives() -> None:
    """The factory's number has base unit, text and dimension, as collecting makes them."""
    made = fact(0.25, "in", basis=Basis.INVOICE)
    assert made.value
    assert made.value.value == pytest.approx(0.00635)
    assert made.value.dimension is Dimension.LENGTH
    assert made.value.written == "0.25 in"
