"""The closed list of units: how people write them, what they measure, and their conversion to base units.

In: a number and the name of a unit of the list. Out: a number in the base unit of its dimension
(`reporter.model.terms.BASE_UNIT`), or back. Converting is left to pint, which is imported at the first conversion and
is given only the names below: a person's own text never reaches it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from reporter.model.terms import BASE_UNIT, Dimension

if TYPE_CHECKING:
    from pint import UnitRegistry


@dataclass(frozen=True)
class Unit:
    """One unit: the name the program prints, what it measures, pint's name for it, and other spellings of it."""

    name: str
    dimension: Dimension
    pint: str
    spellings: tuple[str, ...] = ()


_L, _A, _F, _M, _T = Dimension.LENGTH, Dimension.AREA, Dimension.FORCE, Dimension.MASS, Dimension.TORQUE
_P, _S, _G = Dimension.PRESSURE, Dimension.SPEED, Dimension.ANGLE

UNITS: tuple[Unit, ...] = (
    Unit("mm", _L, "millimeter", ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", _L, "centimeter", ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", _L, "meter", ("metre", "metres", "meter", "meters")),
    Unit("km", _L, "kilometer", ("kilometre", "kilometres", "kilometer", "kilometers")),
    Unit("in", _L, "inch", ("in.", "inch", "inches", '"', "″", "”", "“", "''", "′′", "’’")),
    Unit("ft", _L, "foot", ("ft.", "foot", "feet", "'", "′", "’", "‘")),
    Unit("nmi", _L, "nautical_mile", ("nautical mile", "nautical miles", "NM", "n.mi.", "sea miles")),
    Unit("mm²", _A, "millimeter**2", ("mm2", "mm^2", "sq mm")),
    Unit("cm²", _A, "centimeter**2", ("cm2", "cm^2", "sq cm")),
    Unit("m²", _A, "meter**2", ("m2", "m^2", "sq m", "sqm", "square metres", "square meters")),
    Unit("in²", _A, "inch**2", ("in2", "in^2", "sq in", "square inches")),
    Unit("ft²", _A, "foot**2", ("ft2", "ft^2", "sq ft", "sqft", "square feet")),
    Unit("N", _F, "newton", ("newton", "newtons")),
    Unit("daN", _F, "decanewton", ("decanewton", "decanewtons")),
    Unit("kN", _F, "kilonewton", ("kilonewton", "kilonewtons")),
    Unit("kgf", _F, "kilogram_force", ("kp", "kilopond", "kilogram-force", "kilograms-force")),
    Unit("lbf", _F, "pound_force", ("pound-force", "pounds-force")),
    Unit(
        "kg", _M, "kilogram", ("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")
    ),
    Unit("t", _M, "metric_ton", ("tonne", "tonnes")),
    Unit("lb", _M, "pound", ("lb.", "lbs", "lbs.", "pound", "pounds")),
    Unit("N·m", _T, "newton*meter", ("Nm", "N.m", "N m", "N*m", "N-m", "newton metres", "newton meters")),
    Unit("kN·m", _T, "kilonewton*meter", ("kNm", "kN.m", "kN m", "kN*m", "kN-m")),
    Unit("kgf·m", _T, "kilogram_force*meter", ("kgfm", "kgf.m", "kgf m", "kgf*m", "kgf-m", "mkgf")),
    Unit(
        "lbf·ft",
        _T,
        "pound_force*foot",
        ("lbf.ft", "lbf ft", "lbf*ft", "lbf-ft", "ft·lbf", "ft-lbf", "ft lbf"),
    ),
    Unit(
        "lbf·in",
        _T,
        "pound_force*inch",
        ("lbf.in", "lbf in", "lbf*in", "lbf-in", "in·lbf", "in-lbf", "in lbf"),
    ),
    Unit("Pa", _P, "pascal", ("pascal", "pascals")),
    Unit("kPa", _P, "kilopascal", ()),
    Unit("MPa", _P, "megapascal", ()),
    Unit("N/mm²", _P, "newton/millimeter**2", ("N/mm2", "N/mm^2")),
    Unit("bar", _P, "bar", ("bars",)),
    Unit("psi", _P, "pound_force_per_square_inch", ("lbf/in²", "lbf/in2", "lb/in2", "lb/in²")),
    Unit("m/s", _S, "meter/second", ("m per s",)),
    Unit("km/h", _S, "kilometer/hour", ("kmh", "kph")),
    Unit("kn", _S, "knot", ("kt", "kts", "knot", "knots")),
    Unit("°", _G, "degree", ("º", "˚", "deg", "deg.", "degs", "degree", "degrees")),
    Unit("rad", _G, "radian", ("radian", "radians")),
    Unit("", Dimension.COUNT, "", ("count", "pcs", "pieces", "off")),
    Unit("links", Dimension.COUNT, "", ("link",)),
    Unit("turns", Dimension.COUNT, "", ("turn",)),
    Unit("%", Dimension.RATIO, "percent", ("percent", "per cent", "pct")),
    Unit("1", Dimension.RATIO, "", ()),
    Unit("years", Dimension.AGE, "", ("year", "yr", "yrs", "a")),
    Unit("months", Dimension.AGE, "month", ("month",)),
    Unit("h", Dimension.HOURS, "", ("hr", "hrs", "hour", "hours")),
    Unit("V", Dimension.VOLTAGE, "volt", ("volt", "volts")),
    Unit("mV", Dimension.VOLTAGE, "millivolt", ("millivolt", "millivolts")),
)
"""Every unit there is. `nm` (nautical miles or newton metres?), `ton` and `M` are left out on purpose: see `AMBIGUOUS`."""

