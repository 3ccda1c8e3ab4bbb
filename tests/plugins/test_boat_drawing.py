"""The picture of the whole boat: each part at its place and on its side, what was not seen hatched."""

from __future__ import annotations

from typing import Any

import pytest

from reporter.model.assessment import Assessments, Graded, Missing
from reporter.model.drawing import Drawing, Path
from reporter.model.terms import Extent, Grade
from tests.plugins.evidence import REGISTRY
from tests.plugins.on_paper import told
from tests.plugins.test_deck_drawing import choice, job, part

AHEAD, DECK = 283.0, 410.0
"""The middle lines of the views from ahead and from above."""


def drawn(*parts: Graded, facts: Any = None) -> Drawing:
    """The boat of a job that lists these parts."""
    draw = REGISTRY.systems["rig"].overview
    assert draw is not None
    picture = draw(job(parts, facts), Assessments(components=parts), told)
    assert picture is not None
    return picture


def at(picture: Drawing, each: Graded) -> tuple[float, float]:
    """Where a part is in the picture."""
    return next(label.at for label in picture.labels if label.part == each.component.id)


def hatches(picture: Drawing) -> list[Path]:
    """Fine lines that rise at 45 degrees."""
    return [
        shape
        for shape in picture.shapes
        if isinstance(shape, Path)
        and len(shape.points) == 2
        and shape.stroke == "second"
        and shape.weight == "fine"
        and not shape.dashed
        and abs(sum(shape.points[0]) - sum(shape.points[1])) < 1e-6
    ]


def test_seen_from_ahead_starboard_is_on_the_left() -> None:
    screws = [part("rigging_screw", f"Rigging screw, {side}", group=side) for side in ("port", "starboard")]
    picture = drawn(*screws)
    (port, y), (starboard, other) = (at(picture, each) for each in screws)
    assert starboard < AHEAD < port
    assert port - AHEAD == pytest.approx(AHEAD - starboard)
    assert y == other


def test_seen_from_above_with_the_bow_up_starboard_is_on_the_right() -> None:
    lines = [part("lifeline", f"Lifelines, {side}", group=side) for side in ("port", "starboard")]
    picture = drawn(*lines)
    assert at(picture, lines[0])[0] < DECK < at(picture, lines[1])[0]


def test_the_bow_is_at_the_top_of_the_deck() -> None:
    anchor, pulpit, pushpit = part("anchor"), part("pulpit", "Pulpit"), part("pulpit", "Pushpit")
    picture = drawn(anchor, pulpit, pushpit)
    assert at(picture, anchor)[1] < at(picture, pulpit)[1] < at(picture, pushpit)[1]


def test_a_warp_that_lies_aft_is_not_at_the_bow() -> None:
    kedge, anchor = part("rode", "Kedge warp", place="after locker"), part("anchor")
    picture = drawn(kedge, anchor)
    assert at(picture, kedge)[1] > at(picture, anchor)[1] + 200


def test_controls_stand_at_the_pedestal() -> None:
    pedestal, controls = part("pedestal"), part("engine_controls")
    picture = drawn(pedestal, controls, part("wheel"))
    assert at(picture, controls) == at(picture, pedestal)


def test_what_is_not_fitted_has_no_place() -> None:
    swivel = part("swivel", extent=Extent.NOT_FITTED)
    assert swivel.component.id not in {label.part for label in drawn(swivel, part("anchor")).labels}


def test_a_part_not_seen_is_hatched_at_its_place() -> None:
    seen, unjudged = part("rudder_blade", grade=Grade.CLEAR), part("rudder_blade", grade=Grade.UNSEEN)
    partly = unjudged.component.examined.model_copy(update={"extent": Extent.PART_SEEN})
    unseen = unjudged.model_copy(
        update={"component": unjudged.component.model_copy(update={"examined": partly})}
    )
    assert hatches(drawn(seen)) == hatches(drawn(unjudged)) == [], "all of it was seen"
    picture = drawn(unseen)
    x, y = at(picture, unseen)
    lines = hatches(picture)
    assert len(lines) > 4
    assert all(abs(px - x) <= 15.01 and abs(py - y) <= 15.01 for line in lines for px, py in line.points)


def test_the_rig_is_hatched_above_reach_where_it_was_looked_at_from_deck() -> None:
    mast = part("mast", grade=Grade.CLEAR)
    missed = mast.model_copy(update={"missing": (Missing(id="close_up", title="close by", needed=True),)})
    assert hatches(drawn(mast)) == []
    picture = drawn(missed)
    lowest = max(y for line in hatches(picture) for _, y in line.points)
    foot = next(label for label in drawn(part("boom"), mast).labels).at[1]
    assert lowest < foot + 1
    assert min(y for line in hatches(picture) for _, y in line.points) < 60


@pytest.mark.parametrize("kind", ["wheel", "mast", "winch", "anchor", "stanchion"])
def test_one_part_of_any_system_makes_a_picture(kind: str) -> None:
    each = part(kind)
    picture = drawn(each)
    x, y = at(picture, each)
    assert 0 < x < picture.width
    assert 0 < y < picture.height


def test_a_stay_by_its_role_is_where_it_runs() -> None:
    """A forestay leads to the bow, a backstay to the stern."""
    fore, back = part("standing_wire", "One"), part("standing_wire", "Other")
    picture = drawn(fore, back, facts={0: choice(role="forestay"), 1: choice(role="backstay")})
    assert at(picture, fore)[0] < at(picture, back)[0] < AHEAD - 40


def test_a_part_of_the_mizzen_stands_abaft_the_main_mast_and_not_on_it() -> None:
    """Even a screw of one side, which the view from ahead would show of the main mast."""
    names = ("Mast", "Mizzen mast", "Mizzen screws", "Boom")
    kinds = ("mast", "mast", "rigging_screw", "boom")
    parts = [
        part(kind, name, group="port" * ("screws" in name)) for kind, name in zip(kinds, names, strict=True)
    ]
    main, mizzen, screws, boom = (at(drawn(*parts), each) for each in parts)
    assert main[0] < boom[0] < mizzen[0]
    assert abs(mizzen[0] - screws[0]) < 12
    assert mizzen[1] > main[1], "she is the shorter"
