"""The load paths of a system: which parts carry one after another, how weak each path is, what its loss means."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import PathGrade, SystemGrade
from reporter.model.report import Block, Cell, Span
from reporter.outline.blocks import cell, graded, head, note, subhead, table
from reporter.outline.context import Context
from reporter.wording.numbers import number


def load_paths(context: Context, system: SystemGrade) -> Iterator[Block]:
    """One row a path; nothing where the job names none for this system."""
    if not system.paths:
        return
    words = context.words
    rows = (
        (
            head(path.title),
            graded(path.grade, context.joint_word(path.grade, path.parts)),
            cell(_weakest(context, path)),
            _parts(context, path),
            cell(path.lost),
        )
        for path in system.paths
    )
    yield subhead(words("paths.title"))
    yield note(words("paths.note"))
    yield table(words, "paths", rows, path=1.2, grade=0.8, weakest=1.2, parts=2.0, lost=2.0)


def _weakest(context: Context, path: PathGrade) -> str:
    if path.withheld:
        own = [part for ident in path.parts if (part := context.assessments.part(ident))]
        whole = any(part.unjudged for part in own if part.title == path.withheld)
        return context.words("paths.withheld_unjudged" if whole else "paths.withheld", what=path.withheld)
    if path.score is None or not context.template.shows_score:
        return path.weakest or "–"
    return context.words("paths.scored", what=path.weakest, score=number(path.score, decimals=0))


def _parts(context: Context, path: PathGrade) -> Cell:
    """The parts in the order in which they carry, each a link to where it is told."""
    titles = {part.component.id: part.title for part in context.assessments.components}
    spans: list[Span] = []
    for ident in path.parts:
        spans += [Span(text=" → ")] if spans else []
        spans.append(Span(text=titles[ident], href=f"#{ident}"))
    return Cell(text=tuple(spans))
