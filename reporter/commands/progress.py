"""What a person sees of a run while it lasts: the step, photos done of how many, the time left. On stderr, never else.

At a terminal one line that changes and is gone at the end; nothing where the output is piped. With `-v` each step leaves
a line with its seconds, also where it is piped; with `-q` nothing is shown.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Protocol

import typer

from reporter.commands.in_language import language
from reporter.commands.options import echo
from reporter.machine import log

if TYPE_CHECKING:
    from reporter.wording import Catalogue

Quiet = Annotated[bool, typer.Option("-q", "--quiet", help="Say nothing but what is wrong.")]
Verbose = Annotated[bool, typer.Option("-v", "--verbose", help="Say what each step took.")]


class ChangingLine(Protocol):
    """The line that changes."""

    def show(self, words: str, done: int, count: int) -> None:
        """Put this in its place; a `count` of 0 is of nothing that is counted."""

    def leave(self, words: str) -> None:
        """Print a line that stays."""


class NoLine:
    """Where nobody looks: what is to stay is printed, what changes is not."""

    def show(self, words: str, done: int, count: int) -> None:
        """Nothing."""

    def leave(self, words: str) -> None:
        """Print it on stderr."""
        echo(words, err=True)


class RunTold:
    """What a run tells of itself, as the pipeline calls it, in words on a line."""

    def __init__(self, line: ChangingLine, words: Catalogue, steps: int, *, verbose: bool) -> None:
        self._line, self._words, self._steps, self._verbose = line, words, steps, verbose
        self._step, self._begun, self._photos = "", 0.0, 0

    def step(self, step: str) -> None:
        """A step begins, told as its number and name; the one before is done."""
        self.end()
        log.note(step)
        self._step, self._begun, self._photos = step, time.monotonic(), 0
        self._line.show(self._called(), 0, 0)

    def photos(self, done: int, count: int) -> None:
        """So many photos of the step are done, of how many."""
        self._photos += count if done == count else 0  # earlier visits are read after this one
        self._line.show(self._called(), done, count)

    def end(self) -> None:
        """The last step is done."""
        if self._step and self._verbose:
            took = f"{time.monotonic() - self._begun:.1f}"
            photos = self._words("progress.photos", count=self._photos) if self._photos else ""
            self._line.leave(
                self._words("progress.took", step=self._called(), seconds=took, photos=photos).rstrip()
            )
        self._step = ""

    def _called(self) -> str:
        number, _, name = self._step.partition(" ")
        return self._words(
            "progress.step", number=number, steps=self._steps, name=self._words(f"progress.{name}")
        )


@contextmanager
def progress(lang: str, target: Path, *, quiet: bool, verbose: bool) -> Iterator[RunTold]:
    """What to hand a run that writes `target`, as long as it lasts."""
    from reporter.finishing import WEB
    from reporter.wording import catalogue

    words, steps = catalogue(lang or language()), 5 if target.suffix.lower() in WEB else 6
    if quiet or not sys.stderr.isatty():
        told = RunTold(NoLine(), words, steps, verbose=verbose and not quiet)
        yield told
    else:
        from reporter.commands.live import live

        with live(words) as line:
            told = RunTold(line, words, steps, verbose=verbose)
            yield told
    told.end()
