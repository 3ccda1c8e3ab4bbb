"""Photos proposed to parts: by what is written into them, by their names, and by the pauses between them. Pure.

Comes in: photos, captions, the words that each kind is called by, the kinds expected aboard. Goes out: a `Proposal`. What
is not plain stays with nobody: a wrong photo beside a part is worse than one that a person has to place.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath

from reporter.door import group_by_gaps
from reporter.model.photo import PhotoFile
from reporter.model.plugin import Kinds

_LEAST = 0.3
"""A word that four kinds or more share, and that is none of their ids, names none of them."""
_EQUAL = 1e-9
_EMPTY = frozenset(["and", "the", "with", "its", "for", "from", "und", "der", "die", "das", "mit", "von"])
_OWN_NAME = re.compile(
    r"[a-z]{2,4}[-_ ]?\d.*|\d[\d_ -]*|photo.*|image.*|bild.*|foto.*|picture.*", re.IGNORECASE
)
"""What cameras and phones call a file."""


@dataclass(frozen=True)
class Placed:
    """A photo with its caption, and what proposes it to a part: its `caption`, its `name`, or the `time` of others."""

    photo: PhotoFile
    caption: str = ""
    why: str = ""


@dataclass(frozen=True)
class Proposal:
    """Photos by kind of part, and those that no part is proposed for, in groups parted at pauses."""

    by_kind: dict[str, list[Placed]]
    waiting: list[list[Placed]]


def words_of(kinds: Sequence[Kinds]) -> dict[str, frozenset[str]]:
    """Kind -> the words of its id and of its title, in each language."""
    told = {
        kind: " ".join([kind, *(each.plugins[kind].title for each in kinds)]) for kind in kinds[0].plugins
    }
    return {kind: _words(text) for kind, text in told.items()}


def proposed(
    photos: Sequence[PhotoFile],
    captions: Mapping[str, str],
    words: Mapping[str, frozenset[str]],
    aboard: Collection[str],
    gap_minutes: float,
) -> Proposal:
    """What each photo seems to show: its caption says so, its name does, or those taken with it all name one part."""
    by_kind: dict[str, list[Placed]] = {}
    waiting: list[list[Placed]] = []
    for group in group_by_gaps(list(photos), gap_minutes):
        own = {photo.name: _named(photo, captions, words, aboard) for photo in group}
        named = {kind for kind, _ in own.values() if kind}
        only = next(iter(named)) if len(named) == 1 and all(photo.taken for photo in group) else ""
        left: list[Placed] = []
        for photo in group:
            kind, why = own[photo.name]
            placed = Placed(photo, captions.get(photo.name, ""), why if kind else "time" * bool(only))
            (by_kind.setdefault(kind or only, []) if kind or only else left).append(placed)
        waiting += [left] if left else []
    return Proposal(by_kind, waiting)


def _named(
    photo: PhotoFile,
    captions: Mapping[str, str],
    words: Mapping[str, frozenset[str]],
    aboard: Collection[str],
) -> tuple[str, str]:
    """The kind that a photo's caption names, else its file name, and which of them does."""
    stem = PurePosixPath(photo.name).stem
    told = ((captions.get(photo.name, ""), "caption"), ("" if _OWN_NAME.fullmatch(stem) else stem, "name"))
    for text, what in told:
        if kind := meant(_words(text), words, aboard):
            return kind, what
    return "", ""


def meant(said: Collection[str], words: Mapping[str, frozenset[str]], aboard: Collection[str]) -> str:
    """The one kind that these words fit best; of equals the one aboard.

    A word counts less the more kinds it names, and how much of the kind's own id is said counts as much as a word of its own:
    "chain" is the chain, and half of an anchor chain.
    """
    shared = Counter(word for own in words.values() for word in own)
    score = {
        kind: sum(1 / shared[word] for word in own if word in said) + _share(said, _words(kind))
        for kind, own in words.items()
    }
    best = max(score.values(), default=0.0)
    ahead = [kind for kind, each in score.items() if each > best - _EQUAL]
    ahead = [kind for kind in ahead if kind in aboard] or ahead
    return ahead[0] if len(ahead) == 1 and best >= _LEAST else ""


def _share(said: Collection[str], own: Collection[str]) -> float:
    return sum(word in said for word in own) / max(len(own), 1)


def _words(text: str) -> frozenset[str]:
    """The words of a text without case and without the s of several."""
    found = re.findall(r"[^\W\d_]{3,}", text.casefold())
    return frozenset(word.removesuffix("s") for word in found if word not in _EMPTY)
