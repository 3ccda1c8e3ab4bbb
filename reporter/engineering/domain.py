"""Refusals in plain words: what a function of the trade's arithmetic may not be fed.

In: a name in plain words and a number in base units. Out: nothing, or a ValueError that says what is wrong.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping


def positive(**numbers: float) -> None:
    """Every number is finite and above zero; the keyword is its name, underscores read as blanks."""
    _all(numbers, lambda number: math.isfinite(number) and number > 0, "must be above zero")


def not_negative(**numbers: float) -> None:
    """Every number is finite and zero or above."""
    _all(numbers, lambda number: math.isfinite(number) and number >= 0, "must not be negative")


def finite(**numbers: float) -> None:
    """Every number is finite, of either sign."""
    _all(numbers, math.isfinite, "must be a finite number")


def at_least(low: float, **numbers: float) -> None:
    """Every number is finite and `low` or more."""
    _all(numbers, lambda number: math.isfinite(number) and number >= low, f"must be {low:g} or more")


def between(low: float, high: float, **numbers: float) -> None:
    """Every number lies from `low` to `high`, both included."""
    _all(numbers, lambda number: low <= number <= high, f"must lie between {low:g} and {high:g}")


def whole(**numbers: float) -> None:
    """Every number counts something: whole and zero or above."""
    _all(
        numbers, lambda number: math.isfinite(number) and number == int(number) >= 0, "must be a whole number"
    )


def _all(numbers: Mapping[str, float], holds: Callable[[float], bool], refusal: str) -> None:
    for name, number in numbers.items():
        if not holds(number):
            msg = f"the {name.replace('_', ' ')} {refusal}"
            raise ValueError(msg)
