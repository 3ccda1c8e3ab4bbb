"""Readings against their limits: the sentence, the bar, the arithmetic, the source in the margin."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.engineering import units
from reporter.model.assessment import Check, Graded, Term, Working
from reporter.model.citation import Limit
from reporter.model.report import (
    Band,
    Block,
    Cell,
    Column,
    EarlierDot,
    Heading,
    MeasureBar,
    Paragraph,
    Span,
    Table,
    Tick,
    plain,
    strong,
)
from reporter.model.terms import Dimension, Grade, LimitKind, Sense
from reporter.outline.desk import Desk
from reporter.wording.numbers import exact, number, with_unit

ROOM = 1.12
"""How far a bar runs past the furthest of limit and reading."""


def readings(desk: Desk, part: Graded) -> Iterator[Block]:
    """Every reading that was held against a limit: the worst place of each with its bar and sum, the others in words."""
    checks = [check for check in part.checks if check.limit and check.governs and check.kind is not LimitKind.AGE]
    ages = [check for check in part.checks if check.limit and check.governs and check.kind is LimitKind.AGE]
    if not checks and not ages:
        return
    yield Heading(level=3, text=desk.words("component.readings"), listed=False)
    for subject in dict.fromkeys(check.subject for check in checks):
        yield from _subject(desk, part, [check for check in checks if check.subject == subject])
    for check in ages:
        yield _said(desk, check)


def _subject(desk: Desk, part: Graded, checks: list[Check]) -> Iterator[Block]:
    worst = min(checks, key=lambda check: (-check.grade.rank, check.score if check.score is not None else 999.0))
    same = [check for check in checks if (check.at, check.side, check.state) == (worst.at, worst.side, worst.state)]
    shown = next((check for check in same if check is worst), worst)
    yield _said(desk, shown, keep=True)
    bar = _bar(desk, part, shown, [check.limit for check in same if check.limit])
    if bar:
        yield bar
    for other in [check for check in checks if check is not shown and check.limit == shown.limit]:
        yield _said(desk, other)
    for working in shown.working:
        yield from _working(desk, working)


def _said(desk: Desk, check: Check, *, keep: bool = False) -> Paragraph:
    """The check's sentence with its source beside it."""
    return Paragraph(text=plain(f"{desk.words.terms(check.said)}."), aside=_source(desk, check.limit), keep=keep)


def _source(desk: Desk, limit: Limit | None) -> tuple[Span, ...]:
    if limit is None:
        return ()
    text = desk.words("component.source_note", number=desk.source_number(limit.source))
    told = [Span(text=text, href="#sources")]
    if limit.override:
        unit = limit.unit
        told.append(
            Span(
                text=" "
                + desk.words(
                    "component.override",
                    by=limit.override.by,
                    value=with_unit(exact(limit.value), unit),
                    original=with_unit(exact(limit.override.original), unit),
                    reason=limit.override.reason,
                )
            )
        )
    return tuple(told)


def _bar(desk: Desk, part: Graded, check: Check, limits: Sequence[Limit]) -> MeasureBar | None:
    """From unworn to just past the furthest limit; None where nothing says what unworn is."""
    main = check.limit
    if main is None or check.value is None or main.unworn is None or main.sense is Sense.WINDOW:
        return None
    value = units.from_base(check.value.value, main.unit)
    spread = 0.0 if check.value.dimension is Dimension.COUNT else units.from_base(2 * check.value.u, main.unit)
    limits = [limit for limit in limits if limit.unit == main.unit]
    new, furthest = main.unworn, max((limit.value for limit in limits), key=lambda at: abs(at - main.unworn))  # type: ignore[operator]
    reach = max(abs(furthest - new), abs(value - new) + spread) * ROOM
    end = new + reach if main.sense is Sense.AT_MOST else new - reach
    words = desk.words
    ticks = tuple(
        Tick(at=limit.value, label=words("bar.limit", value=with_unit(exact(limit.value), limit.unit))) for limit in limits
    )
    low, high = with_unit(exact(new), main.unit), with_unit(exact(round(end, 1)), main.unit)
    return MeasureBar(
        low=new,
        high=end,
        value=value,
        expanded=spread,
        label=with_unit(number(value, expanded=spread), main.unit),
        bands=_bands(new, end, limits, part),
        ticks=ticks,
        earlier=_earlier(desk, part, check, main),
        alt=words("bar.alt", low=low, high=high, said=words.terms(check.said), limits="; ".join(tick.label for tick in ticks)),
    )


def _bands(new: float, end: float, limits: Sequence[Limit], part: Graded) -> tuple[Band, ...]:
    """The stretches between unworn, each limit, and the end, with the grade each stands for."""
    del part
    ordered = sorted(limits, key=lambda limit: abs(limit.value - new))
    edges = [new, *(limit.value for limit in ordered), end]
    grades = [Grade.CLEAR, *(limit.then for limit in ordered)]
    return tuple(
        Band(start=start, end=stop, grade=grade) for start, stop, grade in zip(edges, edges[1:], grades, strict=False)
    )


def _earlier(desk: Desk, part: Graded, check: Check, limit: Limit) -> tuple[EarlierDot, ...]:
    """Readings of the same place in earlier folders; derived quantities are told by the history section."""
    del desk, part, check, limit
    return ()


def _working(desk: Desk, working: Working) -> Iterator[Block]:
    """The sum: formula, what each symbol means with its number, the result with its uncertainty."""
    text = (Span(text=working.formula),)
    aside = (Span(text=desk.words("component.source_note", number=desk.source_number(working.source)), href="#sources"),)
    yield Paragraph(text=(Span(text=working.title, style="quiet"),), style="note", keep=True)
    yield Paragraph(text=text, style="formula", aside=aside, keep=True)
    rows = [_term(term) for term in working.inputs]
    rows.append(_term(working.result, bold=True))
    columns = (
        Column(title="", share=0.5),
        Column(title="", share=3),
        Column(title="", share=1.6, align="number"),
    )
    yield Table(columns=columns, rows=tuple(rows), style="working", width="column")


def _term(term: Term, *, bold: bool = False) -> tuple[Cell, ...]:
    shown = number(term.value, expanded=term.expanded, decimals=term.decimals)
    if term.expanded:
        digits = len(shown.partition(".")[2])
        shown = f"{shown} ± {number(term.expanded, decimals=digits)}"
    set_in = strong if bold else plain
    return (
        Cell(text=set_in(term.symbol), head=True),
        Cell(text=plain(term.meaning)),
        Cell(text=set_in(with_unit(shown, term.unit))),
    )
