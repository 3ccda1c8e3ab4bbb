"""What every command takes, and what each begins with."""

from __future__ import annotations

import sys
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Annotated

import typer

from reporter.commands.in_language import language, told
from reporter.errors import UsageError
from reporter.machine import log

if TYPE_CHECKING:
    from reporter.registry import Registry

JobFolder = Annotated[
    Path,
    typer.Argument(help="The job folder: job.yaml, findings.yaml, measurements.csv, photos.", metavar="JOB"),
]


def _spoken(lang: str) -> str:
    if not lang:
        return lang
    from reporter.outputs.installed import spoken_in

    return spoken_in(lang)


Lang = Annotated[str, typer.Option("--lang", callback=_spoken, help="Default: the one that job.yaml names.")]
OwnLang = Annotated[
    str,
    typer.Option(
        "--lang",
        callback=lambda lang: _spoken(lang) or language(),
        help="Default: that of this computer, where the program speaks it.",
    ),
]
"""For a command without a job folder."""


def registry() -> Registry:
    """Every installed kind, system and template; what could not be loaded is named, and stops nothing that needs it not."""
    from reporter.registry import find, load

    loaded = load(find())
    for each in loaded.broken.values():
        from reporter.wording import catalogue

        echo(catalogue(language())("listing.left_out", what=told(each.message)), err=True)
    return loaded


def echo(text: str, *, err: bool = False) -> None:
    """Print for a person: whatever a folder, a file's name or the command's words hold, no terminal obeys it."""
    from reporter.model.unseen_characters import visible

    typer.echo(for_terminal(visible(text)) if err else visible(text), err=err)


def say(english: str, *, err: bool = False) -> None:
    """Print a sentence of the program's own, in the language of this run."""
    echo(told(english), err=err)


def for_terminal(text: str) -> str:
    """What is said on the error stream, broken between words where a terminal shows it; as it is where a file takes it."""
    from reporter.outputs.screen import fitted

    return fitted(text, get_terminal_size().columns) if sys.stderr.isatty() else text


def echo_data(text: str) -> None:
    """Print JSON, in which such characters are escaped and so mean the same."""
    from reporter.model.unseen_characters import escaped

    typer.echo(escaped(text))


def tell(step: str) -> None:
    """Progress for a person at a terminal; quiet when the output is piped."""
    log.note(step)
    if sys.stderr.isatty():
        from reporter.wording import catalogue

        echo(f"  {catalogue(language())(f'progress.{step.split()[1]}')} …", err=True)


def _audience(name: str) -> str:
    """One of the audiences that the program has a version for, or none told."""
    from reporter.model.template import AUDIENCES

    if name and name not in AUDIENCES:
        raise UsageError(f"There is no version for '{name}'.", f"Versions are: {', '.join(AUDIENCES)}.")
    return name


Audience = Annotated[
    str,
    typer.Option(
        "--for", callback=_audience, help="A version for others: buyer or public.", metavar="READERS"
    ),
]
