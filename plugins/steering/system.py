"""The steering system: its walking order, from the rim of the wheel to the tip of the rudder."""

from __future__ import annotations

from ..drawings.built_in import built_in, later

system = built_in("steering", draw=later("steering_drawing"))
