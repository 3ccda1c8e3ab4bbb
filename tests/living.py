"""Which processes live: what a run must not leave behind. And how long a test waits for what must come."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

PATIENCE = 600
"""Seconds. What comes is seen at once; this is for what never comes, on a machine that is slow and busy."""


def living(session: int) -> list[str]:
    """Processes of a session that are not dead, zombies left out (proc(5), `stat`: state and session)."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, _, belongs = stat.read_text().rpartition(")")[2].split()[:4]
        except OSError:
            continue
        if int(belongs) == session and state != "Z":
            found.append(stat.parent.name)
    return found


def alive(pid: int) -> bool:
    """Whether this process is there and not dead: nobody may have asked yet what became of it (proc(5), `stat`)."""
    try:
        os.kill(pid, 0)
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except ProcessLookupError:
        return False
    except FileNotFoundError:  # gone between the two, or a system without /proc
        return not Path("/proc/self/stat").exists()


def until(holds: Callable[[], bool], seconds: float = PATIENCE) -> bool:
    """Whether something comes to hold in time."""
    end = time.monotonic() + seconds
    while not (held := holds()) and time.monotonic() < end:
        time.sleep(0.05)
    return held
