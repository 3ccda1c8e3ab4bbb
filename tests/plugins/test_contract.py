"""What every installed component kind must keep, whoever wrote it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from reporter.engineering import units
from reporter.model.assessment import Assessment
from reporter.model.citation import Limit
from reporter.model.plugin import DetailField, Plugin, Quantity
from reporter.model.sheet import Particulars
from reporter.model.terms import Dimension, Extent, Grade, LimitKind, Sense
from reporter.wording import catalogue
from tests.plugins.evidence import REGISTRY, best, graded, known

PLUGINS = [REGISTRY.plugins[kind] for kind in sorted(REGISTRY.plugins)]
BANNED = re.compile(
    r"\b(safe|unsafe|safely|seaworthy|sound|fit for purpose|passed|certified|guaranteed?|complies with|as new|will last|no defects)\b",
    re.IGNORECASE,
)
each_plugin = pytest.mark.parametrize("plugin", PLUGINS, ids=lambda plugin: plugin.kind)


def texts(plugin: Plugin) -> Iterator[str]:
    """Every text of a declaration that a reader could see."""
    yield from (
        plugin.title,
        plugin.plural,
        plugin.purpose,
        *plugin.cautions,
        *plugin.tools,
        *plugin.supplies,
    )
    yield from (each.words for each in plugin.examination)
    yield from (each.words for each in plugin.proof)
    yield from (text for each in plugin.details for text in (each.title, each.help, *each.choices.values()))
    yield from (text for each in plugin.readings for text in (each.title, each.method, each.help))
    yield from (each.title for each in plugin.derived)
    yield from (each.why for each in plugin.needs)
    for observation in plugin.observations:
        yield from (observation.title, observation.basis, observation.help)
        yield from (choice.words for choice in observation.choices)
    yield from (task.words for task in plugin.tasks)
    for limit in plugin.limits:
        yield from (
            limit.of,
            limit.written_for,
            limit.note,
            limit.source.title,
            limit.source.clause,
        )


def declared(plugin: Plugin, limit: Limit) -> tuple[Dimension, tuple[float, float] | None, str] | None:
    """Dimension, plausible range and its unit of what a limit speaks of; None when nothing of that name is declared."""
    measure = plugin.measure(limit.quantity)
    if measure:
        plausible = measure.plausible if isinstance(measure, Quantity) else None
        return measure.dimension, plausible, measure.unit
    detail = plugin.detail(limit.quantity)
    if detail is None:
        return None
    return _held(detail), detail.plausible, detail.unit


def _held(detail: DetailField) -> Dimension:
    return Dimension.AGE if detail.holds == "date" else Dimension(detail.holds)


@each_plugin
def test_every_limit_is_cited(plugin: Plugin) -> None:
    """design.md 5: limits are data with a citation."""
    for limit in plugin.limits:
        assert limit.source.title, limit.id
        assert limit.source.clause, limit.id
        assert limit.id.startswith(f"{plugin.kind}."), limit.id


@each_plugin
def test_every_limit_speaks_of_something_declared_in_its_own_unit(plugin: Plugin) -> None:
    for limit in plugin.limits:
        found = declared(plugin, limit)
        assert found is not None, limit.id
        dimension = Dimension.RATIO if limit.relative else found[0]
        assert units.dimension_of(limit.unit) is dimension, limit.id


@each_plugin
def test_limits_lie_inside_the_plausible_range(plugin: Plugin) -> None:
    """Else a reading at the limit would be refused as absurd."""
    for limit in plugin.limits:
        _, plausible, unit = declared(plugin, limit) or (None, None, "")
        if plausible is None or limit.kind is LimitKind.AGE or limit.between:
            continue
        for figure in (limit.value, *([] if limit.upper is None else [limit.upper])):
            at = units.from_base(units.to_base(figure, limit.unit), unit)
            assert plausible[0] <= at <= plausible[1], limit.id


@each_plugin
def test_limits_lead_to_a_grade_and_say_what_to_do(plugin: Plugin) -> None:
    for limit in plugin.limits:
        assert limit.then.rank >= Grade.WATCH.rank, limit.id
        assert (limit.upper is not None) == (limit.sense is Sense.WINDOW), limit.id
        if limit.governs:
            assert limit.task, limit.id
        else:
            assert limit.written_for or limit.note, f"{limit.id}: what was this yardstick written for?"
        if limit.kind in {LimitKind.DESIGN, LimitKind.RULE, LimitKind.AGE}:
            assert limit.then.rank <= Grade.PLAN.rank, limit.id


@each_plugin
def test_choices_run_from_good_to_bad(plugin: Plugin) -> None:
    for observation in plugin.observations:
        # An answer that tells a gap stands beside the scale.
        grades = [choice.grade.rank for choice in observation.choices if not choice.gap]
        assert grades[0] == Grade.CLEAR.rank, observation.id
        assert grades == sorted(grades), observation.id
        words = [choice.words for choice in observation.choices]
        assert len(set(words)) == len(words), observation.id
        assert len({choice.id for choice in observation.choices}) == len(words), observation.id


@each_plugin
def test_bad_choices_say_what_to_do(plugin: Plugin) -> None:
    for observation in plugin.observations:
        for choice in observation.choices:
            if choice.gap:
                assert not choice.damage, f"{observation.id}.{choice.id}"
            elif choice.grade is not Grade.CLEAR:
                assert choice.task, f"{observation.id}.{choice.id}"
            else:
                assert not choice.damage, f"{observation.id}.{choice.id}"


@each_plugin
def test_readings_are_declared_to_be_measured(plugin: Plugin) -> None:
    for reading in plugin.readings:
        assert units.dimension_of(reading.unit) is reading.dimension, reading.id
        assert reading.method, reading.id
        assert reading.plausible[0] < reading.plausible[1], reading.id
        assert (reading.expected_u > 0) == (reading.dimension is not Dimension.COUNT), reading.id
        if reading.dimension in {Dimension.LENGTH, Dimension.FORCE, Dimension.TORQUE, Dimension.MASS}:
            assert units.dimension_of(reading.imperial) is reading.dimension, reading.id
    ids = [*(each.id for each in plugin.readings), *(each.id for each in plugin.derived)]
    assert len(ids) == len(set(ids))


@each_plugin
def test_details_have_choices_or_a_unit(plugin: Plugin) -> None:
    for detail in plugin.details:
        assert (detail.holds == "choice") == bool(detail.choices), detail.id
        if detail.holds in {"length", "force", "angle", "mass", "torque", "area"}:
            assert units.dimension_of(detail.unit) is _held(detail), detail.id
            assert detail.plausible, detail.id


@each_plugin
def test_conditions_name_choices_that_exist(plugin: Plugin) -> None:
    conditions = [
        (each.id, name, choices) for each in plugin.readings for name, choices in each.only_if.items()
    ]
    conditions += [
        (each.id, name, choices) for each in plugin.limits for name, choices in each.applies.items()
    ]
    for ident, name, choices in conditions:
        detail = plugin.detail(name)
        assert detail, ident
        assert set(choices) <= set(detail.choices), ident


@each_plugin
def test_needs_name_what_another_kind_declares(plugin: Plugin) -> None:
    for need in plugin.needs:
        if need.source == "vessel":
            assert need.name in Particulars.model_fields, need.id
            continue
        other = REGISTRY.plugins[need.kind]
        assert other.system == plugin.system, need.id
        held = other.quantity(need.name) if need.holds == "reading" else other.detail(need.name)
        assert held, f"{need.id}: {need.kind} declares no {need.name}"
        if need.dimension:
            assert need.dimension is (held.dimension if isinstance(held, Quantity) else _held(held)), need.id
        assert need.why, need.id


@each_plugin
def test_a_load_path_part_is_examined_and_proved(plugin: Plugin) -> None:
    assert plugin.title
    assert plugin.plural
    assert plugin.purpose
    if plugin.load_path:
        assert plugin.examination
        assert plugin.proof
        assert plugin.cautions


@each_plugin
def test_texts_claim_nothing(plugin: Plugin) -> None:
    """design.md 5: what generated text never claims."""
    for text in texts(plugin):
        assert not BANNED.search(text), text


@each_plugin
def test_trade_terms_are_known_and_written_once(plugin: Plugin) -> None:
    """A term of the usage list stands in brackets, so that it can be swapped; nothing else does."""
    for text in texts(plugin):
        for terms in ("uk", "us"):
            assert "[" not in catalogue("en", terms).terms(text), text
        bare = re.sub(r"\[[^]]*\]", "", text).lower()
        assert (
            not re.search(r"\b(split pin|spanner|bottle screw|cotter pin|turnbuckle)", bare)
            or "aircraft" in bare
        ), text


@each_plugin
def test_nothing_known_is_unseen_and_no_crash(plugin: Plugin) -> None:
    """Absent is missing, never an unspoken default."""
    part = graded(plugin, known(plugin))
    assert isinstance(plugin.assess(known(plugin)), Assessment)
    assert part.grade is Grade.UNSEEN
    assert part.score is None


@each_plugin
def test_the_best_answers_alone_are_never_worse_than_unseen(plugin: Plugin) -> None:
    part = graded(plugin, known(plugin, observed=best(plugin)))
    assert part.grade in {Grade.CLEAR, Grade.UNSEEN}
    if part.grade is Grade.UNSEEN:
        assert any(each.needed for each in part.missing) or not plugin.observations


@each_plugin
def test_every_task_is_asked_for_and_ends_without_a_stop(plugin: Plugin) -> None:
    asked = {choice.task for each in plugin.observations for choice in each.choices}
    asked |= {limit.task for limit in plugin.limits}
    # "get" is asked for where the part was looked for and is not aboard.
    assert {task.id for task in plugin.tasks} - {"get"} == asked - {""}
    assert not [task.id for task in plugin.tasks if task.words.endswith(".")]


@each_plugin
def test_a_worse_choice_is_never_better(plugin: Plugin) -> None:
    for observation in plugin.observations:
        ranks, scores = [], []
        for choice in [each for each in observation.choices if not each.gap]:
            part = graded(plugin, known(plugin, observed=best(plugin, **{observation.id: choice.id})))
            ranks.append(part.grade.rank)
            scores.append(min(check.score for check in part.checks if check.score is not None))
            if choice.grade is not Grade.CLEAR:
                assert part.grade is choice.grade, f"{observation.id}.{choice.id}"
                assert choice.task in [action.task for action in part.actions]
        # Something needed and not taken leaves a clear part unseen, which is no grade of condition.
        assert ranks == sorted(ranks), observation.id
        assert scores == sorted(scores, reverse=True), observation.id


@each_plugin
def test_a_gap_is_never_better_than_silence(plugin: Plugin) -> None:
    for observation in plugin.observations:
        others = {ident: choice for ident, choice in best(plugin).items() if ident != observation.id}
        silent = graded(plugin, known(plugin, observed=others))
        for choice in [each for each in observation.choices if each.gap]:
            part = graded(plugin, known(plugin, observed={**others, observation.id: choice.id}))
            assert part.grade is silent.grade, f"{observation.id}.{choice.id}"
            assert {each.id for each in part.missing} >= {each.id for each in silent.missing}
            if choice.task:
                asked = [action for action in part.actions if action.task == choice.task]
                assert [action.grade for action in asked] == [Grade.UNSEEN], f"{observation.id}.{choice.id}"


@each_plugin
def test_a_part_that_was_not_seen_claims_nothing(plugin: Plugin) -> None:
    part = graded(plugin, known(plugin, observed=best(plugin), extent=Extent.NOT_SEEN))
    assert part.grade is Grade.UNSEEN
    assert not part.checks


@each_plugin
def test_ids_of_checks_are_unique(plugin: Plugin) -> None:
    ids = [check.id for check in graded(plugin, known(plugin, observed=best(plugin))).checks]
    assert len(ids) == len(set(ids))
