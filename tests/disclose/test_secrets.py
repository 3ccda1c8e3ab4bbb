"""Taking words out of a person's text: whole names, their parts, and what only looks like one."""

from __future__ import annotations

import pytest

from reporter.disclose.secrets import Secret, without

NAME = (
    Secret("Mateus Lindqvar", "[name]"),
    Secret("Lindqvar", "[name]", whole=False),
    Secret("Mateus", "[name]", whole=False),
)
BOAT = (Secret("Chain", "[boat]"), Secret("XX-1 B", "[number]"))


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Mateus Lindqvar held the wheel", "[name] held the wheel"),
        ("MATEUS\n  LINDQVAR held it", "[name] held it"),
        ("said Lindqvar’s crew", "said [name]’s crew"),
        ("Lindqvar, Mateus", "[name], [name]"),
        ("Mateus M. Lindqvar", "[name] M. [name]"),
        ("Mateusson stays", "Mateusson stays"),
        ("lindqvar in small letters stays", "lindqvar in small letters stays"),
        ("mateus lindqvar does not", "[name] does not"),
        ("", ""),
    ],
)
def test_names(text: str, left: str) -> None:
    assert without(text, NAME) == left


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("the chain of Chain", "the chain of [boat]"),
        ("aboard CHAIN", "aboard [boat]"),
        ("number xx-1 b on the stern", "number [number] on the stern"),
        ("Chainplate", "Chainplate"),
    ],
)
def test_a_boat_may_be_called_as_a_part_is(text: str, left: str) -> None:
    assert without(text, BOAT) == left
