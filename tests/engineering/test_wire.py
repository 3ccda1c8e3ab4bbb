"""Wire rope against published strengths, counting rules and diameter limits.

Sources: FAA AC 43.13-1B Table 7-3 and 7-149; 29 CFR 1926.1413, 1910.184, 1926.251; 30 CFR 56.19024, 77.1437;
ISO 4309:2010 as quoted; trade table of rope factors (EN 12385 wording); US Army TM 5-3810-305-10 Table 4.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from reporter.engineering import broken_wires, mechanics, table, units, wire
from reporter.engineering.rows import BrokenWireRule, PublishedFigure

G1570, G1770 = 1570e6, 1770e6


@pytest.mark.parametrize(
    ("_case", "diameter", "grade", "name", "kilonewtons"),
    [
        ("C15", 6, G1770, "7x19", 23.07),
        ("C16", 5, G1570, "7x19", 14.21),
        ("C17", 6, G1770, "7x7", 24.72),
        ("4 mm 1570", 4, G1570, "7x19", 9.09),
        ("4 mm 1770", 4, G1770, "7x19", 10.25),
        ("5 mm 1770", 5, G1770, "7x19", 16.02),
        ("6 mm 1570", 6, G1570, "7x19", 20.46),
        ("8 mm 1570", 8, G1570, "7x19", 36.37),
        ("8 mm 1770", 8, G1770, "7x19", 41.01),
    ],
)
def test_minimum_breaking_force(
    _case: str, diameter: float, grade: float, name: str, kilonewtons: float
) -> None:
    """Trade table of factors, F = d²·R·K / 1000; C15 to C17 and the derived 7x19 row."""
    factor = wire.rope_factor(name).strength_factor
    assert wire.minimum_breaking_force(diameter / 1000, grade, factor) / 1000 == pytest.approx(
        kilonewtons, abs=0.006
    )


TABLE_7_3 = [
    ("3/32", "7x7", 4.09, 4.09), ("3/32", "7x19", 4.45, 4.09), ("1/8", "7x19", 8.90, 7.83), ("5/32", "7x19", 12.46, 10.68),
    ("3/16", "7x19", 18.68, 16.46), ("7/32", "7x19", 24.91, 22.24), ("1/4", "7x19", 31.14, 28.47),
    ("9/32", "7x19", 35.59, 34.70), ("5/16", "7x19", 43.59, 40.03), ("3/8", "7x19", 64.05, 53.38),
]  # fmt: skip


@pytest.mark.parametrize(("inches", "construction", "carbon", "stainless"), TABLE_7_3)
def test_table_7_3_by_its_metric_column(
    inches: str, construction: str, carbon: float, stainless: float
) -> None:
    """FAA AC 43.13-1B Table 7-3, found by size: each strength against the kilonewtons printed beside that size."""
    diameter = float(Fraction(inches)) * 0.0254
    for steel, kilonewtons in ((False, carbon), (True, stainless)):
        force = wire.control_cable_strength(diameter, construction, stainless=steel)
        assert force / 1000 == pytest.approx(kilonewtons, abs=0.006)


def test_c18_and_its_refusals() -> None:
    """Table 7-3: 1/4 in 7x19 stainless 6,400 lbf; no row between sizes, and 7x7 at 3/32 in only."""
    row = wire.control_cable(0.00635, "7x19")
    assert (row.stainless_lbf, row.over_nominal_in) == (6400, 0.018)
    with pytest.raises(ValueError, match="prints no 7x19 of 6 mm"):
        wire.control_cable(0.006, "7x19")
    with pytest.raises(ValueError, match="prints no 7x7"):
        wire.control_cable(0.00635, "7x7")


def test_c19_to_c21_shares_of_c15() -> None:
    """ISO 8847 second-hand 25 %; WAC 296-24-29401 1/5; TM 5-3810-305-10: clips 80 %, swage 95 %."""
    c15 = wire.minimum_breaking_force(0.006, G1770, 0.362)
    assert wire.load_allowed(c15, 0.25) / 1000 == pytest.approx(5.77, abs=0.006)
    assert wire.load_allowed(c15, 1 / 5) / 1000 == pytest.approx(4.61, abs=0.006)
    assert wire.with_end(c15, wire.end_efficiency("clips").kept) / 1000 == pytest.approx(
        18.46, abs=0.01
    )  # 80 % of a rounded 23.07
    assert wire.with_end(c15, wire.end_efficiency("swaged").kept) / 1000 == pytest.approx(21.92, abs=0.01)


COUNTS = [
    ("C1", "crane.running.lay", 6, 6), ("C1", "crane.running.strand", 3, 3),
    ("C2", "sling.lay", 10, 10), ("C2", "sling.strand", 5, 5),
    ("C3", "construction.8d", 14, 5),
    ("C4", "mine.lay", 7, 3), ("C5", "mine.strand", 3, 2),
    ("C6", "crane_iso.6d", 5, 2), ("C6", "crane_iso.30d", 10, 4),
    ("C7", "control_cable.critical", 1, 1),
    ("C8", "mine.attachment", 2, 2),
    ("C9", "crane.standing.end", 2, 2), ("C9", "crane.standing.lay", 3, 3),
    ("WAC 296-874-30016", "scaffold.lay", 6, 6), ("WAC 296-874-30016", "scaffold.strand", 3, 3),
]  # fmt: skip


@pytest.mark.parametrize(
    ("_case", "rule", "of_7x19", "of_7x7"), COUNTS, ids=[f"{c[0]} {c[1]}" for c in COUNTS]
)
def test_smallest_count_that_condemns(_case: str, rule: str, of_7x19: int, of_7x7: int) -> None:
    """C1 to C9: each row's law is cited by its own table row."""
    for name, count in (("7x19", of_7x19), ("7x7", of_7x7)):
        assert broken_wires.condemning_count(rule, name) == count
        assert broken_wires.condemns(rule, name, count)
        assert not broken_wires.condemns(rule, name, count - 1)


