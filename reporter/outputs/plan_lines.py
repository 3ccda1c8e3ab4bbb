"""What `gudgeon plan` says on a terminal: the sections of the plan, on lines as wide as the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.outline.plan_pages import occasion
from reporter.outline.visit_plan import VisitPlan
from reporter.outputs.screen import wrapped


def plan_lines(plan: VisitPlan) -> Iterator[str]:
    """The plan for a terminal."""
    yield from wrapped(f"{plan.title}. {occasion(plan)}".strip(), 0)
    for section in plan.sections():
        yield ""
        yield section.title
        yield from wrapped(section.note, 2)
        for lead, text in section.rows:
            yield from wrapped(f"{lead}: {text}", 2)
    yield ""
    yield from wrapped(plan.words("plan.says_nothing"), 0)