DEFINITIONS = """
centi- = 1e-2
milli- = 1e-3
deca- = 1e1
kilo- = 1e3 = k-
mega- = 1e6
π = 3.1415926535897932384626433832795028841971693993751
standard_gravity = 9.80665 * meter / second ** 2
meter = [length] = m
second = [time] = s
gram = [mass] = g
ampere = [current]
radian = [] = rad
percent = 0.01
degree = π / 180 * radian
inch = 2.54 * centimeter
foot = 12 * inch
nautical_mile = 1852 * meter
pound = 0.45359237 * kilogram
metric_ton = 1000 * kilogram
hour = 3600 * second
knot = nautical_mile / hour
newton = kilogram * meter / second ** 2 = N
kilogram_force = standard_gravity * kilogram
pound_force = standard_gravity * pound
pound_force_per_square_inch = pound_force / inch ** 2
pascal = newton / meter ** 2 = Pa
bar = 1e5 * pascal
volt = newton * meter / second / ampere = V
""".strip().splitlines()
"""What pint needs to know for `UNITS`, in pint's own language: reading all that it knows would take half a second.

A test holds every factor to be the same number as with pint's own definitions, and to agree with NIST SP 811.
"""

MASS_FOR_FORCE = {"kg": "kgf", "lb": "lbf"}
"""Mass units that a gauge shows where a force is meant; reading them so is told (`Value.note`)."""

MASS_FOR_TORQUE = {
    **dict.fromkeys(("kgm", "kg.m", "kg·m", "kg m", "kg*m", "kg-m", "mkg"), "kgf·m"),
    **dict.fromkeys(
        (
            "ft·lb",
            "ft-lb",
            "ft lb",
            "ft.lb",
            "ft-lbs",
            "ft lbs",
            "lb·ft",
            "lb-ft",
            "lb ft",
            "lb.ft",
            "lbs ft",
        ),
        "lbf·ft",
    ),
    **dict.fromkeys(
        (
            "in·lb",
            "in-lb",
            "in lb",
            "in.lb",
            "in-lbs",
            "in lbs",
            "lb·in",
            "lb-in",
            "lb in",
            "lb.in",
            "lbs in",
        ),
        "lbf·in",
    ),
}
"""The same for torques."""