def test_every_rule_gives_exactly_one_measure() -> None:
    """A rule condemns by one count, one share or one column; exactly one rule governs, the strictest."""
    for row in table(BrokenWireRule):
        given = [
            row.reached is not None,
            row.more_than is not None,
            row.more_than_share is not None,
            bool(row.by_outer_wires),
        ]
        assert sum(given) == 1, row.id
    governing = [row for row in table(BrokenWireRule) if row.governs]
    assert [row.id for row in governing] == ["practice.any"]
    assert broken_wires.condemning_count("practice.any", "7x19") == 1


def test_samples_of_four_breaks_and_of_one() -> None:
    """6 mm 7x19, 4 breaks in 36 mm on a sheave: ISO 4309, 1926.1413 and 56.19024 keep it, AC 43.13-1B does not."""
    keeps = ("crane_iso.6d", "crane.running.lay", "mine.lay")
    assert not any(broken_wires.condemns(rule, "7x19", 4) for rule in keeps)
    assert broken_wires.condemns("control_cable.critical", "7x19", 4)
    assert not any(broken_wires.condemns(rule, "7x19", 1) for rule in keeps)


@pytest.mark.parametrize(
    ("broken", "at_end", "crane", "mine", "practice"),
    [(0, 0, False, False, False), (1, 0, False, True, True), (2, 0, False, True, True), (3, 0, True, True, True),
     (0, 1, False, True, True), (0, 2, True, True, True)],
)  # fmt: skip
def test_w10_single_strand(broken: int, at_end: int, crane: bool, mine: bool, practice: bool) -> None:
    """W10: 29 CFR 1926.1413 standing rope, 30 CFR 56.19024 on 19 wires (0.95 wires), the yacht handbook."""
    in_all = broken + at_end
    lay = broken_wires.condemns("crane.standing.lay", "1x19", broken)
    assert (lay or broken_wires.condemns("crane.standing.end", "1x19", at_end)) is crane
    assert broken_wires.condemns("mine.lay", "1x19", in_all) is mine
    assert broken_wires.condemns("practice.any", "1x19", in_all) is practice


