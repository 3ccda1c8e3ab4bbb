"""Rudder bearings: clearances of new bearings, and what a class allows in service.

In: metres, newtons. Out: metres, pascals. Ship rules and the yacht handbook lie fifty times apart: whichever
is shown must be named.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import formula


@formula
def new_allowance(stock: float) -> float:
    """Least diametral clearance in metres of a new yacht bearing."""
    domain.positive(stock_diameter=stock)
    return float(0.0073e-3 * (stock * 1000) ** 0.67)


@formula
def new_tolerance(stock: float) -> float:
    """Tolerance in metres on top of the allowance.

    The handbook's worked inch example prints 0.003 in for a 3.75 in stock where its own formula gives 0.0039
    in.
    """
    domain.positive(stock_diameter=stock)
    return float(0.0211e-3 * (stock * 1000) ** 0.34)


@formula
def light_craft_least(stock: float) -> float:
    """Least diametral clearance in metres of a new metal bearing in light craft."""
    domain.positive(stock_diameter=stock)
    return stock / 1000 + 0.001


@formula
def naval_greatest(stock: float) -> float:
    """Greatest clearance in metres that naval survey allows; written for ships."""
    domain.positive(diameter_over_the_liner=stock)
    return 0.005 + 0.002 * stock
