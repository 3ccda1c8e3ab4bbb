"""Roller chain and sprocket: elongation, pitch and outside diameter, travel, and which size a chain is.

In: metres, whole links and teeth, ratios as fractions. Out: the same. It knows no discard limit of its own:
the limit figures come in as arguments, and the chain strengths from `tables/chain_sizes.toml`.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import ChainSize
from reporter.model.citation import Citation
from reporter.model.terms import SourceStatus

FEWEST_TEETH = 6
"""Below this the tooth geometry of a roller-chain sprocket does not exist."""

_SAME_PITCH = 0.02
"""A pitch this near to a size's, as a fraction, could be that size: a worn chain reads up to 3 % long."""

_TRADE_NOTE = Citation(title="trade page on measuring chain wear", clause="inside and outside of rollers")
_TRADE_TABLE = Citation(title="trade table of sprocket diameters", clause="pitch diameter")
_GEOMETRY = Citation(title="geometry of chain and sprocket", status=SourceStatus.DERIVED)

_PITCH = Symbol("p", "pitch", "mm")
_TEETH = Symbol("z", "teeth of the sprocket", "")


@formula(
    title="Chain elongation",
    text="e = (L − n·p) / (n·p)",
    symbols={
        "length": Symbol("L", "length measured, pin centre to pin centre", "mm"),
        "links": Symbol("n", "number of pitches measured over", ""),
        "pitch": _PITCH,
    },
    result=Symbol("e", "elongation", "%"),
    source=Citation(title="trade page on measuring chain wear", clause="pin centre to pin centre"),
)
def elongation(length: float, links: float, pitch: float) -> float:
    """How much longer a chain is than its nominal length, as a fraction; negative when shorter.

    Lengths in metres, `links` a whole number of pitches. ValueError for a length or pitch not above zero.
    """
    domain.positive(measured_length=length, pitch=pitch)
    _some_links(links)
    return (length - links * pitch) / (links * pitch)


@formula(
    title="Chain length by rollers",
    text="L = (L₁ + L₂) / 2",
    symbols={
        "inside": Symbol("L₁", "length between the insides of the end rollers", "mm"),
        "outside": Symbol("L₂", "length over the outsides of the end rollers", "mm"),
    },
    result=Symbol("L", "length, pin centre to pin centre", "mm"),
    source=_TRADE_NOTE,
)
def length_by_rollers(inside: float, outside: float) -> float:
    """Pin-centre length in metres from the inside and outside measure over the same 6 to 10 links."""
    _inside_out(inside, outside)
    return (inside + outside) / 2


@formula(
    title="Roller diameter implied by the two measures",
    text="d = (L₂ − L₁) / 2",
    symbols={
        "inside": Symbol("L₁", "length between the insides of the end rollers", "mm"),
        "outside": Symbol("L₂", "length over the outsides of the end rollers", "mm"),
    },
    result=Symbol("d", "roller diameter", "mm"),
    source=_GEOMETRY,
)
def roller_implied(inside: float, outside: float) -> float:
    """Roller diameter in metres that the two measures imply: a check on the measuring itself."""
    _inside_out(inside, outside)
    return (outside - inside) / 2


@formula(
    title="Elongation limit by the larger sprocket",
    text="e_max = min(e_g, k / N)",
    symbols={
        "general": Symbol("e_g", "general elongation limit", "%"),
        "product": Symbol("k", "elongation limit times number of teeth", "%"),
        "teeth": Symbol("N", "teeth of the larger sprocket", ""),
    },
    result=Symbol("e_max", "elongation limit", "%"),
    source=Citation(
        title="chain-maker technical note on wear limits", clause="3 %, or 200 / N % above about 67 teeth"
    ),
)
def elongation_limit(general: float, product: float, teeth: float) -> float:
    """The smaller of the general limit and `product` / teeth, as a fraction.

    The note's product is 200 % (2.0); one print of it has "2.00/N %", a misprint by a hundred.
    """
    domain.positive(general_limit=general, product=product)
    _some_teeth(teeth)
    return min(general, product / teeth)


