"""One bit changed anywhere in a sealed file: never again without a fault. Always the same bits, so a failure can be repeated."""

from __future__ import annotations

import random
from collections.abc import Iterable
from pathlib import Path

import pytest

from reporter.seal import inspect
from tests.effort import share, tries
from tests.seal.made import Made

pytestmark = pytest.mark.slow


def missed(document: bytes, bits: Iterable[int], folder: Path) -> list[int]:
    """The bits after whose change the file is still told to be in order."""
    found = []
    for bit in bits:
        changed = bytearray(document)
        changed[bit // 8] ^= 1 << bit % 8
        (folder / "changed.pdf").write_bytes(changed)
        try:
            told = inspect(str(folder / "changed.pdf"))
        except Exception:  # noqa: BLE001, S112 - a file that cannot be read is caught
            continue
        if told.signatures and not told.faults:
            found.append(bit)
    return found


def drawn(count: int, first: int, end: int, seed: int) -> list[int]:
    """So many bits between two bytes, each once."""
    return random.Random(seed).sample(range(first * 8, end * 8), count)  # noqa: S311


def contents(document: bytes) -> tuple[int, int]:
    """Where the last signature's contents begin and end: the bytes that no signature covers."""
    start = document.rindex(b"/Contents <30") + len(b"/Contents ")
    return start, document.index(b">", start) + 1


def test_the_control_is_in_order(signed: Made, tmp_path: Path) -> None:
    (tmp_path / "whole.pdf").write_bytes(signed.sealed)
    told = inspect(str(tmp_path / "whole.pdf"))
    assert told.signatures
    assert not told.faults


def test_some_bits_anywhere(signed: Made, tmp_path: Path) -> None:
    assert missed(signed.sealed, drawn(30, 0, len(signed.sealed), 1), tmp_path) == []


def test_some_bits_of_the_contents(signed: Made, tmp_path: Path) -> None:
    """Half of them fall on padding, where the library itself sees nothing."""
    assert missed(signed.sealed, drawn(60, *contents(signed.sealed), 2), tmp_path) == []


@pytest.mark.slow
def test_many_bits_anywhere(signed: Made, tmp_path: Path) -> None:
    assert missed(signed.sealed, drawn(tries(500, 60), 0, len(signed.sealed), 3), tmp_path) == []


@pytest.mark.slow
def test_many_bits_of_the_contents_of_each_signature(signed: Made, tmp_path: Path) -> None:
    assert missed(signed.sealed, drawn(tries(200, 60), *contents(signed.sealed), 4), tmp_path) == []
    assert missed(signed.received, drawn(tries(40, 20), *contents(signed.received), 5), tmp_path) == []


@pytest.mark.slow
def test_a_bit_of_each_character_of_the_contents(signed: Made, tmp_path: Path) -> None:
    """Among them those of version, algorithm and its NULL parameter, which no signature covers."""
    start, end = contents(signed.sealed)
    filled = len(signed.sealed[start:end].rstrip(b"0>"))
    seed = random.Random(6)  # noqa: S311
    bits = [place * 8 + seed.randrange(8) for place in share(range(start, start + filled + 1), 100)]
    assert missed(signed.sealed, bits, tmp_path) == []
