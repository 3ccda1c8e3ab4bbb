"""Commands of the command line beside those in `reporter.cli`: what to do before going aboard, what comes back, and what is sealed.

Comes in: the program's Typer app. Goes out: the same with these commands. Bodies that are longer than a call of the
pipeline stand in packages of their own.
"""

from __future__ import annotations

import typer

from reporter.commands import sealing
from reporter.commands.about import ahead
from reporter.commands.beginning import new
from reporter.commands.desk import desk
from reporter.commands.schema import schema
from reporter.commands.visit import plan, sheet, take


def register(app: typer.Typer) -> None:
    """Put the commands of this package into the program."""
    app.callback()(ahead)
    for command in (plan, sheet, take, desk, new, schema):
        app.command()(command)
    sealing.register(app)
