"""The reference validator on a report that was sealed and signed: PDF/A-3a and PDF/UA-1 hold with every signature."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from tests.seal.made import Made, made
from tests.validator.verapdf import validate

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def signed(tmp_path_factory: pytest.TempPathFactory) -> Made:
    return made(tmp_path_factory.mktemp("signed"))


@pytest.mark.parametrize("flavour", ["3a", "ua1"])
def test_every_signature_leaves_it_conforming(flavour: str, signed: Made, tmp_path: Path) -> None:
    """ISO 19005-3 level A and ISO 14289-1, unsigned and with one, two and three signatures, ink and none."""
    files = []
    for name in ("plain", "sealed", "received", "witnessed"):
        files.append(tmp_path.resolve() / f"{name}.pdf")
        files[-1].write_bytes(getattr(signed, name))
    assert validate(files, flavour) == {file: [] for file in files}


def test_poppler_says_that_every_signature_is_valid(signed: Made, tmp_path: Path) -> None:
    """Its pdfsig comes with pdfinfo, which the gate installs: here it must be there."""
    file = tmp_path / "witnessed.pdf"
    file.write_bytes(signed.witnessed)
    done = subprocess.run(["pdfsig", file], capture_output=True, text=True, check=False)
    assert done.stdout.count("Signature Validation: Signature is Valid.") == 3
    assert done.stdout.count("- Total document signed") == 1
