"""What is installed equals what pyproject lists; the registry finds without importing, and refuses doubles."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from importlib import metadata
from pathlib import Path

import pytest

from reporter.errors import NoSuchError, PluginError
from reporter.registry import GROUPS, Found, find, load, parse_template

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
        if "." not in file.stem and file.parent.name != "drawings"
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


def test_two_packages_for_one_kind_are_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    original = metadata.entry_points

    class Stranger(metadata.EntryPoint):
        dist = None

    def doubled(*, group: str) -> list[metadata.EntryPoint]:
        extra = [Stranger("chain", "elsewhere:plugin", group)] if group == "gudgeon.plugins" else []
        return [*original(group=group), *extra]

    monkeypatch.setattr(metadata, "entry_points", doubled)
    with pytest.raises(NoSuchError, match="'chain'"):
        find()


def test_a_plugin_that_does_not_load_is_named_with_its_distribution() -> None:
    broken = Found("gudgeon.plugins", "ghost", "no_such_module:plugin", "ghostware", "1.0")
    with pytest.raises(PluginError, match="'ghost' of ghostware"):
        load([*find(), broken])


def test_a_plugin_under_another_name_is_refused() -> None:
    renamed = Found("gudgeon.plugins", "chian", "reporter_plugins.steering", "other", "1.0")
    with pytest.raises(PluginError, match="The kind 'chian' could not be read"):
        load([*find(), renamed])


def test_a_template_with_an_unknown_key_is_refused() -> None:
    text = (ROOT / "templates" / "handover.toml").read_text("utf-8")
    with pytest.raises(PluginError, match="colour"):
        parse_template(f'colour = "red"\n{text}', "mine")
