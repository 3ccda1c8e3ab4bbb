"""The conversion factors against NIST SP 811, and the closed list against itself.

NIST Special Publication 811 (2008), Appendix B.8 "Factors for units listed alphabetically" and B.9 "by kind of
quantity"; B.2: a factor in bold face is exact, the others are rounded to the digits given. The rows were read in two
independent transcriptions of the tables (READ, second-hand), which agree; the torques in a third.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import pytest
from pint import UnitRegistry

from reporter.engineering import units
from reporter.model.terms import BASE_UNIT, Dimension

EXACT = {
    "in": 2.54e-2, "ft": 3.048e-1, "nmi": 1.852e3, "in²": 6.4516e-4, "ft²": 9.290304e-2,
    "kgf": 9.80665, "kgf·m": 9.80665, "t": 1.0e3, "bar": 1.0e5,
}  # fmt: skip
ROUNDED = {
    "lbf": 4.448222, "lb": 4.535924e-1, "psi": 6.894757e3, "kn": 5.144444e-1, "km/h": 2.777778e-1,
    "°": 1.745329e-2, "lbf·ft": 1.355818, "lbf·in": 1.129848e-1,
}  # fmt: skip
BY_PREFIX = {
    "mm": 1e-3, "cm": 1e-2, "km": 1e3, "mm²": 1e-6, "cm²": 1e-4, "daN": 10.0, "kN": 1e3, "kN·m": 1e3, "kPa": 1e3,
    "MPa": 1e6, "N/mm²": 1e6, "mV": 1e-3, "%": 1e-2,
}  # fmt: skip
"""SI prefixes: SI Brochure (9th edition), table 7."""
BY_DEFINITION = {"months": 1 / 12, "links": 1.0, "turns": 1.0}
PINT = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "km": "kilometer",
    "in": "inch",
    "ft": "foot",
    "nmi": "nautical_mile",
    "mm²": "millimeter**2",
    "cm²": "centimeter**2",
    "m²": "meter**2",
    "in²": "inch**2",
    "ft²": "foot**2",
    "N": "newton",
    "daN": "decanewton",
    "kN": "kilonewton",
    "kgf": "kilogram_force",
    "lbf": "pound_force",
    "kg": "kilogram",
    "t": "metric_ton",
    "lb": "pound",
    "N·m": "newton*meter",
    "kN·m": "kilonewton*meter",
    "kgf·m": "kilogram_force*meter",
    "lbf·ft": "pound_force*foot",
    "lbf·in": "pound_force*inch",
    "Pa": "pascal",
    "kPa": "kilopascal",
    "MPa": "megapascal",
    "N/mm²": "newton/millimeter**2",
    "bar": "bar",
    "psi": "pound_force_per_square_inch",
    "m/s": "meter/second",
    "km/h": "kilometer/hour",
    "kn": "knot",
    "°": "degree",
    "rad": "radian",
    "%": "percent",
    "months": "month",
    "V": "volt",
    "mV": "millivolt",
}
"""What the units library calls each unit; those that are counts or their own base have no name there."""
LIBRARY: UnitRegistry[Any] = UnitRegistry(non_int_type=Fraction)
THEMSELVES = {"m", "m²", "N", "kg", "N·m", "Pa", "m/s", "rad", "", "1", "years", "h", "V"}


@pytest.mark.parametrize(("unit", "factor"), [*EXACT.items(), *BY_PREFIX.items(), *BY_DEFINITION.items()])
def test_exact_factors_are_exact(unit: str, factor: float) -> None:
    """Not one bit of a foot is lost."""
    assert units.to_base(1.0, unit) == pytest.approx(factor, rel=1e-15)


@pytest.mark.parametrize(("unit", "factor"), ROUNDED.items())
def test_rounded_factors_agree_to_the_last_digit_printed(unit: str, factor: float) -> None:
    """Seven significant digits."""
    assert float(f"{units.to_base(1.0, unit):.6e}") == pytest.approx(factor, rel=1e-12)


def test_every_unit_is_checked_against_something() -> None:
    """A unit added to the list needs its factor here."""
    listed = {unit.name for unit in units.UNITS}
    assert listed == set(EXACT) | set(ROUNDED) | set(BY_PREFIX) | set(BY_DEFINITION) | THEMSELVES
    assert all(units.to_base(1.0, name) == 1.0 for name in THEMSELVES)


@pytest.mark.parametrize("unit", units.UNITS, ids=lambda unit: unit.name or "bare")
def test_there_and_back(unit: units.Unit) -> None:
    """from_base undoes to_base."""
    assert units.from_base(units.to_base(12.7, unit.name), unit.name) == pytest.approx(12.7, rel=1e-15)
    assert units.dimension_of(unit.name) is unit.dimension


@pytest.mark.parametrize(("name", "theirs"), PINT.items())
def test_every_factor_is_that_of_an_independent_library(name: str, theirs: str) -> None:
    """To the last bit, the library reckoning in fractions too."""
    base = {
        "years": "year",
        "": "dimensionless",
        "1": "dimensionless",
        "N·m": "newton*meter",
        "m²": "meter**2",
    }
    wanted = base.get(BASE_UNIT[units.dimension_of(name)], BASE_UNIT[units.dimension_of(name)])
    library: UnitRegistry[Any] = LIBRARY
    factor = float(library.Quantity(Fraction(1), theirs).to(wanted).magnitude)
    assert units.to_base(1.0, name) == pytest.approx(factor, rel=1e-15)


def test_no_spelling_means_two_units_of_one_dimension() -> None:
    """Neither as written nor without regard to capitals (voltages are read exactly: mV is not MV)."""
    for dimension in Dimension:
        spelled: dict[str, str] = {}
        for unit in (each for each in units.UNITS if each.dimension is dimension):
            for text in (unit.name, *unit.spellings):
                key = text if dimension is Dimension.VOLTAGE else text.casefold()
                assert spelled.setdefault(key, unit.name) == unit.name, text


def test_base_units_can_be_named_as_the_model_names_them() -> None:
    """Every dimension's base unit is known and is one of itself."""
    for dimension, name in BASE_UNIT.items():
        assert units.dimension_of(name) is dimension
        assert units.to_base(1.0, name) == 1.0


def test_what_is_not_in_the_list_is_refused() -> None:
    """Not even what the converting library would understand."""
    for name in ("furlong", "nm", "ton", "kilogram", "m*m", "__import__"):
        with pytest.raises(ValueError, match="not a unit of the list"):
            units.to_base(1.0, name)


def test_degrees_are_degrees() -> None:
    """A full circle."""
    assert units.to_base(360.0, "deg") == pytest.approx(2 * math.pi)


def test_spellings_looked_for_in_prose_have_three_letters_or_more() -> None:
    """Two letters stand in too many other words."""
    found = [text for dimension in Dimension for text in units.spellings(dimension)]
    assert min(map(len, found)) == 3
    assert "lbf" in units.spellings(Dimension.FORCE)
    assert "mm" not in units.spellings(Dimension.LENGTH)
