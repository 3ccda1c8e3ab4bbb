"""What the contract makes of readings for any kind: a sum of each that is whole, and every limit meant for the part."""

from __future__ import annotations

import pytest

from reporter.contract import against, sums
from reporter.engineering.stock import hung_torque
from reporter.engineering.tackle import chain_wear
from reporter.registry import find, load

from .evidence import fact, known, spot, value

KINDS = load(find()).plugins
HUNG = {"mass": "hung_mass", "radius": "hung_radius"}


def test_a_sum_is_made_of_each_reading_that_has_the_other_beside_it() -> None:
    spots = [spot("hung_mass", 10, "kg", at="upper"), spot("hung_mass", 4, "kg", at="lower")]
    spots.append(spot("hung_radius", 500, "mm", at="upper"))
    found = list(sums(known(KINDS["wheel_brake"], spots=spots), hung_torque, HUNG))
    assert [each.at for each, _, _ in found] == ["upper"]
    assert found[0][1].value == pytest.approx(hung_torque(10, 0.5))


def test_no_sum_is_made_without_what_must_be_known() -> None:
    evidence = known(KINDS["shackle"], spots=[spot("worn", 9, "mm")])
    assert list(sums(evidence, chain_wear, {"worn": "worn"}, {"size": None})) == []
    assert len(list(sums(evidence, chain_wear, {"worn": "worn"}, {"size": value(10, "mm")}))) == 1


def test_a_result_is_held_against_the_limits_that_are_meant_for_the_part() -> None:
    evidence = known(KINDS["sheet"], facts={"construction": fact(choice="double_braid")})
    held = {check.id for check in against(evidence, "diameter_loss", value(20, "%"))}
    assert held == {
        "sheet.diameter_loss.other",
        "sheet.diameter_loss.other_retire",
        "sheet.diameter_loss.mooring",
    }
