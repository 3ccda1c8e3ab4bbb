"""Readings against their limits: the sentence, the bar, the arithmetic, the source in the margin."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from reporter.engineering import units
from reporter.model.assessment import Check, Graded, Term, Working
from reporter.model.base import grouped
from reporter.model.citation import Citation, Limit
from reporter.model.evidence import MeasurementPoint
from reporter.model.measure_bar import Band, EarlierDot, MeasureBar, Tick
from reporter.model.report import Block, Cell, Column, Paragraph, Span, Table, maths, plain, strong
from reporter.model.terms import Dimension, Grade, LimitKind, Sense, State, Verdict
from reporter.outline.blocks import cell, head, subhead, table
from reporter.outline.context import Context
from reporter.outline.plainly import saying
from reporter.outline.readings import side_of
from reporter.wording import date
from reporter.wording import quantity as quantity_text
from reporter.wording.numbers import as_written, exact, number, with_spread, with_unit

_UNBRACKETED_COMMA = re.compile(r",(?![^(]*\))")
ROOM = 1.12
"""How far a bar runs past the furthest of limit and reading."""


def readings(context: Context, part: Graded) -> Iterator[Block]:
    """Every reading that was held against a limit: the worst place of each with its bar and sum, the others in words."""
    subjects, ages = _by_subject(part), ages_of(part)
    if not subjects and not ages:
        return
    yield subhead(context.words("component.readings"))
    for checks in subjects:
        yield from _subject(context, part, checks)
    yield from (_said(context, check) for check in _oldest(ages))


def _by_subject(part: Graded) -> list[Sequence[Check]]:
    """What was held against a limit of condition, together what is of one subject; ages are told apart."""
    held = [each for each in part.checks if each.limit and each.governs and each.kind is not LimitKind.AGE]
    return list(grouped(held, lambda check: check.subject).values())


def ages_of(part: Graded) -> list[Check]:
    """The ages that were held against a limit."""
    return [each for each in part.checks if each.limit and each.governs and each.kind is LimitKind.AGE]


def worst_of_each(part: Graded) -> list[Check]:
    """Of every subject that was held against a limit of condition the check that says most; ages are told apart."""
    return [_worst(checks) for checks in _by_subject(part)]


def deciding(context: Context, part: Graded, grades: frozenset[Grade]) -> Iterator[Block]:
    """The readings that led to one of these grades, each with its bar and its sum."""
    for checks in _by_subject(part):
        if _worst(checks).grade in grades:
            yield from _subject(context, part, checks, others=False)


def in_one_line(context: Context, part: Graded, check: Check) -> Paragraph:
    """The sum behind one reading, led by the part and the quantity."""
    title = context.words.inside(context.words.terms(check.title))
    said = _in_short(context, check.working)
    lead = Span(text=f"{part.title}, {title}: ", style="strong")
    return said.model_copy(update={"text": (lead, *said.text)})


def worked_out(context: Context, part: Graded) -> Iterator[Block]:
    """Values that no limit speaks of, with their sums; and every reading as it was written down."""
    words = context.words
    for_information = [check for check in part.checks if check.limit is None and check.value is not None]
    if for_information:
        yield subhead(words("component.worked"))
    for check in for_information:
        notes = f" ({'; '.join(check.notes)})" if check.notes else ""
        yield Paragraph(
            text=plain(f"{words.terms(check.said)}{words.terms(notes)}."), keep=bool(check.working)
        )
        if check.working:
            yield _in_short(context, check.working)
    if part.spots:
        yield subhead(words("component.as_written"))
        yield _readings_table(context, part)


def _in_short(context: Context, workings: Sequence[Working]) -> Paragraph:
    """The sums of a value that decides nothing, each in one line: formula, then its symbols with their numbers."""
    text: list[Span] = []
    for working in workings:
        text += [*maths(working.formula), Span(text=", ")]
        for place, term in enumerate(working.inputs):
            text += [*maths(term.symbol), Span(text=f" = {figures_of(term)} ({term.meaning})")]
            text.append(Span(text="; " if place < len(working.inputs) - 1 else ". "))
    return Paragraph(text=tuple(text), style="small", aside=(_pointer(context, workings[-1].source),))


def _pointer(context: Context, source: Citation) -> Span:
    """The number of a source, for the margin."""
    text = context.words("component.source_note", number=context.source_number(source))
    return Span(text=text, href="#sources")


def _readings_table(context: Context, part: Graded) -> Table:
    """Every reading with its place, as written, and its expanded uncertainty."""
    words, plugin = context.words, context.plugins[part.component.kind]
    rows = []
    for spot in part.spots:
        quantity = plugin.quantity(spot.quantity)
        if quantity is None:
            continue
        where = [
            spot.at,
            side_of(spot.side, words),
            words("component.as_left") if spot.state is State.LEFT else "",
        ]
        written = [as_written(text, spot.value.unit) for text in spot.written] or [str(spot.value.value)]
        unit = (quantity.imperial if context.imperial else "") or quantity.unit
        converted = f" ({quantity_text(spot.value.value, unit)})" if unit != spot.value.unit else ""
        counted = spot.value.dimension is Dimension.COUNT or not spot.value.u
        expanded = units.from_base(2 * spot.value.u, unit)
        spread = "–" if counted else with_unit(number(expanded, expanded=expanded), unit)
        rows.append(
            (
                head(words.terms(quantity.title)),
                cell(", ".join(filter(None, where)) or "–"),
                cell("; ".join(written) + converted),
                cell(spread),
                cell(_with_what(context, spot, words.terms(quantity.method))),
            )
        )
    shares = {"quantity": 1.6, "where": 1.6, "value": 1.5, "uncertainty": 0.9, "method": 1.8}
    return table(words, "component", rows, **shares)


def gist(method: str) -> str:
    """A method up to its first comma outside brackets."""
    return _UNBRACKETED_COMMA.split(method, maxsplit=1)[0]


def _with_what(context: Context, spot: MeasurementPoint, method: str) -> str:
    """The instrument where one is named, else the gist of the method."""
    named = {each.id: each.kind for each in context.job.sheet.instruments}
    return named.get(spot.instrument, "") or gist(method)


def _oldest(ages: list[Check]) -> list[Check]:
    """Of one source's ages the one that says most: the worst, and of equals the highest."""
    said: dict[str, Check] = {}
    for check in sorted(
        ages, key=lambda check: (check.grade.rank, check.limit.value if check.limit else 0.0)
    ):
        said[check.limit.source.title if check.limit else check.id] = check
    return list(said.values())


