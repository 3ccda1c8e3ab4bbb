"""The fourth stage: from the photos that a report uses to copies, insets and plates (`develop`)."""

from __future__ import annotations

from reporter.develop.developing import develop

__all__ = ["develop"]
