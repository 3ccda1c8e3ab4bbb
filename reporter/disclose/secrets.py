"""The words that a version must not hold: names, places, numbers of the boat; and how they are taken out of a person's text.

A name goes as a whole and word by word, as it is written: "Mateus Lindqvar", "Lindqvar". What somebody is called otherwise, or a
place that no key of the job names, the program cannot know.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cache, partial

from reporter.errors import DisclosureError
from reporter.model.job import Job
from reporter.model.report import Report
from reporter.model.template import Rule
from reporter.wording import Catalogue, catalogue

SHORTEST = 3
"""Characters of a word of a name that is looked for by itself; shorter ones are particles and initials."""


@dataclass(frozen=True)
class Secret:
    """Words to be taken out, and what stands in their place; `whole` is looked for in the finished report too."""

    words: str
    instead: str
    whole: bool = True


def secrets(job: Job, rules: Collection[Rule]) -> tuple[Secret, ...]:
    """Every secret of the job and of the earlier folders it names, the longest first."""
    found: dict[str, Secret] = {}
    for each in (job, *job.earlier):
        for secret in _of(each, rules, catalogue(job.sheet.lang)):
            found.setdefault(secret.words, secret)
    return tuple(sorted(found.values(), key=lambda each: (-len(each.words), each.words)))


def _of(job: Job, rules: Collection[Rule], words: Catalogue) -> Iterator[Secret]:
    sheet, vessel = job.sheet, job.sheet.vessel
    for person in sheet.people:
        if ("author" if person.role == "author" else "names") in rules:
            instead = words("left_out.name")
            yield from (Secret(text, instead) for text in (person.name, person.organisation) if text)
            yield from (Secret(word, instead, whole=False) for word in _parts(person.name))
            yield from (Secret(text, instead) for text in (person.address, person.contact) if text)
    if "places" in rules:
        for place in (vessel.home_port, sheet.inspection.place):
            pieces = [place, *(piece.strip() for piece in place.split(","))]
            yield from (Secret(piece, words("left_out.place")) for piece in pieces if _is_own(piece))
    if "boat" in rules:
        numbers = (vessel.hull_number, vessel.registration)
        yield from (Secret(text, words("left_out.number")) for text in numbers if text)
        yield Secret(vessel.name, words("left_out.boat"))


def _parts(name: str) -> list[str]:
    return [word for word in re.findall(r"[^\W\d_]+", name) if len(word) >= SHORTEST and word[0].isupper()]


def _is_own(text: str) -> bool:
    """A name of its own, not "afloat" or "the yard"."""
    return len(text) >= SHORTEST and any(char.isupper() or char.isdigit() for char in text)


def without(text: str, hidden: tuple[Secret, ...]) -> str:
    """The text with every secret replaced; of several that follow each other one stand-in remains."""
    for secret in hidden:
        text = _pattern(secret).sub(partial(_instead, secret), text)
    for instead in {secret.instead for secret in hidden}:
        text = re.sub(rf"{re.escape(instead)}(?:[\s.-]*{re.escape(instead)})+", instead, text)
    return text


@cache
def _pattern(secret: Secret) -> re.Pattern[str]:
    """Whole words; a whole name in any letters, a word of a name only as it is written."""
    spaced = r"\s+".join(re.escape(word) for word in secret.words.split())
    return re.compile(rf"(?<!\w){spaced}(?!\w)", re.IGNORECASE if secret.whole else 0)


def _instead(secret: Secret, found: re.Match[str]) -> str:
    return secret.instead if _is_meant(found[0], secret) else found[0]


def _is_meant(found: str, secret: Secret) -> bool:
    """One word in small letters is the ordinary word, or an id: a boat called Chain has a chain."""
    return not found.islower() or any(char.isspace() or char.isdigit() for char in secret.words)


def must_be_absent(report: Report, job: Job, rules: Collection[Rule]) -> None:
    """DisclosureError where a whole secret of the uncut `job` still stands in the report or its attached data."""
    hidden = [each for each in secrets(job, rules) if each.whole]
    if not hidden:
        return
    attached = " ".join(each.content.decode("utf-8", "replace") for each in report.attachments)
    said = f"{report.model_dump_json(exclude={'attachments'})} {attached}"
    left = [
        each.words
        for each in hidden
        if any(_is_meant(found[0], each) for found in _pattern(each).finditer(said))
    ]
    if left:
        raise DisclosureError(
            f"What should be left out still stands in the report: {', '.join(left)}. It was not written.",
            "Write it otherwise in the findings, or rename the photo, paper or folder that is called so.",
        )
