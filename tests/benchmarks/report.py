"""What a whole report costs: `python -m tests.benchmarks.report [PHOTOS ...]` (default 100 300); prints a table.

Run from the project's folder. Job folders are made on the spot: photos of 12 megapixels from eight distinct pixel
contents, five to a part, all printed at full width (the heaviest case). `PARTS:PHOTOS` asks for other mixes, such as
`60:0 300:0`. No picture is kept from an earlier run; `cache` measures that. Processor time is that of the program and its workers together, told by step; memory is the highest sum
of the proportional set sizes (PSS) of the whole process tree in each step, sampled every 20 ms. Both need /proc. The
last column sets a step's processor time per photo (or part, where there are none) against that of the first row: 1
is linear growth.
"""

from __future__ import annotations

import gc
import json
import os
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

from tests.benchmarks.made import job
from tests.benchmarks.photos import tree_pss

ROOT = Path(__file__).parents[2]
TO_A_PART = 5
STEPS = ("collect", "grade", "outline", "develop", "typeset", "archive")


def tree_seconds(pid: int) -> float:
    """Processor seconds of a process, of all below it, and of those below it that have ended."""
    total, waiting = 0, [pid]
    while waiting:
        each = waiting.pop()
        try:
            fields = Path(f"/proc/{each}/stat").read_text().rpartition(")")[2].split()
            total += sum(int(field) for field in fields[11:15])
            waiting += [
                int(below)
                for task in Path(f"/proc/{each}/task").iterdir()
                for below in (task / "children").read_text().split()
            ]
        except (OSError, ValueError):
            continue
    return total / os.sysconf("SC_CLK_TCK")


def environment(place: Path) -> dict[str, str]:
    """That of an installed program: its modules compiled once, pictures kept nowhere but below `place`."""
    ours = {"PYTHONPYCACHEPREFIX": str(place / "compiled"), "GUDGEON_CACHE": str(place / "kept")}
    return {key: each for key, each in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"} | ours


def child(folder: str, target: str, keep: str) -> None:
    """Writes one report; prints when each step began, by the clock and in processor seconds."""
    from reporter import cli, pipeline
    from reporter.door import close
    from reporter.registry import find, load

    gc.set_threshold(cli.YOUNG)  # as the program itself does
    begun: list[tuple[float, float]] = []

    def tell(_step: str) -> None:
        begun.append((time.monotonic(), tree_seconds(os.getpid())))

    pipeline.report(Path(folder), Path(target), load(find()), tell=tell, keep=keep == "keep")
    tell("the end")
    close()
    print(json.dumps(begun))


def run(folder: Path, target: Path, place: Path, *, keep: bool = False) -> list[tuple[float, float]]:
    """When each step began and when the last ended, by the clock and in processor seconds; nothing else is measured."""
    done = subprocess.run(_command(folder, target, keep=keep), env=environment(place), cwd=ROOT, check=True, capture_output=True, text=True)  # fmt: skip
    return [(clock, spent) for clock, spent in json.loads(done.stdout)]


def _command(folder: Path, target: Path, *, keep: bool = False) -> list[str]:
    module = [sys.executable, "-m", "tests.benchmarks.report"]
    return [*module, "--child", str(folder), str(target), "keep" if keep else ""]


def measure(folder: Path, target: Path, place: Path) -> tuple[list[float], list[float]]:
    """Processor seconds and peak PSS (MB): before the first step, then of each step."""
    samples: list[tuple[float, float]] = []
    with subprocess.Popen(
        _command(folder, target), stdout=subprocess.PIPE, text=True, cwd=ROOT, env=environment(place)
    ) as running:
        while running.poll() is None:
            samples.append((time.monotonic(), tree_pss(running.pid)))
            time.sleep(0.02)
        assert running.stdout is not None
        begun = json.loads(running.stdout.read())
    seconds = [begun[0][1], *(after[1] - before[1] for before, after in pairwise(begun))]
    edges = [0.0, *(when for when, _ in begun)]
    peaks = [
        max((mb for when, mb in samples if start <= when < end), default=0.0)
        for start, end in pairwise(edges)
    ]
    return seconds, peaks


def asked(word: str) -> tuple[int, int]:
    """Parts and photos of one row: "300" photos, or "60:0" parts and photos."""
    parts, colon, photos = word.partition(":")
    return (int(parts), int(photos)) if colon else (-(-int(word) // TO_A_PART), int(word))


def main() -> None:
    """Makes the folders, writes the reports, prints the table."""
    from reporter.registry import find, load

    registry = load(find())
    first: list[float] = []
    print("| parts | photos | step | CPU s | ms each | peak PSS MB | growth |\n|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as place:
        small = Path(place) / "small"
        job(small, registry, 2, 1)
        run(small, Path(place) / "small.pdf", Path(place))  # compiles the modules
        for word in sys.argv[1:] or ["100", "300"]:
            parts, photos = asked(word)
            folder, target = Path(place) / word, Path(place) / f"{word}.pdf"
            job(folder, registry, parts, photos)
            seconds, peaks = measure(folder, target, Path(place))
            count = photos or parts
            rows = [*zip(("start", *STEPS), seconds, peaks, strict=True), ("whole", sum(seconds), max(peaks))]
            first = first or [spent / count for _, spent, _ in rows]
            for (step, spent, peak), base in zip(rows, first, strict=True):
                ratio = f"{spent / count / base:.2f}" if base else "–"
                told = (f"{spent:.2f}", f"{1000 * spent / count:.1f}", f"{peak:.0f}", ratio)
                print(f"| {parts} | {photos} | {step} | {' | '.join(told)} |")
            print(f"| {parts} | {photos} | file, {target.stat().st_size / 1e6:.1f} MB | | | | |", flush=True)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--child"]:
        child(*sys.argv[2:])
    else:
        main()