def _worst(checks: Sequence[Check]) -> Check:
    return min(
        checks, key=lambda check: (-check.grade.rank, check.score if check.score is not None else 999.0)
    )


def _subject(
    context: Context, part: Graded, checks: Sequence[Check], *, others: bool = True
) -> Iterator[Block]:
    shown = _worst(checks)
    told = _said(context, shown, keep=True)
    yield told if others else told.model_copy(update={"text": plain(saying(context, shown))})
    if drawn := bar(context, part, shown):
        yield drawn
    same_limit = [check for check in checks if check is not shown and check.limit == shown.limit]
    for other in same_limit if others else []:
        yield _said(context, other)
    for working in shown.working:
        yield from _working(context, working)
    if any(spot.uneven and spot.at == shown.at and spot.side == shown.side for spot in part.spots):
        yield Paragraph(text=plain(context.words("component.uneven")), style="note")


def _said(context: Context, check: Check, *, keep: bool = False) -> Paragraph:
    """The check's sentence with its source beside it."""
    return Paragraph(
        text=plain(f"{context.words.terms(check.said)}."), aside=_source(context, check.limit), keep=keep
    )


def _source(context: Context, limit: Limit | None) -> tuple[Span, ...]:
    if limit is None:
        return ()
    told = (_pointer(context, limit.source),)
    if limit.override is None:
        return told
    changed = context.words(
        "component.override",
        by=limit.override.by,
        value=with_unit(exact(limit.value), limit.unit),
        original=with_unit(exact(limit.override.original), limit.unit),
        reason=limit.override.reason,
    )
    return (*told, Span(text=f" {changed}"))


