"""Requests from where none should come, and of what nobody should get: refused before anything of the job is touched."""

from __future__ import annotations

import socket
import threading
import time
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import anyio
import pytest
from starlette.testclient import TestClient

from reporter.desk import keys
from reporter.desk.guards import POLICY
from reporter.desk.keys import Keys
from reporter.desk.serving import OpenDesk
from tests.desk.conftest import HOST, ORIGIN, PORT, Serve, edit
from tests.living import PATIENCE

INSIDE = ("/api/job", "/api/part/wheel", "/api/sheet", "/api/kinds", "/api/lost", "/api/jobs", "/api/build", "/api/guests",
          "/photo/wheel_hub.jpg", "/thumb/wheel_hub.jpg", "/drawing/steering.svg", "/page/1.jpg", "/out/job.pdf",
          "/api/told/check")  # fmt: skip
NOISE = ["components", {"id": "wheel"}, "observed", "noise"]


@pytest.mark.parametrize(
    "host",
    ["boat.example", f"boat.example:{PORT}", "127.0.0.1", f"localhost:{PORT}", f"localhost.:{PORT}", f"0.0.0.0:{PORT}",
     f"127.0.0.1:{PORT + 1}", f"127.0.0.1.boat.example:{PORT}", ""],
)  # fmt: skip
def test_another_name_than_its_own_is_not_answered(page: TestClient, host: str) -> None:
    """A name that an outsider may point at this computer: DNS rebinding."""
    for path in ("/", "/static/start.js", "/api/job", "/api/words"):
        assert page.get(path, headers={"Host": host}).status_code == 403
    assert page.post("/api/undo", json={}, headers={"Host": host}).status_code == 403


@pytest.mark.parametrize(
    "origin",
    [
        "null",
        "http://boat.example",
        f"https://{HOST}",
        f"http://127.0.0.1:{PORT + 1}",
        "http://127.0.0.1",
        None,
    ],
)
def test_another_page_cannot_change_anything(page: TestClient, job: Path, origin: str | None) -> None:
    before = (job / "findings.yaml").read_bytes()
    page.headers.pop("Origin")
    headers = {"Origin": origin} if origin else {}
    body = {
        "label": "x",
        "edits": [{"file": "findings.yaml", "address": NOISE, "seen": "quiet", "wanted": "grinding"}],
    }
    for path in (
        "/api/edit",
        "/api/undo",
        "/api/lost",
        "/api/photos?name=a.jpg",
        "/api/build",
        "/api/pair",
        "/api/enter",
    ):
        assert page.post(path, json=body, headers=headers).status_code == 403, path
    assert (job / "findings.yaml").read_bytes() == before


