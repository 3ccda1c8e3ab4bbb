"""Systems at a glance: grade, weakest link, coverage, the drawing, and every part in walking order."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Graded, SystemGrade
from reporter.model.report import Block, Cell, Column, Paragraph, Span, Table, plain
from reporter.model.terms import Extent, Grade
from reporter.outline.blocks import across, cell, graded, head, heading, note, subhead, table
from reporter.outline.context import Context
from reporter.outline.first_page import about, scope
from reporter.outline.plainly import counted, ended, finding
from reporter.wording.numbers import NO_BREAK, number

MANY = 24
"""From so many parts on the list gives names and grades only."""
ABREAST = 3


def write(context: Context) -> list[Block]:
    """One row per system, its drawing, then one row per part."""
    systems = [system for system in context.assessments.systems if system.components or system.expected]
    if context.brief:
        # Of nothing there is nothing to count: the decision says so.
        counts = [Paragraph(text=plain(_counted(context)))] if context.fitted() else []
        told = (*counts, _systems(context, systems), *scope(context), *about(context))
        return [heading(context, "at_a_glance"), *told]
    blocks: list[Block] = [heading(context, "at_a_glance"), _systems(context, systems)]
    if context.template.shows_score:
        # What a score is stands with the scores.
        blocks[-1] = blocks[-1].model_copy(update={"together": True})
        blocks.append(note(_score_note(context)))
    many = len(context.assessments.components) > MANY
    for system in systems:
        if context.drawn_at_a_glance and (figure := context.drawing(system)):
            blocks.append(figure)
        if system.components and not many:
            title = context.words("glance.stations", title=system.title)
            blocks += [subhead(title), _parts(context, system)]
    if many:
        blocks.append(_short_parts(context, systems))
    return blocks


def _score_note(context: Context) -> str:
    """What the score is; where its formula stands, if this report tells it."""
    is_told = "method" in context.template.sections
    ident = "glance.score_note" if is_told else "glance.score_told"
    return context.words(ident, section=context.words("head.scoring"))


def _counted(context: Context) -> str:
    """The counts by grade in words, worst first."""
    found = context.fitted()
    order = (Grade.STOP, Grade.FIRST, Grade.PLAN, Grade.WATCH, Grade.CLEAR, Grade.UNSEEN)
    told = [
        context.words(f"brief.counts_{grade}", count=counted(context, count))
        for grade in order
        if (count := sum(part.grade is grade for part in found))
    ]
    one = "_one" if len(found) == 1 else ""
    total = counted(context, len(found))
    return context.words(
        f"brief.counts{one}",
        total=total[:1].upper() + total[1:],
        parts=ended(context.words.listed(told)).rstrip("."),
    )


def _short_parts(context: Context, systems: list[SystemGrade]) -> Table:
    """Names and grades only, three abreast under the name of each system: a long list that is still taken in at a glance."""
    titles = (context.words("glance.part"), context.words("glance.grade")) * ABREAST
    shares = (1.5, 0.8) * ABREAST
    rows: list[tuple[Cell, ...]] = []
    for system in systems:
        if system.components:
            title = context.words("glance.stations", title=system.title)
            rows.append(across(head(title), len(titles)))
            rows += _abreast(context, system)
    columns = tuple(Column(title=title, share=share) for title, share in zip(titles, shares, strict=True))
    return Table(columns=columns, rows=tuple(rows), fit=True)


def _abreast(context: Context, system: SystemGrade) -> Iterator[tuple[Cell, ...]]:
    own = [part for part in context.assessments.components if part.system == system.id]
    cells = [
        (Cell(text=(Span(text=part.title, href=f"#{part.component.id}"),)), _grade(context, part))
        for part in own
    ]
    cells += [(cell(""), cell(""))] * (-len(cells) % ABREAST)
    for start in range(0, len(cells), ABREAST):
        yield tuple(each for pair in cells[start : start + ABREAST] for each in pair)


def _grade(context: Context, part: Graded) -> Cell:
    """The grade with its sign; a part that is not fitted has none, so it gets no sign of one that was not seen."""
    # A grade is read at a glance: its word stays on one line.
    word = context.grade_word(part).replace(" ", NO_BREAK)
    if part.component.examined.extent is Extent.NOT_FITTED:
        return cell(word)
    return graded(part.grade, word)


def _systems(context: Context, systems: list[SystemGrade]) -> Table:
    """Every system with its grade and what holds it down."""
    words = context.words
    shares = {"system": 1.6, "grade": 1.1, "weakest": 2.0}
    shares |= {"score": 1.6} if context.template.shows_score else {}
    # In a short report what is not listed stands on the first page by name.
    shares |= {} if context.brief else {"coverage": 1.6}
    rows = (
        (
            head(system.title),
            graded(system.grade, context.joint_word(system.grade, system.components)),
            cell(system.weakest or "–"),
            *((_score(context, system),) if context.template.shows_score else ()),
            *(() if context.brief else (_coverage(context, system),)),
        )
        for system in systems
    )
    return table(words, "glance", rows, **shares).model_copy(update={"fit": True})


def _coverage(context: Context, system: SystemGrade) -> Cell:
    if not system.expected:
        return cell("–")
    return cell(context.words("glance.coverage_of", listed=system.listed, expected=system.expected))


def _score(context: Context, system: SystemGrade) -> Cell:
    if system.score is not None:
        return cell(number(system.score, decimals=0), bold=True)
    if system.withheld:
        whole = any(part.unjudged for part in context.assessments.components if part.title == system.withheld)
        ident = "glance.withheld_unjudged" if whole else "glance.withheld"
        return cell(context.words(ident, what=system.withheld))
    return cell(context.words("glance.withheld_listed" if system.not_listed else "glance.not_scored"))


def _parts(context: Context, system: SystemGrade) -> Table:
    """Every part of a system with its grade and what was found."""
    rows = (
        (head(part.title, f"#{part.component.id}"), _grade(context, part), cell(finding(context, part)))
        for part in context.assessments.components
        if part.system == system.id
    )
    return table(context.words, "glance", rows, part=1.5, grade=0.8, finding=3)
