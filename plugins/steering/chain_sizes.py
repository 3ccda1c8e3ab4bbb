"""Named sizes of steering chain, and the pitch that a size or a measure tells.

Comes in: details of a chain. Goes out: names and values; None where neither size nor pitch is known.
"""

from __future__ import annotations

from reporter.contract import Dimension, Fact, Value
from reporter.engineering import units
from reporter.engineering.chain import size_named

SIZES = {
    name.lower().replace(" ", "_").replace("-", "_"): name
    for name in ("ANSI 35", "ANSI 40", "ANSI 41", "ANSI 50", "ANSI 60", "06B-1", "08B-1", "10B-1", "12B-1")
}


def pitch_of(size: Fact | None, pitch: Fact | None) -> Value | None:
    """Pitch by the chain's named size, else as measured; 40, 41 and 08B share one, so no name is made of it."""
    if size and size.choice in SIZES:
        millimetres = size_named(SIZES[size.choice]).pitch_mm
        return Value(dimension=Dimension.LENGTH, value=units.to_base(millimetres, "mm"), unit="mm")
    return pitch.value if pitch else None