@formula(
    title="Sprocket pitch diameter",
    text="d = p / sin(180° / z)",
    symbols={"pitch": _PITCH, "teeth": _TEETH},
    result=Symbol("d", "pitch diameter", "mm"),
    source=_TRADE_TABLE,
)
def pitch_diameter(pitch: float, teeth: float) -> float:
    """Diameter in metres of the circle through the pin centres."""
    domain.positive(pitch=pitch)
    _some_teeth(teeth)
    return pitch / math.sin(math.pi / teeth)


@formula(
    title="Sprocket outside diameter",
    text="d_o = p·(0.6 + 1 / tan(180° / z))",
    symbols={"pitch": _PITCH, "teeth": _TEETH},
    result=Symbol("d_o", "outside diameter of a new sprocket", "mm"),
    source=Citation(title="trade table of sprocket diameters", clause="outside diameter"),
)
def outside_diameter(pitch: float, teeth: float) -> float:
    """Diameter in metres over the tooth tips of a new sprocket."""
    domain.positive(pitch=pitch)
    _some_teeth(teeth)
    return pitch * (0.6 + 1 / math.tan(math.pi / teeth))


@formula(
    title="Sprocket root diameter",
    text="d_f = p / sin(180° / z) − d_r",
    symbols={"pitch": _PITCH, "teeth": _TEETH, "roller": Symbol("d_r", "roller diameter", "mm")},
    result=Symbol("d_f", "root diameter of a new sprocket", "mm"),
    source=Citation(title="trade table of sprocket diameters", clause="root diameter"),
)
def root_diameter(pitch: float, teeth: float, roller: float) -> float:
    """Diameter in metres at the bottom of the tooth gaps of a new sprocket."""
    domain.positive(roller_diameter=roller)
    root = pitch_diameter(pitch, teeth) - roller
    if root <= 0:
        msg = "the roller does not fit this sprocket"
        raise ValueError(msg)
    return root


@formula(
    title="Chain travel",
    text="s = n_w·z·p",
    symbols={"turns": Symbol("n_w", "turns of the wheel", ""), "teeth": _TEETH, "pitch": _PITCH},
    result=Symbol("s", "chain travel", "mm"),
    source=_GEOMETRY,
)
def travel(turns: float, teeth: float, pitch: float) -> float:
    """Length of chain in metres that passes the sprocket in so many turns (part turns allowed)."""
    domain.not_negative(turns=turns)
    domain.positive(pitch=pitch)
    _some_teeth(teeth)
    return turns * teeth * pitch


@formula(
    title="Links that pass the sprocket",
    text="n = n_w·z",
    symbols={"turns": Symbol("n_w", "turns of the wheel", ""), "teeth": _TEETH},
    result=Symbol("n", "links", ""),
    source=_GEOMETRY,
)
def links_passing(turns: float, teeth: float) -> float:
    """How many links pass the sprocket in so many turns: the worn part of a steering chain."""
    domain.not_negative(turns=turns)
    _some_teeth(teeth)
    return turns * teeth


@lookup(ChainSize)
def sizes_of_pitch(pitch: float) -> tuple[ChainSize, ...]:
    """Every size of the table that a chain of this pitch (metres) could be; none is an empty tuple."""
    domain.positive(pitch=pitch)
    return tuple(row for row in table(ChainSize) if abs(pitch * 1000 / row.pitch_mm - 1) <= _SAME_PITCH)


@lookup(ChainSize)
def size_of_pitch(pitch: float) -> ChainSize:
    """The one size of that pitch (metres). ValueError when several share it, naming them.

    Strengths differ by half.
    """
    found = sizes_of_pitch(pitch)
    if len(found) == 1:
        return found[0]
    if not found:
        msg = f"no chain of the table has a pitch of {pitch * 1000:g} mm"
        raise ValueError(msg)
    names = ", ".join(f"{row.name} ({row.min_strength_kn:g} kN)" for row in found)
    msg = f"a pitch of {pitch * 1000:g} mm does not tell the chain: it could be {names}; look for the stamp"
    raise ValueError(msg)


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
