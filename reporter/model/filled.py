"""A form that came back: what stands in each field now, and what stood there when it was printed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Filled:
    """One field: its page from 1, its name and label, what stands in it, and what it was printed with.

    A box that is ticked holds "on", one that is not the empty text.
    """

    page: int
    name: str
    label: str
    value: str
    printed: str

    @property
    def changed(self) -> bool:
        """Whether anybody filled it in."""
        return self.value != self.printed


@dataclass(frozen=True, slots=True)
class FilledForm:
    """Every field of a form in the order of its pages, and the data it carries of what it belongs to."""

    meaning: dict[str, Any]
    fields: tuple[Filled, ...]
