"""Other words for the same: taken where they mean the very same, answered with the right word where they say less."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from reporter.collect import collect
from reporter.collect.dates import in_iso
from reporter.collect.same_words import as_declared, right_word, tidy
from reporter.errors import JobError
from reporter.model.findings import Component, Examined, Observed
from reporter.model.quantity import PartialDate
from reporter.model.terms import Extent
from reporter.wording import date, speaking
from tests.outline.small import registry

Write = Callable[..., Path]


def answered(kind: str, question: str, word: str) -> str:
    """The answer that is taken of a part of an installed kind."""
    part = Component(
        id="a",
        kind=kind,
        examined=Examined(extent=Extent.SEEN),
        observed={question: (Observed(choice=word),)},
    )
    return as_declared(part, registry().plugins[kind]).observed[question][0].choice


def told(root: Path, installed: Any, photos: Any) -> list[tuple[str, str]]:
    with pytest.raises(JobError) as refused:
        collect(root, installed, photos=photos)
    return [(each.what, each.do) for each in refused.value.problems]


@pytest.mark.parametrize(
    ("kind", "question", "word", "taken"),
    [
        ("chain", "corrosion", "clean", "none"), ("chain", "corrosion", "No", "none"), ("chain", "corrosion", "surface rust", "surface"),
        ("chain", "corrosion", "Rust pits in the plates", "pitted"), ("wheel", "loaded", "still", "rigid"),
        ("wheel", "shaft", "no play", "still"), ("wheel", "noise", "none", "quiet"), ("chain", "cracks", "good", "good"),
        ("terminal", "cracks", "no", "no"), ("chain", "lubrication", "good", "good"), ("chain", "corrosion", "rust", "rust"),
        ("wheel", "loaded", "firm", "firm"),
    ],
)  # fmt: skip
def test_only_what_means_the_same_is_taken(kind: str, question: str, word: str, taken: str) -> None:
    """No crack under a magnifier is more than "no", and "good" says nothing of oil."""
    assert answered(kind, question, word) == taken


def test_other_words_name_one_answer_and_no_id_of_another() -> None:
    declared = 0
    for plugin in registry().plugins.values():
        for question in plugin.observations:
            ids = {tidy(each.id): each.id for each in question.choices}
            others = [(tidy(word), each.id) for each in question.choices for word in each.also]
            declared += len(others)
            assert len({word for word, _ in others}) == len(others), (plugin.kind, question.id)
            assert all(ids.get(word, ident) == ident for word, ident in others), (plugin.kind, question.id)
            for choice in question.choices:
                assert answered(plugin.kind, question.id, choice.id) == choice.id
    assert declared > 40


def test_a_word_that_says_too_little_is_answered_with_the_right_one() -> None:
    question = next(each for each in registry().plugins["stanchion"].observations if each.id == "fastening")
    for word in ("good", "OK", "firm", "In order"):
        assert right_word(word, question) == (
            f"'{word}' says too little here. Where nothing is wrong: fast (nothing moves when the top is pushed hard). "
        )
    assert right_word("rusty", question) == ""


def test_the_hint_stands_before_the_answers(
    folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    sheet = good["findings.yaml"].replace("rust: surface", "rust: good")
    ((what, do),) = told(folder({"findings.yaml": sheet}), installed, photos)
    assert what == "'good' is no answer to 'Rust'."
    assert do.startswith("'good' says too little here. Where nothing is wrong: none (no rust). Answers: ")


def test_the_words_of_a_choice_stand_for_it(
    folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    sheet = (
        good["findings.yaml"]
        .replace("rust: surface", "rust: Rust that a cloth takes off")
        .replace("value: steel", "value: plain steel")
        .replace("[all_round]", "[the whole belt]")
    )
    job = collect(folder({"findings.yaml": sheet}), installed, photos=photos)
    belt = job.components[0]
    assert belt.observed["rust"][0].choice == "surface"
    assert belt.details["material"].value == "steel"
    assert belt.examined.included == ("all_round",)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("    examined: part_seen", "    examined: {extent: part_seen, side: port}", "'side' stands beside 'examined', not in it."),
        ("      pitch: 12.7 mm", "      side: port", "'side' stands beside 'details', not in it. Details"),
        ("      rust: surface", "      place: aft", "'place' stands beside 'observed', not in it. Observations"),
        ("    examined: part_seen", "    examined: part_seen\n    side: forward", "goes under 'group'."),
        ("    examined: part_seen", "    examined: part_seen\n    location: aft", "Write 'place'. Keys here"),
        ("    examined: part_seen", "    examined: partially", "Did you mean 'part_seen'? Choices"),
    ],
)  # fmt: skip
def test_a_key_or_word_at_the_wrong_place_is_sent_to_its_own(
    old: str, new: str, said: str, folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    assert old in good["findings.yaml"]
    ((_, do),) = told(folder({"findings.yaml": good["findings.yaml"].replace(old, new)}), installed, photos)
    assert said in do


def test_dates_are_read_as_reports_print_them(
    folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    sheet = (
        good["job.yaml"]
        .replace("[2026-05-11, 2026-05-12]", "[11 May 2026, 12. Mai 2026]")
        .replace("built: 2004", "built: Oktober 2004\n  last_mast_out: May 3, 2022")
    )
    findings = good["findings.yaml"].replace("value: 2016", "value: 3. März 2016")
    job = collect(folder({"job.yaml": sheet, "findings.yaml": findings}), installed, photos=photos)
    assert [str(each) for each in job.sheet.inspection.dates] == ["2026-05-11", "2026-05-12"]
    assert (str(job.sheet.vessel.built), str(job.sheet.vessel.last_mast_out)) == ("2004-10", "2022-05-03")
    assert str(job.facts["port-belt"]["fitted"].date) == "2016-03-03"


@pytest.mark.parametrize("lang", ["en", "de"])
def test_every_date_that_a_report_prints_is_read(lang: str) -> None:
    with speaking(lang):
        for month in range(1, 13):
            for day in (PartialDate(year=2026, month=month, day=9), PartialDate(year=2026, month=month)):
                assert in_iso(date(day)) == str(day)


@pytest.mark.parametrize("text", ["2026-05-12", "12.05.2026", "3 Foo 2026", "May", "surveyed 2026", "2026"])
def test_no_other_text_is_taken_for_a_date(text: str) -> None:
    assert in_iso(text) == text
