"""What tags and the archival form cost beside the layout: `python -m tests.benchmarks.tagging [PARTS]` (default 60).

Run from the project's folder. The same report without photos is laid out with and without marks, and the marked pages
are archived, in turn and in one process. *Layout* is laying out on a canvas that marks nothing: no marked content, no
kids of elements, no check for unmarked painting. *Tags* is what laying out with all that takes beyond it. *Finish* is
the structure tree, metadata, attachments and the saving of the file; *own check* is the reading back of what was
written, which every run does. Figures are processor time; each ratio is the median of the rounds' own ratios, since on
a busy machine the rounds differ more than the tags cost.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from unittest.mock import patch

from reporter import pipeline
from reporter.archive import archive, verify
from reporter.door import close
from reporter.model.pages import Pages
from reporter.model.report import Report
from reporter.outline import outline
from reporter.registry import find, load
from reporter.typeset import typeset
from reporter.typeset.canvas import TaggedCanvas
from tests.benchmarks.made import job

ROUNDS = 11


def composed(folder: Path, parts: int) -> Report:
    """The report of a made job."""
    registry = load(find())
    job(folder, registry, parts)
    read = pipeline.collect(folder, registry)
    template = registry.template(read.sheet.purpose)
    return outline(read, pipeline.grade(read, registry, template), template, registry)


@contextmanager
def _unmarked(_canvas: TaggedCanvas, _owner: object) -> Iterator[None]:
    yield


def without_tags(report: Report, target: Path) -> None:
    """The pages laid out on a canvas that marks nothing; links stay."""
    with (
        patch.object(TaggedCanvas, "mark", _unmarked),
        patch.object(TaggedCanvas, "_refuse_unmarked", lambda _canvas: None),
    ):
        typeset(report, {}, target)


def seconds(job: Callable[[], object]) -> float:
    """Processor seconds of one call."""
    gc.collect()  # what an earlier call left behind is not this one's cost
    begin = time.process_time()
    job()
    return time.process_time() - begin


def rounds(report: Report, place: Path) -> list[tuple[float, ...]]:
    """Of each round the processor seconds of: layout, layout with tags, archive, own check."""
    bare, marked, whole = place / "bare.pdf", place / "marked.pdf", place / "whole.pdf"
    pages: Pages = typeset(report, {}, marked)
    archive(report, pages, whole)
    jobs: list[Callable[[], object]] = [
        lambda: without_tags(report, bare),
        lambda: typeset(report, {}, marked),
        lambda: archive(report, pages, whole),
        lambda: verify(whole),
    ]
    return [tuple(seconds(job) for job in jobs) for _ in range(ROUNDS)]


def main() -> None:
    """Makes the report, runs the rounds, prints the table."""
    parts = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    with tempfile.TemporaryDirectory() as place:
        report = composed(Path(place) / "job", parts)
        close()
        taken = rounds(report, Path(place))
    print(f"{parts} parts; layout {median(each[0] for each in taken):.2f} s\n")
    costs = {
        "tags": [tagged - layout for layout, tagged, _, _ in taken],
        "finish": [archived - check for _, _, archived, check in taken],
        "own check": [check for _, _, _, check in taken],
        "**tags and finish**": [
            tagged - layout + archived - check for layout, tagged, archived, check in taken
        ],
        "**tags, finish and check**": [tagged - layout + archived for layout, tagged, archived, _ in taken],
    }
    print("| step | to the layout |\n|---|---|")
    for name, spent in costs.items():
        ratio = median(cost / each[0] for cost, each in zip(spent, taken, strict=True))
        print(f"| {name} | {ratio:.2f} |")


if __name__ == "__main__":
    main()
