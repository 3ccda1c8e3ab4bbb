"""Wheel: play and turns by arithmetic, for information; what the hands feel decides.

Figures D4 to D7 and F1 to F3 are those of the project's reference file for steering gear (`../shared`), recomputed there.
"""

from __future__ import annotations

import math

import pytest

from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Fact
from reporter.model.quantity import Value
from reporter.model.terms import Grade, LimitKind, State, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

plugin = REGISTRY.plugin("wheel")
Needed = dict[str, tuple[MeasurementPoint, ...] | Fact | Value]


def drive(radius_mm: float, teeth: float, pitch_mm: float, degrees: tuple[float, float] = (35, 35)) -> Needed:
    """Chain and quadrant of one helm, with the rudder's travel to both sides."""
    sides = zip(degrees, ("port", "starboard"), strict=True)
    return {
        "quadrant_radius": fact(radius_mm, "mm"),
        "teeth": fact(teeth),
        "chain_pitch": fact(pitch_mm, "mm"),
        "rudder_angle": tuple(spot("rudder_angle", angle, "°", 1, side=side) for angle, side in sides),
    }


@pytest.mark.parametrize(
    ("radius", "teeth", "pitch", "turns", "travel"),
    [
        pytest.param(304.8, 11, 15.875, 2.132, 372.4, id="D4"),
        pytest.param(254, 13, 12.7, 1.880, 310.3, id="D5"),
        pytest.param(200, 12, 15.875, 1.283, 244.3, id="D6"),
    ],
)
def test_turns_that_the_drive_should_take(
    radius: float, teeth: float, pitch: float, turns: float, travel: float
) -> None:
    check = check_of(
        plugin, known(plugin, needed=drive(radius, teeth, pitch)), "wheel.turns_predicted.worked"
    )
    assert shown(check, "turns") == pytest.approx(turns, abs=0.0005)
    assert shown(check, "turns") * teeth * pitch == pytest.approx(travel, abs=0.05)
    assert not check.governs
    assert check.working[0].source.title


def test_a_named_size_gives_the_pitch() -> None:
    """08B-1 has 12.7 mm, so that D5 comes out without a pitch."""
    needed = drive(254, 13, 1) | {"chain_size": fact(choice="08b_1")}
    assert shown(
        check_of(plugin, known(plugin, needed=needed), "wheel.turns_predicted.worked"), "turns"
    ) == pytest.approx(1.880, abs=0.0005)


@pytest.mark.parametrize(("turns", "verdict"), [(23.3, Verdict.WITHIN), (23.4, Verdict.BEYOND)])
def test_rudder_angle_per_turn_beside_the_inland_rule(turns: float, verdict: Verdict) -> None:
    """D7: at least 3 degrees of rudder to a turn is not over 23.3 turns for 70 degrees; never graded."""
    needed: Needed = {
        "rudder_angle": tuple(spot("rudder_angle", 35, "°", side=side) for side in ("port", "starboard"))
    }
    evidence = known(plugin, needed=needed, spots=[spot("turns", turns, "turns")], observed=best(plugin))
    check = check_of(plugin, evidence, "wheel.rudder_per_turn.inland")
    assert check.verdict is verdict
    assert check.kind is LimitKind.RULE
    assert graded(plugin, evidence).grade is Grade.CLEAR


def test_one_side_of_the_rudder_alone_predicts_nothing() -> None:
    """F12: a total must not hide a side, so both are asked for, as found."""
    needed = drive(254, 13, 12.7)
    port = spot("rudder_angle", 35, "°", side="port")
    for spots in ((port,), (port, spot("rudder_angle", 35, "°", side="starboard", state=State.LEFT))):
        part = graded(plugin, known(plugin, needed={**needed, "rudder_angle": spots}))
        assert "wheel.turns_predicted.worked" not in {check.id for check in part.checks}


@pytest.mark.parametrize(("inches", "limit_mm"), [(16, 50.8), (18, 57.15), (20, 63.5), (22, 69.85)])
def test_road_rule_rows_are_an_eighth_of_the_wheel(inches: float, limit_mm: float) -> None:
    """F1: 49 CFR 570.7 Table 1; every row comes to 14.3 degrees of wheel."""
    evidence = known(plugin, facts={"diameter": fact(inches, "in")}, spots=[spot("rim_play", limit_mm, "mm")])
    check = check_of(plugin, evidence, f"wheel.lash.us_up_to_{inches}")
    assert check.limit
    assert check.limit.value * 25.4 == pytest.approx(limit_mm)
    angle = check_of(plugin, evidence, "wheel.play_angle.worked")
    assert shown(angle, "°") == pytest.approx(14.32, abs=0.01)
    # The chord formula of the eighth: exactly at the proportion, whatever the row.
    assert shown(check_of(plugin, evidence, "wheel.lash.eighth"), "%") == pytest.approx(12.5)


