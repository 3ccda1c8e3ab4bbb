"""Rigging screws with their toggles, clevis pins and split pins.

Comes in: Evidence of one screw or of a set (say `at` for each: cap shroud port, upper). Goes out: thread engaged in thread
diameters, and how unlike the ends are. Limits stand in rigging_screw.toml.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
)

from .screw_thread import thread


def assess(evidence: Evidence) -> Assessment:
    """Thread engaged in figures; observations decide the rest."""
    return thread(evidence)
