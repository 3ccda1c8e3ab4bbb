"""Roller chain and sprocket against published tables and the traps that published text holds.

Sources: trade table of sprocket diameters (pitch diameter, check table for a chain of one inch pitch); chain-maker
technical notes (elongation, inside and outside of rollers, 3 % and 200 / N %); ASME/ANSI B29.1 and ISO 606 / DIN 8187
strength tables as reproduced.
"""

from __future__ import annotations

import math

import pytest

from reporter.engineering import chain, table
from reporter.engineering.rows import ChainSize

ONE_INCH_PITCH = {
    8: 66.37, 9: 74.26, 10: 82.20, 11: 90.16, 12: 98.14, 13: 106.14, 14: 114.15, 15: 122.17, 16: 130.20,
    17: 138.23, 18: 146.27, 19: 154.32, 20: 162.37, 21: 170.42, 22: 178.48, 23: 186.54, 24: 194.60, 25: 202.66,
}  # fmt: skip


@pytest.mark.parametrize(("teeth", "millimetres"), ONE_INCH_PITCH.items())
def test_pitch_diameter_of_the_trade_table(teeth: int, millimetres: float) -> None:
    """Trade table, pitch diameter for 25.4 mm pitch (A16 and its whole table); 0.005 mm and half a last figure."""
    assert chain.pitch_diameter(0.0254, teeth) * 1000 == pytest.approx(millimetres, abs=0.0055)


@pytest.mark.parametrize(
    ("pitch", "teeth", "millimetres"),
    [
        (12.70, 13, 53.068),
        (15.875, 11, 56.348),
        (9.525, 25, 75.997),
        (19.05, 8, 49.780),
        (15.875, 20, 101.480),
    ],
)
def test_pitch_diameter_scales_with_pitch(pitch: float, teeth: int, millimetres: float) -> None:
    """Derived columns of the same table."""
    assert chain.pitch_diameter(pitch / 1000, teeth) * 1000 == pytest.approx(millimetres, abs=0.001)


def test_a15_number_120_chain() -> None:
    """Trade table, No. 120 chain (38.1 mm), 25 teeth: 303.99 mm pitch and about 324 mm outside diameter (A15)."""
    assert chain.pitch_diameter(0.0381, 25) * 1000 == pytest.approx(303.99, abs=0.01)


ELONGATIONS = [
    ("B1", 12.7, 20, 254.4, 0.157),
    ("B2", 12.7, 20, 256.5, 0.984),
    ("B3", 12.7, 20, 258.0, 1.575),
    ("B4", 12.7, 20, 261.6, 2.992),
    ("B5", 12.7, 20, 261.7, 3.031),
    ("B6", 15.875, 16, 257.8, 1.496),
    ("B7", 9.525, 24, 231.0, 1.050),
    ("B8", 25.4, 24, 24.75 * 25.4, 3.125),
]


@pytest.mark.parametrize(
    ("_case", "pitch", "links", "length", "per_cent"), ELONGATIONS, ids=[c[0] for c in ELONGATIONS]
)
def test_elongation(_case: str, pitch: float, links: int, length: float, per_cent: float) -> None:
    """Trade page, (L / ref − 1) × 100 over pin centres; cases B1 to B8."""
    assert chain.elongation(length / 1000, links, pitch / 1000) * 100 == pytest.approx(per_cent, abs=0.0005)


@pytest.mark.parametrize(
    ("case", "past_one_and_a_half", "past_three"),
    [("B1", False, False), ("B2", False, False), ("B3", True, False), ("B4", True, False), ("B5", True, True),
     ("B6", False, False), ("B7", False, False), ("B8", True, True)],
)  # fmt: skip
def test_elongation_bands(case: str, past_one_and_a_half: bool, past_three: bool) -> None:
    """Chain-maker notes: 1.5 % for smooth running on fixed centres, 3 % general; B1 to B8."""
    _, pitch, links, length, _ = next(row for row in ELONGATIONS if row[0] == case)
    reached = chain.elongation(length / 1000, links, pitch / 1000)
    assert (reached > 0.015, reached > 0.03) == (past_one_and_a_half, past_three)


def test_b1_is_within_the_tolerance_of_a_new_chain() -> None:
    """ASME/ANSI B29.1 as reproduced: a new ANSI 40 may be 0.019 in per foot long, 0.158 %."""
    row = chain.size_named("ANSI 40")
    assert row.growth_when_new == pytest.approx(0.019 / 12, abs=5e-7)
    assert chain.elongation(0.2544, 20, 0.0127) < (row.growth_when_new or 0)


