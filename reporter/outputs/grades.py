"""What `gudgeon check` says on a terminal of 80 columns: grades, coverage, what holds a system down, what is missing."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Assessments, Graded, SystemGrade
from reporter.model.terms import Extent, Grade, Remedy
from reporter.outputs.screen import WIDTH, wrapped
from reporter.wording import Catalogue
from reporter.wording.numbers import number

INDENT = 12


def summary(assessments: Assessments, words: Catalogue) -> list[str]:
    """Lines of at most 78 characters: per system its grade, coverage and parts; then what to do before printing."""
    lines: list[str] = []
    for system in assessments.systems:
        if system.components or system.expected:
            lines += _system(system, words)
            lines += [
                line
                for part in assessments.components
                if part.system == system.id
                for line in _part(part, words)
            ]
            lines.append("")
    return [*lines, *_wishes(assessments, words)]


def _system(system: SystemGrade, words: Catalogue) -> Iterator[str]:
    coverage = words("glance.coverage_of", listed=system.listed, expected=system.expected)
    score = "" if system.score is None else f", {number(system.score, decimals=0)}"
    yield from wrapped(f"{system.title}: {words(f'grade.{system.grade}')}{score} ({coverage})", 0)
    if system.withheld or system.weakest:
        yield from wrapped(words("check_told.held_down", what=system.weakest or system.withheld), 2)
    if system.not_listed:
        yield from wrapped(words("check_told.not_listed", names=words.listed(list(system.not_listed))), 2)


def _part(part: Graded, words: Catalogue) -> Iterator[str]:
    room = max(9, *(len(words(f"grade.{each}")) for each in Grade))
    yield f"  {words(f'grade.{part.grade}'):<{room}} {part.title}"[:WIDTH]
    for text in dict.fromkeys(text for text in (part.sentence, *part.capped) if text):
        yield from wrapped(words.terms(text), INDENT)


def _wishes(assessments: Assessments, words: Catalogue) -> Iterator[str]:
    """What would make the report better: readings to take again, photos that a bad grade should have."""
    for part in assessments.components:
        for action in part.actions:
            if action.remedy is Remedy.TEST and action.settles:
                yield from wrapped(f"{part.title}: {words.terms(action.what)}", 0)
        if missing := _photos(part):
            names = words.listed([words(f"check_told.{each}") for each in missing])
            yield from wrapped(
                words("check_told.photos", part=part.title, grade=words(f"grade.{part.grade}"), names=names),
                0,
            )


def _photos(part: Graded) -> list[str]:
    """A part graded `stop` or `first` should be shown where it stands and from near by."""
    if part.grade not in {Grade.STOP, Grade.FIRST} or part.component.examined.extent is Extent.NOT_FOUND:
        return []
    shown = {use.shows for use in part.component.photos}
    return [each for each in ("context", "close_up") if each not in shown]
