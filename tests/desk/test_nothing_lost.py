"""Every change is on disk before the page says so, whoever else writes, and whatever ends the run."""

from __future__ import annotations

import shutil
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import Any

import httpx2
import pytest
from starlette.testclient import TestClient

from reporter.desk.serving import OpenDesk, open_desk
from reporter.registry import Registry
from tests.desk.conftest import HOST, ORIGIN, PORT, Serve, edit, free_port
from tests.living import PATIENCE, until

WHEEL = ["components", {"id": "wheel"}]
NOISE = [*WHEEL, "observed", "noise"]
CONFLICT = 409


def on_disk(job: Path) -> str:
    """The findings as the disk has them."""
    return (job / "findings.yaml").read_text("utf-8")


def test_an_answer_is_on_disk_when_it_is_called_saved(page: TestClient, job: Path) -> None:
    before = page.get("/api/job").json()
    assert edit(page, NOISE, "quiet", "grinding").status_code == 200
    assert "noise: grinding" in on_disk(job)
    after = page.get("/api/job", params={"since": before["version"]}).json()
    assert after["version"] != before["version"]
    assert after["undo"] == "x"
    part = page.get("/api/part/wheel").json()
    assert part["outcome"]["grade"] == "first"
    assert any("grinds, metal on metal" in each["sentence"] for each in part["outcome"]["checks"])


def test_an_edit_of_what_somebody_else_changed_is_a_conflict_with_both_values(
    page: TestClient, job: Path
) -> None:
    edit(page, NOISE, "quiet", "grinding")
    answer = edit(page, NOISE, "quiet", "clicks")
    assert answer.status_code == CONFLICT
    conflict = answer.json()["conflicts"][0]
    assert (conflict["seen"], conflict["now"], conflict["wanted"]) == ("quiet", "grinding", "clicks")
    assert "noise: grinding" in on_disk(job)


def test_the_same_edit_sent_again_is_accepted_and_is_one_edit(page: TestClient) -> None:
    """The answer was lost in sleep: the page sends it again."""
    assert edit(page, NOISE, "quiet", "grinding").json()["entry"] == 1
    again = edit(page, NOISE, "quiet", "grinding")
    assert again.status_code == 200
    assert again.json()["entry"] is None


def test_two_windows_lose_nothing(desk: OpenDesk, page: TestClient, job: Path) -> None:
    """Each changes its own fields from views that are never renewed."""
    other = TestClient(desk.app, base_url=f"http://{HOST}", headers=ORIGIN)
    other.post("/api/enter", json={"key": desk.keys.key})
    ids = [each["id"] for each in page.get("/api/job").json()["parts"]][:8]
    refused: list[Any] = []

    def write(client: TestClient, key: str) -> None:
        for ident in ids:
            answer = edit(client, ["components", {"id": ident}, key], None, f"{key} of {ident}")
            refused.extend([] if answer.status_code == 200 else [answer.text])

    threads = [
        threading.Thread(target=write, args=pair) for pair in ((page, "future_a"), (other, "future_b"))
    ]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert refused == []
    text = on_disk(job)
    assert all(f"future_{key}: future_{key} of {ident}\n" in text for ident in ids for key in "ab")


def test_what_a_stale_editor_takes_away_is_offered_and_put_back(page: TestClient, job: Path) -> None:
    stale = on_disk(job)
    edit(page, NOISE, "quiet", "grinding", label="Noise")
    assert page.get("/api/lost").json() == {"lost": []}
    (job / "findings.yaml").write_text(stale.replace("cockpit, after end", "cockpit, aft"), "utf-8")
    lost = page.get("/api/lost").json()["lost"]
    assert [(each["label"], each["wanted"], each["now"]) for each in lost] == [("Noise", "grinding", "quiet")]
    assert page.post("/api/lost", json={"put_back": [each["entry"] for each in lost]}).status_code == 200
    assert "noise: grinding" in on_disk(job)
    assert "cockpit, aft" in on_disk(job)
    assert page.get("/api/lost").json() == {"lost": []}


def test_undo_goes_on_after_a_restart(job: Path, registry: Registry, page: TestClient) -> None:
    before = on_disk(job)
    edit(page, NOISE, "quiet", "grinding", label="Noise")
    with open_desk(job, registry, PORT, print, is_job=True) as anew:
        client = TestClient(anew.app, base_url=f"http://{HOST}", headers=ORIGIN)
        client.post("/api/enter", json={"key": anew.keys.key})
        assert client.get("/api/job").json()["undo"] == "Noise"
        assert client.post("/api/undo", json={}).json()["label"] == "Noise"
        assert on_disk(job) == before
        assert client.post("/api/redo", json={}).json()["label"] == "Noise"
        assert "noise: grinding" in on_disk(job)
        assert client.post("/api/redo", json={}).status_code == 422


