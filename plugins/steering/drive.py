"""What several kinds need of the drive between wheel and quadrant: the sprocket's radius, and values of other parts.

Comes in: Evidence whose needs are those of `chain_needs`. Goes out: values with the sum that led to them, or None where
an input is not known. It judges nothing.
"""

from __future__ import annotations

from reporter.contract import Evidence, Fact, Value, Working
from reporter.engineering import work
from reporter.engineering.mechanics import sprocket_radius

from .chain_sizes import pitch_of


def needed_value(evidence: Evidence, need: str) -> Value | None:
    """The number that a need resolved to, where it is a detail with a number."""
    found = evidence.needed.get(need)
    return found.value if isinstance(found, Fact) else None


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
