"""Rudder bearings: clearances of new bearings, what a class allows in service, surface pressure.

In: metres, newtons. Out: metres, pascals. Ship rules and the yacht handbook lie fifty times apart: whichever
is shown must be named.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.cite import HIGH_SPEED_CRAFT, MECHANICS
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import BearingPressure
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis

_STOCK = Symbol("d", "stock diameter", "mm")
_HANDBOOK = Citation(title="boat mechanical handbook", clause="rudder bearing clearance")


@formula(
    title="Clearance of a new yacht bearing",
    text="a = 0.0073·d^0.67",
    symbols={"stock": _STOCK},
    result=Symbol("a", "least new clearance", "mm"),
    source=_HANDBOOK,
    empirical=True,
)
def new_allowance(stock: float) -> float:
    """Least diametral clearance in metres of a new yacht bearing."""
    domain.positive(stock_diameter=stock)
    return float(0.0073e-3 * (stock * 1000) ** 0.67)


@formula(
    title="Tolerance of a new yacht bearing",
    text="t = 0.0211·d^0.34",
    symbols={"stock": _STOCK},
    result=Symbol("t", "tolerance of the bore", "mm"),
    source=_HANDBOOK,
    empirical=True,
)
def new_tolerance(stock: float) -> float:
    """Tolerance in metres on top of the allowance.

    The handbook's worked inch example prints 0.003 in for a 3.75 in stock where its own formula gives 0.0039
    in.
    """
    domain.positive(stock_diameter=stock)
    return float(0.0211e-3 * (stock * 1000) ** 0.34)


@formula(
    title="Least new clearance, metal bearing of light craft",
    text="c = d / 1000 + 1.0",
    symbols={"stock": _STOCK},
    result=Symbol("c", "least new clearance", "mm"),
    source=Citation(title=HIGH_SPEED_CRAFT, clause="803", basis=LimitBasis.STANDARD),
    empirical=True,
)
def light_craft_least(stock: float) -> float:
    """Least diametral clearance in metres of a new metal bearing in light craft."""
    domain.positive(stock_diameter=stock)
    return stock / 1000 + 0.001


@formula(
    title="Greatest clearance in service, naval ships",
    text="c_max = 5 + 0.002·D",
    symbols={"stock": Symbol("D", "diameter over the liner", "mm")},
    result=Symbol("c_max", "greatest clearance", "mm"),
    source=Citation(title="naval ship survey guidance", clause="Ch 6 3.1.4", basis=LimitBasis.STANDARD),
    empirical=True,
)
def naval_greatest(stock: float) -> float:
    """Greatest clearance in metres that naval survey allows; written for ships."""
    domain.positive(diameter_over_the_liner=stock)
    return 0.005 + 0.002 * stock


@formula(
    title="Bearing clearance",
    text="c = D − d",
    symbols={"bore": Symbol("D", "bore of the bearing", "mm"), "stock": _STOCK},
    result=Symbol("c", "diametral clearance", "mm"),
    source=MECHANICS,
)
def clearance(bore: float, stock: float) -> float:
    """Diametral clearance in metres. ValueError when the bore is smaller than the stock."""
    domain.positive(bore=bore, stock_diameter=stock)
    if bore < stock:
        msg = "the bore is smaller than the stock: one of the two is mismeasured"
        raise ValueError(msg)
    return bore - stock


@formula(
    title="Bearing pressure",
    text="p = F / (d·l)",
    symbols={
        "force": Symbol("F", "force on the bearing", "N"),
        "stock": _STOCK,
        "length": Symbol("l", "bearing length", "mm"),
    },
    result=Symbol("p", "surface pressure", "N/mm²"),
    source=MECHANICS,
)
def pressure(force: float, stock: float, length: float) -> float:
    """Surface pressure in pascals on the projected area."""
    domain.not_negative(force=force)
    domain.positive(stock_diameter=stock, bearing_length=length)
    return force / (stock * length)


@lookup(BearingPressure)
def allowed_pressure(material: str) -> BearingPressure:
    """The row of that bearing material. ValueError for another."""
    for row in table(BearingPressure):
        if row.material == material:
            return row
    known = ", ".join(row.material for row in table(BearingPressure))
    msg = f"no allowed pressure for {material}; the table has {known}"
    raise ValueError(msg)
