"""The parts on deck sorted for their plan: which side they stand on, and how far from the bow.

Comes in: a Job and its Assessments. Goes out: parts with a place as shares of the deck's length and half breadth. It
draws nothing and grades nothing.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from reporter.contract import Assessments, Job

from .naming import Parts, bad_place, bad_side, side_of

SIDES = {"starboard": -1, "port": 1, "": 0}
_WORDS = (
    (re.compile(r"\b(bow|stem|foredeck|pulpit|forward|bug|bugkorb|vorschiff|vorn)\b"), 0.12),
    (re.compile(r"\b(mast|masthead|foot of the mast|masttopp?|mastfuß)\b"), 0.4),
    (re.compile(r"\b(shrouds?|chainplates?|amidships|midships|gate|wanten?|pütting(?:e|en)?|mittschiffs)\b"), 0.46),
    (re.compile(r"\b(coachroof|cabin top|companionway|clutch|clutches|organisers?|sprayhood|kajütdach|niedergang|"
                r"fallenklemmen?|umlenker)\b"), 0.58),
    (re.compile(r"\b(cockpit|helm|primary|primaries|coaming|plicht|steuerstand|süll)\b"), 0.72),
    (re.compile(r"\b(quarters?|stern|aft|after|pushpit|transom|heck|heckkorb|achtern|heckspiegel)\b"), 0.88),
)  # fmt: skip
"""Places as people write them in the languages of the catalogue -> their share of the deck's length, from the bow."""
_ORDER = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh")
_GERMAN = ("erste", "zweite", "dritte", "vierte", "fünfte", "sechste", "siebte")
_COUNTED = re.compile(
    rf"\b(?:({'|'.join(_ORDER)})|({'|'.join(_GERMAN)})[rsn]?)\b[^,;]*?\b(?:from|von) (aft|the stern|forward|the bow|achtern|hinten|vorn)\b"
)
FORWARD = frozenset({"forward", "the bow", "vorn"})
NARROW = 12.0


class DeckPart(NamedTuple):
    """A part, its side (-1 starboard, 1 port, 0 both or neither) and its place along the deck (None: not told)."""

    parts: Parts
    side: int
    along: float | None


def listed(assessments: Assessments, system: str, kind: str) -> tuple[DeckPart, ...]:
    """Every part of one kind, in the order in which it was listed."""
    found = [part for part in assessments.components if part.system == system and part.component.kind == kind]
    return tuple(
        DeckPart((part,), SIDES.get(side_of(part), 0), along_of(f"{part.title} {part.component.place}"))
        for part in found
    )


def home(spot: DeckPart) -> int:
    """The side at which a part is named: its own; of one that stands on both, where it is worst, else starboard."""
    return spot.side or SIDES[bad_side(spot.parts[0])] or SIDES["starboard"]


def worst_of_row(spot: DeckPart, pieces: int) -> int:
    """Which of a row, counted from forward, has the fault ("second from aft"); the last one where that is not told."""
    found = _COUNTED.search(bad_place(spot.parts[0]).lower())
    if not found:
        return pieces - 1
    counted = _ORDER.index(found[1]) if found[1] else _GERMAN.index(found[2])
    number = min(counted, pieces - 1)
    return number if found[3] in FORWARD else pieces - 1 - number


def along_of(text: str) -> float | None:
    """Where a name or place says that the part stands; the last word that says so counts."""
    found = [(match.start(), along) for words, along in _WORDS for match in words.finditer(text.lower())]
    return max(found)[1] if found else None


def places(spot: DeckPart) -> list[float]:
    """Every place that the part's name and place tell of, from aft forward."""
    text = " ".join(f"{part.title} {part.component.place}" for part in spot.parts).lower()
    return sorted({along for words, along in _WORDS if words.search(text)}, reverse=True)


def count(job: Job, spot: DeckPart) -> int:
    """How many pieces the part stands for; 0 where that is not told."""
    fact = job.fact(spot.parts[0].component.id, "count")
    return round(fact.value.value) if fact and fact.value else 0
