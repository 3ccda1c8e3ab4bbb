"""Whether a value is absurd for what it is said to be: the slip of a decimal point, the wrong unit.

In: a value and the range that a plugin declares, or the vessel as read. Out: None, or what is wrong and what to do; for the
vessel also questions, where two sizes do not go together. Her ranges are common practice, wide enough for a dinghy of three
metres and a ship of sixty. It judges no part.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.collect.ledger import Ledger
from reporter.collect.yaml_file import YamlFile
from reporter.engineering import units
from reporter.model.quantity import Value
from reporter.model.sheet import Particulars


def implausible(
    value: Value, title: str, span: tuple[float, float] | None, unit: str
) -> tuple[str, str] | None:
    """What is odd about `value`, `span` being (low, high) in `unit`; None when it is within."""
    if span is None:
        return None
    number = units.from_base(value.value, unit)
    low, high = span
    margin = 1e-9 * max(abs(low), abs(high))  # an inch range met exactly must not fail on the last bit
    if low - margin <= number <= high + margin:
        return None
    shown = value.written if value.unit == unit else f"{value.written} ({_joined(number, unit)})"
    what = f"{title} {shown} is outside {low:g} to {_joined(high, unit)}: is the decimal point right?"
    return what, "Correct the value or its unit."


def _joined(number: float, unit: str) -> str:
    text = f"{number:.0f}" if abs(number) >= 1e5 else f"{number:.5g}"  # noqa: PLR2004 - no powers of ten are shown
    return f"{text}{'' if unit in {'°', ''} else ' '}{'' if unit == '1' else unit}".rstrip()


SIZES: dict[str, tuple[str, tuple[float, float], str]] = {
    "length_overall": ("Length overall", (3, 60), "m"),
    "length_waterline": ("Length on the waterline", (2.5, 60), "m"),
    "beam": ("Beam", (1, 20), "m"),
    "draught": ("Draught", (0.1, 10), "m"),
    "displacement": ("Displacement", (100, 1_000_000), "kg"),
    "righting_moment": ("Righting moment", (200, 20_000_000), "N·m"),
    "sail_area": ("Sail area", (3, 3000), "m²"),
    "miles": ("Miles", (0, 1_000_000), "nmi"),
    "engine_hours": ("Engine hours", (0, 100_000), "h"),
}
"""Key of job.yaml -> what it is called, the least and most that can be, their unit."""
LIGHTEST, HEAVIEST = 0.6, 45.0
"""Kilograms per cubic metre of (length overall)³: a racing boat of foam has about 1, a heavy small one 20."""


def check_vessel_sizes(vessel: Particulars, sheet: YamlFile, ledger: Ledger) -> None:
    """Tell what is out of its range, and ask about what does not go together."""
    told = False
    for key, (title, span, unit) in SIZES.items():
        value = getattr(vessel, key)
        if value is not None and (fault := implausible(value, title, span, unit)):
            sheet.tell(ledger, ("vessel", key), *fault)
            told = True
    for key, what in () if told else _unlike(vessel):
        sheet.ask(ledger, ("vessel", key), what)


def _unlike(vessel: Particulars) -> Iterator[tuple[str, str]]:
    """Sizes that each can be, and not both."""
    overall = vessel.length_overall
    if overall is None:
        return
    for key in ("length_waterline", "beam"):
        other = getattr(vessel, key)
        if other is not None and other.value > overall.value:
            yield (
                key,
                f"{SIZES[key][0]} {other.written} is more than her length overall {overall.written}: which is right?",
            )
    weight = vessel.displacement
    if weight is not None and not LIGHTEST <= weight.value / overall.value**3 <= HEAVIEST:
        yield (
            "displacement",
            f"A displacement of {weight.written} is odd for a length of {overall.written}: which is right?",
        )
