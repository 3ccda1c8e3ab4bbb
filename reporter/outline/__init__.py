"""Step 3: Job, Assessments and Template to a Report: what is said, in which order; no millimetres."""

from __future__ import annotations

from reporter.outline.field_sheet import field_sheet
from reporter.outline.outlining import outline
from reporter.outline.work_list import work_list

__all__ = ["field_sheet", "outline", "work_list"]
