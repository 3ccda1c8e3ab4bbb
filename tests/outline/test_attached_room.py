"""Attached data of a long report are put into words in little more room than the text itself takes."""

from __future__ import annotations

import json
import tracemalloc

from reporter.outline.attached import _json


def test_json_is_put_down_piece_by_piece() -> None:
    """All pieces at once took 100 MB for 300 parts. Text that grows is copied, so at times it is there three times."""
    data = {
        "parts": [{"id": f"part_{number}", "grade": "clear", "score": number / 7} for number in range(4000)]
    }
    tracemalloc.start()
    try:
        text = _json(data)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert json.loads(text) == data
    assert text == json.dumps(data, ensure_ascii=False, indent=1, sort_keys=True)
    assert most < 5 * len(text), f"{most / len(text):.1f} times the text"
