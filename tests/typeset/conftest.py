"""What the tests of this folder share: laying out a report, and reading it back in full."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from reporter.model.pages import Pages
from reporter.model.report import Block
from reporter.typeset import typeset
from tests.typeset.reading import Read, marks, read
from tests.typeset.samples import pictures, report

LayOut = Callable[..., tuple[Pages, Read]]


@pytest.fixture
def lay_out(tmp_path: Path) -> LayOut:
    """Lay blocks out after a title; checks what holds for every page that this stage writes."""
    shown = pictures(tmp_path)

    def run(*blocks: Block, **changes: object) -> tuple[Pages, Read]:
        pages = typeset(report(*blocks, **changes), shown, tmp_path / "pages.pdf")
        found = read(pages.file)
        assert not found.faults
        owned = [(mark.page, mark.mcid) for mark in marks(pages.tree)]
        assert len(owned) == len(set(owned)), "a mark has two owners"
        assert set(owned) == set(found.marked), "the tree and the streams hold the same marks"
        return pages, found

    return run
