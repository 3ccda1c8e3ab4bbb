"""The reading of one job folder: its files in their order, each held against the others and against the kinds.

In: the folder, the installed plugins and templates, the reader of photo files, a ledger. Out: a `Job` as far as it goes; what
is wrong stands in the ledger.
"""

from __future__ import annotations

import datetime as dt
import stat
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import ValidationError

from reporter.collect import measurements
from reporter.collect.check_components import ComponentCheck, raw_ids, with_papers_named
from reporter.collect.check_job import Installed, JobCheck, with_documents_named
from reporter.collect.check_paths import ask_about_contradictions, check_part_of, check_paths
from reporter.collect.csv_table import read_table
from reporter.collect.earlier import check_was, earlier_places, issued_grades, names_back
from reporter.collect.ledger import Ledger
from reporter.collect.letters import tell_of_rows, tell_of_sheet
from reporter.collect.limit_changes import limits_in_force
from reporter.collect.photo_files import PhotoReader, checked_photos, read_photo_files, with_vessel_photos
from reporter.collect.photo_marks import ask_about_insets, check_copies
from reporter.collect.quantity_text import read_quantity
from reporter.collect.same_words import as_declared
from reporter.collect.stored import Shelf, kept_elsewhere, read_papers
from reporter.collect.text_file import Place, read_text, remark_copies
from reporter.collect.translate import salvaged, validate
from reporter.collect.yaml_file import YamlFile, read_yaml
from reporter.model.findings import Component, Fact, FindingsSheet, LoadPath
from reporter.model.job import COLUMNS, Job, Reading
from reporter.model.photo import PhotoFile
from reporter.model.quantity import PartialDate
from reporter.model.sheet import Instrument, JobSheet


def folder_fault(folder: Path) -> tuple[str, str] | None:
    """Why `folder` is no folder that can be read, and what to do; None when it is one."""
    try:
        if not stat.S_ISDIR(folder.stat().st_mode):
            return "This is not a folder.", "Name the folder that holds job.yaml."
        next(folder.iterdir(), None)
    except FileNotFoundError:
        return "There is no such folder.", "Check the name and where you are."
    except (OSError, ValueError):
        return "This folder cannot be read.", "Check its name and its permissions."
    return None


