"""Quadrant and stops: each side by itself, leverage against printed and worked examples, what stops the rudder first.

Sources: steering-gear.md A1, A2 (boat mechanical handbook: equivalent tiller), D1 to D3 (mechanics, worked from inputs),
F7 to F9 (ISO/DIS 8848:2019, 3.10), F12 (class rules for inland vessels, Pt 5 Ch 15 2.1.2).
"""

from __future__ import annotations

import math

import pytest

from reporter.engineering import units
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.terms import Grade, LimitKind, State, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

plugin = REGISTRY.plugin("quadrant")


def levered(
    wheel: float, unit: str, teeth: int, pitch_mm: float, radius: float, *, rim_newtons: float | None = None
) -> Evidence:
    """A quadrant with its wheel and chain."""
    return known(
        plugin,
        facts={"radius": fact(radius, unit)},
        needed={
            "wheel_diameter": fact(wheel, unit),
            "teeth": fact(teeth),
            "chain_pitch": fact(pitch_mm, "mm"),
        },
        spots=[spot("rim_force", rim_newtons, "N")] if rim_newtons else [],
        observed=best(plugin),
    )


@pytest.mark.parametrize(("wheel_in", "feet"), [(24, 10.91), (32, 14.55)])
def test_a1_a2_equivalent_tiller_of_the_handbook(wheel_in: float, feet: float) -> None:
    """A1 "close to 11 ft", A2 "14 ft 6 in": sprocket 2.2 in, quadrant 12 in. The pitch is what gives 13 teeth 2.2 in."""
    pitch = 2.2 * 25.4 * math.sin(math.pi / 13)
    check = check_of(plugin, levered(wheel_in, "in", 13, pitch, 12), "quadrant.equivalent_tiller.worked")
    assert shown(check, "ft") == pytest.approx(feet, abs=0.01)
    assert check.kind is LimitKind.DESIGN
    assert not check.governs
    assert check.working[0].title == "Equivalent tiller"


@pytest.mark.parametrize(
    ("rim", "wheel_mm", "teeth", "pitch", "radius_mm", "pull", "torque", "tiller"),
    [
        (100, 900, 13, 12.70, 254, 1695.9, 430.8, 4.308),
        (133.4, 914.4, 11, 15.875, 304.8, 2164.8, 659.8, 4.946),
        (122, 800, 12, 15.875, 200, 1591.2, 318.2, 2.609),
    ],
    ids=["D1", "D2", "D3"],
)
def test_d1_to_d3_from_the_rim_to_the_stock(
    rim: float,
    wheel_mm: float,
    teeth: int,
    pitch: float,
    radius_mm: float,
    pull: float,
    torque: float,
    tiller: float,
) -> None:
    evidence = levered(wheel_mm, "mm", teeth, pitch, radius_mm, rim_newtons=rim)
    found = {
        name: check_of(plugin, evidence, f"quadrant.{name}.worked")
        for name in ("chain_pull", "stock_torque", "equivalent_tiller")
    }
    assert shown(found["chain_pull"], "N") == pytest.approx(pull, rel=1e-4)
    assert shown(found["stock_torque"], "N·m") == pytest.approx(torque, rel=2e-4)
    assert shown(found["equivalent_tiller"], "m") == pytest.approx(tiller, rel=2e-4)


def test_without_a_measured_rim_force_the_helm_force_of_the_limits_file_is_put_in() -> None:
    """Boat mechanical handbook: 30 lbf; the sum shows it."""
    check = check_of(plugin, levered(900, "mm", 13, 12.7, 254), "quadrant.chain_pull.worked")
    assert check.working[1].inputs[0].value == pytest.approx(30 * 4.4482216, rel=1e-6)


def test_a_named_size_stands_for_the_pitch() -> None:
    """ISO 606: 08B has 12.7 mm; the pitch detail is then not asked for."""
    evidence = levered(900, "mm", 13, 30.0, 254, rim_newtons=100)
    needed = {**evidence.needed, "chain_size": fact(choice="08b_1")}
    check = check_of(plugin, evidence.model_copy(update={"needed": needed}), "quadrant.chain_pull.worked")
    assert shown(check, "N") == pytest.approx(1695.9, rel=1e-4)


