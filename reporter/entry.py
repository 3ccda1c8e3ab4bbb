"""The first thing that runs: it listens for Ctrl-C before anything else is loaded, then hands over to the command line."""

from __future__ import annotations

from reporter.machine import interrupts

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import NoReturn


def main() -> NoReturn:
    """Do what `reporter.cli.main` does, with an ear for interruptions from the start."""
    interrupts.arm()
    from reporter.cli import main as run

    run()
