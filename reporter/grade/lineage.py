"""Which part of an earlier record is the same part: by its id, by `was:`, and not renewed since.

Comes in: jobs and their graded parts. Goes out: for each part of today its earlier selves, oldest first. Nothing is
compared here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from reporter.model.assessment import Graded
from reporter.model.findings import Component
from reporter.model.job import Job
from reporter.model.quantity import PartialDate


@dataclass(frozen=True)
class GradedVisit:
    """One visit: its job, and the parts graded with today's limits."""

    job: Job
    parts: tuple[Graded, ...]

    @property
    def day(self) -> dt.date:
        """The day of the visit."""
        return self.job.sheet.inspection.last_day

    def part(self, idents: set[str], kind: str) -> Graded | None:
        """The part of that kind under one of `idents`, or None."""
        found = [self._places[ident, kind] for ident in idents if (ident, kind) in self._places]
        return self.parts[min(found)] if found else None

    @cached_property
    def _places(self) -> dict[tuple[str, str], int]:
        return {(part.component.id, part.component.kind): place for place, part in enumerate(self.parts)}


def in_order(visits: Sequence[GradedVisit]) -> tuple[GradedVisit, ...]:
    """Oldest first; the order in which folders are named changes nothing."""
    return tuple(sorted(visits, key=lambda visit: visit_order(visit.job)))


def visit_order(job: Job) -> tuple[dt.date, str, int, str]:
    """Sorts visits: by day, then by report, so that two on one day have an order of their own."""
    sheet = job.sheet
    return sheet.inspection.last_day, sheet.report.number, sheet.report.revision, sheet.inspection.place


@dataclass(frozen=True)
class Lineage:
    """A part of today with its earlier selves, oldest first, and the selves of the part that it replaced."""

    part: Graded
    now: GradedVisit
    same: tuple[tuple[GradedVisit, Graded], ...] = ()
    replaced: tuple[tuple[GradedVisit, Graded], ...] = ()

    @property
    def latest(self) -> tuple[GradedVisit, Graded] | None:
        """The latest earlier record of the part, or of the one that it replaced."""
        return next(iter((*reversed(self.same), *reversed(self.replaced))), None)


def lineage_of(part: Graded, now: GradedVisit, earlier: Sequence[GradedVisit]) -> Lineage:
    """Follows `part` back through `earlier` (oldest first) by id and `was`, up to the day it was fitted."""
    component = part.component
    idents = {component.id, component.was} - {""}
    fitted = fitted_on(now.job, component)
    same: list[tuple[GradedVisit, Graded]] = []
    replaced: list[tuple[GradedVisit, Graded]] = []
    for visit in reversed(earlier):
        old = visit.part(idents, component.kind)
        if old is None:
            continue
        # A part may have changed its id at any visit, so that each record adds the names to look for before it.
        idents |= {old.component.id, old.component.was} - {""}
        # Once renewed, everything before that belongs to the part that went.
        anew = bool(replaced) or renewed(fitted, fitted_on(visit.job, old.component), visit.day)
        (replaced if anew else same).append((visit, old))
    return Lineage(part, now, tuple(reversed(same)), tuple(reversed(replaced)))


def fitted_on(job: Job, component: Component) -> PartialDate | None:
    """When a part was fitted: its own `installed`, else the detail of that name."""
    detail = job.fact(component.id, "installed")
    return component.installed or (detail.date if detail else None)


def renewed(now: PartialDate | None, then: PartialDate | None, day: dt.date) -> bool:
    """Whether a part fitted `now` cannot be the one seen on `day`, whose record says it was fitted `then`.

    A bare year or month that holds the day counts as renewed when the earlier record says otherwise.
    """
    if now is None or now == then:
        return False
    first, last = now.first, now.last
    # The whole of what the date allows lies after the visit; or the visit falls into it (fitted "2024", seen in May
    # 2024), and then the part seen is taken for the old one where its record knew another date of fitting, or where the
    # middle of the span lies later. To take an old part for the new one would forecast from wear that is gone.
    return first > day or (last > day and (then is not None or now.middle > day))
