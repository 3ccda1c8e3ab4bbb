"""The running rig: its walking order, from the foot of the mast aft to the winches, then up the mast."""

from __future__ import annotations

from reporter.contract import Station, System

from ..drawings import later

system = System(
    order=30,
    id="running",
    title="Running rig and deck gear",
    stations=(
        Station(id="mast", title="At the mast"),
        Station(id="deck", title="Along the deck"),
        Station(id="cockpit", title="In the cockpit"),
    ),
    draw=later("deck_plan", "draw_running"),
)
