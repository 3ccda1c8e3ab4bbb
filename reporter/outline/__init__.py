"""Step 3: Job, Assessments and Template to a Report: what is said, in which order; no millimetres."""

from __future__ import annotations

from reporter.outline.stage import outline

__all__ = ["outline"]
