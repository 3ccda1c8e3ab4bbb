"""Step 3: Job, Assessments and Template to a Report: what is said, in which order; no millimetres."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reporter.outline.outlining import outline

__all__ = ["outline"]


def __getattr__(name: str) -> object:
    """Fetches the stage when it is first asked for: who only grades needs none of the sections."""
    if name != "outline":
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return import_module(f"{__name__}.outlining").outline
