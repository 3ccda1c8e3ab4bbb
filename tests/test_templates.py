"""The installed templates: what they expect exists, every key is documented, each is truly different."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from reporter.errors import ExitCode, NoSuchError, PluginError, UsageError
from reporter.model.sheet import Particulars
from reporter.model.template import Template
from reporter.outline.outlining import GLOSSARY, SECTIONS
from reporter.outputs.installed import template_in, whole
from reporter.registry import find, load, parse_template
from reporter.wording import catalogue

ROOT = Path(__file__).parents[1]
REGISTRY = load(find())


def test_every_kind_that_a_template_expects_is_installed_in_that_system() -> None:
    for template in REGISTRY.templates.values():
        for expectation in template.expects:
            assert expectation.system in REGISTRY.systems
            for kind in expectation.kinds:
                assert REGISTRY.plugins[kind].system == expectation.system, (template.id, kind)


def test_conditions_name_values_that_a_job_can_have() -> None:
    known = {"any"}
    for field in ("steering", "steering_gear"):
        known |= set(get_args(Particulars.model_fields[field].annotation))
    for template in REGISTRY.templates.values():
        for expectation in template.expects:
            assert set(expectation.when) <= known


def test_every_section_can_be_written_and_every_word_id_exists() -> None:
    words = catalogue()
    for template in REGISTRY.templates.values():
        assert set(template.sections) <= {*SECTIONS, GLOSSARY}
        assert len(template.sections) == len(set(template.sections))
        ids = [template.title_id, template.owner_title_id, template.reader_id]
        assert all(words.has(ident) for ident in ids if ident)


def test_every_template_key_is_documented() -> None:
    text = (ROOT / "docs/templates.md").read_text("utf-8")
    assert [key for key in Template.model_fields if f"`{key}`" not in text] == []


def test_the_templates_differ_in_more_than_their_titles() -> None:
    told = {
        (
            template.sections,
            template.expects,
            template.recommends,
            template.shows_score,
            template.as_found_only,
        )
        for template in REGISTRY.templates.values()
    }
    assert len(told) == len(REGISTRY.templates)


@pytest.mark.parametrize(
    ("key", "old", "new"),
    [
        ("title_id", 'title_id = "', 'title_id = "no.'),
        ("owner_title_id", 'title_id = "', 'owner_title_id = "no.such"\ntitle_id = "'),
        ("reader_id", 'title_id = "', 'reader_id = "no.such"\ntitle_id = "'),
        ("due.plan", 'title_id = "', 'due = {plan = "no.such"}\ntitle_id = "'),
    ],
)
def test_words_that_nobody_has_are_told_with_file_and_key(
    tmp_path: Path, key: str, old: str, new: str
) -> None:
    lines = [
        line
        for line in (ROOT / "templates" / "insurance.toml").read_text("utf-8").splitlines()
        if not line.startswith(("owner_title_id", "reader_id"))
    ]
    text = "\n".join(lines).partition("\n[due]")[0]
    file = tmp_path / "mine.toml"
    file.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(NoSuchError, match=f"{file}, {key}: there are no words called 'no") as told:
        template_in(file)
    assert told.value.exit_code == ExitCode.NO_SUCH
    installed = replace(REGISTRY, templates={"mine": parse_template(file.read_text("utf-8"), "mine")})
    with pytest.raises(NoSuchError, match=f"mine.toml, {key}: "):
        installed.template("mine")


@pytest.mark.parametrize("text", ["sections = " + "[" * 5000 + "]" * 5000, "title_id = [", "title_id = 1"])
def test_a_template_that_is_none_is_told_whatever_it_holds(text: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(PluginError, match=r"mine") as told:
        template_in(file)
    assert "pydantic" not in str(told.value)


def test_what_a_template_names_twice_is_told(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    text = (ROOT / "templates" / "insurance.toml").read_text("utf-8")
    file.write_text(text.replace("sections = [", 'sections = ["boat", "boat", ', 1), "utf-8")
    with pytest.raises(PluginError, match=r"mine.*: sections: boat: once is enough"):
        template_in(file)


def test_a_template_file_that_is_not_there_is_told_in_words(tmp_path: Path) -> None:
    with pytest.raises(UsageError) as told:
        template_in(tmp_path / "none.toml")
    assert told.value.message.endswith("none.toml cannot be read: no such file or directory.")


def test_a_kind_is_told_whatever_its_file_holds(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    with pytest.raises(UsageError, match=r"mine\.toml cannot be read: no such file or directory\."):
        whole(file, REGISTRY)
    file.write_text("use = " + "[" * 5000 + "]" * 5000, "utf-8")
    with pytest.raises(PluginError, match=r"mine\.toml"):
        whole(file, REGISTRY)
