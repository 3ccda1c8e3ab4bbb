"""What commands print is as wide as the terminal that reads it, and complete at every width."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.collect.schema import template_schema
from reporter.commands.schema import _listed, _wanted
from reporter.errors import NoSuchError
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.sheet import JobSheet
from reporter.outputs import screen
from reporter.outputs.comparison import compared
from reporter.outputs.due_list import boat_of, lines
from reporter.outputs.grades import met_told, summary
from reporter.outputs.installed import installed, limits_told
from reporter.outputs.kind_page import kind_page
from reporter.registry import Registry, find, load
from reporter.wording import catalogue

DEMO = Path(__file__).parents[2] / "demo_job"
KINDS = ("chain", "standing_wire")


@cache
def registry() -> Registry:
    return load(find())


@cache
def jobs() -> tuple[Job, Job]:
    """The demo's two visits, the later with the earlier as its past."""
    past, now = (pipeline.collect(folder, registry()) for folder in (DEMO / "outgoing", DEMO))
    return past, now.model_copy(update={"earlier": (past,)})


@cache
def graded() -> Assessments:
    """The later visit by the template of a handover."""
    return pipeline.grade(jobs()[1], registry(), registry().template("handover"))


def of_kinds() -> dict[str, list[str]]:
    """What each command about kinds prints, line by line."""
    words = catalogue()
    kinds = [registry().plugin(kind) for kind in KINDS]
    pages = [screen.on_screen(kind_page(kind, words)).splitlines() for kind in kinds]
    return {
        "plugins": installed(registry(), ""),
        "limits": [line for kind in kinds for line in limits_told(kind, words)],
        "describe": [line for page in pages for line in page],
        "schema": _listed("de"),
    }


def of_jobs() -> dict[str, list[str]]:
    """What each command about job folders prints."""
    now, template = jobs()[1], registry().template("handover")
    boat = boat_of(now, graded(), registry())
    return {
        "check": summary(now, graded(), template, registry()),
        "compare": compared(now, graded(), template, registry(), everything=True),
        "compare, one screen": compared(now, graded(), template, registry()),
        **{f"due by {by}": lines([boat], boat.day, by) for by in ("date", "place", "supply")},
    }


@pytest.mark.parametrize("columns", [60, 80])
@pytest.mark.parametrize("told", [of_kinds, pytest.param(of_jobs, marks=pytest.mark.slow)])
def test_nothing_is_wider_than_the_terminal_and_nothing_is_lost(
    told: Callable[[], dict[str, list[str]]], columns: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At each width the same words in the same order; on the one screen of a comparison fewer of them."""
    whole = told()
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    monkeypatch.setattr(screen, "columns", lambda: columns)
    narrow = told()
    for command, printed in narrow.items():
        assert max(map(len, printed)) <= columns - 2, command
        if command == "compare, one screen":
            assert len(printed) <= 24
            assert "gudgeon compare --all" in " ".join(" ".join(printed).split())
        else:
            assert "".join("".join(printed).split()) == "".join("".join(whole[command]).split()), command


def test_a_pipe_gets_lines_for_80_columns_and_a_page_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    page = f"# Head\n\n- {'word ' * 40}\n"
    assert not sys.stdout.isatty()
    assert screen.on_screen(page) == page
    assert (screen.columns(), screen.width()) == (80, 78)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((50, 24)))
    monkeypatch.setattr(sys.stdout, "fileno", lambda: 1)
    assert screen.width() == 48
    shown = screen.on_screen(page).splitlines()
    assert shown[:2] == ["# Head", ""]
    assert shown[3].startswith("  word"), "what follows a bullet stands under its text"
    for columns, width in ((20, 30), (300, 100)):
        monkeypatch.setattr(screen, "columns", lambda each=columns: each)
        assert screen.width() == width, "too narrow to read, or too wide to find the next line"


def test_one_schema_is_given_by_its_word_its_file_or_a_kind() -> None:
    for word, file in (("job", "job.yaml"), ("a/measurements.csv", "measurements.csv")):  # fmt: skip
        assert list(_wanted(word, registry(), "en")) == [file]
    (chain,) = _wanted("chain", registry(), "en").values()
    plugin = registry().plugin("chain")
    assert chain["title"] == plugin.title
    assert set(chain["properties"]["observed"]["properties"]) == {each.id for each in plugin.observations}
    assert {each["const"] for each in chain["$defs"]["chain"]["oneOf"]} == {
        each.id for each in plugin.readings
    }
    assert "id" not in template_schema()["properties"]
    with pytest.raises(NoSuchError, match="'chian'"):
        _wanted("chian", registry(), "en")
    words = [line.split()[0] for line in _listed("en") if re.match(r"  \w+  ", line)]
    assert words == ["job", "findings", "measurements", "template", "kind", "KIND"]


@pytest.mark.parametrize(
    ("lang", "grade", "titles", "said"),
    [
        ("en", "stop", ["Chain"], "One part graded “stop” or worse: Chain."),
        ("en", "first", ["Chain", "Mast"], "2 parts graded “first” or worse: Chain; Mast."),
        ("de", "stop", ["Kette", "Mast"], "2 Teile mit der Stufe „Stopp“ oder schlechter: Kette; Mast."),
        ("de", "unseen", ["Kette"], "Nicht einzustufen (nicht gesehen): Kette."),
    ],
)
def test_the_line_of_fail_on_is_in_the_jobs_language(
    lang: str, grade: str, titles: list[str], said: str
) -> None:
    sheet = JobSheet.model_construct(lang=lang, terms="uk")
    assert met_told(titles, grade, sheet) == said
