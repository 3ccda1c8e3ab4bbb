"""Nouns as data that leaves the program: every number in the unit beside it.

Comes in: what `model_dump(mode="json")` gives. Goes out: the same with each `Value` as value, `U` (expanded uncertainty,
k = 2) and unit of one and the same scale; a spread of repeats stands in the unit of its value.
"""

from __future__ import annotations

from typing import Any

from reporter.engineering import units
from reporter.model.quantity import Value
from reporter.model.terms import BASE_UNIT, Dimension

VALUE = frozenset(Value.model_fields)


def in_units_told(data: Any) -> Any:
    """Plain data with its numbers as a stranger can read them."""
    if isinstance(data, dict):
        if set(data) == VALUE:
            return _value(data)
        told = {key: in_units_told(each) for key, each in data.items() if key not in _worded(data)}
        if "spread" in data and isinstance(data.get("value"), dict):
            told["spread"] = _in(data["spread"], _unit(data["value"]))
        return told
    if isinstance(data, list):
        return [in_units_told(each) for each in data]
    return data


def _worded(data: dict[str, Any]) -> frozenset[str]:
    """Words of a limit, a sum or a symbol: they stand behind its id, in whatever language they are asked for."""
    if "sense" in data and "then" in data:
        return frozenset({"of", "note", "written_for"})
    if "formula" in data and "inputs" in data:
        return frozenset({"title"})
    return frozenset({"meaning"}) if "symbol" in data else frozenset()


def _value(data: dict[str, Any]) -> dict[str, Any]:
    unit = _unit(data)
    numbers = {"value": _in(data["value"], unit), "U": _in(2 * data["u"], unit), "unit": unit}
    return numbers | {"dimension": data["dimension"], "written": data["written"], "note": data["note"]}


def _unit(data: dict[str, Any]) -> str:
    """The unit that the value was written in, else that of its dimension."""
    return data["unit"] or BASE_UNIT[Dimension(data["dimension"])]


def _in(base: float, unit: str) -> float:
    # Twelve figures lose nothing that was measured, and none of the noise of a conversion stays (3.8000000000000003).
    return float(format(units.from_base(base, unit), ".12g"))
