"""The example plugin of docs/plugins.md as a stranger's wheel, and the built wheel in an environment of its own."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SETUP = """
[build-system]
requires = ["setuptools>=77"]
build-backend = "setuptools.build_meta"
[project]
name = "locker-hinge"
version = "1.2"
[tool.setuptools]
packages = ["locker_hinge"]
package-data = { locker_hinge = ["*.toml"] }
"""


def blocks(language: str) -> list[str]:
    """The code blocks of one language in docs/plugins.md, in order."""
    return re.findall(rf"```{language}\n(.*?)```", (ROOT / "docs/plugins.md").read_text("utf-8"), re.DOTALL)


def build(folder: Path, out: Path) -> Path:
    """A wheel of the project in `folder`."""
    source = out / "source"
    shutil.copytree(
        folder, source, ignore=shutil.ignore_patterns(".*", "build", "*.egg-info", "demo_job", "tests")
    )
    command = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "-q",
        "--no-deps",
        "--no-build-isolation",
        "-w",
        str(out),
        str(source),
    ]
    subprocess.run(command, check=True, capture_output=True)
    return next(out.glob("*.whl"))


def unpacked(wheel: Path, into: Path) -> None:
    """The wheel's files on disk, as an installer lays them down."""
    shutil.unpack_archive(wheel, into, "zip")


def python(*arguments: str, path: Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """A fresh interpreter that sees `path` before everything installed."""
    environment = {"PYTHONPATH": str(path), "PATH": "/usr/bin:/bin", "PYTHONSAFEPATH": "1"}
    command = [sys.executable, "-c", "from reporter.cli import main; main()", *arguments]
    return subprocess.run(command, capture_output=True, text=True, cwd=cwd, env=environment, check=False)


@pytest.fixture(scope="module")
def hinge(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the stranger's plugin installed in it."""
    folder = tmp_path_factory.mktemp("hinge")
    package = folder / "locker_hinge"
    package.mkdir()
    (package / "__init__.py").write_text('"""A stranger\'s package."""\n')
    kind, entry, system, its_entry = blocks("toml")
    (package / "hinge.toml").write_text(kind)
    (package / "openings.toml").write_text(system)
    cock = kind.replace("Locker hinge", "Sea cock").replace('system = "steering"', 'system = "openings"')
    (package / "sea_cock.toml").write_text(cock.replace('station = "helm"', 'station = "below"'))
    entries = f'{entry}sea_cock = "locker_hinge"\n{its_entry}'
    (folder / "pyproject.toml").write_text(SETUP + entries)
    site = folder / "site"
    unpacked(build(folder, folder / "dist"), site)
    return site


def test_the_example_is_as_short_as_promised() -> None:
    lines = [line for line in blocks("toml")[0].splitlines() if line.strip()]
    assert len(lines) <= 32


def test_a_strangers_kind_is_listed_with_its_distribution(hinge: Path) -> None:
    listed = python("plugins", "--json", path=hinge, cwd=hinge)
    rows = json.loads(listed.stdout)
    assert {row["name"]: (row["distribution"], row["version"]) for row in rows if row["name"] == "hinge"} == {
        "hinge": ("locker-hinge", "1.2")
    }


def test_a_strangers_limits_and_fields_appear(hinge: Path) -> None:
    assert "2 mm, then plan" in python("limits", "hinge", path=hinge, cwd=hinge).stdout
    assert '"gap"' in python("schema", "hinge", path=hinge, cwd=hinge).stdout


def test_a_strangers_kind_is_graded_and_reported(hinge: Path, small_job: Path, tmp_path: Path) -> None:
    folder = tmp_path / "job"
    shutil.copytree(small_job, folder)
    part = "\n  - id: hinge\n    kind: hinge\n    examined: seen\n    observed:\n      leaf: cracked\n"
    with (folder / "findings.yaml").open("a") as findings:
        findings.write(part + part.replace("hinge", "sea_cock"))
    with (folder / "measurements.csv").open("a") as readings:
        readings.write("hinge,gap,,found,,2.5,mm,,,\n")
    checked = python("check", str(folder), "--json", path=hinge, cwd=tmp_path)
    told = json.loads(checked.stdout)
    graded = {row["id"]: (row["grade"], row["system"]) for row in told["components"]}
    assert graded["hinge"] == ("plan", "steering")
    assert graded["sea_cock"] == ("plan", "openings")
    assert [row["id"] for row in told["systems"]][-1] == "openings", "in its order, after the built-in ones"
    made = python("report", str(folder), "-o", "out.pdf", path=hinge, cwd=tmp_path)
    assert made.returncode == 0, made.stderr
    from pypdfium2 import PdfDocument

    document = PdfDocument(tmp_path / "out.pdf")
    text = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    document.close()
    assert "Locker hinge" in text
    assert "Replace the hinge" in text
    assert "Openings in the hull" in text


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with what the program's own wheel installs."""
    folder = tmp_path_factory.mktemp("own")
    unpacked(build(ROOT, folder), folder / "site")
    return folder / "site"


@pytest.mark.slow
def test_an_installation_adds_three_import_names_and_no_other(own: Path) -> None:
    names = {path.name for path in own.iterdir() if not path.name.endswith(".dist-info")}
    assert names == {"reporter", "reporter_plugins", "reporter_templates"}


@pytest.mark.slow
def test_the_built_wheel_carries_its_data(own: Path) -> None:
    kept = {
        str(path.relative_to(ROOT))
        for pattern in ("*.toml", "*.icc", "*.xml")
        for path in (ROOT / "reporter").rglob(pattern)
    }
    missing = {name for name in kept if not (own / name).exists()}
    assert missing == set()
    assert {path.name for path in (own / "reporter_plugins").rglob("*.toml")} == {
        path.name for path in (ROOT / "plugins").rglob("*.toml")
    }
