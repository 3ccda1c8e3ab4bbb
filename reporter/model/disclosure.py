"""What a version of a report leaves out, by rule, and for which readers the program has such versions."""

from __future__ import annotations

from typing import Literal, get_args

Rule = Literal["names", "author", "places", "boat", "told", "photos", "data"]
"""names: all people but the author, and lines that say by whom; author: the author too; places: where she lies and lay; boat: her
name and numbers; told: what somebody said, and what is known only so; photos: those that hold people or plates; data: the
attached data."""

RULES: tuple[Rule, ...] = get_args(Rule)
AUDIENCES: dict[str, tuple[Rule, ...]] = {
    "buyer": ("names", "told", "photos"),
    "public": ("names", "author", "places", "boat", "told", "photos", "data"),
}
"""Who gets which version. A buyer must know who looked at which boat; the public needs neither."""
VERSION = "version for: "
"""How the keyword of a file begins that names its readers."""
