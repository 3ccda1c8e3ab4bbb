"""Ground tackle and deck gear.

Chain wear, chain strength, outfit by length, loads by wind, blocks and sheets; fibre rope with its working load, what a knot
leaves (a range; HMPE keeps far less than it), its loss of diameter.

In: metres, newtons, pascals, metres per second, radians. Out: the same. Tables are entered at the next larger
printed size and never beyond their ends; which wear rule decides is the caller's to say.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.constants import FOOT, INCH, KILOGRAM_FORCE, KNOT
from reporter.engineering.declaration import formula
from reporter.engineering.reference import listed, lookup, row_with, table
from reporter.engineering.rows import AnchorOutfit, GroundChain, KnotStrength, SlingChain, WindLoad


@formula
def mean_diameter(first: float, second: float) -> float:
    """Mean of two diameters in metres taken at right angles where the link is worn most."""
    domain.positive(first_diameter=first, second_diameter=second)
    return (first + second) / 2


@formula
def chain_wear(size: float, worn: float) -> float:
    """Loss of diameter as a fraction of the size when new."""
    domain.positive(chain_size=size, diameter_now=worn)
    return (size - worn) / size


@formula
def section_left(size: float, worn: float) -> float:
    """Share of the cross-section that a worn link still has."""
    domain.positive(chain_size=size, diameter_now=worn)
    return (worn / size) ** 2


@formula
def eleven_links(length: float, pitch: float) -> float:
    """Stretch as a fraction from the length in metres over eleven links, of a calibrated short-link chain."""
    domain.positive(length=length, pitch=pitch)
    return (length - 11 * pitch) / (11 * pitch)


@formula
def chain_breaking_load(size: float, grade: float) -> float:
    """Breaking load in newtons of both legs of a link; grade 40 is 400 N/mm². Printed tables round it up."""
    domain.positive(chain_size=size, grade=grade)
    return 2 * math.pi / 4 * size**2 * grade


@formula
def block_load(line: float, turn: float) -> float:
    """Load in newtons on a block that turns a line through an angle in radians (0 to half a turn)."""
    domain.not_negative(load_on_the_line=line)
    domain.between(0, math.pi, angle_of_turn=turn)
    return 2 * line * math.sin(turn / 2)


@formula
def genoa_sheet(area: float, wind: float) -> float:
    """Sheet load in newtons."""
    domain.positive(sail_area=area)
    domain.not_negative(wind=wind)
    return 0.02104 * area * (wind / KNOT) ** 2 * KILOGRAM_FORCE


@lookup(AnchorOutfit)
def outfit(length: float) -> AnchorOutfit:
    """The statutory outfit for a mean length in metres: the next larger printed length.

    ValueError above 24 m.
    """
    domain.positive(mean_length=length)
    for row in table(AnchorOutfit):
        # The next larger length: a boat of 11.4 m takes the 12 m outfit.
        if length <= row.length_m + 1e-9:
            return row
    msg = f"the outfit table ends at 24 m; {length:g} m lies beyond it"
    raise ValueError(msg)


@lookup(WindLoad)
def wind_load(length: float, wind: float) -> WindLoad:
    """The row for a boat's length in metres and a printed wind (15, 30, 42, 60 kn, in metres per second).

    Entered at the next larger printed length. The standard also enters by beam and takes what gives more; its
    beam column was not seen, so a beamy boat's load may be higher than the row. ValueError beyond the table.
    """
    domain.positive(length=length, wind=wind)
    for row in table(WindLoad):
        if math.isclose(row.wind_kn, wind / KNOT, rel_tol=1e-6) and length / FOOT <= row.length_ft + 1e-6:
            return row
    msg = "the wind-load table has winds of 15, 30, 42 and 60 kn and lengths up to 60 ft only"
    raise ValueError(msg)


@lookup(SlingChain)
def sling_least(size: float) -> SlingChain:
    """The sling-chain row for a size in metres within 1 % of a printed inch size. ValueError for another."""
    domain.positive(chain_size=size)
    for row in table(SlingChain):
        if abs(size / INCH / row.size_in - 1) <= 0.01:  # noqa: PLR2004 - said in the docstring
            return row
    msg = f"the sling-chain law prints no size of {size * 1000:g} mm"
    raise ValueError(msg)


@lookup(GroundChain)
def ground_chains(size: float, grade: int | None = None) -> tuple[GroundChain, ...]:
    """Every printed chain of a size in metres, of one grade or all.

    10 mm has two pitches, so look at them all.
    """
    domain.positive(chain_size=size)
    return tuple(
        row
        for row in table(GroundChain)
        if math.isclose(row.size_mm, size * 1000, rel_tol=1e-3) and grade in {None, row.grade}
    )


@formula
def wind_share(load: float, breaking: float) -> float:
    """Load over breaking load, both in newtons."""
    return load / breaking


@formula
def size_share(own: float, table: float) -> float:
    """Size aboard in parts of the table's, both in metres."""
    return own / table


@formula
def mass_share(own: float, table: float) -> float:
    """Mass aboard in parts of the table's, both in kilograms."""
    return own / table


@formula
def mean_length(overall: float, waterline: float) -> float:
    """Mean of length overall and waterline length, in metres."""
    return (overall + waterline) / 2


@formula
def sling_share(least: float, law: float) -> float:
    """Least diameter of the link over that of the table, both in metres."""
    return least / law


@formula
def share_of_mark(load: float, marked: float) -> float:
    """Load over marked working load, both in newtons."""
    return load / marked


@formula
def rope_ratio(tread: float, rope: float) -> float:
    """Tread over rope, both in metres."""
    return tread / rope


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
