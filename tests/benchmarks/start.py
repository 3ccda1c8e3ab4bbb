"""What a command costs from its start to its end: `python -m tests.benchmarks.start GUDGEON [GUDGEON ...]`; prints a table.

Each GUDGEON is the program of one environment (`.venv/bin/gudgeon`, another one's with an older version). They run in turn,
so that what else the machine does falls on all alike. Figures are processor time of the program and its workers, the median
of nine runs; *ratio* sets it against the first environment. Run from the project's folder.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
from collections.abc import Sequence

ROUNDS = 9
COMMANDS = (("check", "demo_job"), ("--help",))


def seconds(command: Sequence[str]) -> float:
    """Processor time of one run and of all that it started."""
    from resource import RUSAGE_CHILDREN, getrusage

    begin = getrusage(RUSAGE_CHILDREN)
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    end = getrusage(RUSAGE_CHILDREN)
    return end.ru_utime + end.ru_stime - begin.ru_utime - begin.ru_stime


def main() -> None:
    """Runs every command of every environment once for its compiled files, then in turn."""
    programs = sys.argv[1:]
    print("| command | environment | s | ratio |\n|---|---|---|---|")
    for words in COMMANDS:
        taken: dict[str, list[float]] = {program: [] for program in programs}
        for number in range(ROUNDS + 1):
            for program in programs:
                spent = seconds((program, *words))
                if number:
                    taken[program].append(spent)
        first = statistics.median(taken[programs[0]])
        for program in programs:
            middle = statistics.median(taken[program])
            print(f"| {' '.join(words)} | {program} | {middle:.2f} | {middle / first:.2f} |")


if __name__ == "__main__":
    main()
