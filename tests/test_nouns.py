"""The base of every noun: a copy is what pydantic's own would be, and nothing that was worked out outlives what it came from."""

from __future__ import annotations

from functools import cached_property

import pytest
from pydantic import BaseModel, ValidationError

from reporter.model.base import Noun, grouped


class Pair(Noun):
    """Two numbers, one of them with a default."""

    one: int
    other: int = 2

    @cached_property
    def total(self) -> int:
        """Worked out once."""
        return self.one + self.other


@pytest.mark.parametrize("pair", [Pair(one=1), Pair(one=1, other=2), Pair(one=4, other=5)])
@pytest.mark.parametrize("update", [{}, {"one": 7}, {"one": 7, "other": 8}])
def test_a_copy_is_pydantics_own(pair: Pair, update: dict[str, int]) -> None:
    ours, own = pair.model_copy(update=update), BaseModel.model_copy(pair, update=update)
    assert ours == own
    assert ours.model_fields_set == own.model_fields_set
    assert ours.model_dump_json(exclude_unset=True) == own.model_dump_json(exclude_unset=True)
    assert hash(ours) == hash(own)
    with pytest.raises(ValidationError):
        ours.one = 3


def test_what_was_worked_out_stays_behind() -> None:
    pair = Pair(one=1)
    assert pair.total == 3
    assert pair.model_copy(update={"one": 10}).total == 12
    assert pair.total == 3
    assert pair.model_dump() == {"one": 1, "other": 2}
    assert pair == Pair(one=1)


def test_groups_keep_the_order_in_which_things_come() -> None:
    assert grouped([3, 1, 4, 1, 5, 2], lambda each: each % 2) == {1: (3, 1, 1, 5), 0: (4, 2)}
    assert list(grouped("abcab", str)) == ["a", "b", "c"]


def test_values_told_the_same_fields_share_their_names() -> None:
    """A set for each value took a quarter of all memory; a deep copy has its own, since pydantic adds to it."""
    pairs = [
        Pair(one=1),
        Pair.model_validate({"one": 2}),
        Pair(one=3).model_copy(),
        Pair(one=4).model_copy(update={"one": 5}),
    ]
    assert len({id(pair.model_fields_set) for pair in pairs}) == 1
    deep = pairs[0].model_copy(update={"other": 6}, deep=True)
    assert deep.model_fields_set == {"one", "other"}
    assert pairs[0].model_fields_set == {"one"}
