"""The standing rig: its walking order, round the deck, along the hull's edge, then up the mast."""

from __future__ import annotations

from reporter.contract import Station, System

from ..drawings import later

system = System(
    order=20,
    id="rig",
    title="Standing rig and spars",
    stations=(
        Station(id="deck", title="Round the deck, looking up"),
        Station(id="chainplates", title="Chainplates, on deck and below"),
        Station(id="screws", title="Ends and screws at deck level"),
        Station(id="bow", title="At the bow"),
        Station(id="stern", title="At the stern"),
        Station(id="mast_foot", title="At the mast's foot, on deck and below"),
        Station(id="boom", title="Boom and vang"),
        Station(id="mast", title="Up the mast"),
        Station(id="aloft", title="Spreaders and masthead"),
    ),
    draw=later("rig_drawing"),
    overview=later("boat_drawing"),
)
