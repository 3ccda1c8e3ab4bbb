"""No false alarm: small folders drawn at random, sealed and signed as people would, are told as in order, every one."""

from __future__ import annotations

import random
from contextlib import suppress
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.door import close
from reporter.errors import UsageError
from reporter.proving.folder import folder_evidence
from reporter.proving.regrading import carried
from reporter.registry import Registry, find, load
from reporter.seal import add_signature, inspect
from tests.effort import tries
from tests.history.folders import findings, write
from tests.seal.made import AUTHOR, INK, RECEIVER, Made

pytestmark = pytest.mark.slow

COUNT = tries(50, 8)


def drawn(folder: Path, dice: random.Random) -> Path:
    """A folder with readings, answers and words of its own."""
    told = findings("chain", lubrication=dice.choice(["dry", "oiled"]))
    page = dice.choice(["A4", "Letter", "phone"])
    more = f"page: {page}\nlang: {dice.choice(['en', 'de'])}\nopinion: Seen {dice.randrange(10**6)} times – “gerade so” {dice.choice('äöüßéñ')}.\n"
    return write(
        folder,
        number=f"H-{dice.randrange(10**4)}",
        day=f"2025-{dice.randrange(1, 13):02}-{dice.randrange(1, 29):02}",
        findings_text=told,
        purpose=dice.choice(["handover", "insurance", "pre_purchase"]),
        top=dice.randrange(5080, 5160) / 10,
        middle=dice.randrange(5080, 5160) / 10,
        miles=dice.randrange(10**5),
        more=more,
    )


def sealed(document: bytes, signed: Made, dice: random.Random) -> bytes:
    """By the author, with ink or without, and by the other where there is a field for one."""
    made = add_signature(document, signed.keys[AUTHOR], ink=dice.choice(["", INK]))
    if dice.random() < 0.7:
        with suppress(UsageError):  # a survey of a boat without a client has no such field
            made = add_signature(made, signed.keys[RECEIVER], "received", dice.choice(["", INK]))
    return made


def alarms(number: int, signed: Made, registry: Registry, place: Path) -> list[str]:
    """Everything that is told of one drawn file and does not say that it is in order."""
    dice = random.Random(number)  # noqa: S311
    folder, file = drawn(place / f"job{number}", dice), place / f"{number}.pdf"
    pipeline.report(folder, file, registry, tell=lambda _step: None)
    file.write_bytes(sealed(file.read_bytes(), signed, dice))
    found, data = inspect(str(file)), carried(str(file))
    held = folder_evidence(file, folder, found, data, None)
    assert found.signatures
    good = {"verify.data", "verify.regraded", "verify.photos", "verify.remade"}
    told = {each.id for each in (*found.faults, *data.evidence.remarks, *held.remarks)}
    return [f"{number}: {ident}" for ident in sorted(told ^ good)]


def test_a_few_files_raise_no_alarm(signed: Made, tmp_path: Path) -> None:
    registry = load(find())
    found = [each for number in range(2) for each in alarms(number, signed, registry, tmp_path)]
    close()
    assert found == []


@pytest.mark.slow
def test_many_files_raise_no_alarm(signed: Made, tmp_path: Path) -> None:
    registry = load(find())
    found = [each for number in range(COUNT) for each in alarms(number, signed, registry, tmp_path)]
    close()
    assert found == []