@dataclass
class FolderReading:
    """The reading of one job folder."""

    place: Place
    registry: Installed
    photos: PhotoReader
    ledger: Ledger
    job_sheet: YamlFile | None = None
    findings: YamlFile | None = None
    components: dict[int, Component] = field(default_factory=dict)
    today: dt.date | None = None
    built: PartialDate | None = None
    named_earlier: tuple[str, ...] = ()
    paths: tuple[LoadPath, ...] = ()
    sheets: dict[str, YamlFile] = field(default_factory=dict)
    """By name: sheets as read, or as given in place of the files."""

    def job(self) -> Job | None:
        """The job without its earlier ones; None when job.yaml or findings.yaml is not in order."""
        self.job_sheet, self.findings = self._sheet("job.yaml"), self._sheet("findings.yaml")
        job_sheet, findings = self.job_sheet, self.findings
        kinds = _kinds(findings) if findings else None
        remark_copies(self.place, self.ledger)
        papers = read_papers(self.place, self.ledger)
        elsewhere = kept_elsewhere(self.place, "documents", self.ledger)
        shelf = Shelf("documents", [each.name for each in papers], elsewhere=elsewhere)
        job = self._job_value(job_sheet, kinds, shelf) if job_sheet else None
        files = read_photo_files(self.place, job, self.photos, self.ledger)
        if job and job_sheet:
            job = with_vessel_photos(job, files, job_sheet, self.ledger, self.place)
        facts: dict[str, dict[str, Fact]] = {}
        if findings:
            self.components = self._declared(self._components(findings))
            facts = self._checked(findings, job, kinds or {}, files, shelf)
        components = self.components
        readings = self._readings(components, kinds, job_sheet)
        if job is None or kinds is None:
            return None
        used = {kind for kind in kinds.values() if kind in self.registry.plugins}
        return Job(
            sheet=with_documents_named(job, shelf),
            components=tuple(with_papers_named(each, shelf) for each in components.values()),
            paths=self.paths,
            facts=facts,
            readings=readings,
            photos=files,
            papers=papers,
            limits=limits_in_force(self.registry.plugins, used, job),
            folder=self.place.prefix.replace("\\", "/"),
            issued=issued_grades(self.place, self.ledger),
        )

    def _checked(
        self,
        findings: YamlFile,
        job: JobSheet | None,
        kinds: Mapping[str, str],
        files: tuple[PhotoFile, ...],
        shelf: Shelf,
    ) -> dict[str, dict[str, Fact]]:
        """The facts of each part; what contradicts itself or its photos is told."""
        check = ComponentCheck(findings, self.registry.plugins, self.ledger, self.today, self.built)
        check.ids()
        facts = {each.id: check.component(index, each, shelf) for index, each in self.components.items()}
        self.components = checked_photos(self.components, files, findings, self.ledger, self.place)
        ask_about_insets(self.components, files, findings, self.ledger)
        check_copies(self.components, job, files, (findings, self.job_sheet), self.ledger)
        check_part_of(self.components, [ident for _, ident in raw_ids(findings)], findings, self.ledger)
        ask_about_contradictions(job, self.components, self.job_sheet, findings, self.ledger)
        check_paths(self.paths, kinds, self.registry.plugins, findings, self.ledger)
        return facts

    def earlier_jobs(self) -> tuple[Job, ...]:
        """The jobs of the folders that this one names under `earlier:`, without their own earlier ones; none that is at fault."""
        if self.job_sheet is None:
            return ()
        known: list[str] = []
        jobs: list[Job] = []
        for place, line in earlier_places(self.place, self.job_sheet, self.named_earlier, self.ledger):
            fault = folder_fault(place.folder)
            if fault:
                self.ledger.tell(self.job_sheet.file, line, f"earlier › {place.prefix}", *fault)
                continue
            told = len(self.ledger.problems)
            before = FolderReading(place, self.registry, self.photos, self.ledger)
            job = before.job()
            known += [ident for _, ident in raw_ids(before.findings)] if before.findings else []
            what = self._succession_fault(before)
            if what:
                self.ledger.tell(
                    self.job_sheet.file, line, "earlier", what, "Correct it, or name another folder."
                )
            jobs += [job] if job and len(self.ledger.problems) == told else []
        if self.findings:
            check_was(self.components, known, self.findings, self.ledger)
        return tuple(jobs)

    def _succession_fault(self, before: FolderReading) -> str:
        name = before.place.prefix
        if names_back(before.place, before.named_earlier, self.place.folder):
            return f"'{name}' names this job as its own earlier one."
        if self.today and before.today and before.today > self.today:
            return f"The visit of '{name}' ({before.today}) lies after this one ({self.today})."
        return ""

    def _sheet(self, name: str) -> YamlFile | None:
        if name in self.sheets:
            return self.sheets[name]
        text = read_text(self.place, name, self.ledger, needed=True)
        sheet = None if text is None else read_yaml(text, self.place.named(name), self.ledger)
        if sheet:
            self.sheets[name] = sheet
            tell_of_sheet(sheet, self.ledger)
        return sheet

    def _job_value(self, sheet: YamlFile, kinds: Mapping[str, str] | None, shelf: Shelf) -> JobSheet | None:
        """The value of job.yaml if all of it is in order; what can be checked of it is checked anyhow."""
        outcome = validate(sheet, JobSheet, self.ledger)
        job = outcome.value or salvaged(sheet, outcome.bad)
        if job:
            self._refuse_left_out("gudgeon.templates", [job.purpose])
            dated = not any(loc[:2] in {(), ("inspection",), ("inspection", "dates")} for loc in outcome.bad)
            self.today = job.inspection.last_day if dated else None
            self.built = job.vessel.built
            self.named_earlier = job.earlier
            JobCheck(sheet, job, self.ledger, self.today, outcome.bad).all(self.registry, kinds, shelf)
        return outcome.value

    def _components(self, sheet: YamlFile) -> dict[int, Component]:
        """Components by their position; one with faults is looked at further without what is wrong in it."""
        outcome = validate(sheet, FindingsSheet, self.ledger)
        self._refuse_left_out("gudgeon.plugins", _kinds(sheet).values())
        if outcome.value is not None:
            self.paths = outcome.value.paths
            return dict(enumerate(outcome.value.components))
        entries = sheet.data.get("components")
        if not isinstance(entries, list):
            return {}
        told: dict[int, set[object]] = {}
        for loc in outcome.bad:
            if len(loc) > 2 and loc[0] == "components" and isinstance(loc[1], int):  # noqa: PLR2004
                told.setdefault(loc[1], set()).add(loc[2])
        found = {
            index: _component(_without(each, told.get(index, set()))) for index, each in enumerate(entries)
        }
        return {index: each for index, each in found.items() if each is not None}

    def _refuse_left_out(self, group: str, names: Iterable[str]) -> None:
        """PluginError where the folder needs what is installed and could not be loaded: no fault of the folder."""
        if refuse := getattr(self.registry, "refuse_left_out", None):
            for name in names:
                refuse(group, name)

    def _declared(self, components: dict[int, Component]) -> dict[int, Component]:
        plugins = self.registry.plugins
        return {
            index: as_declared(each, plugins[each.kind]) if each.kind in plugins else each
            for index, each in components.items()
        }

    def _readings(
        self, components: dict[int, Component], kinds: dict[str, str] | None, job: YamlFile | None
    ) -> tuple[Reading, ...]:
        """The readings of measurements.csv, which may be absent; without findings only its table is looked at."""
        file = self.place.named("measurements.csv")
        text = read_text(self.place, "measurements.csv", self.ledger, needed=False)
        if text is None:
            self.ledger.remark(f"{file}: not there; the report has no readings.")
            return ()
        rows = read_table(text, file, COLUMNS, measurements.NEEDED, self.ledger)
        tell_of_rows(file, rows, self.ledger)
        if kinds is None:
            return ()
        by_id = {each.id: each for each in components.values()}
        aboard = measurements.Aboard(kinds, by_id, self.registry.plugins, _instruments(job))
        return measurements.RowReader(file, aboard, self.ledger).readings(rows)


def _without(entry: object, keys: set[object]) -> object:
    return {key: each for key, each in entry.items() if key not in keys} if isinstance(entry, dict) else entry


def _component(entry: object) -> Component | None:
    try:
        return Component.model_validate(entry, context={"quantity": read_quantity})
    except ValidationError:
        return None  # told when the whole sheet was validated


def _kinds(sheet: YamlFile) -> dict[str, str]:
    """Component id -> kind, of every component that says so."""
    entries = sheet.data.get("components")
    kinds: dict[str, str] = {}
    for index, ident in raw_ids(sheet):
        kinds.setdefault(ident, str(entries[index].get("kind", "")) if entries else "")
    return kinds


def _instruments(sheet: YamlFile | None) -> dict[str, Instrument | None] | None:
    """Instrument id -> instrument (None for one that cannot be read); None when job.yaml itself cannot."""
    if sheet is None:
        return None
    entries = sheet.data.get("instruments")
    found: dict[str, Instrument | None] = {}
    for each in entries if isinstance(entries, list) else ():
        if isinstance(each, dict) and isinstance(each.get("id"), str):
            try:
                found[each["id"]] = Instrument.model_validate(each)
            except ValidationError:
                found[each["id"]] = None  # told when the whole sheet was validated
    return found
