"""What the desk refuses, and what is wrong with a folder, in the language that the job asks for."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from reporter.editing import Edit


@pytest.fixture
def german(page: TestClient, job: Path) -> TestClient:
    """The browser, the job being German, with a word in it that is no answer."""
    sheet = job / "job.yaml"
    sheet.write_text(f"lang: de\n{sheet.read_text('utf-8')}", "utf-8")
    findings = job / "findings.yaml"
    findings.write_text(findings.read_text("utf-8").replace("kind: wheel\n", "kind: whel\n", 1), "utf-8")
    return page


def test_refusals_and_faults_are_told_in_german(german: TestClient) -> None:
    none = german.get("/api/part/nobody").json()
    assert none == {"error": "Dieses Teil gibt es nicht.", "do": "In der Liste der Teile nachsehen."}
    nothing = german.post("/api/edit", json={"edits": []}).json()
    assert nothing["error"] == "Es gibt nichts zu ändern."
    edit = Edit("job.yaml", ("vessel", "name"), "of another time", "anew").__dict__
    met = german.post("/api/edit", json={"label": "name", "edits": [edit]})
    assert (met.status_code, met.json()["error"]) == (409, "Das hat inzwischen jemand anders geändert.")
    assert met.json()["conflicts"][0]["wanted"] == "anew"
    assert german.get("/api/nothing").json()["error"] == "Das kann hier nicht gefragt werden."
    faults = [each["problem"] for each in german.get("/api/job").json()["faults"]]
    assert "Eine Art von Teil 'whel' gibt es nicht." in faults


def test_refusals_are_told_in_english_elsewhere(page: TestClient) -> None:
    assert page.get("/api/part/nobody").json()["error"] == "There is no such part."
