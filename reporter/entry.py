"""The first thing that runs: it listens for Ctrl-C before anything else is loaded, then hands over to the command line."""

from __future__ import annotations

from typing import NoReturn

from reporter.machine import interrupts


def main() -> NoReturn:
    """Do what `reporter.cli.main` does, with an ear for interruptions from the start."""
    interrupts.arm()
    from reporter.cli import main as run

    run()