def test_crane_table_refuses_a_single_strand() -> None:
    """ISO 4309 speaks of load-bearing wires in outer strands: 1x19 has none."""
    with pytest.raises(ValueError, match="no row for 1x19"):
        broken_wires.condemning_count("crane_iso.6d", "1x19")
    with pytest.raises(ValueError, match="no construction called"):
        broken_wires.condemning_count("mine.lay", "8x25")
    with pytest.raises(ValueError, match="whole number"):
        broken_wires.condemns("mine.lay", "7x19", -1)


def test_counting_lengths() -> None:
    """6 mm wire: 6 d = 36, 8 d = 48, 30 d = 180 mm; a lay is no number of diameters."""
    assert [wire.counting_length(0.006, k) * 1000 for k in (6, 8, 30)] == pytest.approx([36, 48, 180])
    assert broken_wires.scope_length("crane_iso.30d", 0.006) == pytest.approx(0.180)
    assert broken_wires.scope_length("construction.8d", 0.006) == pytest.approx(0.048)
    assert broken_wires.scope_length("mine.lay", 0.006) is None


def within(ident: str, per_cent: float) -> bool:
    """Whether a diameter loss meets a yardstick of the table."""
    return next(row for row in table(PublishedFigure) if row.id == ident).met_by(per_cent)


@pytest.mark.parametrize(
    ("_case", "nominal", "measured", "per_cent", "met"),
    [
        ("C10", 6.00, 5.75, 4.17, {"nominal", "baseline"}),
        ("C11", 6.00, 5.60, 6.67, set()),
        ("C12", 6.00, 5.50, 8.33, set()),
        ("C13", 6.35, 6.00, 5.51, {"baseline"}),
    ],
)
def test_diameter_loss(_case: str, nominal: float, measured: float, per_cent: float, met: set[str]) -> None:
    """C10 to C13: 5 % of nominal (Cal. Code Regs. tit. 8 § 5036), 6 % (30 CFR 56.19024 (g))."""
    loss = wire.loss_of_nominal(nominal / 1000, measured / 1000) * 100
    assert loss == pytest.approx(per_cent, abs=0.006)
    assert {of for of in ("nominal", "baseline") if within(f"wire.diameter_loss.{of}", loss)} == met


def test_c14_percent_of_what() -> None:
    """6.35 mm nominal, 6.70 new, 6.30 now: 0.79 % of nominal, 5.97 % of the baseline (passes 6 % by 0.03)."""
    assert wire.loss_of_nominal(0.00635, 0.0063) * 100 == pytest.approx(0.79, abs=0.006)
    of_baseline = wire.loss_of_baseline(0.0067, 0.0063) * 100
    assert of_baseline == pytest.approx(5.97, abs=0.006)
    assert within("wire.diameter_loss.baseline", of_baseline)
    new_tolerance = wire.control_cable(0.00635, "7x19").over_nominal_in * 25.4
    assert new_tolerance == pytest.approx(0.46, abs=0.005)


@pytest.mark.parametrize(("inches", "count"), [(1.0, 4), (0.5, 3), (1.01, 5), (0.25, 2)])
def test_a18_clips(inches: float, count: int) -> None:
    """US Navy construction manual, 3 D + 1 rounded up (A18: 1 in 4 clips, 1/2 in 3 clips)."""
    assert wire.clips(inches * 0.0254) == count


@pytest.mark.parametrize(
    ("ratio", "kept"),
    [(40, 95), (30, 93), (20, 91), (15, 89), (10, 86), (8, 83), (6, 79), (4, 75), (2, 65), (1, 50)],
)
def test_bending_table(ratio: float, kept: float) -> None:
    """Trade table of bending efficiency at its own points; A19, W21: 1/2 in over 10 in is D/d 20, 91 %."""
    assert wire.bending_strength(ratio) * 100 == pytest.approx(kept)


def test_bending_table_between_and_beyond() -> None:
    """Straight between published points, refused beyond them."""
    assert wire.bending_strength(25) == pytest.approx(0.92)
    assert wire.bending_strength(mechanics.sheave_ratio(10 * 0.0254, 0.5 * 0.0254)) == pytest.approx(0.91)
    for ratio in (0.5, 41, math.nan):
        with pytest.raises(ValueError, match="outside it"):
            wire.bending_strength(ratio)


