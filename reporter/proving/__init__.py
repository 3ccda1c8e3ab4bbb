"""Holding a received report against its seals, against its own data, and against the folder it was made from.

Everything that opens the stranger's file runs in a worker with limits of time and memory. `prove` is the one way in; what it
returns is told by whoever asked.
"""

from __future__ import annotations

from reporter.proving.stage import prove

__all__ = ["prove"]
