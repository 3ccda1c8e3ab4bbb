"""How a reading was taken, in short: cut at a comma, but never inside brackets."""

from __future__ import annotations

import pytest

from reporter.outline.measures import gist


@pytest.mark.parametrize(
    ("method", "short"),
    [
        ("steel rule, along the chain", "steel rule"),
        ("by eye", "by eye"),
        (
            "in parts of all (of a double braid, in the cover)",
            "in parts of all (of a double braid, in the cover)",
        ),
        ("caliper (jaws, not blades), three times", "caliper (jaws, not blades)"),
    ],
)
def test_the_gist_never_ends_inside_brackets(method: str, short: str) -> None:
    assert gist(method) == short
