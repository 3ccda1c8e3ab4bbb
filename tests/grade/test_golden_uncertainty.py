"""Golden table of merged readings: type A from repeats, type B from instrument and method, expected figures reckoned apart.

By hand after JCGM 100:2008 (GUM): 4.2.2 and 4.2.3 (s and s/√n of repeats), F.2.2.1 with 4.3.7 (resolution: rectangular,
δ/√12), 2.3.6 (a stated U is k·u), 5.1.2 (independent parts add as squares). All repeats lie closer together than the
method accounts for, so that they merge. scipy and numpy stand as a second oracle.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats
from uncertainties import ufloat

from reporter.contract import Dimension, Quantity, Value
from reporter.engineering import units
from reporter.grade.evidence import merge
from reporter.model.job import Reading

BASE = {
    "mm": Dimension.LENGTH,
    "in": Dimension.LENGTH,
    "kN": Dimension.FORCE,
    "°": Dimension.ANGLE,
    "": Dimension.COUNT,
}


def merged(
    repeats: list[float], unit: str, *, u: float = 0.0, resolution: float = 0.0, expected_u: float = 0.0
) -> tuple[float, float]:
    """Mean and standard uncertainty of repeats, everything in `unit`; `u` is as the inspector entered it (k = 1)."""
    quantity = Quantity(
        id="gap", title="Gap", dimension=BASE[unit], unit=unit, method="feeler", plausible=(0, 9), expected_u=expected_u
    )  # fmt: skip
    readings = [
        Reading(
            component="one",
            quantity="gap",
            value=Value(
                dimension=BASE[unit], value=units.to_base(each, unit), u=units.to_base(u, unit), unit=unit
            ),
            resolution=units.to_base(resolution, unit),
        )
        for each in repeats
    ]
    (spot,) = merge(readings, quantity)
    assert spot.repeats == len(repeats)
    return units.from_base(spot.value.value, unit), units.from_base(spot.value.u, unit)


SINGLE = [
    # unit, entered u, resolution, expanded uncertainty of the method, expected u
    ("mm", 0.05, 0.0, 0.0, 0.05),  # entered: stands as it is
    ("mm", 0.05, 1.0, 0.8, 0.05),  # entered: takes the place of instrument and method
    ("mm", 0.0, 0.0, 0.2, 0.1),  # 2.3.6: U = 0.2 with k = 2
    ("mm", 0.0, 0.0, 0.5, 0.25),
    ("mm", 0.0, 1.0, 0.0, 0.288675),  # F.2.2.1: 0.29 of the resolution: 1/√12
    ("mm", 0.0, 0.5, 0.0, 0.144338),  # 0.5/√12
    ("mm", 0.0, 0.1, 0.0, 0.0288675),
    ("mm", 0.0, 0.6, 0.2, 0.2),  # √(0.36/12 + 0.01) = √0.04
    ("mm", 0.0, 1.2, 0.2, 0.360555),  # √(1.44/12 + 0.01) = √0.13
    ("mm", 0.0, 0.3, 0.8, 0.409268),  # √(0.09/12 + 0.16) = √0.1675
    ("in", 0.0, 0.0625, 0.0, 0.0180422),  # a sixteenth over √12
    ("in", 0.0, 0.03, 0.02, 0.01322876),  # √(0.0009/12 + 0.0001) = √0.000175
    ("kN", 0.0, 0.6, 0.4, 0.264575),  # √(0.03 + 0.04) = √0.07
    ("°", 0.0, 1.0, 1.0, 0.577350),  # √(1/12 + 1/4) = √(1/3)
    ("", 0.0, 1.0, 1.0, 0.0),  # a count is what it is: "at least n", no uncertainty
    ("", 0.5, 0.0, 0.0, 0.0),
]


@pytest.mark.parametrize(("unit", "u", "resolution", "method", "expected"), SINGLE)
def test_type_b_of_one_reading(
    unit: str, u: float, resolution: float, method: float, expected: float
) -> None:
    mean, found = merged([3.0], unit, u=u, resolution=resolution, expected_u=method)
    assert mean == pytest.approx(3.0)
    assert found == pytest.approx(expected, rel=3e-6, abs=1e-15)


REPEATS = [
    # readings, type B, mean, standard error, combined
    ([4.0], 0.3, 4.0, 0.0, 0.3),  # one reading has no type A
    ([4.0, 4.0, 4.0], 0.3, 4.0, 0.0, 0.3),  # nor have equal ones
    ([3.9, 4.1], 0.3, 4.0, 0.1, 0.316228),  # s = 0.141421, /√2 = 0.1; √(0.09 + 0.01)
    ([3.8, 4.0, 4.2], 0.3, 4.0, 0.115470, 0.321455),  # s = 0.2, /√3; √(0.09 + 0.04/3)
    ([3.9, 3.9, 4.1, 4.1], 0.2, 4.0, 0.0577350, 0.208167),  # s² = 0.04/3, /4 = 0.01/3; √(0.04 + 0.01/3)
    ([1.0, 1.2, 1.4, 1.6], 0.4, 1.3, 0.1290994, 0.4203173),  # s² = 0.2/3, /4 = 0.05/3; √(0.16 + 0.05/3)
    ([2.0, 2.0, 2.0, 2.0, 2.5], 0.3, 2.1, 0.1, 0.316228),  # s² = 0.2/4, /5 = 0.01; √(0.09 + 0.01)
    ([9.7, 9.8, 9.9, 10.0, 10.1, 10.2, 10.3], 0.25, 10.0, 0.0816497, 0.262996),  # s² = 0.28/6, /7
]


@pytest.mark.parametrize(("readings", "type_b", "mean", "error", "combined"), REPEATS)
def test_repeats_and_instrument_together(
    readings: list[float], type_b: float, mean: float, error: float, combined: float
) -> None:
    """GUM 4.2.3 and 5.1.2; scipy's standard error of the mean and the library `uncertainties` say the same."""
    found = merged(readings, "mm", u=type_b)
    assert found[0] == pytest.approx(mean)
    assert found[1] == pytest.approx(combined, rel=3e-6)
    if error > 0:
        assert stats.sem(readings) == pytest.approx(error, rel=3e-6)
        library = ufloat(np.mean(readings), stats.sem(readings)) + ufloat(0.0, type_b)
        assert found[1] == pytest.approx(library.std_dev)


