"""From rim to rudder: published worked answers (A), mechanics (D), water on the rudder (E), play and bearings (F).

Sources: boat mechanical handbook, offshore-race seminar on emergency rudders, published measurements of one yacht's
gear, open velocity-prediction code after Whicker and Fehlner, ship design manual, Canadian, US and class rules.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from reporter.engineering import (
    chain,
    mechanics,
    stock,
    table,
    units,
    wire,
)
from reporter.engineering.rows import PublishedFigure

INCH, FOOT, KNOT = 0.0254, 0.3048, 1852 / 3600
RAD = math.radians


def yardstick(ident: str) -> PublishedFigure:
    """A row of the yardsticks."""
    return next(row for row in table(PublishedFigure) if row.id == ident)


@pytest.mark.parametrize(("_case", "wheel_in", "feet"), [("A1", 24, 10.9), ("A2", 32, 14.55)])
def test_equivalent_tiller(_case: str, wheel_in: float, feet: float) -> None:
    """Boat mechanical handbook: sprocket 2.2 in, quadrant 12 in radius; printed "close to 11 ft" and 14 ft 6 in."""
    length = mechanics.equivalent_tiller(wheel_in / 2 * INCH, 1.1 * INCH, 12 * INCH)
    assert length / FOOT == pytest.approx(feet, abs=0.1)


def test_a3_to_a5_torque_and_tiller() -> None:
    """Boat mechanical handbook: 845 lbf at 4.32 in = 3,650 in·lbf = 304 ft·lbf; 383 kgf at 0.11 m; 30 lbf tiller 10.13 ft."""
    torque = stock.moment(units.to_base(845, "lbf"), 4.32 * INCH)
    assert units.from_base(torque, "lbf·in") == pytest.approx(3650, rel=1e-3)
    assert units.from_base(torque, "lbf·ft") == pytest.approx(304, rel=1e-3)
    metric = stock.moment(units.to_base(383, "kgf"), 0.11)
    assert units.from_base(metric, "kgf·m") == pytest.approx(42.1, rel=1e-3)
    assert metric == pytest.approx(413, rel=1e-3)
    tiller = stock.tiller_for_force(units.to_base(304, "lbf·ft"), units.to_base(30, "lbf"))
    assert tiller / FOOT == pytest.approx(10.13, abs=0.1)
    assert tiller == pytest.approx(3.1, abs=0.05)


def test_misprint_of_the_hand_force() -> None:
    """The handbook prints 30 lbf = 13.5 kg = 122 N: 13.5 kgf are 132 N, 30 lbf are 133 N."""
    row = yardstick("steering.hand_force")
    newtons = units.to_base(row.value, row.unit)
    assert newtons == pytest.approx(133.4, abs=0.1)
    assert units.to_base(13.5, "kgf") == pytest.approx(132, abs=0.5)
    assert abs(newtons - 122) > 10


def test_a6_measured_ratio() -> None:
    """Published measurement: 495 degrees of wheel turn 45.0 degrees of rudder: 11.0."""
    assert mechanics.steering_ratio(RAD(495), RAD(45)) == pytest.approx(11.0)


MEASURED = [(10, 110, 132, 189, 212, 8.0, 35.6), (30, 330, 396, 566, 636, 24, 107), (40, 440, 528, 754, 848, 32, 142),
            (50, 550, 660, 943, 1060, 40, 178), (78, 858, 1030, 1471, 1654, 62.4, 278)]  # fmt: skip


@pytest.mark.parametrize(("wheel", "at_stock", "at_10", "at_7", "faster", "rim_lbf", "rim_n"), MEASURED)
def test_a7_to_a9_and_d10(
    wheel: float, at_stock: float, at_10: float, at_7: float, faster: float, rim_lbf: float, rim_n: float
) -> None:
    """Published measurement of one yacht: wheel torque in ft·lbf, ×11 at the stock, tillers of 10 and 7 in, (V/6)²."""
    stock_torque = units.to_base(wheel * 11, "lbf·ft")
    assert units.from_base(stock_torque, "lbf·ft") == pytest.approx(at_stock)
    assert units.from_base(stock.tiller_force(stock_torque, 10 * INCH), "lbf") == pytest.approx(at_10, abs=1)
    assert units.from_base(stock.tiller_force(stock_torque, 7 * INCH), "lbf") == pytest.approx(at_7, abs=1)
    scaled = mechanics.torque_at_speed(stock_torque, 6 * KNOT, 6 * math.sqrt(1.927469) * KNOT)
    assert units.from_base(scaled, "lbf·ft") == pytest.approx(faster, abs=1)
    rim = stock.tiller_force(units.to_base(wheel, "lbf·ft"), 15 * INCH)
    assert units.from_base(rim, "lbf") == pytest.approx(rim_lbf, abs=0.05)
    assert rim == pytest.approx(rim_n, abs=0.5)


def test_a9_implied_speed() -> None:
    """The printed factor 1.927469 is (V/6)² at 8.33 kn."""
    assert mechanics.torque_at_speed(1.0, 6 * KNOT, 8.33 * KNOT) == pytest.approx(1.927469, abs=1e-3)


def test_a10_emergency_rudder() -> None:
    """Seminar: 4 ft², 7 kn: 1,666 lbf; arm 2 ft: 3,332 ft·lbf; at 10,000 psi a section modulus of 4.0 in³."""
    force = stock.emergency_rudder_force(4 * FOOT**2, 7 * KNOT)
    assert units.from_base(force, "lbf") == pytest.approx(1666, rel=1e-3)
    bend = stock.moment(force, 2 * FOOT)
    assert units.from_base(bend, "lbf·ft") == pytest.approx(3332, rel=1e-3)


def test_a11_bending_and_twist() -> None:
    """Handbook page on rudder stocks: 494 lbf (493.56 unrounded), 3.5 in aft and 18 in below the lower gudgeon, gudgeons 10 in apart."""
    force = units.to_base(493.56, "lbf")
    bend, twist = stock.moment(force, 18 * INCH), stock.moment(force, 3.5 * INCH)
    assert units.from_base(bend, "lbf·in") == pytest.approx(8884, rel=1e-3)
    assert units.from_base(twist, "lbf·in") == pytest.approx(1727, rel=1e-3)
    both = stock.combined_moment(bend, twist)
    assert units.from_base(both, "lbf·in") == pytest.approx(9050, rel=1e-3)


def test_a13_new_bearing_of_100_mm() -> None:
    """Boat mechanical handbook: allowance 0.159, tolerance 0.101 mm, bore 100.159 to 100.260 mm."""
    allowance, tolerance = stock.new_allowance(0.1), stock.new_tolerance(0.1)
    assert allowance * 1000 == pytest.approx(0.159, abs=0.002)
    assert tolerance * 1000 == pytest.approx(0.101, abs=0.002)
    assert 100 + (allowance + tolerance) * 1000 == pytest.approx(100.260, abs=0.002)


def test_a14_misprint_of_the_inch_tolerance() -> None:
    """The handbook prints 0.003 in for a 3.75 in stock; its formula 0.0025 d^0.34 and ours give 0.0039 in."""
    stock_size = 3.75 * INCH
    assert stock.new_tolerance(stock_size) / INCH == pytest.approx(0.0039, abs=2e-4)
    assert stock.new_tolerance(stock_size) / INCH != pytest.approx(0.003, abs=5e-4)
    assert stock.new_allowance(stock_size) / INCH == pytest.approx(0.006, abs=2e-4)


@pytest.mark.parametrize(
    ("_case", "rim", "wheel", "teeth", "pitch", "quadrant", "radius_mm", "pull", "torque", "tiller"),
    [("D1", 100, 0.900, 13, 12.70, 0.254, 26.53, 1695.9, 430.8, 4.308),
     ("D2", 133.4, 0.9144, 11, 15.875, 0.3048, 28.17, 2164.8, 659.8, 4.946),
     ("D3", 122, 0.800, 12, 15.875, 0.200, 30.67, 1591.2, 318.2, 2.609)],
)  # fmt: skip
def test_rim_to_stock(
    _case: str, rim: float, wheel: float, teeth: int, pitch: float, quadrant: float, radius_mm: float, pull: float,
    torque: float, tiller: float,
) -> None:  # fmt: skip
    """Mechanics, D1 to D3."""
    radius = chain.pitch_diameter(pitch / 1000, teeth) / 2
    assert radius * 1000 == pytest.approx(radius_mm, abs=0.01)
    found = mechanics.chain_pull(rim, wheel / 2, radius)
    assert found == pytest.approx(pull, abs=0.1)
    assert mechanics.stock_torque(found, quadrant) == pytest.approx(torque, abs=0.1)
    assert mechanics.equivalent_tiller(wheel / 2, radius, quadrant) == pytest.approx(tiller, abs=0.001)


@pytest.mark.parametrize(
    ("_case", "quadrant", "teeth", "pitch", "turns"),
    [("D4", 0.3048, 11, 15.875, 2.132), ("D5", 0.254, 13, 12.70, 1.880), ("D6", 0.200, 12, 15.875, 1.283)],
)
def test_turns(_case: str, quadrant: float, teeth: int, pitch: float, turns: float) -> None:
    """Mechanics, D4 to D6: 70 degrees from stop to stop."""
    assert mechanics.turns_lock_to_lock(RAD(70), quadrant, teeth, pitch / 1000) == pytest.approx(
        turns, abs=0.001
    )


def test_d7_and_d8() -> None:
    """Inland class rule, 3 degrees a turn: 70 degrees in at most 23.3 turns. D1's pull on C15: factor 13.6."""
    least = yardstick("steering.per_turn")
    assert least.met_by(math.degrees(mechanics.rudder_per_turn(RAD(70), 23.3)))
    assert not least.met_by(math.degrees(mechanics.rudder_per_turn(RAD(70), 23.4)))
    strength = wire.minimum_breaking_force(0.006, 1770e6, 0.362)
    assert mechanics.factor_of_safety(strength, 1695.9) == pytest.approx(13.6, abs=0.05)
    assert mechanics.factor_of_safety(21_710, 2164.8) == pytest.approx(10.03, abs=0.005)


