"""A whole job folder as a frozen value: its sheet, its components, the readings, the photos, the limits in force."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import Literal

from reporter.model.base import Noun, grouped
from reporter.model.citation import Limit
from reporter.model.findings import (
    Component,
    Fact,
    LoadPath,
)
from reporter.model.photo import PhotoFile
from reporter.model.quantity import Value
from reporter.model.sheet import (
    JobSheet,
)
from reporter.model.template import Rule
from reporter.model.terms import Grade, State

COLUMNS = (
    "component", "quantity", "at", "state", "side", "value", "unit", "uncertainty", "instrument", "note",
)  # fmt: skip
"""Of measurements.csv, in the order in which it is begun."""


class Reading(Noun):
    """One line of measurements.csv, as the gauge said."""

    component: str
    quantity: str
    at: str = ""
    side: Literal["", "port", "starboard"] = ""
    state: State = State.FOUND
    value: Value
    resolution: float = 0.0
    """Of the instrument, in the base unit of the value's dimension; 0 when not known."""
    instrument: str = ""
    note: str = ""
    line: int = 0


class StoredFile(Noun):
    """A paper kept in the job's documents folder: identity only."""

    name: str
    sha256: str
    size_bytes: int


class Job(Noun):
    """A whole job folder, read and checked. `limits` holds every limit in force, overrides applied."""

    sheet: JobSheet
    components: tuple[Component, ...]
    paths: tuple[LoadPath, ...] = ()
    facts: dict[str, dict[str, Fact]] = {}
    """Component id -> detail id -> the detail made ready."""
    readings: tuple[Reading, ...] = ()
    photos: tuple[PhotoFile, ...] = ()
    papers: tuple[StoredFile, ...] = ()
    limits: dict[str, Limit] = {}
    remarks: tuple[str, ...] = ()
    """Remarks are what was coped with or passed over while reading, in plain words."""
    earlier: tuple[Job, ...] = ()
    folder: str = ""
    """The folder as written under `earlier:`; empty for the job itself."""
    issued: dict[str, Grade] = {}
    """Component id -> the grade this job's report was issued with, where its assessments.json tells."""
    incomplete: dict[str, str] = {}
    """Component id -> why it is not graded: something that is told of it is not in order."""
    left_out: tuple[Rule, ...] = ()
    """The rules by which this job was cut for others to read; nothing of what they name is in it any more."""
    audience: str = ""
    """For whom it was cut, where the program has such a version."""

    def fact(self, ident: str, detail: str) -> Fact | None:
        """What a detail of a part states, or None."""
        return self.facts.get(ident, {}).get(detail)

    def choice(self, ident: str, detail: str) -> str:
        """The choice that a detail of a part holds, or nothing."""
        fact = self.fact(ident, detail)
        return fact.choice if fact else ""

    def assembly(self, component: Component) -> frozenset[str]:
        """Ids of the part and of the larger ones that it belongs to, as `part_of` tells."""
        found = [component.id]
        while (part := self.by_id.get(found[-1])) and part.part_of and part.part_of not in found:
            found.append(part.part_of)
        return frozenset(found)

    def readings_of(self, ident: str) -> tuple[Reading, ...]:
        """The readings of one component, in the order of the file."""
        return self._readings.get(ident, ())

    def assembled(self, component: Component) -> list[Component]:
        """The components that are of one assembly with this one, itself among them, in the order of the file."""
        found = {
            each.id: each for ident in self.assembly(component) for each in self._assemblies.get(ident, ())
        }
        return self._in_order(found.values())

    def beside(self, component: Component, kind: str) -> list[Component]:
        """The components of a kind that neither group nor side parts from this one, in the order of the file."""
        groups = self._groups.get(kind, {})
        near = {component.group or component.side, ""} if component.group or component.side else groups
        found = (each for group in near for each in groups.get(group, ()))
        return self._in_order(each for each in found if each.agrees(component))

    def _in_order(self, found: Iterable[Component]) -> list[Component]:
        return sorted(found, key=lambda each: self._places[each.id])

    @cached_property
    def _places(self) -> dict[str, int]:
        return {each.id: place for place, each in enumerate(self.components)}

    @cached_property
    def by_id(self) -> dict[str, Component]:
        """Id -> component."""
        return {each.id: each for each in self.components}

    @cached_property
    def _assemblies(self) -> dict[str, list[Component]]:
        """Id -> what belongs to that part, itself among it."""
        found: dict[str, list[Component]] = {}
        for each in self.components:
            for whole in self.assembly(each):
                found.setdefault(whole, []).append(each)
        return found

    @cached_property
    def _readings(self) -> dict[str, tuple[Reading, ...]]:
        return grouped(self.readings, lambda each: each.component)

    @cached_property
    def _groups(self) -> dict[str, dict[str, tuple[Component, ...]]]:
        """Kind -> group or side -> components, so that nobody looks through all of a large boat for each part."""
        kinds = grouped(self.components, lambda each: each.kind)
        return {kind: grouped(parts, lambda each: each.group or each.side) for kind, parts in kinds.items()}

    def photo(self, name: str) -> PhotoFile | None:
        """The photo file that findings call `name` (with or without its folder), or None."""
        return self._photos.get(name) or self._photos.get(f"photos/{name}")

    @cached_property
    def _photos(self) -> dict[str, PhotoFile]:
        return {each.name: each for each in self.photos}
