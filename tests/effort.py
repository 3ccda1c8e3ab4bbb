"""How much the dear tests try: a spread share in the gate, all of it in a hunt, which sets `GUDGEON_TESTS=whole`.

Where a test draws a share, what it leaves to the hunt differs from what it takes in degree, not in kind.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar

WHOLE = os.environ.get("GUDGEON_TESTS") == "whole"
T = TypeVar("T")


def tries(whole: int, gate: int) -> int:
    """So many examples: the `whole` number in a hunt, `gate` else."""
    return whole if WHOLE else gate


def share(of: Sequence[T], count: int) -> list[T]:
    """All of them in a hunt; else so many, evenly spread."""
    return list(of) if WHOLE else [of[place * len(of) // count] for place in range(count)]
