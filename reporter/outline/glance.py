"""Systems at a glance: grade, weakest link, coverage, the drawing, and every part in walking order."""

from __future__ import annotations

from reporter.model.assessment import SystemGrade
from reporter.model.report import Block, Cell, Column, Figure, Heading, Span, Table, plain
from reporter.outline.blocks import cell, graded, head, heading, note
from reporter.outline.desk import Desk
from reporter.wording.numbers import number


def write(desk: Desk) -> list[Block]:
    """One row per system, its drawing, then one row per part."""
    systems = [system for system in desk.assessments.systems if system.components or system.expected]
    blocks: list[Block] = [heading(desk, "at_a_glance", new_page=True), _systems(desk, systems)]
    if desk.template.shows_score:
        blocks.append(note(desk.words("glance.score_note", section=desk.words("head.scoring"))))
    for system in systems:
        drawing = desk.systems[system.id].draw(desk.job, desk.assessments)
        if drawing is not None:
            blocks.append(Figure(drawing=drawing, caption=plain(system.title)))
        if system.components:
            title = desk.words("glance.stations", title=system.title)
            blocks += [Heading(level=3, text=title, listed=False), _parts(desk, system)]
    return blocks


def _systems(desk: Desk, systems: list[SystemGrade]) -> Table:
    words = desk.words
    titles = ["system", "grade", *(["score"] if desk.template.shows_score else []), "weakest", "coverage"]
    shares = {"system": 1.6, "grade": 1.1, "score": 1.6, "weakest": 2.0, "coverage": 1.6}
    columns = tuple(Column(title=words(f"glance.{title}"), share=shares[title]) for title in titles)
    rows = tuple(
        (
            head(system.title),
            graded(system.grade, words(f"grade.{system.grade}")),
            *((_score(desk, system),) if desk.template.shows_score else ()),
            cell(system.weakest or "–"),
            cell(words("glance.coverage_of", listed=system.listed, expected=system.expected)),
        )
        for system in systems
    )
    return Table(columns=columns, rows=rows)


def _score(desk: Desk, system: SystemGrade) -> Cell:
    if system.score is not None:
        return cell(number(system.score, decimals=0), bold=True)
    if system.withheld:
        return cell(desk.words("glance.withheld", what=system.withheld))
    return cell(desk.words("glance.withheld_listed" if system.not_listed else "glance.not_scored"))


def _parts(desk: Desk, system: SystemGrade) -> Table:
    columns = (
        Column(title=desk.words("glance.part"), share=1.5),
        Column(title=desk.words("glance.grade"), share=0.8),
        Column(title=desk.words("glance.finding"), share=3),
    )
    rows = []
    for part in desk.assessments.components:
        if part.system == system.id:
            link = (Span(text=part.title, href=f"#{part.component.id}"),)
            rows.append(
                (
                    Cell(text=link, head=True),
                    graded(part.grade, desk.grade_word(part)),
                    cell(desk.words.terms(part.sentence) or desk.words("component.clear_text")),
                )
            )
    return Table(columns=columns, rows=tuple(rows))
