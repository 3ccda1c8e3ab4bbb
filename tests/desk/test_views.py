"""What the page is told: the same grades, marks and words that the report prints; half-filled jobs; photos; documents."""

from __future__ import annotations

import hashlib
import io
import json
import socket
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from starlette.testclient import TestClient

from reporter import door, pipeline
from reporter.desk.serving import open_desk
from reporter.desk.standing import Headers
from reporter.editing import JobFiles
from reporter.model.photo import PhotoFile
from reporter.registry import Registry
from tests.desk.conftest import DEMO, HOST, ORIGIN, PORT, edit
from tests.living import until

pytestmark = pytest.mark.slow


def test_grades_are_those_of_the_report(page: TestClient, job: Path, registry: Registry) -> None:
    told = page.get("/api/job").json()
    read = pipeline.collect(job, registry)
    graded = pipeline.grade(read, registry, registry.template(read.sheet.purpose))
    assert [(each["id"], each["grade"], each["score"]) for each in told["parts"]] == [
        (each.component.id, each.grade.value, each.score) for each in graded.components
    ]
    assert sum(each["count"] for each in told["grades"]) == len(graded.components)
    assert told["title"] == "Marram"
    assert set(told["drawings"]) == {"steering", "rig", "running", "safety", "ground"}
    assert 'data-part="wheel"' in told["drawings"]["steering"]


def test_a_part_tells_each_gap_once(page: TestClient, job: Path, registry: Registry) -> None:
    (job / "findings.yaml").write_text(
        "format: 1\ncomponents:\n- {id: wheel, kind: wheel, examined: {extent: part_seen}}\n", "utf-8"
    )
    outcome = page.get("/api/part/wheel").json()["outcome"]
    needed = [
        reading.title for reading in registry.plugins["wheel"].observations if reading.required == "needed"
    ]
    lines = [outcome["sentence"], *outcome["capped"], *outcome["missing"]]
    assert len(outcome["capped"]) == 1
    assert needed
    for title in needed:
        assert sum(title.lower() in line.lower() for line in lines) == 1, title


def test_every_question_tells_where_its_answer_stands(page: TestClient, job: Path) -> None:
    """Each address leads to what is told as seen: an edit from one to another is always understood."""
    files = JobFiles(job)
    count = 0
    for ident in ("wheel", "chain", "wire-starboard"):
        part = (
            page.get(f"/api/part/{ident}").json()
            if page.get(f"/api/part/{ident}").status_code == 200
            else None
        )
        for question in _questions(part["form"]) if part else ():
            if "row" in question:
                for answer in question["answers"]:
                    assert files.value("measurements.csv", tuple(answer["address"])) == answer["seen"]
                    count += 1
                continue
            assert files.value(question["file"], tuple(question["address"])) == question["seen"]
            count += question["seen"] is not None
    assert count > 30
    for question in _questions(page.get("/api/sheet").json()):
        assert files.value("job.yaml", tuple(question["address"])) == question["seen"]


def _questions(form: dict[str, Any]) -> list[dict[str, Any]]:
    return [question for block in form["blocks"] for question in block["questions"]]


def test_every_kind_has_a_form_and_can_be_begun(page: TestClient, registry: Registry) -> None:
    """A part of each kind, with nothing told of it but its kind: unseen, and its form is there."""
    kinds = [kind for system in page.get("/api/kinds").json()["systems"] for kind in system["kinds"]]
    assert {each["kind"] for each in kinds} == set(registry.plugins)
    edits = [
        {
            "file": "findings.yaml",
            "address": ["components", {"id": f"x-{each['kind'].replace('_', '-')}"}],
            "seen": None,
            "wanted": {"kind": each["kind"]},
        }
        for each in kinds
    ]
    assert page.post("/api/edit", json={"label": "all", "edits": edits}).status_code == 200
    state = page.get("/api/job").json()
    new = [each for each in state["parts"] if each["id"].startswith("x-")]
    assert len(new) == len(kinds)
    assert {each["grade"] for each in new} <= {"unseen", "clear", "watch", "plan"}
    assert {(each["question"], each["title"], each["empty"]) for each in state["faults"]} == {
        ("examined", "How much was seen", True)
    }
    for each in new:
        told = page.get(f"/api/part/{each['id']}").json()
        assert told["form"]["blocks"]
        assert json.dumps(told)


