"""A part worn as far as a reading can tell is never clear nor only watched, whatever kind it is of.

By declaration: every quantity that wears is put at each end of its plausible range, every other thing in order, and one
end must bring a governing check to `plan` or worse. A derived quantity is driven through the readings of its kind.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from reporter.contract import (
    DetailField,
    Dimension,
    Evidence,
    Fact,
    Grade,
    MeasurementPoint,
    Plugin,
    Quantity,
    Value,
)
from tests.plugins.evidence import REGISTRY, best, fact, graded, known, spot, value

SIZES = (0.05, 0.1, 0.2, 0.4, 0.7)
"""Where in its plausible range a size of the part may lie, one after the other: tables do not hold every size."""

VESSEL = {
    Dimension.LENGTH: (11.0, "m"),
    Dimension.MASS: (7000.0, "kg"),
    Dimension.TORQUE: (45_000.0, "N·m"),
    Dimension.AREA: (60.0, "m²"),
    Dimension.HOURS: (1000.0, "h"),
}

UNGOVERNED: dict[tuple[str, str], str] = {}
"""Wearing quantities that nothing governs yet, with the reason; each goes once its kind has a limit that does."""

WEARING = [
    (kind, ident)
    for kind, plugin in sorted(REGISTRY.plugins.items())
    for ident in [
        *(each.id for each in plugin.readings if each.wears),
        *(each.id for each in plugin.derived if each.wears),
    ]
]


def within(low: float, high: float, part: float, dimension: Dimension) -> float:
    """The number that lies so far into a range; a whole one where things are counted."""
    number = low + part * (high - low)
    return round(number) if dimension is Dimension.COUNT else number


def detail(field: DetailField, part: float, choices: dict[str, str]) -> Fact | None:
    """A detail that is suitable: the choice wanted, or a size that far into its plausible range."""
    if field.holds == "choice":
        return fact(choice=choices.get(field.id, next(iter(field.choices))))
    if field.holds == "date":
        return fact(date="2026-01-01")
    if field.plausible is None:
        return None
    return fact(within(*field.plausible, part, Dimension(field.holds)), field.unit)


def reading(quantity: Quantity, part: float) -> MeasurementPoint:
    """A reading that far into its plausible range."""
    number = within(*quantity.plausible, part, quantity.dimension)
    return spot(quantity.id, number, quantity.unit, side="port" if quantity.per_side else "")


def needs(plugin: Plugin, part: float) -> Iterator[tuple[str, tuple[MeasurementPoint, ...] | Fact | Value]]:
    """What the kind takes from elsewhere, each of a usual size."""
    for need in plugin.needs:
        if need.source == "vessel":
            if need.dimension in VESSEL:
                yield need.id, value(*VESSEL[need.dimension])
            continue
        other = REGISTRY.plugins[need.kind]
        quantity, field = other.quantity(need.name), other.detail(need.name)
        if need.holds == "reading" and quantity:
            yield need.id, (reading(quantity, part),)
        elif field and (found := detail(field, part, {})):
            yield need.id, found


def worn(plugin: Plugin, spots: list[MeasurementPoint], part: float, choices: dict[str, str]) -> Evidence:
    """The part with every detail known and every answer the best one."""
    facts = {each.id: found for each in plugin.details if (found := detail(each, part, choices))}
    return known(plugin, facts=facts, spots=spots, observed=best(plugin), needed=dict(needs(plugin, part)))


def bad(plugin: Plugin, evidence: Evidence) -> set[tuple[str, str]]:
    """Subject and id of each governing check that asks for more than watching."""
    checks = graded(plugin, evidence).checks
    return {(each.subject, each.id) for each in checks if each.governs and each.grade.rank >= Grade.PLAN.rank}


def tells(plugin: Plugin, ident: str, choices: dict[str, str]) -> bool:
    """Whether some end of a reading's range brings a check of this quantity to `plan` or worse."""
    derived = plugin.quantity(ident) is None
    for driven in [each for each in plugin.readings if derived or each.id == ident]:
        for part in SIZES:
            others = [reading(each, part) for each in plugin.readings if each is not driven]
            before = bad(plugin, worn(plugin, others, part, choices))
            for end in (0.0, 1.0):
                after = bad(plugin, worn(plugin, [*others, reading(driven, end)], part, choices))
                if any(subject == ident or not derived for subject, _ in after - before):
                    return True
    return False


def conditions(plugin: Plugin, ident: str) -> list[dict[str, str]]:
    """Details under which a limit of the quantity decides, one set for each such limit; else where it can be read."""
    found = [limit.applies for limit in plugin.limits if limit.quantity == ident and limit.governs]
    measure = plugin.quantity(ident)
    only_if = measure.only_if if measure else {}
    sets = [{**only_if, **applies} for applies in found or [{}]]
    return [{name: choices[0] for name, choices in each.items()} for each in sets]


def marks(place: int, each: tuple[str, str]) -> list[pytest.MarkDecorator]:
    """Every fifth is tried each time, the others with the slow tests."""
    slow = [pytest.mark.slow] if place % 5 else []
    known = [pytest.mark.xfail(strict=True, reason=UNGOVERNED[each])] if each in UNGOVERNED else []
    return slow + known


@pytest.mark.parametrize(
    ("kind", "ident"),
    [pytest.param(*each, marks=marks(place, each)) for place, each in enumerate(WEARING)],
)
def test_an_absurdly_worn_part_is_never_clear_nor_only_watched(kind: str, ident: str) -> None:
    plugin = REGISTRY.plugins[kind]
    for choices in conditions(plugin, ident):
        assert tells(plugin, ident, choices), choices


def test_the_table_of_exceptions_names_what_exists() -> None:
    assert set(UNGOVERNED) <= set(WEARING)
