"""The form of a part: everything that its kind declares, once, in the order of the rounds; the answers that are there."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter import pipeline
from reporter.asking import asked
from reporter.model.findings import Component, Examined
from reporter.model.form import Form, Question
from reporter.model.job import Job
from reporter.model.terms import Extent, Grade
from reporter.registry import find, load
from reporter.wording import catalogue

ROOT = Path(__file__).parents[2]
REGISTRY = load(find())
WORDS = catalogue()


def ids(form: Form) -> list[str]:
    return [question.id for block in form.blocks for question in block.questions]


def question(form: Form, ident: str) -> Question:
    found = form.question(ident)
    assert found is not None, ident
    return found


@pytest.fixture(scope="module")
def demo() -> Job:
    return pipeline.collect(ROOT / "demo_job", REGISTRY)


def part_of(job: Job, ident: str) -> Component:
    return next(each for each in job.components if each.id == ident)


def with_details(kind: str, **details: str) -> Form:
    part = Component.model_validate(
        {
            "id": "one",
            "kind": kind,
            "examined": "seen",
            "details": details,
        }
    )
    return asked(REGISTRY.plugin(kind), WORDS, part)


@pytest.mark.parametrize("kind", sorted(REGISTRY.plugins))
@pytest.mark.parametrize("lang", ["en", "de"])
def test_everything_a_kind_declares_is_asked_exactly_once(kind: str, lang: str) -> None:
    plugin = REGISTRY.in_language(lang).plugin(kind)
    found = ids(asked(plugin, catalogue(lang)))
    assert len(found) == len(set(found))
    wanted = {f"details.{each.id}" for each in plugin.details}
    wanted |= {f"observed.{each.id}" for each in plugin.observations}
    wanted |= {f"readings.{each.id}" for each in plugin.readings}
    assert {each for each in found if each.split(".")[0] in {"details", "observed", "readings"}} == wanted


@pytest.mark.parametrize("kind", sorted(REGISTRY.plugins))
def test_questions_stand_in_the_rounds_of_their_kind_and_in_their_order(kind: str) -> None:
    plugin = REGISTRY.plugin(kind)
    blocks = {block.id: block for block in asked(plugin, WORDS).blocks}
    rounds = [each.id for each in plugin.together]
    assert [ident for ident in blocks if ident in set(rounds)] == rounds
    for each in plugin.together:
        assert tuple(asking.key[1] for asking in blocks[each.id].questions) == each.holds
        assert all(tool in blocks[each.id].tool for tool in map(WORDS.terms, each.tools))


@pytest.mark.parametrize("kind", sorted(REGISTRY.plugins))
def test_an_answer_has_the_words_and_the_grade_of_its_kind(kind: str) -> None:
    plugin = REGISTRY.plugin(kind)
    form = asked(plugin, WORDS)
    for seen in plugin.observations:
        choices = question(form, f"observed.{seen.id}").choices
        assert [(each.id, each.words, each.grade) for each in choices] == [
            (each.id, WORDS.terms(each.words), each.grade) for each in seen.choices
        ]
    told = [
        each
        for block in form.blocks
        for asking in block.questions
        for each in (block.title, asking.title, asking.help)
    ]
    assert [text for text in told if "[" in text] == [], "trade terms are spoken in the chosen usage"


def test_a_condition_is_decided_by_what_the_details_say() -> None:
    """`self_tailing` of a winch decides whether its jaws are asked for; what is not known leaves it open."""
    plugin = REGISTRY.plugin("winch")
    (ident, condition) = next((each.id, each.only_if) for each in plugin.observations if each.only_if)
    detail, among = next(iter(condition.items()))
    other = next(each for each in plugin.detail(detail).choices if each not in among)  # type: ignore[union-attr]
    asking = question(with_details("winch"), f"observed.{ident}")
    assert asking.asked
    assert [(each.question, each.among) for each in asking.only_if] == [(f"details.{detail}", among)]
    assert question(with_details("winch", **{detail: among[0]}), f"observed.{ident}").asked
    assert not question(with_details("winch", **{detail: other}), f"observed.{ident}").asked


def test_a_cell_has_the_limits_that_decide_it_mildest_first() -> None:
    form = asked(REGISTRY.plugin("wheel"), WORDS)
    limits = question(form, "readings.bearing_play").limits
    assert [(each.value, each.unit, each.grade) for each in limits] == [
        (2, "mm", Grade.PLAN),
        (5, "mm", Grade.FIRST),
    ]
    assert limits[0].words == "over 2\u00a0mm: plan"
    assert [each.id for each in form.worked] == ["lash_share"]


def test_a_limit_is_the_one_in_force_and_only_where_it_applies(demo: Job) -> None:
    part = part_of(demo, "wheel")
    limit = next(each for each in demo.limits.values() if each.quantity == "bearing_play")
    changed = demo.model_copy(
        update={"limits": {**demo.limits, limit.id: limit.model_copy(update={"value": 1.25})}}
    )
    told = question(asked(REGISTRY.plugin("wheel"), WORDS, part, changed), "readings.bearing_play").limits
    assert 1.25 in [each.value for each in told]


def test_answers_are_told_as_written_with_their_place(demo: Job) -> None:
    form = asked(REGISTRY.plugin("chain"), WORDS, part_of(demo, "chain"), demo)
    span = question(form, "readings.span").answers
    assert [(each.at, each.ordinal, each.text) for each in span[:3]] == [
        ("top of the sprocket", 0, "257.5 mm"),
        ("top of the sprocket", 1, "257.0 mm"),
        ("top of the sprocket", 2, "257.5 mm"),
    ]
    assert span[0].line == 9
    assert [(each.text, each.at) for each in question(form, "observed.corrosion").answers] == [
        ("surface", "top of the sprocket")
    ]
    size = question(form, "details.size").answers[0]
    assert (size.text, size.basis) == ("08b_1", "stamped")
    assert [each.text for each in question(form, "examined.how").answers] == [
        "hand",
        "eye",
        "mirror",
        "gauge",
    ]
    assert [each.text for each in question(form, "examined.extent").answers] == ["seen"]
    assert question(form, "readings.links_left").per_side
    assert [each.side for each in question(form, "readings.links_left").answers] == ["port", "starboard"]


def test_nothing_of_the_demo_is_left_without_a_question(demo: Job) -> None:
    """As many answers as the folder holds observations, readings and details."""
    for part in demo.components:
        form = asked(REGISTRY.plugin(part.kind), WORDS, part, demo)
        told = {ident: question(form, ident).answers for ident in ids(form)}
        counted = {
            table: sum(len(answers) for ident, answers in told.items() if ident.startswith(table))
            for table in ("observed", "readings", "details")
        }
        assert counted["observed"] == sum(map(len, part.observed.values()))
        assert counted["readings"] == sum(each.component == part.id for each in demo.readings)
        assert counted["details"] == len(part.details)


def test_units_follow_the_job_and_come_from_the_closed_list(demo: Job) -> None:
    imperial = demo.model_copy(update={"sheet": demo.sheet.model_copy(update={"units": "imperial"})})
    plugin, part = REGISTRY.plugin("chain"), part_of(demo, "chain")
    assert question(asked(plugin, WORDS, part, demo), "readings.span").unit == "mm"
    span = question(asked(plugin, WORDS, part, imperial), "readings.span")
    assert span.unit == "in"
    assert {"mm", "in"} <= set(span.units)
    assert span.methods == tuple(each.id for each in demo.sheet.instruments)


def test_every_way_of_looking_and_every_extent_can_be_chosen() -> None:
    form = asked(REGISTRY.plugin("item"), WORDS)
    assert {each.id for each in question(form, "examined.extent").choices} == {each.value for each in Extent}
    for how in question(form, "examined.how").choices:
        Examined.model_validate({"extent": "seen", "how": [how.id]})
    assert len(question(form, "examined.how").choices) == 9
