"""The keys and the sealed report that most tests here read, made once."""

from __future__ import annotations

import pytest

from tests.seal.made import Made, made


@pytest.fixture(scope="session")
def signed(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Made once; tests copy its bytes, never change them."""
    return made(tmp_path_factory.mktemp("signed"))
