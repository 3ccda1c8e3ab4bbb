"""Emergency tiller and pilot drive: the trial decides; sizing only when asked; what jams comes first.

Sources: steering-gear.md A3 to A9 (boat mechanical handbook: torque, tiller for a hand force, a measured yacht with
ratio 11.0 and its torques at another speed), D11 (mechanics), 46 CFR 182.620.
"""

from __future__ import annotations

import pytest

from reporter.model.assessment import Check
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.terms import Extent, Grade, LimitKind, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

tiller, pilot = REGISTRY.plugin("emergency_tiller"), REGISTRY.plugin("pilot_drive")

HAND = "emergency_tiller.hand_force.kept_up"


def asked(*spots: MeasurementPoint, length: float | None = 1.2, unit: str = "m") -> Evidence:
    """A tiller in order, with readings that were asked for."""
    return known(
        tiller, facts={"length": fact(length, unit)} if length else {}, spots=spots, observed=best(tiller)
    )


def by_wheel(torque_lbf_ft: float, *more: MeasurementPoint) -> tuple[MeasurementPoint, ...]:
    """A6: a wheel turned 495° turns the rudder 45.0°, ratio 11.0; plain numbers, read exactly."""
    return (
        spot("wheel_torque", torque_lbf_ft, "lbf·ft"),
        spot("wheel_angle", 495, "°"),
        spot("rudder_turned", 45, "°"),
        *more,
    )


def result_of(check: Check, title: str) -> float:
    """The result of one sum of a check, as printed."""
    (found,) = [sum_.result.value for sum_ in check.working if sum_.title == title]
    return found


@pytest.mark.parametrize(
    ("force", "force_unit", "lever", "lever_unit", "newton_metres"),
    [(845, "lbf", 4.32, "in", 304 * 1.3558179), (383, "kgf", 0.11, "m", 413)],
    ids=["A3", "A4"],
)
def test_a3_a4_torque_from_force_and_lever(
    force: float, force_unit: str, lever: float, lever_unit: str, newton_metres: float
) -> None:
    """A3: 845 lbf at 4.32 in is 304 lbf·ft; A4: 383 kgf at 0.11 m is 413 N·m; to 0.1 %."""
    check = check_of(
        tiller, asked(spot("rudder_force", force, force_unit), spot("rudder_lever", lever, lever_unit)), HAND
    )
    assert result_of(check, "Moment of a force") == pytest.approx(newton_metres, rel=1.2e-3)
    assert not check.governs, "an estimated force decides nothing"


def test_a5_tiller_for_a_hand_force() -> None:
    """A5: 304 lbf·ft and 30 lbf ask for 10.13 ft."""
    check = check_of(
        tiller, asked(spot("stock_torque", 304, "lbf·ft")), "emergency_tiller.length_for_hand.worked"
    )
    assert shown(check, "ft") == pytest.approx(10.13, abs=0.1)


def test_a6_ratio() -> None:
    """A6: 495° over 45.0° is 11.0."""
    assert result_of(check_of(tiller, asked(*by_wheel(10)), HAND), "Steering ratio") == pytest.approx(11.0)


A7_A8_A9 = [
    (10, 110, 132, 189, 212),
    (30, 330, 396, 566, 636),
    (40, 440, 528, 754, 848),
    (50, 550, 660, 943, 1060),
    (78, 858, 1030, 1471, 1654),
]


@pytest.mark.parametrize(("wheel", "stock", "ten_inch", "seven_inch", "faster"), A7_A8_A9)
def test_a7_a8_a9_a_measured_yacht(
    wheel: float, stock: float, ten_inch: float, seven_inch: float, faster: float
) -> None:
    """A7: torque times 11; A8: force on a 10 in and a 7 in tiller; A9: at (V / 6)² = 1.927469, that is 8.33 kn."""
    ten = check_of(tiller, asked(*by_wheel(wheel), length=10, unit="in"), HAND)
    seven = check_of(tiller, asked(*by_wheel(wheel), length=7, unit="in"), HAND)
    assert result_of(ten, "Stock torque from the wheel's torque") == pytest.approx(
        stock * 1.3558179, rel=1e-6
    )
    assert shown(ten, "lbf") == pytest.approx(ten_inch, abs=1)
    assert shown(seven, "lbf") == pytest.approx(seven_inch, abs=1)
    speeds = (spot("speed", 6, "kn"), spot("speed_asked", 6 * 1.927469**0.5, "kn"))
    fast = check_of(tiller, asked(*by_wheel(wheel, *speeds)), HAND)
    assert result_of(fast, "Torque at another speed") / 1.3558179 == pytest.approx(faster, abs=1)


def test_d11_hand_force_over_what_can_be_kept_up_is_printed_and_not_graded() -> None:
    """D11: 413 N·m by 1.2 m is 344 N, over 133 N; the figure stands for information, as that of the wheel does."""
    evidence = asked(spot("stock_torque", 413, "N·m"))
    check = check_of(tiller, evidence, HAND)
    assert shown(check, "N") == pytest.approx(344, abs=0.5)
    assert check.verdict is Verdict.BEYOND
    assert check.kind is LimitKind.DESIGN
    assert graded(tiller, evidence).grade is Grade.CLEAR