def test_a_fault_stands_beside_its_field_and_the_rest_is_graded(page: TestClient) -> None:
    before = {each["id"]: each["grade"] for each in page.get("/api/job").json()["parts"]}
    wheel = ["components", {"id": "wheel"}]
    edit(page, [*wheel, "details", "diameter", "value"], "1000 mm", "broad")
    edit(page, [{"row": ["chain", "pitches", "", 0]}, "value"], "20", "many", file="measurements.csv")
    edit(page, ["vessel", "beam"], "3.65 m", "3.65", file="job.yaml")
    state = page.get("/api/job").json()
    told = {(each["part"], each["question"]) for each in state["faults"]}
    assert told == {("wheel", "details.diameter"), ("chain", "readings.pitches"), ("", "vessel.beam")}
    assert not any(each["empty"] for each in state["faults"])
    assert [each["question"] for each in page.get("/api/part/wheel").json()["faults"]] == ["details.diameter"]
    after = {each["id"]: each["grade"] for each in state["parts"]}
    assert {ident for ident in before if before[ident] != after.get(ident)} <= {"wheel", "chain"}


def test_a_file_that_cannot_be_read_is_told_and_not_written(page: TestClient, job: Path) -> None:
    path = job / "findings.yaml"
    path.write_text(path.read_text("utf-8") + "\n  broken: [1\n", "utf-8")
    state = page.get("/api/job").json()
    assert state["parts"] == []
    assert state["faults"]
    assert page.get("/api/part/wheel").status_code == 404
    assert edit(page, ["components", {"id": "wheel"}, "name"], "Wheel and shaft", "x").status_code == 422
    assert path.read_text("utf-8").endswith("broken: [1\n")


def jpeg(colour: tuple[int, int, int] = (90, 120, 150), orientation: int = 1) -> bytes:
    """A small photo, lying as its EXIF says."""
    image = Image.new("RGB", (80, 40), colour)
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x8769] = {0x9003: "2026:05:12 10:00:00"}
    buffer = io.BytesIO()
    image.save(buffer, "JPEG", exif=exif)
    return buffer.getvalue()


def test_a_photo_is_stored_unchanged_once_under_a_safe_name(page: TestClient, job: Path) -> None:
    data = jpeg(orientation=6)
    told = page.post("/api/photos", params={"name": "../../Bad: näme?.JPG"}, content=data).json()
    assert told["file"] == "Bad_näme.jpg"
    assert (job / "photos" / told["file"]).read_bytes() == data
    assert told["sha256"] == hashlib.sha256(data).hexdigest()
    assert (told["already"], told["width"], told["height"]) == (False, 40, 80)
    assert told["taken"]["time"] == "2026-05-12T10:00:00"
    again = page.post("/api/photos", params={"name": "other.jpg"}, content=data).json()
    assert (again["file"], again["already"]) == (told["file"], True)
    second = page.post("/api/photos", params={"name": told["file"].upper()}, content=jpeg((1, 2, 3))).json()
    assert second["file"].startswith("BAD_N")
    assert second["file"].casefold() != told["file"].casefold()
    assert len(page.get("/api/job").json()["photos"]) == 19 + 2
    assert not list((job / ".gudgeon/coming").iterdir())


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.jpg", b"no photo"),
        ("a.exe", jpeg()),
        ("a.yaml", b"format: 1"),
        ("", jpeg()),
        ("a.jpg", b""),
        (".jpg.html", jpeg()),
    ],
)
def test_what_is_no_photo_is_not_kept(page: TestClient, job: Path, name: str, data: bytes) -> None:
    before = sorted(job.rglob("*.*"))
    answer = page.post("/api/photos", params={"name": name}, content=data)
    assert answer.status_code == 422
    assert answer.json()["do"]
    assert [each for each in sorted(job.rglob("*.*")) if ".gudgeon" not in str(each)] == [
        each for each in before if ".gudgeon" not in str(each)
    ]


