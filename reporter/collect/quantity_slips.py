"""What people write for a quantity that is none, and what each of them should write instead.

In: the text that could not be read and the dimension that is due. Out: an `UnreadableError` that says what is wrong and
what to do. It reads nothing itself.
"""

from __future__ import annotations

import re

from reporter.collect.ledger import nearest
from reporter.engineering import units
from reporter.model.terms import Dimension

DUE = {
    Dimension.LENGTH: "a length",
    Dimension.AREA: "an area",
    Dimension.FORCE: "a force",
    Dimension.MASS: "a weight",
    Dimension.TORQUE: "a torque",
    Dimension.PRESSURE: "a pressure",
    Dimension.SPEED: "a speed",
    Dimension.ANGLE: "an angle",
    Dimension.COUNT: "a number of things",
    Dimension.RATIO: "a share or ratio",
    Dimension.AGE: "an age",
    Dimension.HOURS: "running hours",
    Dimension.VOLTAGE: "a voltage",
}
EXAMPLE = {
    Dimension.LENGTH: "12.7 mm", Dimension.AREA: "54 m²", Dimension.FORCE: "120 N", Dimension.MASS: "6500 kg",
    Dimension.TORQUE: "35 N·m", Dimension.PRESSURE: "2 bar", Dimension.SPEED: "6.5 kn", Dimension.ANGLE: "35°",
    Dimension.COUNT: "3", Dimension.RATIO: "1.5 %", Dimension.AGE: "12 years", Dimension.HOURS: "1450 h",
    Dimension.VOLTAGE: "12.6 V",
}  # fmt: skip

_VAGUE = re.compile(r"~|≈|<|>|≤|≥|about|approx|ca\b|ca\.|circa|max|min|over|under|nearly", re.IGNORECASE)
_SLIPS: tuple[tuple[str, frozenset[Dimension], str, str], ...] = (
    (r"[eE][-+]?[0-9]|[x×*^]", frozenset(Dimension), "is written with a power or a product",
     "Write the number in full, as in 1270 mm."),
    (r"(?:-|to|\.\.|…) ?[0-9]", frozenset(Dimension), "holds two numbers",
     "Write one number, or the middle and ±, as in '11 ± 1 mm'."),
    (r"(?:°|º|˚|deg\w*) ?[0-9]", frozenset({Dimension.ANGLE}), "is written in degrees and minutes",
     "Write degrees with a decimal, as in 12.5°."),
    (r"(?:ft\.?|feet|foot|'|′|’) ?[0-9]", frozenset({Dimension.LENGTH}), "ends without a unit",
     "Write feet and inches as in '6 ft 4 1/2 in'."),
)  # fmt: skip
"""What follows the first number, where it is due, what that means, and what to do."""


class UnreadableError(ValueError):
    """Raised for a text that is no quantity of the kind that is due; carries what is wrong and what to do."""

    def __init__(self, what: str, do: str) -> None:
        super().__init__(what)
        self.what = what
        self.do = do


def no_amount(text: str, dimension: Dimension) -> UnreadableError:
    """What to say of a text that does not begin with a plain number."""
    if _VAGUE.match(text):
        return UnreadableError(
            f"'{text}' is not one plain number.",
            "Write the number alone; how well it is known goes after ± ('12.7 ± 0.2 mm') or into the note.",
        )
    example = EXAMPLE[dimension]
    return UnreadableError(
        f"'{text}' is no number that can be read here.", f"Write {DUE[dimension]} such as '{example}'."
    )


def no_unit(spelled: str, text: str, dimension: Dimension) -> UnreadableError:
    """What to say of `spelled`, which follows the number in `text` and is no unit of the dimension."""
    for pattern, dimensions, what, do in _SLIPS:
        if dimension in dimensions and re.match(pattern, spelled):
            return UnreadableError(f"'{text}' {what}.", do)
    if spelled in units.AMBIGUOUS:
        what, _, do = units.AMBIGUOUS[spelled].partition(": ")
        return UnreadableError(f"{what[0].upper()}{what[1:]}.", f"{do[0].upper()}{do[1:]}.")
    possible = f"Units for {DUE[dimension]}: {', '.join(units.names(dimension))}."
    if dimension is Dimension.COUNT:
        possible = "Write the number alone."
    others = units.dimensions_written(spelled)
    if others:
        what = f"'{spelled}' is for {DUE[others[0]]}, but {DUE[dimension]} is due here."
        return UnreadableError(what, possible)
    near = nearest(spelled, units.spellings(dimension))
    hint = f"Did you mean {near}? " if near else ""
    return UnreadableError(f"'{spelled}' in '{text}' is no unit that can stand here.", hint + possible)