def test_the_version_is_the_files_and_survives_a_restart(
    job: Path, registry: Registry, page: TestClient
) -> None:
    version = page.get("/api/job").json()["version"]
    with open_desk(job, registry, PORT, print, is_job=True) as anew:
        client = TestClient(anew.app, base_url=f"http://{HOST}", headers=ORIGIN)
        client.post("/api/enter", json={"key": anew.keys.key})
        assert client.get("/api/job").json()["version"] == version


@contextmanager
def entered(base: str, key: str) -> Iterator[httpx2.Client]:
    """A browser at a server of its own."""
    with httpx2.Client(base_url=base, headers={"Origin": base}, timeout=PATIENCE) as client:
        assert client.post("/api/enter", json={"key": key}).status_code == 200
        yield client


@pytest.mark.slow
def test_killed_and_started_again_nothing_that_was_called_saved_is_missing(serve: Serve, job: Path) -> None:
    port = free_port()
    for round_number in range(3):
        process, base, key = serve(job, port)
        with entered(base, key) as client:
            saved: list[str] = []
            killer = threading.Timer(0.005 * round_number, process.send_signal, [signal.SIGKILL])
            with suppress(httpx2.HTTPError):
                for number in count():
                    if len(saved) == 4 * round_number:
                        killer.start()
                    name = f"k{round_number}-{number}"
                    answer = edit(client, [*WHEEL, "details", name], None, "x")
                    assert answer.status_code == 200
                    saved.append(name)
        process.wait()
        text = on_disk(job)
        assert len(saved) >= 4 * round_number
        assert all(f"{name}: x" in text for name in saved)
    _, base, key = serve(job, port)
    with entered(base, key) as client:
        assert len(client.get("/api/job").json()["parts"]) == 50


@pytest.mark.slow
def test_a_long_wait_ends_with_the_news(serve: Serve, job: Path) -> None:
    """Many windows wait at once, three of one browser for long, and others are answered meanwhile."""
    _, base, key = serve(job, wait=10 * PATIENCE)
    with entered(base, key) as client:
        version = client.get("/api/job").json()["version"]
        told: list[str] = []
        waiting = [
            threading.Thread(target=_wait, args=(base, dict(client.cookies), version, told), daemon=True)
            for _ in range(60)
        ]
        for each in waiting:
            each.start()
        assert until(lambda: len(told) == 57)
        assert told == [version] * 57
        assert client.get("/api/jobs").status_code == 200
        assert len(told) == 57
        (job / "findings.yaml").write_text(on_disk(job) + "# by hand\n", "utf-8")
        for each in waiting:
            each.join(timeout=PATIENCE)
        assert len(told) == 60
        assert version not in told[57:]


def test_a_wait_without_news_ends_with_what_was_known(
    page: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("reporter.desk.app.WAIT", 0.1)
    version = page.get("/api/job").json()["version"]
    assert page.get("/api/job", params={"since": version}).json() == {"version": version}


@pytest.mark.slow
def test_many_windows_of_one_browser_do_not_take_all_its_lines(serve: Serve, job: Path) -> None:
    """The fourth and further waits are short, so that a browser with six lines always has one again."""
    _, base, key = serve(job)
    with entered(base, key) as client:
        version = client.get("/api/job").json()["version"]
        told: list[str] = []
        windows = [
            threading.Thread(target=_wait, args=(base, dict(client.cookies), version, told)) for _ in range(6)
        ]
        for each in windows:
            each.start()
        assert until(lambda: len(told) >= 3)
        (job / "findings.yaml").write_text(on_disk(job) + "# by hand\n", "utf-8")
        for each in windows:
            each.join()
    assert told[:3] == [version] * 3
    assert version not in told[3:]


def _wait(base: str, cookies: dict[str, str], version: str, told: list[str]) -> None:
    with httpx2.Client(base_url=base, cookies=cookies, timeout=PATIENCE) as client:
        told.append(client.get("/api/job", params={"since": version}).json()["version"])


@pytest.mark.slow
def test_a_page_that_sleeps_through_a_restart_goes_on_where_it_was(serve: Serve, job: Path) -> None:
    """The page keeps its edits and asks again; its cookie is void after a restart, which it is told plainly."""
    port = free_port()
    process, base, key = serve(job, port)
    with entered(base, key) as client:
        process.kill()
        process.wait()
        with pytest.raises(httpx2.HTTPError):
            edit(client, NOISE, "quiet", "grinding")
        _, base, key = serve(job, port)
        assert edit(client, NOISE, "quiet", "grinding").status_code == 401
        assert client.post("/api/enter", json={"key": key}).status_code == 200
        assert edit(client, NOISE, "quiet", "grinding").status_code == 200
    assert "noise: grinding" in on_disk(job)


def test_a_folder_that_cannot_be_written_is_told(page: TestClient, job: Path) -> None:
    shutil.rmtree(job / ".gudgeon", ignore_errors=True)
    (job / ".gudgeon").write_text("no folder")
    answer = edit(page, NOISE, "quiet", "grinding")
    assert answer.status_code == 507
    assert answer.json()["do"]
    assert "noise: quiet" in on_disk(job)