def test_a_yacht_wheel_lies_beyond_the_road_table() -> None:
    """F2: 36 in is beyond the 22 in of the table; only the proportion is left; it plans, and says that it has no standing."""
    part = graded(
        plugin, known(plugin, facts={"diameter": fact(36, "in")}, spots=[spot("rim_play", 114.3, "mm", 4)])
    )
    ids = {check.id.split("@")[0] for check in part.checks}
    assert not any(ident.startswith("wheel.lash.us_") for ident in ids)
    eighth = next(check for check in part.checks if check.id.startswith("wheel.lash.eighth"))
    assert eighth.limit
    assert "no legal standing" in eighth.limit.note
    assert eighth.governs
    assert 914.4 * eighth.limit.value / 100 == pytest.approx(114.3)


def test_two_jurisdictions_two_results() -> None:
    """F3: 3.5 in on a 20 in wheel is within North Carolina's 4 in and beyond 49 CFR 570's 2.5 in; its eighth (12.5 %) plans at 17.5 %."""
    evidence = known(
        plugin,
        facts={"diameter": fact(20, "in")},
        spots=[spot("rim_play", 3.5, "in", 0.1)],
        observed=best(plugin),
    )
    assert check_of(plugin, evidence, "wheel.lash.north_carolina_over_18").verdict is Verdict.WITHIN
    assert check_of(plugin, evidence, "wheel.lash.us_up_to_20").verdict is Verdict.BEYOND
    assert graded(plugin, evidence).grade is Grade.PLAN


def test_play_as_rudder_angle() -> None:
    """The way back through the drive: rim play s at R_w turns the sprocket by s/R_w, the wire by that times r_s."""
    needed = drive(254, 13, 12.7)
    evidence = known(
        plugin, facts={"diameter": fact(900, "mm")}, spots=[spot("rim_play", 40, "mm", 4)], needed=needed
    )
    check = check_of(plugin, evidence, "wheel.rudder_play.worked")
    sprocket = 12.7 / math.sin(math.pi / 13) / 2
    assert shown(check, "°") == pytest.approx(math.degrees(40 / 450 * sprocket / 254))
    assert check.value
    assert check.value.u / check.value.value == pytest.approx(0.05)
    assert not check.governs


@pytest.mark.parametrize("missing", ["quadrant_radius", "teeth", "chain_pitch"])
def test_a_missing_need_names_its_input(missing: str) -> None:
    needed = drive(254, 13, 12.7)
    del needed[missing]
    evidence = known(
        plugin, facts={"diameter": fact(900, "mm")}, spots=[spot("rim_play", 40, "mm", 4)], needed=needed
    )
    part = graded(plugin, evidence)
    assert not any(check.subject in {"rudder_play", "turns_predicted"} for check in part.checks)
    word = {"quadrant_radius": "quadrant", "teeth": "teeth", "chain_pitch": "chain"}[missing]
    assert any(word in text for text in part.unmet)


def test_no_play_is_no_angle() -> None:
    """A play of 0 with an uncertainty must not step over the edge of the formula's domain."""
    evidence = known(
        plugin,
        facts={"diameter": fact(900, "mm")},
        spots=[spot("rim_play", 0, "mm", 4)],
        needed=drive(254, 13, 12.7),
    )
    assert shown(check_of(plugin, evidence, "wheel.rudder_play.worked"), "°") == 0


def test_the_loaded_test_is_marked() -> None:
    loaded = [each.id for each in plugin.observations if each.loaded_test]
    assert loaded == ["loaded"]


@pytest.mark.parametrize(("observation", "choice", "grade"), [
    ("evenness", "sticks", Grade.STOP),
    ("nut", "no_lock", Grade.PLAN),
    ("hard_over", "mushy", Grade.FIRST),
    ("hard_over", "none", Grade.STOP),
    ("loaded", "moves", Grade.FIRST),
])  # fmt: skip
def test_what_the_hands_feel_decides(observation: str, choice: str, grade: Grade) -> None:
    part = graded(plugin, known(plugin, observed=best(plugin, **{observation: choice})))
    assert part.grade is grade
    declared = plugin.observation(observation)
    assert declared
    assert declared.choice(choice).words in part.sentence
