"""Rudder bearings and blade: play at both sides of the customary figures, clearances by size, tip movement.

Sources: steering-gear.md A13, A14, F5 (boat mechanical handbook; light-craft rules 803), F4 (a surveyor's buyer guide),
F6 (naval survey guidance Ch 6 3.1.4). Tip movement: geometry of two bearings and a straight stock.
"""

from __future__ import annotations

import pytest

from reporter.model.assessment import Check
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.findings import Fact
from reporter.model.plugin import Plugin
from reporter.model.quantity import Value
from reporter.model.terms import Grade, LimitKind, State, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

bearing, blade = REGISTRY.plugin("rudder_bearing"), REGISTRY.plugin("rudder_blade")


@pytest.mark.parametrize(
    ("play", "verdict", "grade"),
    [
        (1.2, Verdict.WITHIN, Grade.CLEAR), (1.4, Verdict.CLOSE, Grade.WATCH), (1.6, Verdict.CLOSE, Grade.WATCH),
        (1.7, Verdict.DOUBTFUL, Grade.PLAN), (2.0, Verdict.BEYOND, Grade.PLAN),
    ],
)  # fmt: skip
@pytest.mark.parametrize("where", ["lower_play", "upper_play"])
def test_f4_side_play_at_the_bearing(where: str, play: float, verdict: Verdict, grade: Grade) -> None:
    """F4: 1.6 mm is at the limit, 2.0 mm over it; read to 0.3 mm."""
    evidence = known(bearing, spots=[spot(where, play, "mm", 0.3)], observed=best(bearing))
    assert check_of(bearing, evidence, f"rudder_bearing.{where}.guide").verdict is verdict
    assert graded(bearing, evidence).grade is grade


@pytest.mark.parametrize(
    ("play", "verdict", "grade"),
    [
        (9, Verdict.WITHIN, Grade.CLEAR),
        (12.7, Verdict.CLOSE, Grade.WATCH),
        (13, Verdict.DOUBTFUL, Grade.PLAN),
        (16, Verdict.BEYOND, Grade.PLAN),
    ],
)
def test_f4_movement_at_the_blade(play: float, verdict: Verdict, grade: Grade) -> None:
    """F4: 12.7 mm at the blade is the trigger; read to 2 mm."""
    evidence = known(blade, spots=[spot("tip_play", play, "mm", 2)], observed=best(blade))
    assert check_of(blade, evidence, "rudder_blade.tip_play.guide").verdict is verdict
    assert graded(blade, evidence).grade is grade


def sized(stock_mm: float, play_mm: float = 0.5) -> tuple[Check, ...]:
    """The checks of a bearing with a stock of known size."""
    evidence = known(
        bearing,
        facts={"stock_diameter": fact(stock_mm, "mm")},
        spots=[spot("lower_play", play_mm, "mm", 0.05)],
        observed=best(bearing),
    )
    return graded(bearing, evidence).checks


def told(stock_mm: float, subject: str) -> float:
    """A clearance worked out for this stock, in mm."""
    (found,) = [check for check in sized(stock_mm) if check.subject == subject]
    assert not found.governs
    return shown(found, "mm")


@pytest.mark.parametrize(
    ("stock", "least", "spare", "light_craft", "naval"),
    [(50, 0.1004, 0.0798, 1.05, 5.10), (40, 0.0864, 0.0740, 1.04, 5.08), (100, 0.159, 0.101, 1.10, 5.20)],
    ids=["F5-50", "F5-40", "A13-F6"],
)
def test_f5_f6_a13_clearances_by_the_size_of_the_stock(
    stock: float, least: float, spare: float, light_craft: float, naval: float
) -> None:
    """F5: new 0.1004 and 0.0864 mm, light craft 1.05 and 1.04 mm; A13: 0.159 + 0.101 mm at 100 mm; F6: 5.2 mm at 100 mm."""
    assert told(stock, "new_clearance") == pytest.approx(least, abs=0.001)
    assert told(stock, "new_tolerance") == pytest.approx(spare, abs=0.001)
    assert told(stock, "light_craft_least") == pytest.approx(light_craft, abs=1e-9)
    assert told(stock, "naval_greatest") == pytest.approx(naval, abs=1e-9)