def test_d11_emergency_tiller() -> None:
    """413 N·m on a 1.2 m tiller: 344 N at the hand, more than the handbook's 133 N."""
    force = stock.tiller_force(413, 1.2)
    assert force == pytest.approx(344, abs=0.5)
    row = yardstick("steering.hand_force")
    assert not row.met_by(units.from_base(force, row.unit))


def test_rim_play_seen_from_the_rudder() -> None:
    """Mechanics: the way back through equivalent tiller; 40 mm at a 0.9 m wheel of D1 is 40/4308 rad."""
    hidden = mechanics.rim_play_as_rudder(0.040, 0.45, 0.02653, 0.254)
    assert hidden * 4.308 * 1000 == pytest.approx(40, abs=0.02)


@pytest.mark.parametrize(("inches", "millimetres"), [(16, 50.8), (18, 57.2), (20, 63.5), (22, 69.9)])
def test_f1_lash_limits(inches: float, millimetres: float) -> None:
    """49 CFR 570.7 Table 1: an eighth of the wheel, 14.32 degrees each."""
    limit = next(
        found.limit for found in mechanics.lash_limits(inches * INCH) if found.row.rule == "49 CFR 570"
    )
    assert limit * 1000 == pytest.approx(millimetres, abs=0.06)
    assert math.degrees(mechanics.play_angle(limit, inches * INCH)) == pytest.approx(14.32, abs=0.005)


