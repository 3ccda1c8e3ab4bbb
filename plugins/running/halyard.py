"""Halyards and lifts: what holds a sail up, or a person at the masthead.

Comes in: Evidence of one halyard or of all of one mast. Goes out: wear and loads of a fibre rope. Limits stand in
halyard.toml. A halyard of wire is looked at with the same eyes as any running wire: one broken wire and it goes.
"""

from __future__ import annotations

from reporter.contract.ropes import rope_checks

assess = rope_checks
