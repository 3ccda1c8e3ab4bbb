"""What several kinds need of the drive between wheel and quadrant: named sizes of chain, the sprocket's radius, the force at the rim.

Comes in: Evidence whose needs are those of `chain_needs`. Goes out: values with the sum that led to them, or None where
an input is not known. It judges nothing.
"""

from __future__ import annotations

from collections.abc import Iterable

from reporter.contract import Dimension, Evidence, Fact, Limit, MeasurementPoint, Value, Working
from reporter.engineering import units, work
from reporter.engineering.chain import size_named
from reporter.engineering.mechanics import sprocket_radius

SIZES = {
    name.lower().replace(" ", "_").replace("-", "_"): name
    for name in ("ANSI 35", "ANSI 40", "ANSI 41", "ANSI 50", "ANSI 60", "06B-1", "08B-1", "10B-1", "12B-1")
}


def needed_value(evidence: Evidence, need: str) -> Value | None:
    """The number that a need resolved to, where it is a detail with a number."""
    found = evidence.needed.get(need)
    return found.value if isinstance(found, Fact) else None


def largest(spots: Iterable[MeasurementPoint]) -> Value | None:
    """The largest value read; None where nothing was."""
    return max((spot.value for spot in spots), key=lambda value: value.value, default=None)


def kept_up(limit: Limit) -> Value:
    """The helm force that can be kept up, for a sum."""
    return Value(dimension=Dimension.FORCE, value=units.to_base(limit.value, limit.unit), unit=limit.unit)


def half(diameter: Value) -> Value:
    """The radius; its uncertainty is halved with it."""
    return diameter.model_copy(update={"value": diameter.value / 2, "u": diameter.u / 2, "written": ""})


def chain_pitch(evidence: Evidence) -> Value | None:
    """The pitch of the needed chain, by its size or as measured."""
    size, pitch = (evidence.needed.get(need) for need in ("chain_size", "chain_pitch"))
    return pitch_of(size if isinstance(size, Fact) else None, pitch if isinstance(pitch, Fact) else None)


def sprocket(evidence: Evidence) -> tuple[Value, Working] | None:
    """Pitch radius of the sprocket with its sum; None when pitch or teeth are not known."""
    pitch, teeth = chain_pitch(evidence), needed_value(evidence, "teeth")
    if pitch is None or teeth is None:
        return None
    return work(sprocket_radius, {"pitch": pitch, "teeth": teeth})


def pitch_of(size: Fact | None, pitch: Fact | None) -> Value | None:
    """Pitch by the chain's named size, else as measured; 40, 41 and 08B share one, so no name is made of it."""
    if size and size.choice in SIZES:
        millimetres = size_named(SIZES[size.choice]).pitch_mm
        return Value(dimension=Dimension.LENGTH, value=units.to_base(millimetres, "mm"), unit="mm")
    return pitch.value if pitch else None
