"""Which parts belong together, and the paths on which they carry one after another."""

from __future__ import annotations

from typing import Any

import pytest

from reporter.contract import Extent, Grade
from reporter.grade import grade
from reporter.grade.evidence import gather
from reporter.model.assessment import PathGrade
from reporter.model.findings import Component, Examined, LoadPath
from reporter.model.job import Job
from reporter.model.plugin import DetailField, Need
from tests.grade.cases import TEMPLATE, Kinds, gap, job, limit, part, plugin

WEAR = limit(2.0)
"""Graded `first` beyond 2 mm; unworn at 0."""


def path(ident: str, *parts: str) -> LoadPath:
    """A load path."""
    return LoadPath(id=ident, name=f"By {ident}", parts=parts, lost=f"{ident} is gone.")


def paths(one: Job) -> dict[str, PathGrade]:
    """The paths of the one system, by id."""
    graded = grade(one, Kinds(plugin(WEAR)), TEMPLATE)
    return {each.id: each for system in graded.systems for each in system.paths}


def test_a_path_is_as_strong_as_its_weakest_part_and_the_others_keep_their_own() -> None:
    """A at 0.5 mm, B at 1.5, C unworn: the path over B has B's score, that over C has A's."""
    readings = (gap(0.5, part="a"), gap(1.5, part="b"), gap(0.0, part="c"))
    told = job(
        part("a"),
        part("b", name="Link"),
        part("c"),
        readings=readings,
        paths=(path("port", "a", "b"), path("starboard", "a", "c")),
    )
    graded = grade(told, Kinds(plugin(WEAR)), TEMPLATE)
    scores = {each.component.id: each.score for each in graded.components}
    port, starboard = graded.systems[0].paths
    assert port.weakest == "Link"
    assert port.score == scores["b"]
    assert starboard.score == scores["a"]
    assert scores["b"] is not None
    assert scores["a"] is not None
    assert scores["b"] < scores["a"]
    assert graded.systems[0].score == scores["b"], "a path beside it makes nothing milder"
    assert port.lost == "port is gone."


def test_a_bad_part_on_one_path_leaves_the_other_alone_and_the_system_bad() -> None:
    told = job(
        part("a", observed={"look": "broken"}), part("b", observed={"look": "good"}),
        paths=(path("port", "a"), path("starboard", "b")),
    )  # fmt: skip
    graded = grade(told, Kinds(plugin(WEAR)), TEMPLATE)
    port, starboard = graded.systems[0].paths
    assert (port.grade, starboard.grade) == (Grade.STOP, Grade.CLEAR)
    assert graded.systems[0].grade is Grade.STOP


@pytest.mark.parametrize("extent", [Extent.NOT_SEEN, Extent.NOT_FOUND, Extent.NOT_FITTED])
def test_a_path_with_a_part_that_was_not_seen_or_is_not_there_has_no_score(extent: Extent) -> None:
    gone = Component(id="b", kind="part", name="Link", examined=Examined(extent=extent, because="hidden"))
    told = paths(job(part("a"), gone, readings=(gap(0.5, part="a"),), paths=(path("port", "a", "b"),)))[
        "port"
    ]
    assert told.score is None
    assert told.withheld == "Link"
    assert told.grade is not Grade.CLEAR


def needing(**more: Any) -> Any:
    """A kind that takes the size of another part of its kind."""
    needs = (
        Need(
            id="size",
            kind="part",
            source="component",
            holds="detail",
            name="size",
            why="it is held against it",
        ),
    )
    size = DetailField(id="size", title="Size", holds="words")
    return plugin(WEAR).model_copy(update={"needs": needs, "details": (size,), **more})


def met(component: Component, *others: Component) -> Any:
    """What `component` learns of the size from the `others`."""
    told = job(component, *others, facts=_sizes(others))
    kind = needing()
    return gather(told, component, kind, {"part": kind}).needed.get("size")


def _sizes(parts: tuple[Component, ...]) -> dict[str, Any]:
    return {each.id: {"size": {"basis": "seen", "words": f"of {each.id}"}} for each in parts}


@pytest.mark.parametrize(
    ("mine", "found"),
    [
        ({"part_of": "left-helm"}, "of left-helm"),
        ({"part_of": "right-helm"}, "of right-helm"),
        ({"side": "port"}, "of left-helm"),
        ({"group": "starboard"}, "of right-helm"),
        ({}, None),
    ],
)
def test_a_need_is_met_by_the_part_s_own_assembly_else_by_its_side(
    mine: dict[str, str], found: str | None
) -> None:
    left, right = part("left-helm", side="port"), part("right-helm", side="starboard")
    fact = met(part("brake", **mine), left, right)
    assert (fact.words if fact else None) == found


def test_an_assembly_holds_every_larger_part() -> None:
    told = job(part("mast"), part("head", part_of="mast"), part("sheave", part_of="head"))
    assert told.assembly(told.components[2]) == {"sheave", "head", "mast"}
    assert told.assembly(told.components[0]) == {"mast"}
