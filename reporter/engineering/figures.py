"""How many figures a number deserves on paper, so that a printed sum can be reckoned again from what is printed.

In: numbers in the unit they are printed in. Out: decimals, negative for whole tens and hundreds. Results are rounded by
their uncertainty (GUM, JCGM 100:2008, 7.2.6: one or at most two figures of U); exact inputs are printed in full; all
others keep as many figures as the result needs.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from decimal import Decimal

MOST_FIGURES = 6
"""A fraction with more figures than these comes of a conversion or an earlier sum, and has no end worth printing."""

MOST_DECIMALS = 12

SLACK = 0.4
"""How far rounded inputs may move a result, in units of its last printed figure; its own rounding moves it by 0.5."""


def deserved(value: float, expanded: float) -> int:
    """Decimals by U: one figure of it, two where it begins with 1 or 2; three figures of a value without U."""
    if expanded <= 0:
        return 0 if value == int(value) else max(0, 2 - math.floor(math.log10(abs(value))))
    power = math.floor(math.log10(expanded))
    return min(6, -power + (1 if expanded / 10**power < 3 else 0))  # noqa: PLR2004


def in_full(value: float) -> int | None:
    """Decimals that print an exact number to its last figure; None where it has too many of them."""
    number = Decimal(format(value, ".12g")).normalize()
    digits, exponent = number.as_tuple().digits, int(number.as_tuple().exponent)
    return max(0, -exponent) if len(digits) <= MOST_FIGURES or exponent >= 0 else None


def as_printed(value: float, decimals: int) -> float:
    """The number that a reader of the printed figures has."""
    return round(value, decimals)


def for_inputs(
    values: Sequence[float], expanded: Sequence[float], run: Callable[[Sequence[float]], float], last: float
) -> list[int]:
    """Decimals of each input such that `run` on the printed inputs meets `run` on the full ones.

    `last` is one unit of the last figure that the result is printed with. Exact inputs are printed in full; the others
    begin with what their own uncertainty deserves and get a figure more until the result stands.
    """
    full = [None if u > 0 else in_full(value) for value, u in zip(values, expanded, strict=True)]
    start = [deserved(value, u) for value, u in zip(values, expanded, strict=True)]
    true = run(values)
    chosen: list[int] = []
    for more in range(MOST_DECIMALS):
        chosen = [each + more if whole is None else whole for each, whole in zip(start, full, strict=True)]
        rounded = [
            as_printed(value, decimals) if whole is None else value
            for value, decimals, whole in zip(values, chosen, full, strict=True)
        ]
        try:
            if abs(run(rounded) - true) <= SLACK * last:
                break
        except (ValueError, ZeroDivisionError):
            continue  # rounding led out of the domain (a play of 0.04 mm to none)
    return chosen