def test_all_three_parts_together() -> None:
    """3.8, 4.0, 4.2 mm by a rule of 0.9 mm whose method has U = 0.2 mm: √(0.04/3 + 0.81/12 + 0.01) = √0.0908333."""
    found = merged([3.8, 4.0, 4.2], "mm", resolution=0.9, expected_u=0.2)[1]
    assert found == pytest.approx(0.301386, rel=3e-6)


def test_the_largest_type_b_of_the_repeats_counts() -> None:
    """Two instruments at one place: the coarser one's 0.3 mm stands for both, not their mean of 0.2 mm."""
    readings = [
        Reading(component="one", quantity="gap", value=Value(dimension=Dimension.LENGTH, value=4e-3, u=u))
        for u in (1e-4, 3e-4)
    ]
    (spot,) = merge(readings, None)
    assert spot.value.u == pytest.approx(3e-4)


@pytest.mark.parametrize(("resolution", "method"), [(1.0, 0.0), (1.0, 0.6), (0.2, 0.6)])
def test_type_b_against_drawn_readings(resolution: float, method: float) -> None:
    """A Monte Carlo after JCGM 101 6.4.2 and 6.4.7: a rectangle of the resolution's width and a bell of half of U."""
    draw = np.random.default_rng(12)
    drawn = draw.uniform(-resolution / 2, resolution / 2, 400_000) + draw.normal(0, method / 2, 400_000)
    assert merged([3.0], "mm", resolution=resolution, expected_u=method)[1] == pytest.approx(
        float(np.std(drawn)), rel=5e-3
    )


def test_type_a_against_drawn_readings() -> None:
    """Means of four drawn readings spread by what one set of four says on average of its variance."""
    draw = np.random.default_rng(5)
    sets = 5.0 + draw.normal(0, 0.02, (4000, 4))
    squares = [merged(list(each), "mm", u=0.1)[1] ** 2 - 0.01 for each in sets]
    assert float(np.mean(squares)) == pytest.approx(float(np.var(sets.mean(axis=1))), rel=0.06)
