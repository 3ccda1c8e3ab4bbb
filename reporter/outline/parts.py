"""Part by part: the opening line, the finding, photos, readings against limits, arithmetic, what was seen, the action."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Action, Check, Graded, SystemGrade
from reporter.model.job import Judgement
from reporter.model.report import Block, Cell, Column, GradeLine, Heading, Paragraph, Span, Table, plain
from reporter.model.terms import Extent, State, Verdict
from reporter.outline import briefly
from reporter.outline.blocks import cell, facts, graded, labelled, note, sentence
from reporter.outline.desk import Desk
from reporter.outline.details import details, examined
from reporter.outline.load_paths import load_paths
from reporter.outline.measures import readings, worked_out
from reporter.outline.photos import photos
from reporter.wording import date


def write(desk: Desk) -> list[Block]:
    """Every part under the station of its system, in walking order; each system begins a page."""
    return [
        block for system in desk.assessments.systems if system.components for block in _system(desk, system)
    ]


def _system(desk: Desk, system: SystemGrade) -> Iterator[Block]:
    title = desk.words("head.components", system=system.title)
    yield Heading(level=2, text=title, anchor=f"system-{system.id}", new_page=not desk.brief)
    if not desk.drawn_at_a_glance and not desk.brief and (figure := desk.drawing(system)):
        yield figure
    yield from load_paths(desk, system)
    if desk.brief:
        yield from briefly.parts(desk, system)
        return
    titles = {each.id: each.title for each in desk.systems[system.id].stations}
    station = ""
    for part in desk.assessments.components:
        if part.system != system.id:
            continue
        if part.station != station:
            station = part.station
            yield Heading(level=3, text=titles[station], listed=False)
        yield from _part(desk, part)


def _part(desk: Desk, part: Graded) -> Iterator[Block]:
    component, words = part.component, desk.words
    yield GradeLine(
        grade=part.grade,
        word=desk.grade_word(part),
        name=part.title,
        place=desk.place(part),
        sentence=words.terms(part.sentence) or words("component.clear_text"),
        anchor=component.id,
    )
    if part.judgement:
        yield Paragraph(text=plain(_judged(desk, part, part.judgement)), style="note")
    yield from labelled(words("component.found"), component.found)
    for told in component.told:
        said = words("component.told_by", by=told.by, what=told.what)
        yield from labelled(words("component.told"), sentence(said[:1].upper() + said[1:]))
    yield from photos(desk, part)
    yield from readings(desk, part)
    yield from _seen(desk, part)
    yield from _work(desk, part)
    yield from labelled(words("component.opinion"), component.opinion)
    yield from _actions(desk, part)
    yield from _facts(desk, part)
    yield from worked_out(desk, part)


def _judged(desk: Desk, part: Graded, judgement: Judgement) -> str:
    """The inspector's grade and reason beside the grade by rule."""
    words = desk.words
    grades = {"grade": words(f"grade.{part.grade}"), "computed": words(f"grade.{part.computed}")}
    if judgement.reason == part.sentence:
        return words("component.judged_short", **grades)
    return words("component.judged", reason=sentence(judgement.reason), **grades)


def _seen(desk: Desk, part: Graded) -> Iterator[Block]:
    """What was seen, felt and tried: question, answer, place, grade."""
    checks = [check for check in part.checks if check.limit is None and check.value is None]
    if not checks:
        return
    words = desk.words
    columns = tuple(
        Column(title=words(f"component.{title}"), share=share)
        for title, share in (("question", 1.3), ("answer", 3.4), ("grade", 0.7))
    )
    yield Heading(level=3, text=words("component.seen"), listed=False)
    yield Table(columns=columns, rows=tuple(_answer(desk, check) for check in checks))


def _answer(desk: Desk, check: Check) -> tuple[Cell, ...]:
    words = desk.words
    where = [check.at, check.side, words("component.as_left") if check.state is State.LEFT else ""]
    said = ", ".join(text for text in (words.terms(check.said), *where) if text)
    if check.notes:
        said = f"{said} ({'; '.join(check.notes)})"
    return (
        Cell(text=plain(words.terms(check.title)), head=True),
        cell(said),
        _sign(desk, check),
    )


def _sign(desk: Desk, check: Check) -> Cell:
    """The check's grade; what does not apply is no good news."""
    if check.verdict is Verdict.NOT_APPLICABLE:
        return cell(desk.words("component.not_applicable"))
    return graded(check.grade, desk.words(f"grade.{check.grade}"))


def _work(desk: Desk, part: Graded) -> Iterator[Block]:
    for done in part.component.done:
        told = ", ".join(text for text in (date(done.date), done.by) if text)
        yield from labelled(
            desk.words("component.done"), f"{sentence(done.what)}{f' ({told})' if told else ''}"
        )


def _actions(desk: Desk, part: Graded) -> Iterator[Block]:
    yield from cautions(desk, part)
    for action in sorted(part.actions, key=lambda each: each.number):
        yield Paragraph(text=_task(desk, action), style="body")


def cautions(desk: Desk, part: Graded) -> Iterator[Block]:
    """The kind's own cautions, at the first part of the kind to which something is to be done."""
    kind = part.component.kind
    told = desk.plugins[kind].cautions
    worked_on = [each for each in desk.assessments.components if each.component.kind == kind and each.actions]
    if told and worked_on and part is worked_on[0]:
        yield note(f"{desk.words('component.caution')}: {' '.join(desk.words.terms(text) for text in told)}")


def _task(desk: Desk, action: Action) -> tuple[Span, ...]:
    words = desk.words
    lead = Span(text=f"{words('component.actions')} {action.number}: ", style="strong")
    declined = (
        f" {words('action.declined', reason=action.edit.reason)}."
        if action.edit and action.edit.decline
        else ""
    )
    what = Span(text=f"{words.terms(action.what)}, {action.by_when}.", href="#actions")
    return (lead, what, Span(text=declined)) if declined else (lead, what)


def _facts(desk: Desk, part: Graded) -> Iterator[Block]:
    """The part's details with their basis, how it was examined, and what was not taken."""
    words, rows = desk.words, details(desk, part)
    if rows:
        yield facts(rows)
    extent, told = part.component.examined.extent, [examined(desk, part)]
    told += [words.terms(text) for text in part.capped if extent is not Extent.NOT_FITTED]
    if part.unmet:
        told.append(words("component.not_worked", items="; ".join(words.terms(text) for text in part.unmet)))
    optional = [words.inside(words.terms(each.title)) for each in part.missing if not each.needed]
    if optional and extent is not Extent.NOT_SEEN:
        told.append(words("unseen.optional", items=words.listed(optional)))
    yield note(" ".join(told))
