"""Two metals in sea water: how far apart they stand, and which of them suffers.

In: names of the galvanic table, volts. Out: volts, a row. Only potentials against one reference electrode are
compared.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, row_with, table
from reporter.engineering.rows import Galvanic


@formula
def difference(first: float, second: float) -> float:
    """Difference in volts between two potentials against the same electrode."""
    domain.finite(first_potential=first, second_potential=second)
    return abs(first - second)


@lookup(Galvanic)
def potential(metal: str, reference: str = "Ag/AgCl") -> Galvanic:
    """The row of a metal against a reference electrode.

    ValueError for one that was not seen in that table.
    """
    known = ", ".join(row.metal for row in table(Galvanic) if row.reference == reference)
    refusal = f"no potential of {metal} against {reference}; the table has {known}"
    return row_with(Galvanic, refusal, metal=metal, reference=reference)


@lookup(Galvanic)
def anode(first: str, second: str, reference: str = "Ag/AgCl") -> Galvanic:
    """The row of the metal of the two that suffers: the one with the lower potential."""
    return min(potential(first, reference), potential(second, reference), key=lambda row: row.potential_mv)
