"""The grammar of a quantity: what a person writes ("1 3/16 in", "12,7 mm", "254.0 ± 0.5 mm") to a `Value`.

In: a short text and the dimension that is due. Out: a `Value` in the base unit with the text as written, or
`UnreadableError`, which says what is wrong and what to write. Nothing is evaluated and nothing is guessed; a text that
could mean two numbers is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from reporter.collect.quantity_slips import DUE, UnreadableError, no_amount, no_unit
from reporter.engineering import units
from reporter.engineering.units import Unit
from reporter.model.quantity import Value
from reporter.model.terms import Dimension

LONGEST = 60
MOST_DIGITS = 15
COVERAGE = 2.0
"""Uncertainties are written expanded with k = 2 (JCGM 100:2008, 6.2 and 6.3); a `Value` keeps half of it."""

SIGNED = {Dimension.ANGLE, Dimension.VOLTAGE}
_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_SAME = str.maketrans(
    {
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "\u2212": "-",
        "\u2013": "-",
        "\u2044": "/",
        "\u22c5": "\u00b7",
    }
)
_AMOUNT = re.compile(
    r"(?P<sign>[-+] ?)?"
    r"(?P<number>[0-9]+[ -][0-9]+ ?/ ?[0-9]+|[0-9]+ ?/ ?[0-9]+|[0-9][0-9., ]*[0-9]|[0-9]|[.,][0-9]+)"
    r" ?(?P<unit>[^0-9 ].*)?"
)
_FEET = r" ?(?:ft\.?|feet|foot|'|′|’)"
_INCHES = r" ?(?:in\.?|inch|inches|\"|″|”|''|′′)"
_FEET_INCHES = re.compile(
    rf"(?P<feet>[0-9]+){_FEET}[ -]*(?P<inches>[0-9][0-9 ./-]*?){_INCHES}", re.IGNORECASE
)
_MIXED = re.compile(r"(?:(?P<whole>[0-9]+)[ -])?(?P<over>[0-9]+) ?/ ?(?P<under>[0-9]+)")
_BRACKETS = re.compile(r"\(([^()]*(?:±|\+/?-)[^()]*)\) ?(?=[^ ])")


@dataclass(frozen=True)
class WrittenAmount:
    """A number and the unit that was written with it (None: no unit)."""

    number: float
    unit: Unit | None
    note: str = ""


def read_quantity(text: str, dimension: Dimension, *, bare: str | None = None) -> Value:
    """The `Value` that `text` says: base unit, standard uncertainty, written text, unit as written.

    `bare` is the unit meant when none is written; without it a number alone is refused, but for counts. A part
    after "±" is the expanded uncertainty (k = 2), in its own unit, in the unit before it, or in per cent of the
    value. Raises `UnreadableError`.
    """
    written = text.strip()
    before, plus_minus, after = _split(written)
    amount = _feet_and_inches(before, dimension) or _amount(before, dimension)
    spread = _spread(after, dimension, written) if plus_minus else None
    unit = amount.unit or _unit_after(spread, dimension) or _bare_unit(written, dimension, bare)
    _check_whole(amount.number, unit, written)
    value = units.to_base(amount.number, unit.name)
    expanded = _expanded(spread, value, unit) if spread else 0.0
    note = amount.note or (spread.note if spread else "")
    return Value(
        dimension=dimension, value=value, u=expanded / COVERAGE, written=written, unit=unit.name, note=note
    )


def read_uncertainty(text: str, value: Value) -> Value:
    """`value` with the expanded uncertainty that `text` says (own unit, the value's unit, or per cent of the value)."""
    tidy = _tidy(text.strip()).removeprefix("±").removeprefix("+/-").strip()
    spread = _spread(tidy, value.dimension, text)
    unit = _unit_after(spread, value.dimension) or _bare_unit(text, value.dimension, value.unit)
    return value.model_copy(update={"u": _expanded(spread, value.value, unit) / COVERAGE})


def _unit_after(spread: WrittenAmount | None, dimension: Dimension) -> Unit | None:
    """The unit of "254.0 ± 0.5 mm", which holds for both numbers."""
    return spread.unit if spread and spread.unit and spread.unit.dimension is dimension else None


def has_unit(text: str) -> bool:
    """Whether something beside digits and number signs is written."""
    return re.search(r"[^0-9\s.,/+\-\u2212\u2013\u2044\u00b1()½¼¾⅛⅜⅝⅞⅓⅔]", text) is not None


def _tidy(text: str) -> str:
    """One kind of space, dash and fraction; refuses what is absurdly long."""
    if len(text) > LONGEST:
        raise UnreadableError(
            f"A text of {len(text)} characters is no quantity.", "Write one number and its unit."
        )
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, f" {plain}")
    return " ".join(text.translate(_SAME).split())


def _split(text: str) -> tuple[str, str, str]:
    tidy = _BRACKETS.sub(r"\1 ", _tidy(text)).replace("+/-", "±").replace("+-", "±")
    if not tidy:
        raise UnreadableError(
            "Nothing is written here.", "Write a number and its unit, or take the line out."
        )
    before, sign, after = tidy.partition("±")
    return before.strip(), sign, after.strip()


def _feet_and_inches(text: str, dimension: Dimension) -> WrittenAmount | None:
    found = _FEET_INCHES.fullmatch(text) if dimension is Dimension.LENGTH else None
    if not found:
        return None
    inches = _number(found["inches"].strip(), text)
    if inches >= 12:  # noqa: PLR2004 - inches in a foot
        raise UnreadableError(
            f"'{text}' has {inches:g} inches after the feet; a foot has 12.", "Correct feet or inches."
        )
    return WrittenAmount(12 * _number(found["feet"], text) + inches, units.unit_written("in", dimension))


