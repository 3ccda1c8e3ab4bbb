"""What every command takes, and what each begins with."""

from __future__ import annotations

import sys
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Annotated

import typer

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


def registry(lang: str = "") -> Registry:
    """Every installed kind, system and template; what could not be loaded is named, and stops nothing that needs it not."""
    from reporter.registry import find, load

    loaded = load(find())
    if loaded.broken:
        _tell_left_out(loaded, lang or "en")
    return loaded


def _tell_left_out(loaded: Registry, lang: str) -> None:
    """One line on the error stream for each installed thing that is left out."""
    from reporter.wording import catalogue

    words = catalogue(lang)
    for each in loaded.broken.values():
        echo(words("listing.left_out", what=each.message), err=True)


def echo(text: str, *, err: bool = False) -> None:
    """Print for a person: whatever a folder, a file's name or the command's words hold, no terminal obeys it."""
    from reporter.model.unseen_characters import visible

    typer.echo(for_terminal(visible(text)) if err else visible(text), err=err)


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
        echo(f"  {step} …", err=True)


def _audience(name: str) -> str:
    """One of the audiences that the program has a version for, or none told."""
    from reporter.model.disclosure import AUDIENCES

    if name and name not in AUDIENCES:
        msg = f"There is no version for '{name}'."
        raise UsageError(msg, f"Versions are: {', '.join(AUDIENCES)}.")
    return name


Audience = Annotated[
    str,
    typer.Option(
        "--for", callback=_audience, help="A version for others: buyer or public.", metavar="READERS"
    ),
]
