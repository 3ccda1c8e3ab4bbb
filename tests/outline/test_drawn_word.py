"""The words that a drawing has for the grades of its parts: those of the report, and what is told beside a grade."""

from __future__ import annotations

import pytest

from reporter.model.assessment import Graded
from reporter.model.findings import Component, Examined
from reporter.model.terms import Extent, Grade
from reporter.outline.context import Context
from reporter.wording import catalogue

CONTEXT = Context(job=None, assessments=None, template=None, plugins={}, systems={}, words=catalogue())  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("grade", "extent", "failed", "word"),
    [
        (Grade.PLAN, Extent.SEEN, "", "plan"),
        (Grade.UNSEEN, Extent.NOT_SEEN, "", "not seen"),
        (Grade.UNSEEN, Extent.NOT_FITTED, "", "not fitted"),
        (Grade.FIRST, Extent.NOT_FOUND, "", "not found: first"),
        (Grade.UNSEEN, Extent.SEEN, "its plugin failed", "not graded"),
    ],
)
def test_every_part_has_its_word(grade: Grade, extent: Extent, failed: str, word: str) -> None:
    component = Component(id="a", kind="chain", examined=Examined(extent=extent, because="closed up"))
    part = Graded(
        component=component, title="Chain", system="steering", station="helm", load_path=True, grade=grade, computed=grade, failed=failed,
    )  # fmt: skip
    assert CONTEXT.drawn_word(part) == word
