"""One change in the demonstration job, as the desk makes it: edit, read what is held in memory, grade.

    python -m tests.benchmarks.live

Prints processor seconds, the first time and warm. At most 0.3 s are promised.
"""

from __future__ import annotations

import shutil
import tempfile
import time
from itertools import pairwise
from pathlib import Path

from reporter import pipeline
from reporter.desk.standing import Headers
from reporter.editing import Edit, JobFiles
from reporter.registry import find, load

DEMO = Path(__file__).parents[2] / "demo_job"
NOISE = ("components", {"id": "wheel"}, "observed", "noise")


def main() -> None:
    """Change one answer to and fro, and print what each step takes."""
    registry, headers = load(find()), Headers()
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "job"
        shutil.copytree(DEMO, folder)
        files = JobFiles(folder)
        for number, (seen, wanted) in enumerate([("quiet", "grinding"), ("grinding", "quiet")] * 3):
            marks = [time.process_time()]
            files.accept("noise", [Edit("findings.yaml", NOISE, seen, wanted)])
            marks.append(time.process_time())
            texts = {name: files.text(name) for name in ("job.yaml", "findings.yaml", "measurements.csv")}
            job, _ = pipeline.read_begun(folder, registry, texts, headers)
            marks.append(time.process_time())
            pipeline.grade(job, registry, registry.template(job.sheet.purpose), keep_going=True)
            marks.append(time.process_time())
            steps = [after - before for before, after in pairwise(marks)]
            told = ", ".join(
                f"{name} {step:.3f}" for name, step in zip(("edit", "read", "grade"), steps, strict=True)
            )
            print(f"{'first' if not number else 'then'}: {told}, together {sum(steps):.3f} s")


if __name__ == "__main__":
    main()
