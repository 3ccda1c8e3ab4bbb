"""How the demo's documents are laid out: `python -m tests.benchmarks.layout`; prints a table of pages, words and white space.

Run from the project's folder. White is the part of the text's height that is left empty at the foot of pages, over all
pages but the last; the emptiest page is told among those before a section's last. Seconds are processor time of the layout.
"""

from __future__ import annotations

import re
import tempfile
import time
from pathlib import Path

from reporter import pipeline
from reporter.develop import develop
from reporter.door import close
from reporter.model.report import Report
from reporter.outline import outline
from reporter.outline.work_list import work_list
from reporter.registry import Registry, find, load
from tests.documents.layouts import Filled, filled

ROOT = Path(__file__).parents[2]
DEMO, OUTGOING = ROOT / "demo_job", ROOT / "demo_job" / "outgoing"
SHAPES = (("A4", "normal"), ("Letter", "normal"), ("A4", "large"), ("phone", "normal"))


def made(folder: Path, name: str, registry: Registry, page: str = "A4", text: str = "normal") -> Report:
    """One document of a folder; `name` is a template or "work"."""
    job = pipeline.collect(folder, registry)
    sheet = job.sheet.model_copy(update={"page": page, "text": text})
    job = job.model_copy(update={"sheet": sheet})
    chosen = registry.template(job.sheet.purpose if name == "work" else name)
    make = work_list if name == "work" else outline
    return make(job, pipeline.grade(job, registry, chosen), chosen, registry)


def words(document: Report) -> int:
    """Words in all blocks, as a space parts them."""
    text = " ".join(
        re.findall(
            r'"(?:text|caption|name|sentence)":"([^"]*)"', document.model_dump_json(include={"blocks"})
        )
    )
    return len(text.split())


def row(title: str, document: Report, pages: list[Filled], seconds: float) -> str:
    """A row of the table."""
    white = sum(page.empty for page in pages[:-1]) / max(len(pages) - 1, 1)
    inner = [page for page in pages if not page.ends_section]
    worst = max(inner, key=lambda page: page.empty, default=None)
    told = f"{worst.empty:.0%} (page {worst.number})" if worst else "–"
    return f"| {title} | {len(pages)} | {words(document)} | {white:.0%} | {told} | {seconds:.2f} |"


def main() -> None:
    """Lays out every document and prints what it comes to."""
    registry = load(find())
    print(
        "| document | pages | words | white | emptiest page inside a section | CPU s |\n|---|---|---|---|---|---|"
    )
    asked = [(DEMO, "pre_purchase", *shape) for shape in SHAPES]
    asked += [(DEMO, "insurance", *SHAPES[0]), (DEMO, "handover", *SHAPES[0])]
    asked += [(OUTGOING, "handover", *SHAPES[0]), (DEMO, "work", *SHAPES[0])]
    with tempfile.TemporaryDirectory() as place:
        for folder, name, page, text in asked:
            document = made(folder, name, registry, page, text)
            pictures = develop(document, folder, Path(place))
            begun = time.process_time()
            pages = filled(document, pictures)
            spent = time.process_time() - begun
            title = " ".join(
                part for part in (folder.name, name, page, text if text != "normal" else "") if part
            )
            print(row(title, document, pages, spent), flush=True)
    close()


if __name__ == "__main__":
    main()
