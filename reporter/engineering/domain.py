"""Refusals in plain words: what a function of the trade's arithmetic may not be fed.

In: a name in plain words and a number in base units. Out: nothing, or a ValueError that says what is wrong.
"""

from __future__ import annotations

import math


def positive(**numbers: float) -> None:
    """Every number is finite and above zero; the keyword is its name, underscores read as blanks."""
    for name, number in numbers.items():
        if not (math.isfinite(number) and number > 0):
            msg = f"{_words(name)} must be above zero"
            raise ValueError(msg)


def not_negative(**numbers: float) -> None:
    """Every number is finite and zero or above."""
    for name, number in numbers.items():
        if not (math.isfinite(number) and number >= 0):
            msg = f"{_words(name)} must not be negative"
            raise ValueError(msg)


def finite(**numbers: float) -> None:
    """Every number is finite, of either sign."""
    for name, number in numbers.items():
        if not math.isfinite(number):
            msg = f"{_words(name)} must be a finite number"
            raise ValueError(msg)


def at_least(low: float, **numbers: float) -> None:
    """Every number is finite and `low` or more."""
    for name, number in numbers.items():
        if not (math.isfinite(number) and number >= low):
            msg = f"{_words(name)} must be {low:g} or more"
            raise ValueError(msg)


def between(low: float, high: float, **numbers: float) -> None:
    """Every number lies from `low` to `high`, both included."""
    for name, number in numbers.items():
        if not low <= number <= high:
            msg = f"{_words(name)} must lie between {low:g} and {high:g}"
            raise ValueError(msg)


def whole(**numbers: float) -> None:
    """Every number counts something: whole and zero or above."""
    for name, number in numbers.items():
        if not (math.isfinite(number) and number >= 0 and number == int(number)):
            msg = f"{_words(name)} must be a whole number"
            raise ValueError(msg)


def _words(name: str) -> str:
    return f"the {name.replace('_', ' ')}"