def test_f2_beyond_the_table() -> None:
    """A 914 mm wheel: an eighth is 114 mm, no row of 49 CFR 570 speaks of it, and the proportion says so."""
    assert "49 CFR 570" not in [found.row.rule for found in mechanics.lash_limits(0.914)]


def test_f3_two_jurisdictions() -> None:
    """19A NCAC 03D .0535 and 49 CFR 570: 3.5 in on a 20 in wheel passes the one and fails the other."""
    limits = {found.row.rule: found.limit for found in mechanics.lash_limits(20 * INCH)}
    assert limits["North Carolina"] >= 3.5 * INCH > limits["49 CFR 570"]
    assert {found.row.rule: found.row.limit_in for found in mechanics.lash_limits(21 * INCH)}[
        "Maryland"
    ] == 3.5
    assert {found.row.rule: found.row.limit_in for found in mechanics.lash_limits(20.9 * INCH)}[
        "Maryland"
    ] == 3.0
    assert {found.row.rule: found.row.limit_in for found in mechanics.lash_limits(18 * INCH)}[
        "North Carolina"
    ] == 3.0


def test_f4_bush_and_blade() -> None:
    """A surveyor's buyer guide: 1.6 mm at the bush, 12.7 mm at the blade; the figures themselves pass."""
    assert yardstick("rudder.bush_play").met_by(1.6)
    assert not yardstick("rudder.bush_play").met_by(2.0)
    assert yardstick("rudder.blade_play").met_by(12.7)
    assert not yardstick("rudder.blade_play").met_by(12.8)


