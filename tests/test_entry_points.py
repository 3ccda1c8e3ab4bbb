"""What is installed equals what pyproject lists; the registry finds without importing, and refuses doubles."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from importlib import metadata
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.cli import main
from reporter.errors import JobError, NoSuchError, PluginError
from reporter.outputs.installed import installed
from reporter.registry import GROUPS, find, load, parse_template

ROOT = Path(__file__).parents[1]


def test_installed_entry_points_equal_pyproject() -> None:
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["entry-points"]
    for group in GROUPS:
        installed = {
            point.name: point.value
            for point in metadata.entry_points(group=group)
            if point.dist is not None and point.dist.name == "gudgeon"
        }
        assert installed == listed[group], "run pip install -e . again"


def test_every_plugin_module_and_template_file_is_listed() -> None:
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["entry-points"]
    kinds = {
        file.stem
        for file in (ROOT / "plugins").rglob("*.toml")
        if "." not in file.stem and file.parent.name != "drawings" and file.name != "systems.toml"
    }
    assert kinds == set(listed["gudgeon.plugins"])
    assert {file.stem for file in (ROOT / "templates").glob("*.toml")} == set(listed["gudgeon.templates"])


def test_finding_imports_no_plugin() -> None:
    code = (
        "import sys; from reporter.registry import find; find();"
        "assert not any(name.startswith('reporter_plugins') for name in sys.modules), 'imported'"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_what_is_found_is_sorted() -> None:
    assert list(find()) == sorted(find())


BAD: dict[str, tuple[str | bytes, str]] = {
    # entry point's group and line -> what stands in its file, and what is said of it
    "gudgeon.plugins ghost = no_such_module": ("", "No module named 'no_such_module'"),
    "gudgeon.plugins sour = sick_pack": ("title = [", "sour.toml"),
    "gudgeon.plugins latin = sick_pack": ('title = "Sch\xfcttel"'.encode("latin-1"), "UnicodeDecodeError"),
    "gudgeon.plugins lost = sick_pack": (
        'title = "L"\nsystem = "rudders"\nstation = "helm"\nload_path = false\n', "its system 'rudders' is not installed",
    ),
    "gudgeon.plugins chain = sick_pack": ("", "the program has one of this name"),
    "gudgeon.plugins quits = sick_pack.quits:kind": ("", "SystemExit"),
    "gudgeon.plugins number = sick_pack.number:kind": ("", "is no Plugin but a int"),
    "gudgeon.systems keel = sick_pack": ('title = "Keel"\n', "keel"),
    "gudgeon.templates mine = sick_pack": ('colour = "red"\n', "colour"),
}  # fmt: skip


@pytest.fixture
def sick(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder on the path in which packages are installed that fail in every way; two of them bring `twice`."""
    package = tmp_path / "sick_pack"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "quits.py").write_text("raise SystemExit(3)")
    (package / "number.py").write_text("kind = 1")
    groups: dict[str, list[str]] = {}
    for line, (content, _) in BAD.items():
        group, entry = line.split(" ", 1)
        groups.setdefault(group, []).append(entry)
        if content:
            text = content if isinstance(content, bytes) else content.encode()
            (package / f"{entry.split()[0]}.toml").write_bytes(text)
    for name in ("sick", "sicker"):
        meta = tmp_path / f"{name}-1.0.dist-info"
        meta.mkdir()
        (meta / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n")
        listed = groups if name == "sick" else {}
        told = {**listed, "gudgeon.plugins": [*listed.get("gudgeon.plugins", []), "twice = sick_pack"]}
        (meta / "entry_points.txt").write_text(
            "\n".join("\n".join((f"[{group}]", *lines)) for group, lines in told.items())
        )
    monkeypatch.syspath_prepend(tmp_path)
    for module in [each for each in sys.modules if each.split(".")[0] == "sick_pack"]:
        monkeypatch.delitem(sys.modules, module)
    return tmp_path


def job_with(folder: Path, kind: str, purpose: str = "handover") -> Path:
    """A job folder with one part."""
    folder.mkdir(exist_ok=True)
    (folder / "job.yaml").write_text(
        f"format: 1\npurpose: {purpose}\nreport: {{number: T-1}}\nvessel: {{name: Invented}}\n"
        "people: [{role: author, name: A. Tester}]\ninspection: {dates: [2026-05-11], place: a berth}\n"
    )
    part = f"format: 1\ncomponents: [{{id: one, kind: {kind}, examined: seen}}]\n"
    (folder / "findings.yaml").write_text(part)
    return folder


def run(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    """The exit code of a command."""
    monkeypatch.setattr(sys, "argv", ["gudgeon", *words])
    with pytest.raises(SystemExit) as left:
        main()
    return int(str(left.value.code or 0))


@pytest.mark.usefixtures("sick")
def test_what_cannot_be_loaded_is_named_on_one_line_and_left_out(tmp_path: Path) -> None:
    healthy = len(find()) - len(BAD) - 2
    registry = load(find())
    assert len(registry.found) == healthy
    assert registry.plugin("chain").title == "Steering chain and sprocket", "the built-in one stays"
    told = [each.message for each in registry.broken.values()]
    for line, (_, reason) in BAD.items():
        name = line.split()[1]
        (own,) = [each for each in told if f"'{name}' of sick 1.0 cannot be used: " in each]
        assert reason in own
        assert "\n" not in own
    assert any("several packages bring it (sick, sicker)" in each for each in told)
    assert len(told) == len(BAD) + 1
    with pytest.raises(PluginError, match="'sour' of sick"):
        registry.plugin("sour")
    with pytest.raises(PluginError, match="colour"):
        registry.template("mine")
    with pytest.raises(NoSuchError):
        registry.plugin("never heard of")
    for kind, error in (("sour", PluginError), ("twice", PluginError), ("no_such", JobError)):
        with pytest.raises(error, match=f"'{kind}'"):
            pipeline.collect(job_with(tmp_path / "job", kind), registry)
    assert pipeline.collect(job_with(tmp_path / "job", "wheel"), registry).components
    with pytest.raises(PluginError, match="'mine'"):
        pipeline.collect(job_with(tmp_path / "job", "wheel", "mine"), registry)


def test_want_of_memory_is_not_laid_at_a_packages_door(sick: Path) -> None:
    (sick / "sick_pack" / "number.py").write_text("raise MemoryError")
    with pytest.raises(MemoryError):
        load(find())


@pytest.mark.slow
@pytest.mark.usefixtures("sick")
def test_a_bad_plugin_stops_only_what_needs_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for kind, code in (("wheel", 0), ("sour", 5), ("no_such", 3)):
        assert run(monkeypatch, "check", str(job_with(tmp_path / "job", kind))) == code
        said = capsys.readouterr().err.splitlines()
        assert sum(line.startswith("Left out: ") for line in said) == len(BAD) + 1
        assert any(f"'{kind}'" in line and "Left out" not in line for line in said) is (code != 0)
    assert run(monkeypatch, "plugins", "--json") == 0
    rows = json.loads(capsys.readouterr().out)
    assert {row["name"] for row in rows if "left_out" in row} >= {"ghost", "sour", "mine", "keel"}
    assert run(monkeypatch, "plugins", "--lang", "de") == 0
    printed = capsys.readouterr()
    assert printed.err.count("Nicht geladen: ") == len(BAD) + 1
    assert "Kette" in printed.out


def test_bad_words_in_another_language_leave_the_kind_in_english(sick: Path) -> None:
    whole = 'title = "Rack"\nsystem = "steering"\nstation = "helm"\nload_path = false\n'
    (sick / "sick_pack" / "sour.toml").write_text(whole)
    (sick / "sick_pack" / "sour.de.toml").write_text("title = [")
    registry = load(find())
    german = registry.in_language("de")
    assert german.plugin("sour").title == "Rack"
    assert any("'sour'" in each.message for each in german.broken.values())
    assert not any("'sour'" in each.message for each in registry.broken.values())
    assert installed(registry, "de")


def test_a_template_with_an_unknown_key_is_refused() -> None:
    text = (ROOT / "templates" / "handover.toml").read_text("utf-8")
    with pytest.raises(PluginError, match="colour"):
        parse_template(f'colour = "red"\n{text}', "mine")
