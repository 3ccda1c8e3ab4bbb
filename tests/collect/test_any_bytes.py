"""Whatever lies in a job folder: a Job or a JobError with plain problems, never anything else."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from reporter.collect import collect
from reporter.errors import JobError
from reporter.model.job import Job

FILES = ("job.yaml", "findings.yaml", "measurements.csv")
QUICK = settings(
    max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)

words = st.sampled_from(
    ["null", "~", "''", "[]", "{}", "nan", "1e9", "9**9**9", "*a", "&a", "!!int 1", "- ", ": ", "#", "\t", "\n", "  ", '"',
     "'", "[", "]", "{", "}", "2026-02-30", "0x1F", "-1", "1,234 mm", "\u202e", "\U0001f6a2", "\ufeff", "\u2028", "\x85", "=1+1"]
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn, text: str) -> bytes:
    """The good text with some pieces cut out, doubled or replaced."""
    for _ in range(draw(st.integers(1, 4))):
        begin = draw(st.integers(0, len(text)))
        end = min(len(text), begin + draw(st.integers(0, 30)))
        middle = draw(words | st.text(max_size=6) | st.just(text[begin:end] * 2))
        text = text[:begin] + middle + text[end:]
    return text.encode("utf-8", "surrogatepass")


def collected(files: Mapping[str, bytes], installed: Any, photos: Any) -> None:
    """Collect a folder of these files; the answer must be one of the two."""
    with tempfile.TemporaryDirectory() as root:
        for name, content in files.items():
            (Path(root) / name).parent.mkdir(exist_ok=True)
            (Path(root) / name).write_bytes(content)
        try:
            job = collect(Path(root), installed, photos=photos)
        except JobError as error:
            told = error
        else:
            assert isinstance(job, Job)
            return
    assert told.problems
    assert all(problem.what and problem.do for problem in told.problems)
    str(told).encode()


@given(st.data())
@QUICK
@pytest.mark.parametrize("name", FILES)
def test_random_bytes(
    name: str, good: Mapping[str, str], installed: Any, photos: Any, data: st.DataObject
) -> None:
    """Any bytes in any of the three files."""
    files = {each: text.encode() for each, text in good.items()}
    collected({**files, name: data.draw(st.binary(max_size=200))}, installed, photos)


@given(st.data())
@QUICK
@pytest.mark.parametrize("name", FILES)
def test_spoilt_files(
    name: str, good: Mapping[str, str], installed: Any, photos: Any, data: st.DataObject
) -> None:
    """A good file with a few slips of the hand."""
    files = {each: text.encode() for each, text in good.items()}
    collected({**files, name: data.draw(spoilt(good[name]))}, installed, photos)


values: Any = st.recursive(
    st.sampled_from(["x", "1", "2026-05-12", "12.7 mm", "nan", "seen", "ring", "[0, 1]", "", "true"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["id", "kind", "value", "at", "choice", "year", "file"]), inner, max_size=3
        )
    ),
    max_leaves=6,
)


@given(st.data())
@QUICK
def test_any_value_under_any_key(
    good: Mapping[str, str], installed: Any, photos: Any, data: st.DataObject
) -> None:
    """Known keys with values of the wrong form."""
    import json

    from reporter.model.findings import Component
    from reporter.model.sheet import JobSheet

    files = {each: text.encode() for each, text in good.items()}
    key = data.draw(st.sampled_from(sorted(JobSheet.model_fields)))
    base = "\n".join(line for line in good["job.yaml"].splitlines() if not line.startswith(key)) + "\n"
    files["job.yaml"] = (base + f"{key}: {json.dumps(data.draw(values))}\n").encode()
    own = data.draw(st.sampled_from(sorted(set(Component.model_fields) - {"id", "kind", "examined"})))
    files["findings.yaml"] = (
        good["findings.yaml"] + f"    {own}: {json.dumps(data.draw(values))}\n"
    ).encode()
    collected(files, installed, photos)
