"""The running rig: its walking order, from the foot of the mast aft to the winches, then up the mast."""

from __future__ import annotations

from ..drawings.built_in import built_in, later

system = built_in("running", draw=later("deck_plan", "draw_running"))
