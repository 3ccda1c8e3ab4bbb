"""What a plugin's `assess` is given: everything known of one component, and nothing else."""

from __future__ import annotations

import datetime as dt

from reporter.model.base import Noun
from reporter.model.citation import Limit
from reporter.model.findings import Component, Fact, Observed
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import State


class MeasurementPoint(Noun):
    """What was measured of one quantity at one place, on one side, in one state: the mean of its repeats.

    `spread` is the sample standard deviation of the repeats (0 for one). `uneven` tells that they scatter more than
    instrument and method account for: then each repeat is a point of its own, and a re-measure is asked for.
    """

    quantity: str
    at: str = ""
    side: str = ""
    state: State = State.FOUND
    value: Value
    repeats: int = 1
    spread: float = 0.0
    uneven: bool = False
    instrument: str = ""
    written: tuple[str, ...] = ()


class Earlier(Noun):
    """A spot from an earlier inspection of the same part."""

    date: dt.date
    spot: MeasurementPoint


class Evidence(Noun):
    """Own, needed and vessel values of one component, with its limits in force and the day of the visit.

    `needed` holds what the declared needs resolved to; a need that could not be met is absent there and named
    in `unmet` (need id -> plain words).
    """

    component: Component
    load_path: bool = True
    today: dt.date
    facts: dict[str, Fact] = {}
    spots: tuple[MeasurementPoint, ...] = ()
    observed: dict[str, tuple[Observed, ...]] = {}
    needed: dict[str, tuple[MeasurementPoint, ...] | Fact | Value] = {}
    unmet: dict[str, Text] = {}
    limits: dict[str, Limit] = {}
    earlier: tuple[Earlier, ...] = ()
    damaged: bool = False

    def at(self, quantity: str) -> tuple[MeasurementPoint, ...]:
        """Every spot of one quantity, in the order of the file."""
        return tuple(spot for spot in self.spots if spot.quantity == quantity)

    def meets(self, conditions: dict[str, tuple[str, ...]]) -> bool:
        """True when each named detail has one of its choices; an unknown detail meets nothing."""
        return all(
            (fact := self.facts.get(detail)) is not None and fact.choice in choices
            for detail, choices in conditions.items()
        )

    def may_meet(self, conditions: dict[str, tuple[str, ...]]) -> bool:
        """True unless a named detail is known to be another: what is not known leaves the question open."""
        return all(
            detail not in self.facts or self.meets({detail: choices})
            for detail, choices in conditions.items()
        )

    def limit(self, ident: str) -> Limit:
        """The limit in force of that id; KeyError is a fault of the plugin."""
        return self.limits[ident]
