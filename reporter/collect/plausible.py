"""Whether a value is absurd for what it is said to be: the slip of a decimal point, the wrong unit.

In: a value and the range that a plugin declares. Out: None, or what is wrong and what to do. It judges no part.
"""

from __future__ import annotations

from reporter.engineering import units
from reporter.model.quantity import Value


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
