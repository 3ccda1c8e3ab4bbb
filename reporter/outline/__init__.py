"""Step 3: Job, Assessments and Template to a Report: what is said, in which order; no millimetres."""

from __future__ import annotations

from reporter.outline.compare import compared
from reporter.outline.due import boat_of, icalendar_text, lines
from reporter.outline.outlining import outline
from reporter.outline.work_list import work_csv, work_list

__all__ = ["boat_of", "compared", "icalendar_text", "lines", "outline", "work_csv", "work_list"]