def test_copies_are_upright_and_bare(page: TestClient) -> None:
    file = page.post("/api/photos", params={"name": "lying.jpg"}, content=jpeg(orientation=6)).json()["file"]
    for path in (f"/photo/{file}?w=60", f"/thumb/{file}", f"/photo/{file}?w=50&at=0.5,0.5&radius=0.2"):
        image = Image.open(io.BytesIO(page.get(path).content))
        assert image.height >= image.width
        assert not image.getexif()
    wide = Image.open(io.BytesIO(page.get("/photo/wheel_hub.jpg?w=500").content))
    assert wide.size == (500, 375)
    assert page.get(f"/photo/{file}?w=50&at=x&radius=0.2").status_code == 422


def test_the_same_photo_is_decoded_once(page: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    page.get("/thumb/wheel_hub.jpg")
    monkeypatch.setattr(door, "run", lambda *_args, **_named: pytest.fail("decoded again"))
    assert page.get("/thumb/wheel_hub.jpg").status_code == 200


def test_headers_are_read_once_for_each_state_of_a_file(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []
    real = door.read_photos

    def counted(files: list[Path], folder: Path, **named: Any) -> list[PhotoFile]:
        asked.append(len(files))
        return real(files, folder, **named)

    monkeypatch.setattr("reporter.desk.standing.read_photos", counted)
    headers, files = Headers(), sorted((job / "photos").iterdir())
    first = headers(files, job, time_zone="UTC")
    assert headers(files, job, time_zone="UTC") == first
    files[0].write_bytes(jpeg())
    assert headers(files, job, time_zone="UTC")[0].sha256 != first[0].sha256
    assert asked == [len(files), 1]


@pytest.mark.parametrize(("what", "ending"), [("report", ".pdf"), ("html", ".html"), ("work", "-work.pdf")])
def test_a_document_is_made_beside_the_answers_and_is_that_of_the_command(
    page: TestClient, job: Path, registry: Registry, tmp_path: Path, what: str, ending: str
) -> None:
    assert page.post("/api/build", json={"what": what}).status_code == 200
    assert page.post("/api/build", json={"what": what}).status_code == 422
    assert page.get("/api/job").status_code == 200
    assert until(lambda: page.get("/api/build").json()["state"] != "running")
    told = page.get("/api/build").json()
    assert (told["state"], told["error"], told["step"]) == ("done", "", told["steps"])
    assert told["file"] == f"job{ending}"
    made = page.get(f"/out/{told['file']}").content
    target = tmp_path / f"by_hand{ending}"
    if what == "work":
        pipeline.work(job, target, registry, tell=lambda _: None)
    else:
        pipeline.report(job, target, registry, tell=lambda _: None)
    assert made == target.read_bytes()
    if what != "html":
        assert told["pages"] > 1
        assert Image.open(io.BytesIO(page.get("/page/1.jpg?w=300").content)).width == 300
        assert page.get(f"/page/{told['pages'] + 1}.jpg").status_code == 404
    assert not list(job.glob("*.pdf"))


def test_a_document_that_cannot_be_made_says_why(page: TestClient) -> None:
    edit(page, ["vessel", "beam"], "3.65 m", "3.65", file="job.yaml")
    page.post("/api/build", json={"what": "report"})
    assert until(lambda: page.get("/api/build").json()["state"] != "running")
    told = page.get("/api/build").json()
    assert told["state"] == "failed"
    assert "beam" in told["do"]
    assert page.get("/out/job.pdf").status_code == 404


@pytest.mark.parametrize("what", ["check", "work", "due", "compare"])
def test_what_the_commands_tell_is_told(page: TestClient, what: str) -> None:
    told = page.get(f"/api/told/{what}").json()
    assert len(told["lines"]) > 3
    assert told["earlier"] == ["outgoing"]
    assert page.get("/api/told/nonsense").status_code == 404
    assert page.get("/api/told/compare?earlier=nowhere").status_code == 404


def test_a_folder_of_jobs_is_chosen_from_and_begun_in(tmp_path: Path, registry: Registry, job: Path) -> None:
    assert job.parent == tmp_path
    with open_desk(tmp_path, registry, PORT, print, is_job=False) as desk:
        page = TestClient(desk.app, base_url=f"http://{HOST}", headers=ORIGIN)
        page.post("/api/enter", json={"key": desk.keys.key})
        assert page.get("/api/job").status_code == 404
        assert page.get("/api/jobs").json()["jobs"] == [{"name": "job", "title": "Marram"}]
        for name in ("../elsewhere", "a/b", "", ".hidden", "job", "x" * 61, 5, "con: 1"):
            assert page.post("/api/jobs", json={"begin": name}).status_code in {422, 507}, name
        for other in ("nowhere", "../job", None):
            assert page.post("/api/jobs", json={"open": other}).status_code == 404
        assert page.post("/api/jobs", json={"begin": "Spring visit"}).json() == {"open": "Spring visit"}
        state = page.get("/api/job").json()
        assert state["parts"] == []
        # What nobody has answered yet, and nothing else.
        asked = [("vessel.name", "Name"), ("people", "People"), ("inspection.place", "Place")]
        assert [(each["question"], each["title"]) for each in state["faults"]] == asked
        assert all(each["empty"] for each in state["faults"])
        assert page.post("/api/jobs", json={"open": "job"}).status_code == 200
        assert len(page.get("/api/job").json()["parts"]) == 50
    assert sorted(each.name for each in tmp_path.iterdir()) == ["Spring visit", "job"]


def test_the_job_speaks_its_language(page: TestClient) -> None:
    edit(page, ["lang"], None, "de", file="job.yaml")
    assert page.get("/api/words").json()["lang"] == "de"
    part = page.get("/api/part/wheel").json()
    assert part["outcome"]["word"] != page.get("/api/part/wheel").json()["outcome"]["grade"]
    assert "Durchmesser" in json.dumps(part["form"], ensure_ascii=False)


def test_nothing_of_the_page_asks_for_anything_elsewhere(page: TestClient) -> None:
    """The files of the page name no other address than XML's names; the policy would refuse it besides."""
    from reporter.desk.answers import _files

    for name, data in _files().items():
        if name.endswith(".ttf"):
            continue  # the type names its licence
        text = data.decode()
        rest = text.replace("http://www.w3.org/", "")
        assert "http://" not in rest, name
        assert "https://" not in rest, name
    assert page.get("/").headers["cache-control"] == "no-cache"
    assert DEMO.is_dir()


def test_the_server_asks_nothing_of_the_network(page: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every answer that it has, with every way out of this computer closed."""

    def connect(own: socket.socket, address: Any) -> None:
        if own.family != getattr(socket, "AF_UNIX", None):
            pytest.fail(f"asked {address}")

    monkeypatch.setattr(socket.socket, "connect", connect)
    monkeypatch.setattr(socket, "getaddrinfo", lambda *asked, **_: pytest.fail(f"looked up {asked}"))
    for path in (
        "/",
        "/api/job",
        "/api/part/wheel",
        "/api/sheet",
        "/api/kinds",
        "/thumb/wheel_hub.jpg",
        "/api/told/check",
    ):
        assert page.get(path).status_code == 200
    assert page.post("/api/photos", params={"name": "a.jpg"}, content=jpeg()).status_code == 200
    assert (
        edit(page, ["components", {"id": "wheel"}, "observed", "noise"], "quiet", "clicks").status_code == 200
    )


def test_a_job_without_a_name_is_called_by_its_folder(page: TestClient, job: Path) -> None:
    (job / "job.yaml").write_text("format: 1\n", "utf-8")
    assert page.get("/api/job").json()["title"] == "job"