def test_f5_f6_clearances() -> None:
    """Handbook 0.1004 and 0.0864 mm; light craft 803: 1.05, 1.04 mm; naval 3.1.4: 5.2 mm at 100 mm."""
    assert stock.new_allowance(0.050) * 1000 == pytest.approx(0.1004, abs=5e-5)
    assert stock.new_allowance(0.040) * 1000 == pytest.approx(0.0864, abs=5e-5)
    assert stock.light_craft_least(0.050) * 1000 == pytest.approx(1.05)
    assert stock.light_craft_least(0.040) * 1000 == pytest.approx(1.04)
    assert stock.naval_greatest(0.100) * 1000 == pytest.approx(5.2)
    assert stock.naval_greatest(0.040) / stock.new_allowance(0.040) > 50


@pytest.mark.parametrize(
    ("_case", "reached", "effort", "share", "passes"),
    [("F7", 32, 25, 91.4, True), ("F8", 31, 25, 88.6, False), ("F9", 32, 30, 91.4, False)],
)
def test_retained_performance(_case: str, reached: float, effort: float, share: float, passes: bool) -> None:
    """ISO/DIS 8848:2019 cl. 3.10 (draft): 90 % of the arc each side at 27 N·m or less."""
    kept = mechanics.arc_kept(RAD(reached), RAD(35)) * 100
    assert kept == pytest.approx(share, abs=0.05)
    both = yardstick("steering.retained_share").met_by(kept) and yardstick("steering.retained_effort").met_by(
        effort
    )
    assert both is passes


@pytest.mark.parametrize(
    ("_case", "ident", "passes", "fails"),
    [
        ("F10, W11", "turnbuckle.threads", 3, 4),
        ("F11", "fairlead.deflection", 3, 4),
        ("W36", "emergency.time", 60, 61),
    ],
)
def test_single_figures(_case: str, ident: str, passes: float, fails: float) -> None:
    """AC 43.13-1B 7-166 (threads), 7-149 n (fairlead), 46 CFR 182.620 (60 s)."""
    assert yardstick(ident).met_by(passes)
    assert not yardstick(ident).met_by(fails)


def test_f12_the_total_hides_a_short_side() -> None:
    """Inland class rule, 35 degrees each side: 34 and 36 miss it though they add up to 70."""
    least = yardstick("steering.each_side")
    assert not least.met_by(math.degrees(mechanics.shorter_side(RAD(34), RAD(36))))
    assert least.value <= (34 + 36) / 2


def test_tip_movement_by_hand() -> None:
    """Geometry: 0.5 and 0.3 mm of play, bearings 600 mm apart, tip 1200 mm below: 0.5 + 0.8 × 2 = 2.1 mm."""
    assert stock.tip_movement(0.0005, 0.0003, 0.6, 1.2) * 1000 == pytest.approx(2.1)
    assert stock.tip_movement(0.0005, 0.0003, 0.6, 0.0) * 1000 == pytest.approx(0.5)


@pytest.mark.parametrize(
    "call",
    [lambda: mechanics.chain_pull(-1, 0.4, 0.03), lambda: mechanics.equivalent_tiller(0.4, 0, 0.2),
     lambda: stock.tip_movement(-0.001, 0, 0.5, 1), lambda: mechanics.play_angle(0.01, 0)],
)  # fmt: skip
def test_refuses_the_impossible(call: Callable[[], float]) -> None:
    """Outside its domain a function says so in words."""
    with pytest.raises(ValueError, match=r"^the .* must "):
        call()


def test_sums_of_the_drive() -> None:
    """D1's sprocket: 26.53 mm radius; D7: 3 degrees a turn; a difference has no sign."""
    assert mechanics.sprocket_radius(0.0127, 13) * 1000 == pytest.approx(26.53, abs=0.01)
    assert math.degrees(mechanics.rudder_per_turn(RAD(70), 70 / 3)) == pytest.approx(3.0)
    assert (
        mechanics.difference_of_sides(0.210, 0.204)
        == mechanics.difference_of_sides(0.204, 0.210)
        == pytest.approx(0.006)
    )