def _bar(context: Context, part: Graded, check: Check, limits: Sequence[Limit]) -> MeasureBar | None:
    """From unworn to just past the furthest limit; None where nothing says what unworn is."""
    main = check.limit
    if main is None or check.value is None or main.unworn is None or main.sense is Sense.WINDOW:
        return None
    if check.verdict is Verdict.UNSEEN:
        return None
    value = units.from_base(check.value.value, main.unit)
    spread = (
        0.0 if check.value.dimension is Dimension.COUNT else units.from_base(2 * check.value.u, main.unit)
    )
    limits = [limit for limit in limits if limit.unit == main.unit]
    new, furthest = main.unworn, max((limit.value for limit in limits), key=lambda at: abs(at - main.unworn))  # type: ignore[operator]
    reach = float(f"{max(abs(furthest - new), abs(value - new) + spread) * ROOM:.2g}")
    end = new + reach if main.sense is Sense.AT_MOST else new - reach
    # A part still larger than its nominal size stands left of unworn: the bar begins there.
    begin = min(new, value - spread) if main.sense is Sense.AT_MOST else max(new, value + spread)
    words = context.words
    ticks = tuple(
        Tick(at=limit.value, label=words("bar.limit", value=with_unit(exact(limit.value), limit.unit)))
        for limit in limits
    )
    low, high = with_unit(exact(new), main.unit), with_unit(exact(round(end, 1)), main.unit)
    return MeasureBar(
        low=begin,
        high=end,
        value=value,
        expanded=spread,
        label=with_unit(number(value, expanded=spread), main.unit),
        bands=_bands(context, begin, end, limits),
        low_label=_end(begin, main.unit),
        high_label=_end(end, main.unit),
        ticks=ticks,
        earlier=_earlier(context, part, check, main),
        alt=words(
            "bar.alt",
            low=low,
            high=high,
            said=words.terms(check.said),
            limits="; ".join(tick.label for tick in ticks),
        ),
    )


def bar(context: Context, part: Graded, check: Check) -> MeasureBar | None:
    """The bar of one check, with all limits on that reading at that place; None where nothing says what unworn is."""
    place = (check.subject, check.at, check.side, check.state)
    limits = {
        each.limit.id: each.limit
        for each in part.checks
        if each.limit and each.governs and (each.subject, each.at, each.side, each.state) == place
    }
    return _bar(context, part, check, list(limits.values()))


def sum_in_lines(working: Working) -> list[str]:
    """A sum as plain lines: its formula, every symbol with its number, the result."""
    terms = [f"{term.symbol} = {figures_of(term)} ({term.meaning})" for term in working.inputs]
    result = f"{working.result.symbol} = {figures_of(working.result)}"
    return [f"{working.title}: {working.formula}", *terms, result]


def _bands(context: Context, new: float, end: float, limits: Sequence[Limit]) -> tuple[Band, ...]:
    """The stretches between unworn, each limit, and the end, with the grade each stands for."""
    ordered = sorted(limits, key=lambda limit: abs(limit.value - new))
    edges = [new, *(limit.value for limit in ordered), end]
    grades = [Grade.CLEAR, *(limit.then for limit in ordered)]
    return tuple(
        Band(start=start, end=stop, grade=grade, word=context.words(f"grade.{grade}"))
        for start, stop, grade in zip(edges, edges[1:], grades, strict=False)
    )


def _end(value: float, unit: str) -> str:
    """What a bar's end stands for, to three figures."""
    return with_unit(exact(float(f"{value:.3g}")), unit)


def _earlier(context: Context, part: Graded, check: Check, limit: Limit) -> tuple[EarlierDot, ...]:
    """Readings of the same quantity at the same place in earlier folders, in the bar's unit."""
    place = " ".join(check.at.lower().split())
    return tuple(
        EarlierDot(value=units.from_base(point.value.value, limit.unit), label=date(point.day))
        for run in context.assessments.history.runs_of(part.component.id)
        if (run.subject, run.side) == (check.subject, check.side)
        and " ".join(run.at.lower().split()) == place
        for point in run.points[:-1]
    )


def _working(context: Context, working: Working) -> Iterator[Block]:
    """The sum: formula, what each symbol means with its number, the result with its uncertainty."""
    aside = (_pointer(context, working.source),)
    yield Paragraph(text=(Span(text=working.title, style="quiet"),), style="note", keep=True)
    yield Paragraph(text=maths(working.formula), style="formula", aside=aside, keep=True)
    rows = (*(_term(term) for term in working.inputs), _term(working.result, bold=True))
    columns = (
        *(Column(title="", share=share) for share in (0.6, 3)),
        Column(title="", share=1.6, align="number"),
    )
    yield Table(columns=columns, rows=rows, style="working", width="column")


def figures_of(term: Term) -> str:
    """The number put in, with its expanded uncertainty and unit: printed so that the sum can be reckoned again."""
    return with_unit(with_spread(term.value, term.expanded, decimals=term.decimals), term.unit)


def _term(term: Term, *, bold: bool = False) -> tuple[Cell, ...]:
    set_in = strong if bold else plain
    return (
        Cell(text=maths(term.symbol, bold=bold), head=True),
        Cell(text=plain(term.meaning)),
        Cell(text=set_in(figures_of(term))),
    )
