"""Ground tackle: its walking order, from the anchor on its roller to the end of the rode in the locker."""

from __future__ import annotations

from ..drawings.built_in import built_in, later

system = built_in("ground", draw=later("ground_drawing"))
