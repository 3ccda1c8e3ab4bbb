"""The fourth stage: from the photos that a report uses to copies, insets and plates (`develop`)."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reporter.develop.developing import develop

__all__ = ["develop"]


def __getattr__(name: str) -> object:
    """Fetches `develop` when it is asked for: a worker imports this package without the model."""
    if name != "develop":
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return import_module(f"{__name__}.developing").develop
