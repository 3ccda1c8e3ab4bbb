"""Method and sources, limits of the report: what a doubting reader looks for."""

from __future__ import annotations

from reporter.model.citation import Limit
from reporter.model.report import Block, Cell, Column, Heading, Paragraph, Table, plain
from reporter.model.terms import Grade, Verdict
from reporter.outline import briefly, measures, tasks
from reporter.outline.blocks import body, cell, graded, head, heading, note, subhead, table
from reporter.outline.context import Context
from reporter.outline.plainly import saying
from reporter.wording import joined
from reporter.wording.numbers import exact, number, with_unit

GRADES = (Grade.CLEAR, Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP, Grade.UNSEEN)


def method(context: Context) -> list[Block]:
    """How grades come about, the sources by number, changed limits, and the yardsticks that decided nothing."""
    words = context.words
    # Which text governs, where this is not the language that it was first written in.
    governs = Paragraph(text=plain(words("method.translated")))
    translated = [] if context.job.sheet.lang == "en" else [governs]
    blocks: list[Block] = [
        heading(context, "method"),
        *translated,
        Paragraph(text=plain(words("method.grades"))),
        table(
            words,
            "component",
            [(graded(each, words(f"grade.{each}")), cell(words(f"grade_meaning.{each}"))) for each in GRADES],
            grade=1,
            meaning=4,
        ),
        Paragraph(text=plain(words("method.guard"))),
        Paragraph(text=plain(words("method.uncertainty"))),
    ]
    if context.template.shows_score:
        blocks += [
            _headed(context, "scoring"),
            Paragraph(text=plain(words("method.score", example=_example(context)))),
        ]
    return [*blocks, *_near(context), *_overrides(context), *_sources(context), *_yardsticks(context)]


def _headed(context: Context, ident: str) -> Heading:
    """The heading of a part of the annex; in a short report the table of contents does without it."""
    return heading(context, ident, level=3).model_copy(update={"listed": not context.brief})


def sums(context: Context) -> list[Block]:
    """The sums behind readings that were told in line; nothing where every part is told in full."""
    told = [
        (part, check)
        for part in context.fitted()
        for check in (briefly.told_in_line(part) if context.brief else [])
        if check.working
    ]
    if not told:
        return []
    lines = [measures.in_one_line(context, part, check) for part, check in told]
    return [heading(context, "sums"), note(context.words("brief.sums_note")), *lines]


def _example(context: Context) -> str:
    """The score of the worst part with its numbers put in; nothing when no part has one."""
    scored = [part for part in context.fitted() if part.score is not None]
    if not scored:
        return ""
    part = min(scored, key=lambda each: each.score or 0.0)
    check = min((each for each in part.checks if each.score is not None), key=lambda each: each.score or 0.0)
    said = saying(context, check).rstrip(".")
    return context.words(
        "method.score_example", part=part.title, check=said, score=number(part.score or 0.0, decimals=0)
    )


def _near(context: Context) -> list[Block]:
    """Readings near a limit, with the probability that they lie inside it: for who doubts a verdict, nowhere else."""
    near = [
        (part, check)
        for part in context.assessments.components
        for check in part.checks
        if check.governs
        and check.verdict in {Verdict.CLOSE, Verdict.DOUBTFUL}
        and check.conformity is not None
    ]
    if not near:
        return []
    words = context.words
    columns = (
        Column(title=words("glance.part"), share=1.4),
        Column(title=words("component.answer"), share=3.4),
        Column(title=words("method.conformity"), share=1, align="number"),
    )
    # One reading may be held against two limits of one figure: that is one line.
    told = dict.fromkeys(
        (
            part.title,
            words.terms(check.said),
            with_unit(number(100 * (check.conformity or 0.0), decimals=0), "%"),
        )
        for part, check in near
    )
    rows = tuple((head(title), cell(said), cell(inside)) for title, said, inside in told)
    return [_headed(context, "near"), note(words("method.near_note")), Table(columns=columns, rows=rows)]


def _overrides(context: Context) -> list[Block]:
    changed = [limit for limit in context.job.limits.values() if limit.override]
    if not changed:
        return []
    words = context.words
    rows = (
        (
            head(limit.id),
            cell(with_unit(exact(limit.override.original), limit.unit)),
            cell(with_unit(exact(limit.value), limit.unit)),
            cell(limit.override.by),
            cell(limit.override.reason),
        )
        for limit in changed
        if limit.override
    )
    return [
        _headed(context, "overrides"),
        table(words, "method", rows, limit=1, original=1, changed=1, by=1, reason=1),
    ]


def _sources(context: Context) -> list[Block]:
    words = context.words
    rows = []
    for source, place in context.cited.items():
        status = words(f"status.{source.status}")
        basis = joined(", ", words(f"limit_basis.{source.basis}"), status)
        title = ", ".join(words.cited(text) for text in (source.title, source.edition) if text)
        rows.append((head(str(place)), cell(title), cell(words.cited(source.clause)), cell(basis)))
    if not rows:
        return []
    return [
        _headed(context, "sources"),
        note(words("method.sources_note")),
        table(words, "method", rows, "source_number", source_number=0.4, source=2.2, clause=2.4, basis=1.6),
    ]


def _yardsticks(context: Context) -> list[Block]:
    """Published figures for information only: never beside a finding, where a reader could shop among them."""
    held = {check.limit.id for part in context.assessments.components for check in part.checks if check.limit}
    limits = [limit for limit in context.assessments.yardsticks if limit.id in held]
    if not limits:
        return []
    words = context.words
    if context.brief:
        return [note(words("brief.yardsticks", count=len(limits)))]
    rows = (_yardstick(context, limit) for limit in limits)
    return [
        _headed(context, "yardsticks"),
        note(words("method.yardsticks_note")),
        table(words, "method", rows, limit=1.5, figure=0.8, written_for=2.2, source=2),
    ]


def _yardstick(context: Context, limit: Limit) -> tuple[Cell, ...]:
    plugin = context.plugins[limit.id.split(".")[0]]
    name = limit.quantity
    measure = plugin.measure(name) or plugin.detail(name) or plugin.observation(name)
    title = f"{plugin.title}: {context.words.inside(measure.title)}" if measure else plugin.title
    source = ", ".join(
        context.words.cited(text) for text in (limit.source.title, limit.source.clause) if text
    )
    figure = with_unit(exact(limit.value), limit.unit)
    return (
        head(context.words.terms(title)),
        cell(figure),
        cell(context.words.terms(limit.written_for or limit.note)),
        cell(source),
    )


def terms(context: Context) -> list[Block]:
    """The limits of the report, the cautions, and the author's own terms."""
    words = context.words
    blocks: list[Block] = [heading(context, "terms")]
    blocks += [Paragraph(text=plain(words(f"terms.limits_{place}"))) for place in (1, 2, 3, 4)]
    if not context.brief or not tasks.write(context):
        # In a short report they stand once, before the list that somebody may follow.
        blocks += [subhead(words("head.cautions")), Paragraph(text=plain(words("terms.caution_1")))]
    if own := context.job.sheet.own_terms:
        blocks += [subhead(words("terms.own")), *body(own)]
    return blocks
