"""Fibre rope: working load, what a knot leaves, diameter loss.

In: newtons, metres, ratios as fractions. Out: the same. A knot's figure is a range; HMPE keeps far less than
it.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.cite import MECHANICS
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import KnotStrength
from reporter.model.citation import Citation

_BREAKING = Symbol("F", "breaking load", "daN")


@formula(
    title="Working load of a rope",
    text="F_w = F / n",
    symbols={"breaking": _BREAKING, "design_factor": Symbol("n", "design factor", "1")},
    result=Symbol("F_w", "working load", "daN"),
    source=Citation(title="trade page on rope", clause="a quarter of the breaking load"),
)
def working_load(breaking: float, design_factor: float) -> float:
    """Working load in newtons.

    4 is printed for general use, 5 to 12 elsewhere, 15 where a life hangs on it.
    """
    domain.positive(breaking_load=breaking)
    domain.at_least(1, design_factor=design_factor)
    return breaking / design_factor


@formula(
    title="Working load with a knot",
    text="F_k = F·k / n",
    symbols={
        "breaking": _BREAKING,
        "kept": Symbol("k", "share of strength the knot keeps", "%"),
        "design_factor": Symbol("n", "design factor", "1"),
    },
    result=Symbol("F_k", "working load with the knot", "daN"),
    source=Citation(title="trade page on rope", clause="knots"),
)
def knotted_load(breaking: float, kept: float, design_factor: float) -> float:
    """Working load in newtons of a rope with a knot in it."""
    domain.between(0, 1, share_kept=kept)
    return working_load(breaking, design_factor) * kept


@formula(
    title="Diameter loss of a rope",
    text="w = (d_n − d) / d_n",
    symbols={"new": Symbol("d_n", "diameter when new", "mm"), "now": Symbol("d", "diameter now", "mm")},
    result=Symbol("w", "diameter loss", "%"),
    source=MECHANICS,
)
def diameter_loss(new: float, now: float) -> float:
    """Diameter lost as a fraction of the diameter when new; negative where the rope has swollen."""
    domain.positive(diameter_when_new=new, diameter_now=now)
    return (new - now) / new


@lookup(KnotStrength)
def knot(name: str) -> KnotStrength:
    """The row of a knot or splice, a range. ValueError for another."""
    for row in table(KnotStrength):
        if row.knot == name:
            return row
    msg = f"no figure for {name}; the table has {', '.join(row.knot for row in table(KnotStrength))}"
    raise ValueError(msg)
