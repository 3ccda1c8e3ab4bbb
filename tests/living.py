"""Which processes of a session live: what a run must not leave behind."""

from __future__ import annotations

from pathlib import Path


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
