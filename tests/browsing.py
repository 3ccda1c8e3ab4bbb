"""Debian's Chromium, headless, for every test that looks at a page; .ci/browser.sh installs it.

Where it is missing the test is skipped with the reason, unless GUDGEON_BROWSER=required.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, NoReturn

import pytest

from tests.living import PATIENCE


def _unavailable(reason: str) -> NoReturn:
    if os.environ.get("GUDGEON_BROWSER") == "required":
        pytest.fail(reason)
    pytest.skip(reason)


@contextmanager
def chromium() -> Iterator[Any]:
    """The running browser. While it runs its event loop is in the way of others: a fixture of it must not last a session."""
    program = shutil.which("chromium")
    if not program:
        _unavailable("chromium is not installed: run .ci/browser.sh once")
    try:
        from playwright.sync_api import expect, sync_playwright
    except ImportError:
        _unavailable("playwright is not installed: pip install playwright")
    expect.set_options(timeout=PATIENCE * 200)
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=program, args=["--no-sandbox"])
        yield opened
        opened.close()
