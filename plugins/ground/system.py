"""Ground tackle: its walking order, from the anchor on its roller to the end of the rode in the locker."""

from __future__ import annotations

from reporter.contract import Station, System

from ..drawings import later

system = System(
    order=50,
    id="ground",
    title="Ground tackle",
    stations=(
        Station(id="bow", title="At the bow"),
        Station(id="laid_out", title="Laid out on deck or ashore"),
        Station(id="foredeck", title="On the foredeck"),
        Station(id="locker", title="In the locker"),
    ),
    draw=later("ground_drawing"),
)
