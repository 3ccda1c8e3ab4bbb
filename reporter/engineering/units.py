"""The closed list of units: how people write them, what they measure, and their conversion to base units.

In: a number and the name of a unit of the list. Out: a number in the base unit of its dimension
(`reporter.model.terms.BASE_UNIT`), or back. Each factor is an exact fraction built from the definitions of NIST SP 811,
B.8 and B.9; the tests hold every one against a units library's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from reporter.model.terms import BASE_UNIT, Dimension

CENTI, MILLI, KILO = Fraction(1, 100), Fraction(1, 1000), Fraction(1000)
INCH = Fraction("0.0254")
FOOT = 12 * INCH
NAUTICAL_MILE = Fraction(1852)
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
DEGREE = Fraction("3.1415926535897932384626433832795028841971693993751") / 180
"""A float carries 17 of these figures: the fraction rounds to the same number as the exact ratio."""


@dataclass(frozen=True)
class Unit:
    """One unit: the name the program prints, what it measures, how many base units it is, and other spellings of it."""

    name: str
    dimension: Dimension
    factor: Fraction | int
    spellings: tuple[str, ...] = ()


_L, _A, _F, _M, _T = Dimension.LENGTH, Dimension.AREA, Dimension.FORCE, Dimension.MASS, Dimension.TORQUE
_P, _S, _G = Dimension.PRESSURE, Dimension.SPEED, Dimension.ANGLE

UNITS: tuple[Unit, ...] = (
    Unit("mm", _L, MILLI, ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", _L, CENTI, ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", _L, 1, ("metre", "metres", "meter", "meters")),
    Unit("km", _L, KILO, ("kilometre", "kilometres", "kilometer", "kilometers")),
    Unit("in", _L, INCH, ("in.", "inch", "inches", '"', "″", "”", "“", "''", "′′", "’’")),
    Unit("ft", _L, FOOT, ("ft.", "foot", "feet", "'", "′", "’", "‘")),
    Unit("nmi", _L, NAUTICAL_MILE, ("nautical mile", "nautical miles", "NM", "n.mi.", "sea miles")),
    Unit("mm²", _A, MILLI**2, ("mm2", "mm^2", "sq mm")),
    Unit("cm²", _A, CENTI**2, ("cm2", "cm^2", "sq cm")),
    Unit("m²", _A, 1, ("m2", "m^2", "sq m", "sqm", "square metres", "square meters")),
    Unit("in²", _A, INCH**2, ("in2", "in^2", "sq in", "square inches")),
    Unit("ft²", _A, FOOT**2, ("ft2", "ft^2", "sq ft", "sqft", "square feet")),
    Unit("N", _F, 1, ("newton", "newtons")),
    Unit("daN", _F, 10, ("decanewton", "decanewtons")),
    Unit("kN", _F, KILO, ("kilonewton", "kilonewtons")),
    Unit("kgf", _F, GRAVITY, ("kp", "kilopond", "kilogram-force", "kilograms-force")),
    Unit("lbf", _F, POUND * GRAVITY, ("pound-force", "pounds-force")),
    Unit("kg", _M, 1, ("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")),
    Unit("t", _M, KILO, ("tonne", "tonnes")),
    Unit("lb", _M, POUND, ("lb.", "lbs", "lbs.", "pound", "pounds")),
    Unit("N·m", _T, 1, ("Nm", "N.m", "N m", "N*m", "N-m", "newton metres", "newton meters")),
    Unit("kN·m", _T, KILO, ("kNm", "kN.m", "kN m", "kN*m", "kN-m")),
    Unit("kgf·m", _T, GRAVITY, ("kgfm", "kgf.m", "kgf m", "kgf*m", "kgf-m", "mkgf")),
    Unit(
        "lbf·ft",
        _T,
        POUND * GRAVITY * FOOT,
        ("lbf.ft", "lbf ft", "lbf*ft", "lbf-ft", "ft·lbf", "ft-lbf", "ft lbf"),
    ),
    Unit(
        "lbf·in",
        _T,
        POUND * GRAVITY * INCH,
        ("lbf.in", "lbf in", "lbf*in", "lbf-in", "in·lbf", "in-lbf", "in lbf"),
    ),
    Unit("Pa", _P, 1, ("pascal", "pascals")),
    Unit("kPa", _P, KILO, ()),
    Unit("MPa", _P, KILO**2, ()),
    Unit("N/mm²", _P, KILO**2, ("N/mm2", "N/mm^2")),
    Unit("bar", _P, 100 * KILO, ("bars",)),
    Unit("psi", _P, POUND * GRAVITY / INCH**2, ("lbf/in²", "lbf/in2", "lb/in2", "lb/in²")),
    Unit("m/s", _S, 1, ("m per s",)),
    Unit("km/h", _S, Fraction(1000, 3600), ("kmh", "kph")),
    Unit("kn", _S, NAUTICAL_MILE / 3600, ("kt", "kts", "knot", "knots")),
    Unit("°", _G, DEGREE, ("º", "˚", "deg", "deg.", "degs", "degree", "degrees")),
    Unit("rad", _G, 1, ("radian", "radians")),
    Unit("", Dimension.COUNT, 1, ("count", "pcs", "pieces", "off")),
    Unit("links", Dimension.COUNT, 1, ("link",)),
    Unit("turns", Dimension.COUNT, 1, ("turn",)),
    Unit("%", Dimension.RATIO, CENTI, ("percent", "per cent", "pct")),
    Unit("1", Dimension.RATIO, 1, ()),
    Unit("years", Dimension.AGE, 1, ("year", "yr", "yrs", "a")),
    Unit("months", Dimension.AGE, Fraction(1, 12), ("month",)),
    Unit("h", Dimension.HOURS, 1, ("hr", "hrs", "hour", "hours")),
    Unit("V", Dimension.VOLTAGE, 1, ("volt", "volts")),
    Unit("mV", Dimension.VOLTAGE, MILLI, ("millivolt", "millivolts")),
)
"""Every unit there is. `nm` (nautical miles or newton metres?), `ton` and `M` are left out on purpose: see `AMBIGUOUS`."""

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
    base = {BASE_UNIT[unit.dimension]: unit for unit in UNITS if unit.factor == 1}
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
    """How many base units one `name` is: divided once, at the end, so that a foot is 0.3048 m to the last bit."""
    return float(_unit(name).factor)


def to_base(value: float, unit: str) -> float:
    """`value` in `unit`, as base units of its dimension. ValueError for an unknown unit."""
    return value * _factor(unit)


def from_base(value: float, unit: str) -> float:
    """`value` in base units of the dimension of `unit`, as `unit`. ValueError for an unknown unit."""
    return value / _factor(unit)
