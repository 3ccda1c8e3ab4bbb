"""A folder as plain data, however much of it is filled in: what a sheet is held against.

Comes in: the files of a folder. Goes out: their data as written; nothing is checked but that it can be read.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from reporter.collect.csv_table import read_table
from reporter.collect.ledger import Ledger
from reporter.collect.measurements import NEEDED
from reporter.editing import JobFiles
from reporter.errors import JobError, UsageError
from reporter.model.job import COLUMNS
from reporter.taking.readings import Row

READ = ("vessel", "report", "instruments", "inspection", "lang", "terms")
"""What of job.yaml a sheet is held against."""


@dataclass(frozen=True)
class FolderData:
    """What the folder holds, as plain data: job.yaml, findings.yaml, the rows of measurements.csv, the names of its photos."""

    job: Mapping[str, Any]
    findings: Mapping[str, Any]
    rows: list[Row]
    photos: tuple[str, ...] = ()

    @property
    def entries(self) -> dict[str, dict[str, Any]]:
        """The entries of findings.yaml by their id."""
        found = self.findings.get("components")
        parts = found if isinstance(found, list) else []
        return {
            each["id"]: each for each in parts if isinstance(each, dict) and isinstance(each.get("id"), str)
        }

    @property
    def instruments(self) -> tuple[str, ...]:
        """Ids of the gauges that job.yaml names."""
        found = self.job.get("instruments")
        return (
            tuple(str(each.get("id", "")) for each in found if isinstance(each, dict))
            if isinstance(found, list)
            else ()
        )

    @property
    def today(self) -> dt.date | None:
        """The last day of the inspection, where it can be read."""
        inspection = self.job.get("inspection")
        days = inspection.get("dates") if isinstance(inspection, dict) else None
        try:
            return max(dt.date.fromisoformat(str(each)) for each in days) if isinstance(days, list) else None
        except ValueError:
            return None


def folder_data(files: JobFiles) -> FolderData:
    """What the files say. JobError when the table of readings, EditError when another file cannot be read."""
    if not files.folder.is_dir():
        msg = f"There is no folder {files.folder}."
        raise UsageError(msg, "Name the folder that the sheet was printed from.")
    ledger = Ledger()
    text = files.text("measurements.csv").removeprefix("\ufeff")
    table = read_table(text, "measurements.csv", COLUMNS, NEEDED, ledger) if text.strip() else []
    if ledger.problems:
        raise JobError(ledger.problems)
    photos = files.folder / "photos"
    return FolderData(
        job={key: files.value("job.yaml", (key,)) for key in READ},
        findings={"components": files.value("findings.yaml", ("components",))},
        rows=[{column: cell for column, cell in row.cells.items() if cell} for row in table],
        photos=tuple(sorted(each.name for each in photos.iterdir() if each.is_file()))
        if photos.is_dir()
        else (),
    )
