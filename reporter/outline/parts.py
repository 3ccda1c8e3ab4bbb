"""Part by part: the opening line, the finding, photos, readings against limits, arithmetic, what was seen, the action."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Action, Check, Graded, PathGrade, SystemGrade
from reporter.model.report import Block, Cell, Heading, Paragraph, Span, plain
from reporter.model.terms import Extent, State, Verdict
from reporter.outline import briefly
from reporter.outline.blocks import (
    cell,
    facts,
    graded,
    head,
    labelled,
    links_to,
    note,
    sentence,
    subhead,
    table,
)
from reporter.outline.context import Context
from reporter.outline.details import details, examined, hearsay, judged, opening
from reporter.outline.measures import readings, worked_out
from reporter.outline.photos import photos
from reporter.outline.readings import side_of
from reporter.wording import date, joined
from reporter.wording.numbers import number


def write(context: Context) -> list[Block]:
    """Every part under the station of its system, in walking order; each system begins a page."""
    return [
        block
        for system in context.assessments.systems
        if system.components
        for block in _system(context, system)
    ]


def _system(context: Context, system: SystemGrade) -> Iterator[Block]:
    title = context.words("head.components", system=system.title)
    yield Heading(level=2, text=title, anchor=f"system-{system.id}", new_page=not context.brief)
    if not context.drawn_at_a_glance and not context.brief and (figure := context.drawing(system)):
        yield figure
    yield from load_paths(context, system)
    if context.brief:
        yield from briefly.parts(context, system)
        return
    titles = {each.id: each.title for each in context.systems[system.id].stations}
    station = ""
    for part in context.assessments.components:
        if part.system != system.id:
            continue
        if part.station != station:
            station = part.station
            yield subhead(titles[station])
        yield from _part(context, part)


def _part(context: Context, part: Graded) -> Iterator[Block]:
    component, words = part.component, context.words
    yield opening(context, part, words.terms(part.sentence) or words("component.clear_text"))
    if said := judged(context, part):
        yield Paragraph(text=plain(said), style="note")
    yield from labelled(words("component.found"), component.found)
    yield from hearsay(context, part)
    yield from photos(context, part)
    yield from readings(context, part)
    yield from _seen(context, part)
    yield from _work(context, part)
    yield from labelled(words("component.opinion"), component.opinion)
    yield from _actions(context, part)
    yield from _facts(context, part)
    yield from worked_out(context, part)


def _seen(context: Context, part: Graded) -> Iterator[Block]:
    """What was seen, felt and tried: question, answer, place, grade."""
    checks = [check for check in part.checks if check.limit is None and check.value is None]
    if not checks:
        return
    words = context.words
    yield subhead(words("component.seen"))
    rows = (_answer(context, check) for check in checks)
    yield table(words, "component", rows, question=1.3, answer=3.4, grade=0.7)


def _answer(context: Context, check: Check) -> tuple[Cell, ...]:
    words = context.words
    where = [
        check.at,
        side_of(check.side, words),
        words("component.as_left") if check.state is State.LEFT else "",
    ]
    said = joined(", ", words.terms(check.said), *where)
    if check.notes:
        said = f"{said} ({'; '.join(check.notes)})"
    return (head(words.terms(check.title)), cell(said), _sign(context, check))


def _sign(context: Context, check: Check) -> Cell:
    """The check's grade; what does not apply is no good news."""
    if check.verdict is Verdict.NOT_APPLICABLE:
        return cell(context.words("component.not_applicable"))
    return graded(check.grade, context.words(f"grade.{check.grade}"))


def _work(context: Context, part: Graded) -> Iterator[Block]:
    for done in part.component.done:
        told = joined(", ", date(done.date), done.by)
        yield from labelled(
            context.words("component.done"), f"{sentence(done.what)}{f' ({told})' if told else ''}"
        )


def _actions(context: Context, part: Graded) -> Iterator[Block]:
    yield from cautions(context, part)
    for action in sorted(part.actions, key=lambda each: each.number):
        yield Paragraph(text=_task(context, action), style="body")


def cautions(context: Context, part: Graded) -> Iterator[Block]:
    """The kind's own cautions, at the first part of the kind to which something is to be done."""
    kind = part.component.kind
    told = context.plugins[kind].cautions
    if told and part is context.worked_on.get(kind):
        yield note(
            f"{context.words('component.caution')}: {' '.join(context.words.terms(text) for text in told)}"
        )


def _task(context: Context, action: Action) -> tuple[Span, ...]:
    words = context.words
    lead = Span(text=f"{words('component.actions')} {action.number}: ", style="strong")
    declined = (
        f" {words('action.declined', reason=action.edit.reason)}."
        if action.edit and action.edit.decline
        else ""
    )
    what = Span(text=f"{words.terms(action.what)}, {action.by_when}.", href="#actions")
    return (lead, what, Span(text=declined)) if declined else (lead, what)


def _facts(context: Context, part: Graded) -> Iterator[Block]:
    """The part's details with their basis, how it was examined, and what was not taken."""
    words, rows = context.words, details(context, part)
    if rows:
        yield facts(rows)
    extent, told = part.component.examined.extent, [examined(context, part)]
    told += [words.terms(text) for text in part.capped if extent is not Extent.NOT_FITTED]
    if part.unmet:
        told.append(words("component.not_worked", items="; ".join(words.terms(text) for text in part.unmet)))
    optional = [words.inside(words.terms(each.title)) for each in part.missing if not each.needed]
    if optional and extent is not Extent.NOT_SEEN:
        told.append(words("unseen.optional", items=words.listed(optional)))
    yield note(" ".join(told))


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
            _carriers(context, path),
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


def _carriers(context: Context, path: PathGrade) -> Cell:
    """The parts in the order in which they carry, each a link to where it is told."""
    titles = {part.component.id: part.title for part in context.assessments.components}
    return Cell(text=links_to(((titles[ident], f"#{ident}") for ident in path.parts), between=" → "))
