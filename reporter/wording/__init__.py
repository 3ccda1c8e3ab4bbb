"""The program's own words in a report, behind ids, and the one formatter of dates and numbers."""

from __future__ import annotations

from reporter.wording.catalogue import Catalogue, catalogue, completeness, languages, speaking
from reporter.wording.numbers import date, exact, joined, number, quantity
from reporter.wording.speaker import Speaker

__all__ = [
    "Catalogue",
    "Speaker",
    "catalogue",
    "completeness",
    "date",
    "exact",
    "joined",
    "languages",
    "number",
    "quantity",
    "speaking",
]
