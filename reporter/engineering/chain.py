"""Roller chain and sprocket: elongation, pitch diameter, and which size a chain is.

In: metres, whole links and teeth, ratios as fractions. Out: the same. It knows no discard limit of its own:
the limit figures come in as arguments, and the chain strengths from `tables/chain_sizes.toml`.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import ChainSize

FEWEST_TEETH = 6
"""Below this the tooth geometry of a roller-chain sprocket does not exist."""


@formula
def elongation(length: float, links: float, pitch: float) -> float:
    """How much longer a chain is than its nominal length, as a fraction; negative when shorter.

    Lengths in metres, `links` a whole number of pitches. ValueError for a length or pitch not above zero.
    """
    domain.positive(measured_length=length, pitch=pitch)
    _some_links(links)
    return (length - links * pitch) / (links * pitch)


@formula
def length_by_rollers(inside: float, outside: float) -> float:
    """Pin-centre length in metres from the inside and outside measure over the same 6 to 10 links."""
    _inside_out(inside, outside)
    return (inside + outside) / 2


@formula
def elongation_limit(general: float, product: float, teeth: float) -> float:
    """The smaller of the general limit and `product` / teeth, as a fraction.

    The note's product is 200 % (2.0); one print of it has "2.00/N %", a misprint by a hundred.
    """
    domain.positive(general_limit=general, product=product)
    _some_teeth(teeth)
    return min(general, product / teeth)


@formula
def pitch_diameter(pitch: float, teeth: float) -> float:
    """Diameter in metres of the circle through the pin centres."""
    domain.positive(pitch=pitch)
    _some_teeth(teeth)
    return pitch / math.sin(math.pi / teeth)


@lookup(ChainSize)
def size_named(name: str) -> ChainSize:
    """The size of that name, "ANSI 40" or "08B-1". ValueError when the table has none."""
    wanted = name.replace(" ", "").casefold()
    for row in table(ChainSize):
        if row.name.replace(" ", "").casefold() == wanted:
            return row
    known = ", ".join(row.name for row in table(ChainSize))
    msg = f"no chain size called {name}; the table has {known}"
    raise ValueError(msg)


@lookup(ChainSize)
def breaking_force(name: str, *, stainless: bool, marked: float | None = None) -> float:
    """Minimum breaking force in newtons: the marked one where there is one, else the table's.

    The table holds for carbon steel. A stainless chain is weaker, by how much depends on its maker: without a
    marked strength that is a ValueError.
    """
    if marked is not None:
        domain.positive(marked_strength=marked)
        return marked
    # Published stainless strengths lie far below carbon ones and differ by maker: no factor is guessed.
    if stainless:
        msg = "a stainless chain needs its marked strength: the table holds for carbon steel only"
        raise ValueError(msg)
    return size_named(name).min_strength_kn * 1000


def _some_teeth(teeth: float) -> None:
    domain.whole(number_of_teeth=teeth)
    domain.at_least(FEWEST_TEETH, number_of_teeth=teeth)


def _some_links(links: float) -> None:
    domain.whole(number_of_links=links)
    domain.at_least(1, number_of_links=links)


def _inside_out(inside: float, outside: float) -> None:
    domain.positive(inside_measure=inside, outside_measure=outside)
    # Swapped readings would cancel in the mean and pass unseen.
    if outside <= inside:
        msg = "the outside measure must be longer than the inside one"
        raise ValueError(msg)