@pytest.mark.parametrize("need", ["wheel_diameter", "teeth", "chain_pitch"])
def test_a_missing_need_names_its_input_and_gives_no_figure(need: str) -> None:
    whole = levered(900, "mm", 13, 12.7, 254)
    needed = {key: each for key, each in whole.needed.items() if key != need}
    evidence = known(plugin, facts=whole.facts, needed=needed, observed=best(plugin))
    result = graded(plugin, evidence)
    assert not [check for check in result.checks if check.id.startswith("quadrant.stock_torque")]
    words = {
        "wheel_diameter": "diameter of the wheel",
        "teeth": "teeth of the chain",
        "chain_pitch": "size of the chain",
    }
    assert any(words[need] in lacking for lacking in result.unmet)
    assert result.grade is Grade.CLEAR, "a sum for information withholds no grade"


def test_a_radius_that_is_lacking_is_named() -> None:
    whole = levered(900, "mm", 13, 12.7, 254)
    result = graded(plugin, whole.model_copy(update={"facts": {}}))
    assert any(
        missing.id == "radius" and "radius of the quadrant" in missing.title for missing in result.missing
    )


def test_teeth_that_are_no_number_of_teeth_are_told_and_fail_nothing() -> None:
    result = graded(plugin, levered(900, "mm", 4, 12.7, 254))
    assert any(missing.id == "leverage" and "teeth" in missing.why for missing in result.missing)


def angles(port: float, starboard: float, *, built: float | None = None, expanded: float = 0.5) -> Evidence:
    """Both sides of the rudder's travel."""
    return known(
        plugin,
        facts={"designed_angle": fact(built, "°")} if built else {},
        spots=[
            spot("rudder_angle", port, "°", expanded, side="port"),
            spot("rudder_angle", starboard, "°", expanded, side="starboard"),
        ],
        observed=best(plugin),
    )


def test_f12_a_total_of_70_hides_a_short_side() -> None:
    """F12: 34° one side, 36° the other, 35° asked for each side by an inland rule."""
    result = graded(plugin, angles(34, 36))
    verdicts = {
        check.side: check.verdict
        for check in result.checks
        if check.id.startswith("quadrant.rudder_angle.inland")
    }
    assert verdicts == {"port": Verdict.BEYOND, "starboard": Verdict.WITHIN}
    shorter = check_of(plugin, angles(34, 36), "quadrant.shorter_side.worked")
    assert shown(shorter, "°") == pytest.approx(34)
    assert shorter.side == "port"
    assert result.grade is Grade.CLEAR, "a rule for inland vessels is for information"


@pytest.mark.parametrize(
    ("angle", "verdict"),
    [
        (35.6, Verdict.WITHIN),
        (35.4, Verdict.CLOSE),
        (35.0, Verdict.CLOSE),
        (34.6, Verdict.DOUBTFUL),
        (34.4, Verdict.BEYOND),
    ],
)
def test_both_sides_of_the_inland_rule(angle: float, verdict: Verdict) -> None:
    checks = graded(plugin, angles(angle, angle)).checks
    assert {check.verdict for check in checks if check.id.startswith("quadrant.rudder_angle.inland")} == {
        verdict
    }
    assert all(check.kind is LimitKind.RULE and not check.governs for check in checks if check.limit)


@pytest.mark.parametrize(
    ("reached", "share", "verdict"), [(32, 91.43, Verdict.WITHIN), (31, 88.57, Verdict.BEYOND)]
)
def test_f7_f8_retained_arc(reached: float, share: float, verdict: Verdict) -> None:
    """F7, F8: 35° each side as built, 90 % asked for (ISO/DIS 8848:2019, 3.10)."""
    evidence = angles(reached, 35, built=35, expanded=0.2)
    check = next(
        each
        for each in graded(plugin, evidence).checks
        if each.subject == "arc_kept" or (each.id.startswith("quadrant.arc_kept") and each.side == "port")
    )
    assert shown(check, "%") == pytest.approx(share, abs=0.01)
    assert check.verdict is verdict
    assert check.working[0].title == "Steering arc kept"


