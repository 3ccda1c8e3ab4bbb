"""What job.yaml must hold beyond its schema: known templates, limits and zones, dates in an order that can be.

In: the sheet and its value, templates and plugins. Out: problems with their lines, and the limits in force. Whether
work was permitted, or a part is good, is not asked here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.limit_changes import may_be_negative
from reporter.collect.plausible import check_vessel_sizes
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import read_quantity
from reporter.collect.stored import Shelf
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.plugin import Plugin
from reporter.model.quantity import PartialDate
from reporter.model.sheet import JobSheet
from reporter.model.template import Template
from reporter.model.terms import Dimension


class Installed(Protocol):
    """What is installed: component kinds by name, templates by name."""

    @property
    def plugins(self) -> Mapping[str, Plugin]:
        """Kind -> plugin."""

    @property
    def templates(self) -> Mapping[str, Template]:
        """Name -> template."""


@dataclass
class JobCheck:
    """The checks of one job.yaml. `today` is the last day of the visit, None where that is not known.

    What the sheet does not say is not checked: `job` may hold stand-ins for what could not be read.
    """

    sheet: YamlFile
    job: JobSheet
    ledger: Ledger
    today: dt.date | None
    bad: frozenset[Loc] = frozenset()

    def all(self, installed: Installed, kinds: Mapping[str, str] | None, shelf: Shelf) -> None:
        """Every check; `kinds` are the components listed (id -> kind), None where they are not known."""
        self.purpose(installed.templates)
        self.time_zone()
        self.cameras()
        self.instruments()
        self.dates()
        check_vessel_sizes(self.job.vessel, self.sheet, self.ledger)
        self.documents(shelf)
        if kinds is not None:
            self.limit_changes(installed.plugins, set(kinds.values()))
            self.incidents(kinds)

    def _readable(self, *loc: str) -> bool:
        """Whether the sheet says something in order at `loc`."""
        return not any(each[: len(loc)] == loc or loc[: len(each)] == each for each in self.bad)

    def tell(self, loc: Loc, what: str, do: str) -> None:
        """Note a problem at `loc` of the sheet."""
        self.sheet.tell(self.ledger, loc, what, do)

    def purpose(self, templates: Mapping[str, Template]) -> None:
        """The purpose is an installed template."""
        if self._readable("purpose") and self.job.purpose not in templates:
            do = meant(self.job.purpose, templates, f"Templates: {listed(sorted(templates))}.")
            self.tell(("purpose",), f"There is no template '{self.job.purpose}'.", do)

    def time_zone(self) -> None:
        """The time zone is a name of the IANA database or an offset."""
        from reporter.door.taken import zone

        written = self.job.inspection.time_zone
        try:
            zone(written)
        except ValueError:
            near = _zone_meant(written)
            hint = f"Did you mean {near}? " if near else ""
            do = f"{hint}Write a name such as Europe/Lisbon, or an offset such as +02:00."
            self.tell(("inspection", "time_zone"), f"'{written}' is no time zone.", do)

    def cameras(self) -> None:
        """Each camera has one correction that can be understood."""
        from reporter.door.clocks import Clocks
        from reporter.errors import JobError

        for index, clock in enumerate(self.job.cameras):
            try:
                Clocks([clock])
            except JobError as error:
                what, do = error.problems[0].what, error.problems[0].do
                self.tell(("cameras", index), f"{what[0].upper()}{what[1:]}.", f"{do[0].upper()}{do[1:]}.")
        names = [" ".join(each.camera.casefold().split()) for each in self.job.cameras]
        self._once(("cameras",), names, "camera")

    def instruments(self) -> None:
        """Instrument ids are unique, and a resolution is a quantity of some kind."""
        self._once(("instruments",), [each.id for each in self.job.instruments], "instrument")
        for index, each in enumerate(self.job.instruments):
            if each.resolution and not _is_quantity(each.resolution):
                do = "Write a number and its unit, such as 0.05 mm."
                self.tell(("instruments", index, "resolution"), f"'{each.resolution}' is no resolution.", do)

    def limit_changes(self, plugins: Mapping[str, Plugin], used: set[str]) -> None:
        """Changed limits exist, once each, are figures that can be, and belong to a kind that is aboard."""
        self._once(("limits",), [each.id for each in self.job.limits], "limit")
        for index, change in enumerate(self.job.limits):
            # A limit's id begins with its kind.
            plugin = plugins.get(change.id.partition(".")[0])
            limit = plugin.limit(change.id) if plugin else None
            if plugin is None or limit is None:
                what = f"There is no limit '{change.id}'."
                known = (each.id for kind in plugins.values() for each in kind.limits)
                do = meant(change.id, known, "`gudgeon limits` lists them all.")
                self.tell(("limits", index, "id"), what, do)
                continue
            if change.value < 0 and not may_be_negative(limit, plugin):
                what = f"The limit '{change.id}' cannot be {change.value:g}: what it speaks of is never less than 0."
                self.tell(("limits", index, "value"), what, "Write the figure without the minus.")
            if plugin.kind not in used:
                self.ledger.remark(
                    f"The change of the limit '{change.id}' has no effect: no such component is listed."
                )

    def incidents(self, components: Mapping[str, str]) -> None:
        """Incidents name components that are listed."""
        for index, each in enumerate(self.job.incidents):
            if each.component and each.component not in components:
                what = f"There is no component '{each.component}' in findings.yaml."
                do = meant(each.component, components, f"Components: {listed(components)}.")
                self.tell(("incidents", index, "component"), what, do)

    def documents(self, shelf: Shelf) -> None:
        """Every document that is listed lies in the documents folder."""
        for index, each in enumerate(self.job.documents):
            if fault := shelf.fault(each.file):
                self.tell(("documents", index, "file"), *fault)

    def dates(self) -> None:
        """Nothing that was there to be seen lies after the visit, and nothing planned lies before it."""
        last = self.today
        if last is None:
            return
        for loc, date, what in _past(self.job):
            if date is not None and first_day(date) > last:
                self.tell(loc, *after_visit(what, date, last))
        vessel = self.job.vessel
        for key, date, what in (
            ("rig_installed", vessel.rig_installed, "The date of the rig"),
            ("last_mast_out", vessel.last_mast_out, "The last mast-out"),
        ):
            if remark := before_building(date, vessel.built, what):
                self.sheet.ask(self.ledger, ("vessel", key), remark)
        for loc, date, what in _to_come(self.job):
            if date is not None and last_possible(date) < last:
                told = f"{what} {date} lies before the inspection ({last})."
                self.tell(loc, told, "Correct one of the two dates.")

    def _once(self, loc: Loc, names: list[str], noun: str) -> None:
        for index, name in enumerate(names):
            if name in names[:index]:
                self.tell((*loc, index), f"The {noun} '{name}' is listed twice.", "Keep one of them.")


def _past(job: JobSheet) -> Iterator[tuple[Loc, PartialDate | dt.date | None, str]]:
    vessel = job.vessel
    yield ("vessel", "built"), vessel.built, "The year of building"
    yield ("vessel", "rig_installed"), vessel.rig_installed, "The date of the rig"
    yield ("vessel", "last_mast_out"), vessel.last_mast_out, "The last mast-out"
    yield ("permission", "date"), job.permission.date, "The permission of"
    for index, instrument in enumerate(job.instruments):
        yield ("instruments", index, "calibrated"), instrument.calibrated, "The calibration of"
    for index, incident in enumerate(job.incidents):
        yield ("incidents", index, "date"), incident.date, "The incident of"


def _to_come(job: JobSheet) -> Iterator[tuple[Loc, PartialDate | dt.date | None, str]]:
    yield ("report", "issued"), job.report.issued, "The issue date"
    yield ("next", "next_passage"), job.next.next_passage, "The next passage"
    yield ("next", "next_haul_out"), job.next.next_haul_out, "The next haul-out"


def after_visit(what: str, date: PartialDate | dt.date, today: dt.date) -> tuple[str, str]:
    """What is wrong with a date that had not come yet, and what to do."""
    return f"{what} {date} lies after the inspection ({today}).", "Correct one of the two dates."


def first_day(date: PartialDate | dt.date) -> dt.date:
    """The earliest day that a date leaves open."""
    return date.first if isinstance(date, PartialDate) else date


def last_possible(date: PartialDate | dt.date) -> dt.date:
    """The latest day that a date leaves open."""
    return date.last if isinstance(date, PartialDate) else date


def before_building(date: PartialDate | None, built: PartialDate | None, what: str) -> str:
    """The question to ask of a date that lies wholly before the boat was built; "" where there is none to ask."""
    if date is None or built is None or date.last >= built.first:
        return ""
    return f"{what} {date} lies before the boat was built ({built}): did it come from another boat, or is one date wrong?"


def with_documents_named(job: JobSheet, shelf: Shelf) -> JobSheet:
    """The sheet with its documents named as the files are."""
    named = (each.model_copy(update={"file": shelf.find(each.file) or each.file}) for each in job.documents)
    return job.model_copy(update={"documents": tuple(named)})


def _is_quantity(text: str) -> bool:
    for dimension in Dimension:
        try:
            read_quantity(text, dimension)
        except UnreadableError:
            continue
        return True
    return False


def _zone_meant(written: str) -> str:
    from zoneinfo import available_timezones

    from reporter.collect.ledger import nearest

    zones = sorted(zone for zone in available_timezones() if "/" in zone)
    cities = {zone.rpartition("/")[2]: zone for zone in zones}
    near = nearest(written, [*zones, *cities], 0.8)
    return cities.get(near, near)
