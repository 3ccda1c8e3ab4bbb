"""What every kind declares so that it can be gone through by hand: help, groups, consequence, materials, gaps."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from reporter.model.job import Fact
from reporter.model.plugin import DetailField, Observation, Plugin, Quantity
from reporter.model.terms import Basis, Extent, Grade, Remedy
from reporter.wording import catalogue
from tests.plugins.evidence import REGISTRY, best, fact, graded, known

TO_DO = frozenset({plugin.kind for plugin in REGISTRY.plugins.values() if plugin.system != "rig"})
"""Kinds that do not declare all of it yet; the list shrinks."""
each_plugin = pytest.mark.parametrize(
    "plugin",
    [plugin for kind, plugin in REGISTRY.plugins.items() if kind not in TO_DO],
    ids=lambda plugin: plugin.kind,
)


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
        if any("[split pin]" in choice.words for choice in each.choices):
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
        ({"pin": fact(12, "mm"), "form": fact(choice="swaged")}, "one terminal, swaged, pin of 12 mm, for the wire as measured"),
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