@pytest.mark.parametrize(("torque", "verdict"), [(133, Verdict.WITHIN), (134, Verdict.BEYOND)])
def test_both_sides_of_30_pounds_force(torque: float, verdict: Verdict) -> None:
    """30 lbf is 133.447 N; a tiller of 1 m makes torque and force the same number."""
    assert check_of(tiller, asked(spot("stock_torque", torque, "N·m"), length=1.0), HAND).verdict is verdict


def test_nothing_is_sized_unless_asked() -> None:
    result = graded(tiller, asked())
    assert result.grade is Grade.CLEAR
    assert not [check for check in result.checks if check.working]
    assert not [
        missing
        for missing in result.missing
        if missing.id in {"stock_torque", "wheel_torque", "rudder_force", "hand_force"}
    ]


def test_asked_without_a_length_names_it() -> None:
    result = graded(tiller, asked(spot("stock_torque", 413, "N·m"), length=None))
    assert [missing.why for missing in result.missing if missing.id == "hand_force"] == [
        "Its length is not known."
    ]
    assert result.grade is Grade.CLEAR


def test_a_measured_torque_goes_before_an_estimate() -> None:
    spots = (
        spot("stock_torque", 100, "N·m"),
        spot("rudder_force", 9000, "N"),
        spot("rudder_lever", 500, "mm"),
    )
    check = check_of(tiller, asked(*spots, length=1.0), HAND)
    assert shown(check, "N") == pytest.approx(100)
    assert not check.governs


@pytest.mark.parametrize(
    ("angle", "verdict"), [(18, Verdict.WITHIN), (14, Verdict.DOUBTFUL), (12, Verdict.BEYOND)]
)
def test_angle_reached_beside_the_auxiliary_rule(angle: float, verdict: Verdict) -> None:
    """46 CFR 182.620: from 15° to 15°; for information."""
    check = check_of(
        tiller,
        asked(spot("angle_reached", angle, "°", 2, side="port")),
        "emergency_tiller.angle_reached.auxiliary",
    )
    assert check.verdict is verdict
    assert not check.governs


def test_an_absent_emergency_tiller_is_a_defect() -> None:
    assert graded(tiller, known(tiller, extent=Extent.NOT_FOUND)).grade is Grade.FIRST


@pytest.mark.parametrize("left_out", ["trial", "freed", "seat", "deck_plate", "room"])
def test_fitted_but_not_tried_is_unseen(left_out: str) -> None:
    observed = {key: each for key, each in best(tiller).items() if key != left_out}
    assert graded(tiller, known(tiller, observed=observed)).grade is Grade.UNSEEN


@pytest.mark.parametrize(
    ("answer", "grade"),
    [
        ({"trial": "part"}, Grade.PLAN), ({"trial": "fails"}, Grade.FIRST), ({"deck_plate": "seized"}, Grade.FIRST),
        ({"room": "meets"}, Grade.PLAN), ({"seat": "part"}, Grade.FIRST), ({"freed": "not"}, Grade.FIRST), ({"stowed": "buried"}, Grade.PLAN),
    ],
)  # fmt: skip
def test_what_keeps_an_emergency_tiller_from_working(answer: dict[str, str], grade: Grade) -> None:
    assert graded(tiller, known(tiller, observed=best(tiller, **answer))).grade is grade


@pytest.mark.parametrize(
    ("left", "verdict", "grade"),
    [
        (5, Verdict.WITHIN, Grade.CLEAR),
        (1.5, Verdict.CLOSE, Grade.PLAN),
        (0.5, Verdict.DOUBTFUL, Grade.FIRST),
        (0, Verdict.DOUBTFUL, Grade.FIRST),
    ],
)
def test_stroke_left_at_hard_over(left: float, verdict: Verdict, grade: Grade) -> None:
    """Geometry: with none left the ram is the stop; read to 1 mm."""
    evidence = known(pilot, spots=[spot("stroke_left", left, "mm", 1, side="port")], observed=best(pilot))
    assert check_of(pilot, evidence, "pilot_drive.stroke_left.none").verdict is verdict
    assert graded(pilot, evidence).grade is grade


@pytest.mark.parametrize(
    ("answer", "grade"),
    [
        ({"own_end": "reached"}, Grade.FIRST), ({"clutch": "holds"}, Grade.STOP), ({"clutch": "drags"}, Grade.PLAN),
        ({"bracket": "torn"}, Grade.STOP), ({"bracket": "hairline"}, Grade.PLAN), ({"pins": "unlocked"}, Grade.FIRST),
        ({"loaded": "gives"}, Grade.FIRST), ({"wiring": "bare"}, Grade.FIRST), ({"direction": "reversed"}, Grade.STOP),
    ],
)  # fmt: skip
def test_what_the_pilot_can_do_to_the_steering(answer: dict[str, str], grade: Grade) -> None:
    assert graded(pilot, known(pilot, observed=best(pilot, **answer))).grade is grade


def test_a_pilot_without_its_loaded_test_is_unseen() -> None:
    observed = {key: each for key, each in best(pilot).items() if key != "loaded"}
    assert graded(pilot, known(pilot, observed=observed)).grade is Grade.UNSEEN
