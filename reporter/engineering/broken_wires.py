"""Broken wires: what each published rule condemns on a given construction, and over which length it counts.

In: a rule of `tables/broken_wire_rules.toml`, the name of a construction, whole counts. Out: the smallest
count that condemns, or whether a count does. It chooses no rule: which one governs is said by the caller and
in the table.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.reference import listed, lookup, row_with, table
from reporter.engineering.rows import BrokenWireRule, Construction, OuterWires

DIAMETERS = {"6d": 6, "8d": 8, "30d": 30}
"""Scopes that are a number of wire diameters long."""


@lookup(Construction)
def construction(name: str) -> Construction:
    """The lay-up of that name ("7x19"). ValueError for one the table does not know."""
    refusal = f"no construction called {name}; known are {listed(Construction, 'name')}"
    return row_with(Construction, refusal, name=name)


@lookup(BrokenWireRule)
def rule(ident: str) -> BrokenWireRule:
    """The rule of that id. ValueError when there is none."""
    return row_with(BrokenWireRule, f"no broken-wire rule called {ident}", id=ident)


@lookup(BrokenWireRule)
def condemning_count(ident: str, construction_name: str) -> int:
    """The smallest number of broken wires, within the rule's scope, that condemns that construction.

    ValueError where the rule does not fit: the crane-rope table speaks of ropes with outer strands.
    """
    found, laid = rule(ident), construction(construction_name)
    if found.reached is not None:
        return found.reached
    if found.more_than is not None:
        return found.more_than + 1
    if found.by_outer_wires:
        row = _outer_wires(laid)
        return row.in_6d if found.by_outer_wires == "in_6d" else row.in_30d
    if found.more_than_share is None:
        msg = f"the rule {ident} gives no count"
        raise ValueError(msg)
    # A share is of the wires of whatever the rule counts in: one strand, or the whole rope.
    wires = laid.wires_per_strand if found.scope == "strand_in_lay" else laid.wires
    # "More than 5 % of 20 wires" is the second wire, not the first: one above the whole part.
    return math.floor(found.more_than_share * wires + 1e-9) + 1


@lookup(BrokenWireRule)
def condemns(ident: str, construction_name: str, counted: int) -> bool:
    """Whether so many broken wires, counted over the rule's own scope, condemn the wire."""
    domain.whole(number_of_broken_wires=counted)
    return counted >= condemning_count(ident, construction_name)


@lookup(BrokenWireRule)
def scope_length(ident: str, diameter: float) -> float | None:
    """The rule's counting length in metres where it is a number of diameters.

    None for a lay, an end or an area.
    """
    domain.positive(wire_diameter=diameter)
    multiple = DIAMETERS.get(rule(ident).scope)
    return None if multiple is None else multiple * diameter


def _outer_wires(laid: Construction) -> OuterWires:
    count = laid.outer_strands * laid.wires_per_strand
    for row in table(OuterWires):
        if row.wires_from <= count <= row.wires_to:
            return row
    msg = f"the crane-rope table has no row for {laid.name} with {count} wires in outer strands"
    raise ValueError(msg)