AMBIGUOUS: dict[str, str] = {
    "nm": "'nm' can mean nautical miles or newton metres: write nmi or N·m",
    "M": "'M' can mean metres or nautical miles: write m or nmi",
    "mile": "a mile can be two lengths: write nmi for nautical miles, or km",
    "miles": "a mile can be two lengths: write nmi for nautical miles, or km",
    "ton": "a ton can be three weights: write t (1000 kg), kg or lb",
    "tons": "a ton can be three weights: write t (1000 kg), kg or lb",
}
"""Spellings that could mean two things, with what to write instead."""


@cache
def _spelled() -> dict[Dimension, dict[str, Unit]]:
    table: dict[Dimension, dict[str, Unit]] = {dimension: {} for dimension in Dimension}
    for unit in UNITS:
        for text in (unit.name, *unit.spellings):
            table[unit.dimension][text] = unit
    return table


@cache
def _folded() -> dict[Dimension, dict[str, Unit]]:
    return {
        dimension: {
            text.casefold(): unit for text, unit in table.items() if unit.dimension is not Dimension.VOLTAGE
        }
        for dimension, table in _spelled().items()
    }


def unit_written(text: str, dimension: Dimension) -> Unit | None:
    """The unit of one dimension that people write as `text` (capitals do not matter there), or None."""
    exact = _spelled()[dimension].get(text)
    if exact or text in AMBIGUOUS:
        return exact
    return _folded()[dimension].get(text.casefold())


def dimensions_written(text: str) -> tuple[Dimension, ...]:
    """Every dimension that has a unit written as `text`."""
    return tuple(dimension for dimension in Dimension if unit_written(text, dimension))


def names(dimension: Dimension) -> tuple[str, ...]:
    """The names of a dimension's units, in the order of the list."""
    return tuple(unit.name for unit in UNITS if unit.dimension is dimension and unit.name not in {"", "1"})


def spellings(dimension: Dimension) -> tuple[str, ...]:
    """Everything longer than two letters that a unit of a dimension may be written as."""
    shortest = 3
    return tuple(text for text in _spelled()[dimension] if len(text) >= shortest)


@cache
def _known() -> dict[str, Unit]:
    # A base unit may be called by its name of the model ("year") as well as by ours ("years").
    base = {BASE_UNIT[unit.dimension]: unit for unit in UNITS if unit.pint == ""}
    return {**base, "deg": _spelled()[_G]["deg"], **{unit.name: unit for unit in UNITS}}


def _unit(name: str) -> Unit:
    unit = _known().get(name)
    if unit is None:
        msg = f"'{name}' is not a unit of the list in reporter.engineering.units"
        raise ValueError(msg)
    return unit


def dimension_of(unit: str) -> Dimension:
    """What a unit measures. ValueError for a name that is not in the list ("" is the bare count)."""
    return _unit(unit).dimension


@cache
def _factor(name: str) -> float:
    """How many base units one `name` is."""
    unit = _unit(name)
    if not unit.pint:
        return 1.0
    if unit.dimension is Dimension.AGE:
        return 1 / 12  # pint takes a twelfth of 365.25 days, which is the same number with a rounding error
    base = {"1": "dimensionless", "N·m": "newton*meter", "m²": "meter**2"}.get(BASE_UNIT[unit.dimension])
    return float(_pint().Quantity(Fraction(1), unit.pint).to(base or BASE_UNIT[unit.dimension]).magnitude)


@cache
def _pint() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    # In floats a foot would be 0.30479999999999996 m.
    return UnitRegistry(DEFINITIONS, non_int_type=Fraction)


def to_base(value: float, unit: str) -> float:
    """`value` in `unit`, as base units of its dimension. ValueError for an unknown unit."""
    return value * _factor(unit)


def from_base(value: float, unit: str) -> float:
    """`value` in base units of the dimension of `unit`, as `unit`. ValueError for an unknown unit."""
    return value / _factor(unit)