def test_limit_by_the_larger_sprocket() -> None:
    """Chain-maker note: 3 % up to about 67 teeth, 200 / N % above (B9: 80 teeth 2.5 %, B10: 13 teeth 3 %)."""
    assert chain.elongation_limit(0.03, 2.0, 80) == pytest.approx(0.025)
    assert chain.elongation_limit(0.03, 2.0, 13) == 0.03
    assert chain.elongation_limit(0.03, 2.0, 67) == pytest.approx(200 / 67 / 100)
    assert chain.elongation_limit(0.03, 2.0, 66) == 0.03


def test_misprint_two_over_n() -> None:
    """One note prints 2.00/N %: read as printed it would condemn a new chain on 25 teeth."""
    as_printed = 2.00 / 25 / 100
    assert as_printed < (chain.size_named("ANSI 40").growth_when_new or 0)
    assert chain.elongation_limit(0.03, 2.0, 25) == 0.03


def test_misprint_of_an_inch_figure() -> None:
    """A page has "1.5 % (0.36 in per foot)": 0.36 in per foot is 3 %, 1.5 % is 0.18 in."""
    foot = 0.3048
    assert chain.elongation(foot + 0.36 * 0.0254, 24, foot / 24) == pytest.approx(0.03)
    assert chain.elongation(foot + 0.18 * 0.0254, 24, foot / 24) == pytest.approx(0.015)


def test_b11_inside_and_outside() -> None:
    """Trade page: L = (L1 + L2) / 2; the difference is two rollers of 7.92 mm (ANSI 40)."""
    length = chain.length_by_rollers(0.09528, 0.11112)
    assert length * 1000 == pytest.approx(103.20, abs=1e-9)
    assert chain.elongation(length, 8, 0.0127) * 100 == pytest.approx(1.575, abs=0.0005)


@pytest.mark.parametrize(
    ("name", "pounds", "kilonewtons"),
    [
        ("ANSI 35", 1760, 7.83),
        ("ANSI 40", 3125, 13.90),
        ("ANSI 41", 1500, 6.67),
        ("ANSI 50", 4880, 21.71),
        ("ANSI 60", 7030, 31.27),
    ],
)
def test_ansi_strengths_agree_in_both_units(name: str, pounds: float, kilonewtons: float) -> None:
    """ASME/ANSI B29.1 as reproduced prints both; ours agree with the pounds to the last figure of the kilonewtons."""
    assert chain.size_named(name).min_strength_kn == kilonewtons
    force = chain.breaking_force(name, stainless=False)
    assert force / 4.4482216152605 == pytest.approx(pounds, abs=0.006 / 4.448e-3)


def test_stainless_needs_its_mark() -> None:
    """The table holds for carbon steel; a stainless chain without a marked strength is refused."""
    with pytest.raises(ValueError, match="marked strength"):
        chain.breaking_force("ANSI 40", stainless=True)
    assert chain.breaking_force("ANSI 40", stainless=True, marked=9000.0) == 9000.0
    assert chain.breaking_force("ANSI 40", stainless=False) == 13_900.0
    assert chain.breaking_force("08b-1", stainless=False) == pytest.approx(17_800.0)
    with pytest.raises(ValueError, match="no chain size called"):
        chain.breaking_force("ANSI 43", stainless=False)


def test_d9_number_50_chain() -> None:
    """D2's pull of 2,164.8 N on a No. 50 chain of 21.71 kN: factor of safety 10.03."""
    assert chain.breaking_force("ANSI 50", stainless=False) / 2164.8 == pytest.approx(10.03, abs=0.005)


@pytest.mark.parametrize("teeth", [5, 0, -13, 12.5, math.nan, math.inf])
def test_refuses_impossible_teeth(teeth: float) -> None:
    """A sprocket has a whole number of teeth, six or more."""
    with pytest.raises(ValueError, match="teeth"):
        chain.pitch_diameter(0.0127, teeth)


@pytest.mark.parametrize(
    ("length", "links", "pitch"),
    [(-0.2, 20, 0.0127), (0.254, 0, 0.0127), (0.254, 20, 0), (math.nan, 20, 0.0127), (0.25, 1.5, 0.0127)],
)
def test_refuses_impossible_chains(length: float, links: float, pitch: float) -> None:
    """Lengths and pitches above zero, whole links."""
    with pytest.raises(ValueError, match="must be"):
        chain.elongation(length, links, pitch)


def test_refuses_inside_out() -> None:
    """The outside measure is the longer one."""
    with pytest.raises(ValueError, match="longer than the inside"):
        chain.length_by_rollers(0.111, 0.095)


def test_names_are_unique() -> None:
    """One row a name."""
    names = [row.name for row in table(ChainSize)]
    assert len(names) == len(set(names))