@pytest.mark.parametrize(
    ("_case", "tread_mm", "wire_mm", "ratio", "meets", "fails"),
    [
        ("C22", 100, 6, 16.7, (16,), (18, 24)),
        ("C23", 101.6, 6.35, 16.0, (16,), (18,)),
        ("C24", 101.6, 4.7625, 21.3, (16,), (28,)),
    ],
)
def test_sheave_ratios(
    _case: str, tread_mm: float, wire_mm: float, ratio: float, meets: tuple[int, ...], fails: tuple[int, ...]
) -> None:
    """C22 to C24: 16 (ISO 8847 second-hand), 18 and 24 (7x19), 28 (7x7) of the aircraft cable table."""
    reached = mechanics.sheave_ratio(tread_mm / 1000, wire_mm / 1000)
    assert reached == pytest.approx(ratio, abs=0.05)
    assert all(reached >= level - 1e-9 for level in meets)
    assert not any(reached >= level for level in fails)


def test_a21_quadrant_wire() -> None:
    """Forum sizing (READ C): 13,500 in·lbf on a 12 in quadrant, factor 4: 1,125 and 4,500 lbf (20.0 kN), 1,525 N·m."""
    torque = units.to_base(13_500, "lbf·in")
    assert torque == pytest.approx(1525, abs=0.5)
    needed = 4 * torque / (12 * 0.0254)
    assert units.from_base(needed, "lbf") == pytest.approx(4500)
    assert needed / 1000 == pytest.approx(20.0, abs=0.05)
    assert wire.minimum_breaking_force(0.006, G1770, 0.362) > needed
    assert 1.0 < wire.minimum_breaking_force(0.006, G1570, 0.362) / needed < 1.03


def test_refuses_impossible_wire() -> None:
    """Diameters above zero, shares from 0 to 1, known ends and factors."""
    with pytest.raises(ValueError, match="wire diameter"):
        wire.minimum_breaking_force(0, G1770, 0.362)
    with pytest.raises(ValueError, match="share kept"):
        wire.with_end(1000.0, 1.1)
    with pytest.raises(ValueError, match="no efficiency"):
        wire.end_efficiency("knot")
    with pytest.raises(ValueError, match="no factors"):
        wire.rope_factor("1x19")


def test_sizes_that_a_guess_cannot_tell_apart() -> None:
    """5/32 in is 3.97 mm, within 2 % of 4 mm; 6.35 mm is 1/4 in itself, as all is within 1 in 1,000; 5 mm stands alone (plain arithmetic)."""
    assert [size.name for size in wire.near_neighbours(0.004, 0.02)] == ["5/32 in"]
    assert wire.near_neighbours(0.005, 0.02) == ()
    assert "1/4 in" not in [size.name for size in wire.near_neighbours(0.00635, 0.05)]
    assert [size.name for size in wire.near_neighbours(0.004 / 1.0009, 0.02)] == ["5/32 in"]
    assert [size.name for size in wire.near_neighbours(0.004 / 1.00105, 0.02)] == ["4 mm", "5/32 in"]
    assert {size.name: size.diameter for size in wire.wire_sizes()}["5/16 in"] == pytest.approx(0.0079375)


def test_a_share_below_nought_is_refused() -> None:
    with pytest.raises(ValueError, match="share"):
        wire.near_neighbours(0.004, -0.02)


def test_a_cable_is_of_a_size_within_two_hundredths_of_it() -> None:
    """Table 7-3, 1/4 in: 6.35 mm; 1.9 % off is still that size, 2.1 % off is none. Its row is *common practice*."""
    for share in (0.981, 1.019):
        assert wire.control_cable(0.00635 * share, "7x19").diameter == "1/4"
    for share in (0.979, 1.021):
        with pytest.raises(ValueError, match="prints no 7x19"):
            wire.control_cable(0.00635 * share, "7x19")


def test_a_share_of_strength_is_never_less_than_nothing() -> None:
    assert wire.load_allowed(1000.0, 0.0) == 0.0
    with pytest.raises(ValueError, match="share"):
        wire.load_allowed(1000.0, -0.01)
