"""What judging costs: `python -m tests.benchmarks.grading [PARTS ...]` (default 60 500 2000); prints a table.

Run from the project's folder. The jobs are made on the spot, ten kinds of parts in turn, every observation and reading
given, no photos. *First* is the first grading in a process and includes what is loaded only once, such as the units;
the other columns are the least of three more calls, composing of one. Garbage is looked for as rarely as on the command line. Figures are processor time; *growth* sets the time of a part against
that of the first row: 1 is linear.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from reporter import pipeline
from reporter.cli import YOUNG
from reporter.outline import outline
from reporter.registry import find, load
from tests.benchmarks.made import job

ROUNDS = 3


def seconds(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The least processor time of so many calls."""
    taken = []
    for _ in range(rounds):
        begin = time.process_time()
        work()
        taken.append(time.process_time() - begin)
    return min(taken)


def main() -> None:
    """Makes the jobs, reads, grades and composes them, prints the table."""
    counts = [int(word) for word in sys.argv[1:]] or [60, 500, 2000]
    gc.set_threshold(YOUNG)
    registry = load(find())
    base: list[float] = []
    print(
        "| parts | checks | actions | read s | grade, first s | grade s | outline s | growth of these three |\n"
        "|---|---|---|---|---|---|---|---|"
    )
    with tempfile.TemporaryDirectory() as place:
        for count in counts:
            folder = Path(place) / str(count)
            job(folder, registry, count)
            read = pipeline.collect(folder, registry)
            template = registry.template(read.sheet.purpose)
            first = seconds(lambda: pipeline.grade(read, registry, template), 1)  # noqa: B023 - called at once
            graded = pipeline.grade(read, registry, template)
            taken = [
                seconds(lambda: pipeline.collect(folder, registry)),  # noqa: B023
                seconds(lambda: pipeline.grade(read, registry, template)),  # noqa: B023
                seconds(lambda: outline(read, graded, template, registry), 1),  # noqa: B023
            ]
            base = base or [each / count for each in taken]
            growth = ", ".join(f"{each / count / one:.2f}" for each, one in zip(taken, base, strict=True))
            checks = sum(len(part.checks) for part in graded.components)
            actions = sum(len(part.actions) for part in graded.components)
            reading, grading, composing = taken
            print(
                f"| {count} | {checks} | {actions} | {reading:.2f} | {first:.2f} | {grading:.2f} | {composing:.2f} | {growth} |",
                flush=True,
            )


if __name__ == "__main__":
    main()