def test_a_page_of_another_port_of_this_computer_is_another_page(page: TestClient) -> None:
    assert page.get("/api/job", headers={"Sec-Fetch-Site": "same-site"}).status_code == 403
    assert page.get("/photo/wheel_hub.jpg", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403
    assert page.get("/api/jobs", headers={"Sec-Fetch-Site": "same-origin"}).status_code == 200


@pytest.mark.parametrize("path", INSIDE)
def test_nothing_of_the_job_without_a_token(stranger: TestClient, path: str) -> None:
    assert stranger.get(path).status_code == 401
    cookie = {"Cookie": f"gudgeon-{PORT}=wrong; gudgeon=wrong"}
    assert stranger.get(path, headers=cookie).status_code == 401


@pytest.mark.parametrize(
    "path",
    [
        "/api/edit",
        "/api/undo",
        "/api/redo",
        "/api/lost",
        "/api/photos",
        "/api/build",
        "/api/pair",
        "/api/jobs",
    ],
)
def test_nothing_is_done_without_a_token(stranger: TestClient, path: str) -> None:
    assert stranger.post(path, json={}).status_code == 401


def test_what_is_open_holds_nothing_of_the_job(stranger: TestClient) -> None:
    for path in ("/", "/static/start.js", "/static/figures.css", "/api/words"):
        answer = stranger.get(path)
        assert answer.status_code == 200
        assert b"Marram" not in answer.content


def test_a_key_is_good_once(desk: OpenDesk, stranger: TestClient) -> None:
    key = desk.keys.key
    assert stranger.post("/api/enter", json={"key": "wrong"}).status_code == 401
    assert stranger.post("/api/enter", json={"key": key}).status_code == 200
    other = TestClient(desk.app, base_url=f"http://{HOST}", headers=ORIGIN)
    assert other.post("/api/enter", json={"key": key}).status_code == 401
    assert other.get("/api/job").status_code == 401


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(desk: OpenDesk, stranger: TestClient) -> None:
    told = stranger.post("/api/enter", json={"key": desk.keys.key}).headers["set-cookie"].lower()
    assert told.startswith(f"gudgeon-{PORT}=")
    assert "httponly" in told
    assert "samesite=strict" in told


OUTWARDS = (
     "/photo/../job.yaml", "/photo/%2e%2e/job.yaml", "/photo/..%2fjob.yaml", "/photo/..%5cjob.yaml", "/photo/%2e%2e%2f%2e%2e%2fetc/passwd",
     "/photo//etc/passwd", "/photo/%2fetc%2fpasswd", "/photo/wheel_hub.jpg%00.png", "/photo/photos/wheel_hub.jpg", "/thumb/../../job.yaml",
     "/static/../keys.py", "/static/%2e%2e%2fkeys.py", "/static/..%5ckeys.py", "/static/", "/static/.hidden", "/out/..%2fjob.yaml",
     "/out/%2fetc%2fpasswd", "/.gudgeon/journal.jsonl", "/job.yaml", "/static/__init__.py", "/drawing/..%2f..%2fjob.svg",
)  # fmt: skip


def test_no_way_leads_out_of_what_is_named(page: TestClient) -> None:
    for path in OUTWARDS:
        answer = page.get(path, follow_redirects=False)
        assert answer.status_code == 404, path
        assert b"vessel" not in answer.content, path


def test_other_methods_are_not_spoken(page: TestClient) -> None:
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"):
        assert page.request(method, "/api/job").status_code == 405
    assert page.get("/api/edit").status_code == 405


def test_every_answer_carries_the_policy(page: TestClient) -> None:
    for path in ("/", "/api/job", "/static/start.js", "/nowhere", "/photo/wheel_hub.jpg"):
        answer = page.get(path)
        assert answer.headers["content-security-policy"] == POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
    assert "unsafe" not in POLICY
    assert page.get("/api/job", headers={"Host": "boat.example"}).headers["content-security-policy"] == POLICY


def test_no_answer_leads_elsewhere(page: TestClient) -> None:
    for path in ("/?next=http://boat.example", "//boat.example", "/api/job/", "/photo"):
        answer = page.get(path, follow_redirects=False)
        assert "location" not in answer.headers
        assert answer.status_code in {200, 403, 404}


def test_a_body_that_says_it_is_large_is_not_read(page: TestClient) -> None:
    assert page.post("/api/edit", content=b"x" * 1_000_001).status_code == 413
    headers = {"Content-Length": str(2 * 1024**3)}
    assert page.post("/api/photos?name=a.jpg", content=b"", headers=headers).status_code == 413
    assert page.post("/api/edit", content=b"{}", headers={"Content-Length": "-1"}).status_code == 413


def test_a_body_in_pieces_without_a_length_is_counted_while_it_comes(serve: Serve, job: Path) -> None:
    """2 GB in chunks: refused at the limit, the connection closed, nothing left behind."""
    _, base, key = serve(job)
    where = urlsplit(base)
    cookie = _entered(where.netloc, key)
    for path, most in (("/api/edit", 64), ("/api/photos?name=a.jpg", 240)):
        sent, answer = _flood(where.netloc, path, cookie)
        assert b" 413 " in answer.split(b"\r\n")[0]
        assert sent < most, sent
    assert not list((job / ".gudgeon/coming").glob("*"))
    assert len(list((job / "photos").iterdir())) == 19


def _entered(host: str, key: str) -> str:
    body = f'{{"key": "{key}"}}'
    with _connected(host) as line:
        line.sendall(
            f"POST /api/enter HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Length: {len(body)}\r\n\r\n{body}".encode()
        )
        told = line.recv(65_536).decode()
    return next(
        each.split(": ", 1)[1].split(";")[0]
        for each in told.split("\r\n")
        if each.lower().startswith("set-cookie")
    )


def _connected(host: str) -> socket.socket:
    name, port = host.split(":")
    return socket.create_connection((name, int(port)), timeout=PATIENCE)


def _flood(host: str, path: str, cookie: str) -> tuple[int, bytes]:
    """Sends megabytes until the other side has had enough: how many, and what it said."""
    megabyte = b"100000\r\n" + b"x" * 0x100000 + b"\r\n"
    answer: list[bytes] = []
    with _connected(host) as line:
        reader = threading.Thread(target=lambda: answer.append(line.recv(65_536)))
        reader.start()
        head = f"POST {path} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nCookie: {cookie}\r\nTransfer-Encoding: chunked\r\n\r\n"
        line.sendall(head.encode())
        sent = 0
        try:
            while sent < 2048 and not answer:
                line.sendall(megabyte)
                sent += 1
        except OSError:
            pass
        reader.join()
    return sent, answer[0]


def test_two_hosts_in_one_request_are_one_too_many(serve: Serve, job: Path) -> None:
    _, base, _ = serve(job)
    host = urlsplit(base).netloc
    for heads in (f"Host: {host}\r\nHost: boat.example\r\n", ""):
        with _connected(host) as line:
            line.sendall(f"GET / HTTP/1.1\r\n{heads}\r\n".encode())
            assert b" 400 " in line.recv(4096).split(b"\r\n")[0]


def test_the_guard_itself_takes_no_request_with_two_hosts(desk: OpenDesk) -> None:
    """Whatever the server in front of it lets through."""
    host = (b"host", HOST.encode())
    for hosts in ([], [host, host], [host, (b"host", b"boat.example")]):
        sent: list[Any] = []

        async def send(message: Any, kept: list[Any] = sent) -> None:
            kept.append(message)

        async def receive() -> Any:
            return {"type": "http.request", "body": b"", "more_body": False}

        scope = {"type": "http", "method": "GET", "path": "/", "headers": hosts, "query_string": b""}
        anyio.run(desk.app, scope, receive, send)
        assert sent[0]["status"] == 400


def test_it_listens_on_this_computer_alone(serve: Serve, job: Path) -> None:
    """The socket is bound to 127.0.0.1: the system's own table of listening ports says so."""
    _, base, _ = serve(job)
    port = f"{urlsplit(base).port:04X}"
    table = Path("/proc/net/tcp")
    if not table.exists():
        pytest.skip("this system has no such table")
    listening = [line.split()[1] for line in table.read_text().splitlines()[1:] if line.split()[3] == "0A"]
    assert [each for each in listening if each.endswith(f":{port}")] == [f"0100007F:{port}"]


@pytest.mark.parametrize(
    "raw",
    ["[]", "nonsense", '{"edits": []}', '{"edits": [{}]}', '{"edits": [{"file": "../x", "address": ["a"]}]}',
     '{"edits": [{"file": "findings.yaml", "address": []}]}', '{"edits": [{"file": "findings.yaml", "address": [{"id": 1, "b": 2}]}]}',
     '{"edits": [{"file": "findings.yaml", "address": ["a"], "wanted": "\\u0007"}]}', "[" * 100_000,
     '{"edits": [{"file": "findings.yaml", "address": [{"row": ["a", "b", "c", 0]}], "wanted": "x"}]}',
     '{"edits": [{"file": "measurements.csv", "address": [{"row": [1, {}, [], "x"]}], "wanted": {"value": "1"}}]}'],
)  # fmt: skip
def test_a_request_that_means_nothing_is_told_so_and_changes_nothing(
    page: TestClient, job: Path, raw: str
) -> None:
    before = {each: each.read_bytes() for each in job.glob("*.[yc]*")}
    answer = page.post("/api/edit", content=raw, headers={"Content-Type": "application/json"})
    assert answer.status_code in {400, 422}
    assert answer.json()["error"]
    assert {each: each.read_bytes() for each in job.glob("*.[yc]*")} == before


def test_words_of_a_job_are_never_markup(page: TestClient) -> None:
    nasty = '<script>alert(1)</script><img src=x onerror="a">'
    edit(page, ["components", {"id": "wheel"}, "name"], "Wheel and shaft", nasty)
    caption = ["components", {"id": "wheel"}, "photos", {"photo": "wheel_hub.jpg"}, "marks", 3, "text"]
    assert edit(page, caption, "spoke weld", "<script>x</script>").status_code == 200
    drawn = page.get("/drawing/steering.svg").text
    overlay = page.get("/api/part/wheel").json()["photos"][0]["overlay"]
    assert "<script" not in drawn
    assert "<img" not in drawn
    assert "<script" not in overlay
    assert "&lt;script" in overlay


def test_a_code_ends_by_time_by_use_and_by_wrong_tries(monkeypatch: pytest.MonkeyPatch) -> None:
    holder = Keys()
    code = holder.offer().code
    assert holder.pair(code.lower(), "phone", "192.168.7.8")
    assert holder.pair(code, "phone", "192.168.7.8") is None
    code = holder.offer().code
    for _ in range(keys.MOST_TRIES):
        assert holder.pair("WRONGONE", "x", "y") is None
    assert holder.pair(code, "phone", "192.168.7.8") is None
    code = holder.offer().code
    late = time.monotonic() + keys.CODE_LASTS + 1
    monkeypatch.setattr("reporter.desk.keys.time.monotonic", lambda: late)
    assert holder.pair(code, "phone", "192.168.7.8") is None


def test_another_device_comes_in_by_a_code_and_the_terminal_says_so(
    desk: OpenDesk, page: TestClient, told: list[str]
) -> None:
    offered = page.post("/api/pair", json={}).json()
    assert offered["url"] == f"http://192.168.7.7:{PORT}/#pair={offered['code']}"
    assert offered["svg"].startswith("<svg")
    phone = TestClient(
        desk.app, base_url=f"http://192.168.7.7:{PORT}", headers={"Origin": f"http://192.168.7.7:{PORT}"}
    )
    assert phone.get("/api/job").status_code == 401
    assert phone.post("/api/enter", json={"pair": "WRONGONE"}).status_code == 401
    assert (
        phone.post("/api/enter", json={"pair": offered["code"], "name": "tablet\nbelow"}).status_code == 200
    )
    assert phone.get("/api/jobs").json()["on_network"]
    assert len(told) == 1
    assert told[0].startswith("Connected: tabletbelow from ")
    assert [each["own"] for each in page.get("/api/guests").json()["guests"]] == [True, False]
    # A guest lets nobody else in.
    assert phone.post("/api/pair", json={}).status_code == 404


def test_without_the_network_there_is_no_code(job: Path, registry: object) -> None:
    from reporter.desk.serving import open_desk

    with open_desk(job, registry, PORT, print, is_job=True) as alone:  # type: ignore[arg-type]
        client = TestClient(alone.app, base_url=f"http://{HOST}", headers=ORIGIN)
        client.post("/api/enter", json={"key": alone.keys.key})
        assert client.post("/api/pair", json={}).status_code == 404
        code = alone.keys.offer().code
        late = TestClient(alone.app, base_url=f"http://{HOST}", headers=ORIGIN)
        assert late.post("/api/enter", json={"pair": code}).status_code == 401
        other = TestClient(alone.app, base_url=f"http://192.168.7.7:{PORT}")
        assert other.get("/").status_code == 403