@pytest.mark.parametrize(
    ("torque", "verdict"), [(25, Verdict.WITHIN), (27, Verdict.WITHIN), (30, Verdict.BEYOND)]
)
def test_f7_f9_effort_at_the_helm(torque: float, verdict: Verdict) -> None:
    """F7, F9: at most 27 N·m at the helm for it."""
    evidence = known(plugin, spots=[spot("helm_torque", torque, "N·m", side="port")], observed=best(plugin))
    assert check_of(plugin, evidence, "quadrant.helm_torque.retained").verdict is verdict


def test_without_the_angle_as_built_no_share_is_made_up() -> None:
    assert not [check for check in graded(plugin, angles(30, 30)).checks if check.subject == "arc_kept"]


def test_found_and_left_are_not_mixed() -> None:
    """A port side as found and a starboard side as left are no pair."""
    spots: list[MeasurementPoint] = [
        spot("rudder_angle", 30, "°", side="port"),
        spot("rudder_angle", 36, "°", side="starboard", state=State.LEFT),
    ]
    checks = graded(plugin, known(plugin, spots=spots, observed=best(plugin))).checks
    assert not [check for check in checks if check.subject == "shorter_side"]


@pytest.mark.parametrize("first", ["chain_end", "wire_end", "ram", "gland", "wheel", "blade", "nothing"])
def test_anything_but_the_stop_comes_before_the_next_passage(first: str) -> None:
    result = graded(plugin, known(plugin, observed=best(plugin, first_stop=first)))
    assert result.grade is Grade.FIRST
    assert [action.what for action in result.actions] == [
        "Set the rudder stops so that they touch before anything else at both hard-overs"
    ]


def test_the_stop_first_and_all_in_order_is_clear() -> None:
    assert graded(plugin, known(plugin, observed=best(plugin))).grade is Grade.CLEAR


def test_without_an_answer_to_what_stops_first_it_is_unseen() -> None:
    observed = {key: each for key, each in best(plugin).items() if key != "first_stop"}
    result = graded(plugin, known(plugin, observed=observed))
    assert result.grade is Grade.UNSEEN
    assert "what stops the rudder first" in result.capped[0]


@pytest.mark.parametrize(
    ("answer", "grade"),
    [
        ({"fastening": "slips"}, Grade.STOP), ({"fastening": "missing"}, Grade.STOP), ({"fastening": "unlocked"}, Grade.FIRST),
        ({"clamp_gap": "closed"}, Grade.FIRST), ({"cracks": "cracked"}, Grade.STOP), ({"attachments": "unlocked"}, Grade.STOP),
        ({"attachments": "worn"}, Grade.FIRST), ({"stop_structure": "cracked"}, Grade.FIRST), ({"stop_bearing": "edge"}, Grade.PLAN),
        ({"stop_pads": "missing"}, Grade.PLAN), ({"loaded": "quadrant"}, Grade.STOP),
    ],
)  # fmt: skip
def test_one_bad_thing_decides(answer: dict[str, str], grade: Grade) -> None:
    assert graded(plugin, known(plugin, observed=best(plugin, **answer))).grade is grade


def test_radius_in_inches_is_the_same_radius() -> None:
    metric, imperial = levered(900, "mm", 13, 12.7, 254), levered(900 / 25.4, "in", 13, 12.7, 10)
    one, other = (check_of(plugin, each, "quadrant.stock_torque.worked") for each in (metric, imperial))
    assert one.value is not None
    assert other.value is not None
    assert one.value.value == pytest.approx(other.value.value, rel=1e-12)
    assert units.from_base(one.value.value, "N·m") > 0
