"""The limits that stand beside a cell, so that a bad reading is seen as it is written down.

Comes in: a kind, the limits in force. Goes out: yardsticks in words. Only limits that decide are told.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from reporter.model.citation import Limit
from reporter.model.form import Worked, Yardstick
from reporter.model.plugin import Plugin
from reporter.model.terms import LimitKind
from reporter.wording import Catalogue, exact
from reporter.wording.numbers import with_unit

MayMeet = Callable[[Mapping[str, tuple[str, ...]]], bool]


def yardsticks(
    plugin: Plugin, words: Catalogue, in_force: Mapping[str, Limit], may_meet: MayMeet, quantity: str
) -> tuple[Yardstick, ...]:
    """The limits on one quantity that decide and may apply to this part, mildest first."""
    limits = [in_force.get(each.id, each) for each in plugin.limits]
    fitting = [
        limit for limit in limits if limit.quantity == quantity and limit.governs and may_meet(limit.applies)
    ]
    return tuple(_yardstick(limit, words) for limit in sorted(fitting, key=lambda limit: limit.then.rank))


def worked(
    plugin: Plugin, words: Catalogue, in_force: Mapping[str, Limit], may_meet: MayMeet
) -> tuple[Worked, ...]:
    """What the readings are worked into, with its limits of condition."""
    found = [
        (each, yardsticks(plugin, words, _of_condition(plugin, in_force), may_meet, each.id))
        for each in plugin.derived
    ]
    return tuple(
        Worked(id=each.id, title=words.terms(each.title), limits=limits) for each, limits in found if limits
    )


def _of_condition(plugin: Plugin, in_force: Mapping[str, Limit]) -> dict[str, Limit]:
    """Every limit in force; one of design or age decides nothing at the gauge."""
    limits = {each.id: in_force.get(each.id, each) for each in plugin.limits}
    return {
        ident: each if each.kind is LimitKind.CONDITION else each.model_copy(update={"governs": False})
        for ident, each in limits.items()
    }


def _yardstick(limit: Limit, words: Catalogue) -> Yardstick:
    value = with_unit(exact(limit.value), limit.unit)
    ends = {"low": exact(limit.value), "high": with_unit(exact(limit.upper or 0.0), limit.unit)}
    told = words(f"form.{limit.sense}", value=value, **ends)
    if limit.between:
        told = f"{told} ({words('sides.limit_relative' if limit.relative else 'sides.limit')})"
    return Yardstick(
        id=limit.id,
        words=words("form.limit", limit=told, grade=words(f"grade.{limit.then}")),
        value=limit.value,
        upper=limit.upper,
        unit=limit.unit,
        sense=limit.sense,
        grade=limit.then,
        between=limit.between,
    )