def _amount(text: str, dimension: Dimension) -> WrittenAmount:
    """One number with its unit, or without."""
    found = _AMOUNT.fullmatch(text)
    if not found:
        raise no_amount(text, dimension)
    number = _number(found["number"], text)
    unit, note = _unit(found["unit"], text, dimension) if found["unit"] else (None, "")
    if found["sign"] and dimension not in SIGNED:
        raise UnreadableError(
            f"'{text}' has a sign, but {DUE[dimension]} has none.", f"Write '{text.lstrip('+- ')}'."
        )
    return WrittenAmount(-number if found["sign"] and found["sign"][0] == "-" else number, unit, note)


def _number(text: str, whole_text: str) -> float:
    """A plain number, a fraction or a mixed number."""
    if sum(each.isdigit() for each in text) > MOST_DIGITS:
        raise UnreadableError(
            f"'{whole_text}' has more digits than any gauge.", "Write the number as the gauge showed it."
        )
    mixed = _MIXED.fullmatch(text)
    if not mixed:
        return _decimal(text, whole_text)
    over, under = int(mixed["over"]), int(mixed["under"])
    if not under:
        raise UnreadableError(
            f"'{whole_text}' divides by nothing.", "Correct the lower number of the fraction."
        )
    if mixed["whole"] and over >= under:
        raise UnreadableError(
            f"'{whole_text}': the fraction after the whole number is one or more.",
            "Correct it, as in '1 3/16 in'.",
        )
    return int(mixed["whole"] or 0) + over / under


_PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+")
_GROUPED = re.compile(
    r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?"  # 12 500 or 12 500,5
    r"|[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+"  # 1,234.5
    r"|[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+"  # 1.234,5
    r"|[0-9]{1,3}(?:,[0-9]{3}){2,}"  # 1,234,567
)


def _decimal(text: str, whole_text: str) -> float:
    """A number with a decimal point or a decimal comma, and perhaps thousands apart; refused where both could be meant."""
    if re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", text):
        point, none = text.replace(",", "."), text.replace(",", "")
        rest = whole_text.partition(text)[2]
        raise UnreadableError(
            f"'{whole_text}' can mean {point} or {none}.",
            f"Write '{point}{rest}' or '{none}{rest}', whichever is meant.",
        )
    if _PLAIN.fullmatch(text):
        return float(text.replace(",", "."))
    if not _GROUPED.fullmatch(text):
        raise UnreadableError(
            f"'{whole_text}' is not one clear number.", "Write it like 1234.5, with one decimal point."
        )
    mark = max(text.rfind("."), text.rfind(",")) if not re.fullmatch(r"[0-9,]+", text) else -1
    digits = text if mark < 0 else f"{text[:mark]}#{text[mark + 1 :]}"
    return float(re.sub(r"[ .,]", "", digits).replace("#", "."))


def _unit(spelled: str, text: str, dimension: Dimension) -> tuple[Unit, str]:
    """The unit of the dimension, and a note where a weight was written for a force."""
    spelled = spelled.strip()
    unit = units.unit_written(spelled, dimension) or units.unit_written(spelled.rstrip("."), dimension)
    if unit:
        return unit, ""
    instead = _weight_for_force(spelled, dimension)
    if instead:
        return instead, f"'{spelled}' taken as {instead.name}"
    raise no_unit(spelled, text, dimension)


def _weight_for_force(spelled: str, dimension: Dimension) -> Unit | None:
    if dimension is Dimension.FORCE:
        mass = units.unit_written(spelled, Dimension.MASS)
        name = units.MASS_FOR_FORCE.get(mass.name) if mass else None
    else:
        name = units.MASS_FOR_TORQUE.get(spelled.casefold()) if dimension is Dimension.TORQUE else None
    return units.unit_written(name, dimension) if name else None


def _bare_unit(text: str, dimension: Dimension, bare: str | None) -> Unit:
    """The unit of a number that has none."""
    name = "" if dimension is Dimension.COUNT and bare is None else bare
    unit = None if name is None else units.unit_written(name, dimension)
    if unit is None:
        raise UnreadableError(f"'{text}' has no unit.", f"Add one of: {', '.join(units.names(dimension))}.")
    return unit


def _check_whole(number: float, unit: Unit, text: str) -> None:
    if unit.dimension is Dimension.COUNT and unit.name != "turns" and number != int(number):
        raise UnreadableError(f"'{text}' is not a whole number.", "Count whole ones.")


def _spread(text: str, dimension: Dimension, whole_text: str) -> WrittenAmount:
    """What stands after "±"; a share of the value has the unit %."""
    if not text:
        raise UnreadableError(
            f"Nothing follows ± in '{whole_text}'.", "Write the uncertainty there, or leave ± out."
        )
    if text[0] in "+-":
        raise UnreadableError(f"The uncertainty '{text}' has a sign.", "Write it without one.")
    return _amount(text, Dimension.RATIO if text.endswith("%") else dimension)


def _expanded(spread: WrittenAmount, value: float, unit: Unit) -> float:
    """The expanded uncertainty in base units."""
    if spread.unit and spread.unit.dimension is Dimension.RATIO and unit.dimension is not Dimension.RATIO:
        return abs(value) * units.to_base(spread.number, spread.unit.name)
    return units.to_base(spread.number, (spread.unit or unit).name)
