"""Lifelines: wire by length of boat, and the sag test with the force that it is defined for.

In: metres, newtons. Out: metres, newtons, rows of the tables. The rules were written for racing.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import LifelineWire, PublishedFigure

_SAME_FORCE = 0.02
"""A test force this near to the rule's, as a fraction, is the rule's."""


@lookup(LifelineWire)
def wire_for_length(length: float) -> LifelineWire:
    """The row for a length overall in metres."""
    domain.positive(length_overall=length)
    for row in table(LifelineWire):
        above = length >= row.longer_than_m if row.longer_included else length > row.longer_than_m
        below = row.up_to_m is None or length < row.up_to_m or (row.up_to_included and length == row.up_to_m)
        if above and below:
            return row
    msg = f"no lifeline rule for a length of {length:g} m"
    raise ValueError(msg)


@lookup(PublishedFigure)
def sag_limit(force: float, *, upper: bool) -> PublishedFigure:
    """The sag yardstick for the upper or an intermediate line.

    ValueError when the test was made with another force than the rule's: its sag says nothing against this
    limit.
    """
    rows = {row.id: row for row in table(PublishedFigure)}
    # The force is part of the rule: 51 mm under 50 N proves nothing, nor does 49 mm under 30 N.
    rule_force = rows["lifeline.test_force"].value
    if abs(force / rule_force - 1) > _SAME_FORCE:
        msg = f"the sag limit holds for a force of {rule_force:g} N, not for {force:g} N: test again"
        raise ValueError(msg)
    return rows["lifeline.upper_sag" if upper else "lifeline.intermediate_sag"]


@formula
def inset_by_beam(share: float, beam: float) -> float:
    """Inset in metres that a share of the beam comes to."""
    return share * beam
