"""What a record of a boat leaves for the next visit: open jobs, doubtful readings, what was not seen.

Comes in: a graded job in words, and the numbers that parts have on the next walk. Goes out: rows, the most urgent first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from reporter.model.assessment import Assessments, Graded
from reporter.model.base import grouped
from reporter.model.terms import URGENCY, Extent, Grade, Verdict
from reporter.outline.plainly import runs
from reporter.wording import Catalogue

TOLD = frozenset({Grade.STOP, Grade.FIRST, Grade.PLAN})
"""Jobs of these grades are told in words; what was not seen has rows of its own."""
NEAR = frozenset({Verdict.CLOSE, Verdict.DOUBTFUL})
Numbers = Mapping[str, int]


def left_open(graded: Assessments, numbers: Numbers, words: Catalogue) -> Iterator[tuple[str, str]]:
    """Open jobs by urgency, readings too near a limit to tell, parts and items that were not seen."""
    aboard = [each for each in graded.components if each.component.examined.extent is not Extent.NOT_FITTED]
    for grade in URGENCY:
        jobs = [
            (part, words.terms(action.what))
            for part in aboard
            for action in part.actions
            if action.is_open and action.grade is grade
        ]
        if jobs and grade in TOLD:
            yield words(f"grade.{grade}"), _merged(jobs, numbers, words)
        elif jobs and grade is Grade.WATCH:
            again = sorted({numbers.get(part.component.id, 0) for part, _ in jobs} - {0})
            yield words("grade.watch"), words("plan.look_again", numbers=runs(again))
    near = [
        (part, words.terms(check.title))
        for part in aboard
        for check in part.checks
        if check.verdict in NEAR and check.governs
    ]
    if near:
        yield words("plan.near"), _merged(near, numbers, words)
    unseen = [(part, words.terms(text)) for part in aboard for text in _unseen(part, words)]
    if unseen:
        yield words("plan.unseen"), _merged(unseen, numbers, words)


def _unseen(part: Graded, words: Catalogue) -> tuple[str, ...]:
    """The items that were left out; for a part not seen at all the reason."""
    if part.component.examined.extent is Extent.NOT_SEEN:
        return (words("plan.all_of_it", because=part.component.examined.because),)
    return part.not_included


def _merged(told: list[tuple[Graded, str]], numbers: Numbers, words: Catalogue) -> str:
    """The same of several parts said once, with their numbers."""
    said = []
    for text, same in grouped(told, lambda pair: pair[1]).items():
        found = {numbers[part.component.id] for part, _ in same if part.component.id in numbers}
        said.append(f"{runs(sorted(found)) or same[0][0].title} {words.inside(text)}")
    return "; ".join(said)
