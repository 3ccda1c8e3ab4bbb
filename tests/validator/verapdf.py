"""Calls the reference validator of PDF/A and PDF/UA (veraPDF) on many files with one start of Java.

`.ci/validator.sh` makes it ready. Where it is not ready a test is skipped with the reason, unless the
environment says GUDGEON_VALIDATOR=required: then the test fails, so that a build cannot pass without it.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NoReturn

import pytest

_MAIN = "org.verapdf.apps.GreenfieldCliWrapper"
# One pass over small files is over before the full compiler has paid for itself.
_JAVA_OPTIONS = ("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Djava.awt.headless=true")
_CACHE = Path(
    os.environ.get("GUDGEON_CACHE")
    or Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "gudgeon"
)
"""Asked for when this is imported: while tests run, the program's own cache is a folder of theirs."""


def validate(paths: Iterable[Path], flavour: str) -> dict[Path, list[str]]:
    """Validate PDF files against a flavour ("3a", "ua1"); the failed rules of each, none when it conforms.

    A rule reads "7.3-1: description [where it failed first]", numbered by clause of ISO 19005-3 or
    ISO 14289-1 and the validator's test number. Raises AssertionError when a file gets no verdict.
    """
    wanted = [path.resolve() for path in paths]
    command = [_java(), *_JAVA_OPTIONS, "-cp", _classpath(), _MAIN, "--flavour", flavour, "--format", "json"]
    done = subprocess.run([*command, *map(str, wanted)], capture_output=True, check=False, timeout=900)
    assert done.stdout, f"the validator said nothing: {done.stderr.decode(errors='replace')}"
    jobs = json.loads(done.stdout)["report"]["jobs"]
    verdicts = {Path(job["itemDetails"]["name"]): _failed_rules(job) for job in jobs}
    assert set(verdicts) == set(wanted), "the validator did not judge every file"
    return verdicts


def require(tool: str) -> str:
    """Find a checking tool; where it is missing the test is skipped, or fails when checkers are required."""
    path = shutil.which(tool)
    return path or _unavailable(f"{tool} is not installed")


def _java() -> str:
    return require("java")


def _classpath() -> str:
    file = _CACHE / "validator.classpath"
    if not file.is_file():
        _unavailable("the reference validator is not there: run .ci/validator.sh once")
    return file.read_text().strip()


def _unavailable(reason: str) -> NoReturn:
    if os.environ.get("GUDGEON_VALIDATOR") == "required":
        pytest.fail(reason)
    pytest.skip(reason)


def _failed_rules(job: dict[str, Any]) -> list[str]:
    results = job.get("validationResult")
    if not results:
        return [f"no verdict: {job.get('taskException', job)}"]
    result = results[0] if isinstance(results, list) else results
    rules = [
        f"{rule['clause']}-{rule['testNumber']}: {rule['description']} [{rule['checks'][0]['context']}]"
        for rule in result["details"]["ruleSummaries"]
        if rule["failedChecks"]
    ]
    assert bool(rules) != result["compliant"], "verdict and failed rules disagree"
    return rules
