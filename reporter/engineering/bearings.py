"""Rudder bearings: clearances of new bearings, and what a class allows in service.

In: metres, newtons. Out: metres, pascals. Ship rules and the yacht handbook lie fifty times apart: whichever
is shown must be named.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.cite import HIGH_SPEED_CRAFT
from reporter.engineering.declaration import Symbol, formula
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
