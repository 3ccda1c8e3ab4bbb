"""The line at a terminal that changes while a run lasts, by rich: step, bar, photos done, time left; gone at the end."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from rich.console import Console
from rich.progress import BarColumn, Progress, ProgressColumn, SpinnerColumn, Task, TextColumn
from rich.table import Column
from rich.text import Text

if TYPE_CHECKING:
    from reporter.wording import Catalogue

_MINUTE = 60
_BAR = 10
"""So wide that all of it stands on one line of 80, with the number of the thousandth photo."""


class _Left(ProgressColumn):
    """Photos done of how many, and about how long the rest takes, by the speed of the last half minute."""

    def __init__(self, words: Catalogue) -> None:
        super().__init__(Column(no_wrap=True))
        self._words = words

    def render(self, task: Task) -> Text:
        if not task.total:
            return Text()
        told = self._words("progress.done", done=int(task.completed), count=int(task.total))
        left = task.time_remaining
        if not left:
            return Text(told)
        unit, amount = ("minutes", left / _MINUTE) if left > 2 * _MINUTE else ("seconds", left)
        return Text(f"{told}, {self._words(f'progress.{unit}', count=round(amount))}")


class LiveLine:
    """One line for the whole run; each step begins it anew."""

    def __init__(self, shown: Progress) -> None:
        self._shown = shown
        self._task, self._words = shown.add_task("", total=None), ""

    def show(self, words: str, done: int, count: int) -> None:
        """Put this in its place."""
        if words != self._words:  # another step has a speed of its own
            self._shown.remove_task(self._task)
            self._task, self._words = self._shown.add_task(words, total=None), words
        self._shown.update(self._task, completed=done, total=count or None)

    def leave(self, words: str) -> None:
        """Print a line above it."""
        self._shown.console.print(words, highlight=False, markup=False)


@contextmanager
def live(words: Catalogue, console: Console | None = None) -> Iterator[LiveLine]:
    """The line on stderr, as long as it is wanted."""
    step = TextColumn("{task.description}", markup=False, table_column=Column(no_wrap=True))
    columns = SpinnerColumn(), step, BarColumn(_BAR), _Left(words)
    where = console or Console(stderr=True)
    with Progress(*columns, console=where, transient=True, refresh_per_second=5) as shown:
        yield LiveLine(shown)
