"""Step 2: a Job to Assessments. Needs are resolved, one plugin judges each component, the worst check decides."""

from __future__ import annotations

from reporter.grade.grading import grade

__all__ = ["grade"]