def test_a14_the_print_of_the_tolerance_in_inches_is_a_slip() -> None:
    """A14 prints 0.003 in for the tolerance of 3.75 in, where its formula gives 0.0039 in."""
    assert told(3.75 * 25.4, "new_clearance") / 25.4 == pytest.approx(0.006, abs=0.0005)
    assert told(3.75 * 25.4, "new_tolerance") / 25.4 == pytest.approx(0.0039, abs=0.0001)


def test_no_yardstick_is_written_for_another_size_of_stock() -> None:
    """Without the stock's diameter nothing is reckoned from a size, and the size is asked for."""
    evidence = known(bearing, spots=[spot("lower_play", 0.5, "mm")], observed=best(bearing))
    result = graded(bearing, evidence)
    assert not {check.subject for check in result.checks} & {"new_clearance", "naval_greatest"}
    assert any(missing.id == "stock_diameter" for missing in result.missing)
    assert not any("40 mm" in limit.written_for for limit in bearing.limits)


@pytest.mark.parametrize(("play", "grade"), [(2.0, Grade.PLAN), (5.4, Grade.FIRST), (10.0, Grade.STOP)])
@pytest.mark.parametrize("where", ["lower_play", "upper_play"])
def test_a_bearing_loose_beyond_measure_does_not_wait(where: str, play: float, grade: Grade) -> None:
    """Naval survey guidance Ch 6 3.1.4 lets a ship's bearing have 5 + 0.002·D mm at most."""
    evidence = known(bearing, spots=[spot(where, play, "mm", 0.3)], observed=best(bearing))
    assert graded(bearing, evidence).grade is grade


@pytest.mark.parametrize(
    ("lacking", "words"), [("bearing_distance", "distance between"), ("overhang", "tip of the blade")]
)
def test_a_size_that_the_tip_lacks_is_named(lacking: str, words: str) -> None:
    whole = hung(0.5, 0.5)
    facts = {key: each for key, each in whole.facts.items() if key != lacking}
    result = graded(bearing, whole.model_copy(update={"facts": facts}))
    assert not [check for check in result.checks if check.subject == "tip_movement"]
    assert any(missing.id == lacking and words in missing.title for missing in result.missing)
    assert result.grade is Grade.CLEAR


def hung(lower: float, upper: float, **more: object) -> Evidence:
    """Two bearings 600 mm apart, the tip 1300 mm below the lower one."""
    return known(
        bearing,
        facts={"bearing_distance": fact(600, "mm"), "overhang": fact(1300, "mm")},
        spots=[spot("lower_play", lower, "mm", 0.2), spot("upper_play", upper, "mm", 0.2)],
        observed=best(bearing),
        **more,  # type: ignore[arg-type]  # passed on to the factory
    )


@pytest.mark.parametrize(
    ("lower", "upper", "tip", "grade"),
    [(0.5, 0.5, 2.667, Grade.CLEAR), (1.2, 4.2, 12.9, Grade.PLAN), (3, 3, 16, Grade.PLAN)],
)
def test_tip_movement_by_both_clearances(lower: float, upper: float, tip: float, grade: Grade) -> None:
    """Similar triangles: c_l + (c_l + c_u)·b / a."""
    check = check_of(bearing, hung(lower, upper), "rudder_bearing.tip_movement.guide")
    assert shown(check, "mm") == pytest.approx(tip, abs=0.001)
    assert check.grade is grade
    assert check.kind is LimitKind.DESIGN
    assert check.working[0].title == "Rudder tip movement"


def test_the_tip_needs_both_bearings_in_one_state() -> None:
    """A lower bearing as left and an upper one as found are no pair."""
    spots = [spot("lower_play", 0.3, "mm", state=State.LEFT), spot("upper_play", 3, "mm")]
    facts = {"bearing_distance": fact(600, "mm"), "overhang": fact(1300, "mm")}
    checks = graded(bearing, known(bearing, facts=facts, spots=spots, observed=best(bearing))).checks
    assert not [check for check in checks if check.subject == "tip_movement"]


def test_the_worst_place_at_a_bearing_moves_the_tip() -> None:
    evidence = hung(0.5, 0.5)
    evidence = evidence.model_copy(
        update={"spots": (*evidence.spots, spot("lower_play", 1.0, "mm", at="fore and aft"))}
    )
    assert shown(check_of(bearing, evidence, "rudder_bearing.tip_movement.guide"), "mm") == pytest.approx(
        1 + 1.5 * 1300 / 600
    )


