"""The standing rig: its walking order, round the deck, along the hull's edge, then up the mast."""

from __future__ import annotations

from ..drawings.built_in import built_in, later

system = built_in("rig", draw=later("rig_drawing"), overview=later("boat_drawing"))
