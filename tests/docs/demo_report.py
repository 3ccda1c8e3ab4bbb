"""README's finished report made anew: `python -m tests.docs.demo_report`. As the demo's own, with photos small enough to keep."""

from __future__ import annotations

from pathlib import Path

from reporter import pipeline
from reporter.registry import find, load

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "docs/demo_report.pdf"
DOTS = 100
"""Per inch, of its photos: the whole file is then under 1 MB."""


def main() -> None:
    """Write the report of the demo."""
    registry = load(find())
    template = registry.template("pre_purchase").model_copy(update={"dots_per_inch": DOTS})
    pipeline.report(ROOT / "demo_job", KEPT, registry, template, tell=print)


if __name__ == "__main__":
    main()