BEARING: dict[str, tuple[MeasurementPoint, ...] | Fact | Value] = {
    "lower_play": (spot("lower_play", 1.0, "mm"),),
    "upper_play": (spot("upper_play", 0.5, "mm"), spot("upper_play", 0.2, "mm", at="fore and aft")),
    "bearing_distance": fact(600, "mm"),
    "overhang": fact(1300, "mm"),
}


def test_the_blade_tells_what_the_bearings_account_for() -> None:
    evidence = known(blade, spots=[spot("tip_play", 9, "mm", 2)], observed=best(blade), needed=BEARING)
    check = check_of(blade, evidence, "rudder_blade.by_bearings.worked")
    assert shown(check, "mm") == pytest.approx(1 + 1.5 * 1300 / 600)
    assert not check.governs
    assert "elsewhere" in check.notes[0]


def test_bushes_renewed_during_the_visit_count_as_left() -> None:
    lower = (spot("lower_play", 1.0, "mm"), spot("lower_play", 0.2, "mm", state=State.LEFT))
    evidence = known(
        blade,
        spots=[spot("tip_play", 9, "mm", 2)],
        observed=best(blade),
        needed={**BEARING, "lower_play": lower},
    )
    assert shown(check_of(blade, evidence, "rudder_blade.by_bearings.worked"), "mm") == pytest.approx(
        0.2 + 0.7 * 1300 / 600
    )


def test_what_the_blade_lacks_is_named_only_once_its_tip_was_measured() -> None:
    result = graded(blade, known(blade, observed=best(blade)))
    assert not [missing for missing in result.missing if missing.id in BEARING]
    assert not result.unmet


@pytest.mark.parametrize("need", sorted(BEARING))
def test_a_missing_need_of_the_blade_names_its_input(need: str) -> None:
    needed = {key: each for key, each in BEARING.items() if key != need}
    result = graded(
        blade, known(blade, spots=[spot("tip_play", 9, "mm", 2)], observed=best(blade), needed=needed)
    )
    assert not [check for check in result.checks if check.subject == "by_bearings"]
    words = {
        "lower_play": "lower rudder bearing",
        "upper_play": "upper rudder bearing",
        "bearing_distance": "distance between",
        "overhang": "tip of the blade",
    }
    assert any(words[need] in missing.title for missing in result.missing)


@pytest.mark.parametrize(
    ("plugin", "answer", "grade"),
    [
        (bearing, {"knock": "knock"}, Grade.PLAN), (bearing, {"turning": "jams"}, Grade.STOP), (bearing, {"collar": "missing"}, Grade.STOP),
        (bearing, {"gland": "weeps"}, Grade.WATCH), (bearing, {"gland": "runs"}, Grade.STOP), (bearing, {"clamps": "rusty"}, Grade.FIRST),
        (bearing, {"structure": "moves"}, Grade.STOP), (bearing, {"stock": "pitted"}, Grade.FIRST), (bearing, {"lifted": "slight"}, Grade.CLEAR),
        (blade, {"slip": "slips"}, Grade.STOP), (blade, {"wet": "weeps"}, Grade.PLAN), (blade, {"wet": "brown"}, Grade.FIRST),
        (blade, {"skin": "hollow"}, Grade.FIRST), (blade, {"pintles": "unlocked"}, Grade.STOP), (blade, {"skeg": "moves"}, Grade.STOP),
        (blade, {"cracks": "through"}, Grade.STOP), (blade, {"clearance": "rubs"}, Grade.FIRST),
    ],
)  # fmt: skip
def test_one_bad_thing_decides(plugin: Plugin, answer: dict[str, str], grade: Grade) -> None:
    assert graded(plugin, known(plugin, observed=best(plugin, **answer))).grade is grade


def test_play_up_and_down_is_printed_and_not_graded() -> None:
    """No published limit: the figure leads to no check."""
    result = graded(bearing, known(bearing, spots=[spot("end_play", 40, "mm")], observed=best(bearing)))
    assert result.grade is Grade.CLEAR
    assert not [check for check in result.checks if check.subject == "end_play"]
