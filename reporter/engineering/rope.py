"""Fibre rope: working load, what a knot leaves, diameter loss.

In: newtons, metres, ratios as fractions. Out: the same. A knot's figure is a range; HMPE keeps far less than
it.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import listed, lookup, row_with
from reporter.engineering.rows import KnotStrength


@formula
def working_load(breaking: float, design_factor: float) -> float:
    """Working load in newtons.

    4 is printed for general use, 5 to 12 elsewhere, 15 where a life hangs on it.
    """
    domain.positive(breaking_load=breaking)
    domain.at_least(1, design_factor=design_factor)
    return breaking / design_factor


@formula
def strength_at_knot(breaking: float, kept: float) -> float:
    """Breaking load in newtons of a rope with a knot or splice in it."""
    return breaking * kept


@formula
def knotted_load(breaking: float, kept: float, design_factor: float) -> float:
    """Working load in newtons of a rope with a knot in it."""
    domain.between(0, 1, share_kept=kept)
    return working_load(breaking, design_factor) * kept


@formula
def diameter_loss(new: float, now: float) -> float:
    """Diameter lost as a fraction of the diameter when new; negative where the rope has swollen."""
    domain.positive(diameter_when_new=new, diameter_now=now)
    return (new - now) / new


@lookup(KnotStrength)
def knot(name: str) -> KnotStrength:
    """The row of a knot or splice, a range. ValueError for another."""
    refusal = f"no figure for {name}; the table has {listed(KnotStrength, 'knot')}"
    return row_with(KnotStrength, refusal, knot=name)


@formula
def tail_in_diameters(tail: float, diameter: float) -> float:
    """Length of a tail in parts of the rope's diameter, both in metres."""
    return tail / diameter
