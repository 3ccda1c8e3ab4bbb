"""The desk prints plan and field sheet, and takes a filled sheet back."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from starlette.testclient import TestClient

from tests.living import until
from tests.sheet.making import fill_with_pikepdf, sheet_of

TURNS = "wheel/readings/turns/-/-/1"


def made(page: TestClient, what: str) -> dict[str, Any]:
    """What the desk says of a document when it is finished."""
    assert page.post("/api/build", json={"what": what}).status_code == 200
    assert until(lambda: page.get("/api/build").json()["state"] != "running")
    return dict(page.get("/api/build").json())


@pytest.mark.slow
@pytest.mark.parametrize(("what", "most"), [("plan", 2), ("sheet", 16)])
def test_the_desk_prints_plan_and_sheet(page: TestClient, what: str, most: int, tmp_path: Path) -> None:
    told = made(page, what)
    assert (told["state"], told["error"]) == ("done", "")
    assert 1 <= told["pages"] <= most
    assert told["step"] == told["steps"]
    file = tmp_path / "came.pdf"
    file.write_bytes(page.get(f"/out/{told['file']}").content)
    assert len(pypdfium2.PdfDocument(file)) == told["pages"]


@pytest.mark.slow
def test_a_filled_sheet_is_taken_and_what_differs_only_when_asked_for(
    page: TestClient, job: Path, tmp_path: Path
) -> None:
    sheet = sheet_of(job, tmp_path / "sheet.pdf")
    filled = fill_with_pikepdf(sheet, tmp_path / "filled.pdf", {TURNS: "2.3"}).read_bytes()
    table = job / "measurements.csv"
    before, version = table.read_text("utf-8"), page.get("/api/job").json()["version"]

    told = page.post("/api/take?name=filled.pdf", content=filled).json()
    assert told["differs"] == 1
    assert table.read_text("utf-8") == before

    told = page.post("/api/take?name=filled.pdf&replace=1", content=filled).json()
    assert told["differs"] == 0
    assert "2.3" in table.read_text("utf-8")
    assert page.get("/api/job").json()["version"] != version
    assert page.post("/api/undo").status_code == 200
    assert table.read_text("utf-8") == before
    assert not list((job / ".gudgeon" / "coming").iterdir())


def test_what_is_no_sheet_is_refused_in_words(page: TestClient, job: Path) -> None:
    answer = page.post("/api/take?name=x.pdf", content=b"%PDF-1.7 nothing")
    assert answer.status_code in {422, 500}
    assert "fault of the program" not in answer.json()["error"]
    assert answer.json()["do"]
    assert not list((job / ".gudgeon" / "coming").iterdir())
