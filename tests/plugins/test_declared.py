"""What every kind declares so that it can be gone through by hand: help, groups, consequence, materials, gaps."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from reporter.model.findings import Fact
from reporter.model.plugin import DetailField, Observation, Plugin, Quantity
from reporter.model.terms import Access, Basis, Extent, Grade, Remedy
from reporter.wording import catalogue
from tests.plugins.evidence import REGISTRY, best, fact, graded, known
from tests.plugins.test_contract import BANNED

NOTHING_TO_GO_THROUGH = frozenset({"item"})
"""A free finding has no questions of its own."""
BRINGS = {Remedy.REPLACE}
GUESSING = re.compile(
    r"\b(please|ensure|adequate|appropriate|proper|as required|where applicable)\b", re.IGNORECASE
)
each_plugin = pytest.mark.parametrize(
    "plugin",
    [plugin for kind, plugin in REGISTRY.plugins.items() if kind not in NOTHING_TO_GO_THROUGH],
    ids=lambda plugin: plugin.kind,
)


def told(plugin: Plugin) -> list[str]:
    """Texts that no other check of a kind reads."""
    questions: list[Quantity | Observation] = [*plugin.readings, *plugin.observations]
    helps = [each.help for each in questions] + [each.help for each in plugin.details]
    texts = [plugin.consequence, *helps]
    texts += [part for task in plugin.tasks for part in task.parts]
    return texts + [text for group in plugin.together for text in (group.words, *group.tools)]


@each_plugin
def test_everything_taken_is_told_how_and_stands_in_one_group(plugin: Plugin) -> None:
    taken: list[Quantity | Observation] = [*plugin.readings, *plugin.observations]
    assert [each.id for each in taken if not each.help] == []
    assert Counter(ident for each in plugin.together for ident in each.holds) == Counter(
        each.id for each in taken
    )
    assert plugin.consequence.endswith(".")


@each_plugin
def test_conditions_and_materials_name_details_that_exist(plugin: Plugin) -> None:
    details = {each.id for each in plugin.details}
    asked: list[Quantity | Observation | DetailField] = [
        *plugin.readings,
        *plugin.observations,
        *plugin.details,
    ]
    named = {ident for each in asked for ident in each.only_if}
    phrases = [phrase for task in plugin.tasks for part in task.parts for phrase in part.split(", ")]
    named |= {ident for phrase in phrases for ident in re.findall(r"\{(\w+)\}", phrase)}
    assert named <= details
    assert [phrase for phrase in phrases if phrase.count("{") > 1] == []


@each_plugin
def test_an_answer_that_tells_a_gap_stands_first_and_finds_no_fault(plugin: Plugin) -> None:
    for each in plugin.observations:
        gaps = [choice.gap for choice in each.choices]
        assert gaps == sorted(gaps, reverse=True), each.id
        for choice in each.choices:
            task = plugin.task(choice.task)
            remedy = choice.remedy or (task.remedy if task else Remedy.OPEN_UP)
            assert not choice.gap or remedy is Remedy.OPEN_UP, f"{each.id}.{choice.id}"


@each_plugin
def test_every_list_of_split_pins_knows_a_bad_one(plugin: Plugin) -> None:
    for each in plugin.observations:
        ids = {choice.id for choice in each.choices}
        # A box of spares has no pin that holds anything.
        if plugin.kind != "spares" and any("[split pin]" in choice.words for choice in each.choices):
            assert {"pin_rusted", "pin_half", "pin_cracked"} <= ids, each.id


@each_plugin
def test_what_was_looked_for_and_not_found_is_got(plugin: Plugin) -> None:
    task = plugin.task("get")
    assert task
    (action,) = graded(plugin, known(plugin, extent=Extent.NOT_FOUND)).actions
    assert (action.what, action.remedy, action.grade) == (
        catalogue().terms(task.words),
        Remedy.REPLACE,
        Grade.FIRST,
    )


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"pin": fact(12, "mm"), "form": fact(choice="swaged")}, "one terminal, swaged, pin of 12\u00a0mm, for the wire as measured"),
        ({"form": fact(choice="swaged", basis=Basis.TOLD)}, "one terminal, swaged, for the wire as measured"),
        ({}, "one terminal, for the wire as measured"),
    ],
)  # fmt: skip
def test_materials_are_told_in_the_parts_own_sizes(facts: dict[str, Fact], expected: str) -> None:
    terminal = REGISTRY.plugin("terminal")
    seen = best(terminal, cracks="cracked")
    action = next(
        each for each in graded(terminal, known(terminal, facts=facts, observed=seen)).actions if each.task
    )
    assert action.parts[0] == expected


def test_an_unknown_answer_is_no_size() -> None:
    wire = REGISTRY.plugin("standing_wire")
    seen = known(wire, facts={"grade_material": fact(choice="unknown")}, observed=best(wire, shape="kinked"))
    action = next(each for each in graded(wire, seen).actions if each.task == "renew_wire")
    assert action.parts[0].startswith("wire for two stays, length")


@each_plugin
def test_what_happens_is_one_sentence(plugin: Plugin) -> None:
    assert re.fullmatch(r"[A-Z][^.]+\.", plugin.consequence)


@each_plugin
def test_every_task_says_in_which_state_and_what_to_bring(plugin: Plugin) -> None:
    details = {detail.id for detail in plugin.details}
    for task in plugin.tasks:
        assert task.access is not Access.UNKNOWN, task.id
        assert task.parts or task.remedy not in BRINGS, task.id
        for phrase in (phrase for part in task.parts for phrase in part.split(", ")):
            named = re.findall(r"\{(\w*)\}", phrase)
            assert not named or (len(named) == 1 and named[0] in details), f"{task.id}: {phrase}"


@each_plugin
def test_an_answer_tells_one_thing(plugin: Plugin) -> None:
    """A list of defects joined by "or" after a comma does not tell the reader which was found."""
    for observation in plugin.observations:
        for choice in observation.choices:
            assert not re.search(r", or |; or ", choice.words), f"{observation.id}.{choice.id}"


@each_plugin
def test_the_further_words_keep_the_terms(plugin: Plugin) -> None:
    """Trade terms are bracketed; no phrase of an office."""
    for text in told(plugin):
        assert "[" not in catalogue("en", "us").terms(text), text
        assert not re.search(
            r"\b(split pin|spanner|cotter pin|turnbuckle)", re.sub(r"\[[^]]*\]", "", text)
        ), text
        assert not GUESSING.search(text), text
        assert not BANNED.search(text), text
