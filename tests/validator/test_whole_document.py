"""The reference validator on reports that went through typesetting and archiving: both standards, every page shape and text size."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter.archive import archive
from reporter.typeset import typeset
from tests.archive.whole import pictures, report
from tests.validator.verapdf import validate

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def documents(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Write a short report on each page size, a draft, and a long one."""
    folder = tmp_path_factory.mktemp("documents").resolve()
    developed = pictures(folder)
    short = report(developed)
    variants = {
        "a4": short,
        "letter": short.model_copy(update={"page": "Letter"}),
        "draft": short.model_copy(update={"draft": "DRAFT"}),
        "long": report(developed, chapters=20),
        "phone": short.model_copy(update={"page": "phone"}),
        "large": short.model_copy(update={"text": "large"}),
        "phone-large": short.model_copy(update={"page": "phone", "text": "large"}),
    }
    for name, said in variants.items():
        archive(said, typeset(said, developed, folder / f"{name}-laid-out.pdf"), folder / f"{name}.pdf")
    return [folder / f"{name}.pdf" for name in variants]


@pytest.mark.parametrize("flavour", ["3a", "ua1"])
def test_every_document_conforms(documents: list[Path], flavour: str) -> None:
    verdicts = validate(documents, flavour)
    assert {path.name: failed for path, failed in verdicts.items() if failed} == {}
