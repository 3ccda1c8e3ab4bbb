"""What a changed word costs: `python -m tests.benchmarks.cache [PHOTOS [ROUNDS]]` (default 100 and 3); prints a table.

Run from the project's folder. A job with photos of 12 megapixels is reported with an empty folder of kept pictures, then
one word of the findings is changed and it is reported again; each round begins with an empty folder. The last report is
also made without what is kept, and its bytes are compared. Processor time of the program and its workers.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.benchmarks.made import job
from tests.benchmarks.report import TO_A_PART, run


def main() -> None:
    """Makes the job, reports it, changes a word, reports again."""
    from reporter.registry import find, load

    given = [int(word) for word in sys.argv[1:]]
    count, rounds = (*given, 100, 3)[:2] if len(given) != 1 else (given[0], 3)
    registry, spent = load(find()), list[tuple[float, float]]()
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        job(place / "small", registry, 2, 1)
        run(place / "small", place / "small.pdf", place)  # compiles the modules
        folder = place / "job"
        job(folder, registry, -(-count // TO_A_PART), count)
        findings, target = folder / "findings.yaml", place / "kept.pdf"
        for number in range(rounds):
            shutil.rmtree(place / "kept", ignore_errors=True)
            first = run(folder, target, place, keep=True)[-1][1]
            text = findings.read_text("utf-8")
            findings.write_text(text.replace("end to end", f"end to end again{number}", 1), "utf-8")
            spent.append((first, run(folder, target, place, keep=True)[-1][1]))
        run(folder, place / "anew.pdf", place)
        same = target.read_bytes() == (place / "anew.pdf").read_bytes()
    print(
        "| photos | first run, CPU s | one word changed, CPU s | ratio | same bytes without |\n|---|---|---|---|---|"
    )
    first, again = (median(column) for column in zip(*spent, strict=True))
    ratio = median(after / before for before, after in spent)
    print(f"| {count} | {first:.2f} | {again:.2f} | {ratio:.2f} | {'yes' if same else 'NO'} |")


if __name__ == "__main__":
    main()
