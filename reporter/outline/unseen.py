"""What was not seen, and what to have opened up: gaps are kept apart from what is good."""

from __future__ import annotations

from dataclasses import dataclass

from reporter.model.assessment import Graded
from reporter.model.report import Block, Cell, Column, Span, Table, strong
from reporter.model.terms import Extent, Grade, Remedy
from reporter.outline.blocks import bullets, cell, head, heading
from reporter.outline.context import Context
from reporter.outline.plainly import ended, runs


def write(context: Context) -> list[Block]:
    """The parts not or not fully seen with the reason, the visit's own exclusions, what is not listed."""
    if context.brief:
        return _in_short(context)
    words = context.words
    rows = [
        (Cell(text=(Span(text=part.title, href=f"#{part.component.id}"),), head=True), cell(words.terms(why)))
        for part in context.fitted()
        if (why := _why(context, part))
    ]
    rows += [(head(each.what), cell(each.because)) for each in context.job.sheet.not_examined]
    for system in context.assessments.systems:
        titles = [
            context.plugins[kind].title if kind in context.plugins else kind for kind in system.not_listed
        ]
        rows += [(head(title), cell(words("unseen.not_listed"))) for title in titles]
    if not rows:
        return []
    columns = (Column(title=words("unseen.what"), share=1.4), Column(title=words("unseen.why"), share=3))
    return [heading(context, "not_seen"), Table(columns=columns, rows=tuple(rows))]


def _why(context: Context, part: Graded) -> str:
    told = list(part.capped)
    optional = [context.words.inside(each.title) for each in part.missing if not each.needed]
    if optional and part.component.examined.extent is not Extent.NOT_SEEN:
        told.append(context.words("unseen.optional", items=context.words.listed(optional)))
    return " ".join(told)


def opening_up(context: Context) -> list[Block]:
    """The list for the seller: what a buyer should have opened up before deciding; told in short it stands with the gaps."""
    if context.brief:
        return []
    items = [
        (
            Span(text=f"{action.number} · {part.title}: ", style="strong"),
            Span(text=f"{context.words.terms(action.what)}."),
        )
        for part in context.assessments.components
        for action in part.actions
        if action.is_open
        and (
            action.remedy is Remedy.OPEN_UP
            or (action.grade is Grade.UNSEEN and action.remedy is not Remedy.TEST)
        )
    ]
    return [heading(context, "opening_up"), bullets(items)] if items else []


def _in_short(context: Context) -> list[Block]:
    """Every gap once, under the reason that it has, with the number and the words of what would settle it."""
    gaps = [gap for part in context.fitted() if (gap := _gap(context, part))]
    if not gaps:
        return []
    words = context.words
    shares = (("number", 0.6), ("part", 1.7), ("what", 3.0), ("settle", 2.6))
    columns = tuple(Column(title=words(f"brief.unseen_{title}"), share=share) for title, share in shares)
    rows: list[tuple[Cell, ...]] = []
    for because in dict.fromkeys(gap.because for gap in gaps):
        alike = _alike([gap for gap in gaps if gap.because == because])
        if len(alike) > 1:
            rows.append((Cell(text=strong(ended(because)), columns=len(columns)),))
        rows += [_row(context, same, "" if len(alike) > 1 else because) for same in alike]
    return [heading(context, "not_seen"), Table(columns=columns, rows=tuple(rows))]


@dataclass(frozen=True)
class _Gap:
    """What of one part was not seen: its actions, why, what, and what would settle it."""

    part: Graded
    numbers: tuple[int, ...]
    because: str
    what: str
    settle: str


def _gap(context: Context, part: Graded) -> _Gap | None:
    actions = [action for action in part.actions if action.grade is Grade.UNSEEN and action.is_open]
    if not actions and part.grade is not Grade.UNSEEN:
        return None
    words = context.words
    wanted = [words.terms(each.title) for each in part.missing if each.needed]
    all_of_it = part.component.examined.extent is Extent.NOT_SEEN
    listed = [words.terms(text) for text in part.not_included]
    what = words("brief.unseen_all") if all_of_it else "; ".join(listed or wanted)
    tasks = [ended(words.terms(action.what)) for action in actions if action.task]
    general = words("brief.unseen_open" if all_of_it else "brief.unseen_look") if listed or all_of_it else ""
    if not listed and wanted:
        general = words(
            "brief.unseen_take", items=words.listed([text[:1].lower() + text[1:] for text in wanted])
        )
    settle = " ".join(tasks) or ended(general or "; ".join(words.terms(action.what) for action in actions))
    because = part.component.examined.because or words.terms(actions[0].why if actions else part.sentence)
    return _Gap(part, tuple(action.number for action in actions), because, what, settle)


def _alike(gaps: list[_Gap]) -> list[list[_Gap]]:
    """Gaps of which the same is said, together."""
    same: dict[tuple[str, str], list[_Gap]] = {}
    for gap in gaps:
        same.setdefault((gap.what, gap.settle), []).append(gap)
    return list(same.values())


def _row(context: Context, gaps: list[_Gap], because: str) -> tuple[Cell, ...]:
    names: list[Span] = []
    for gap in gaps:
        told = gap.part.grade is not Grade.UNSEEN
        names += [
            Span(text=gap.part.title, href=f"#{context.home(gap.part)}" if told else ""),
            Span(text="; "),
        ]
    seen = " ".join(
        " ".join(gap.part.component.found.split()) for gap in gaps if gap.part.grade is Grade.UNSEEN
    ).strip()
    what = [Span(text=ended(f"{gaps[0].what}: {because}" if because else gaps[0].what))]
    if seen:
        what.append(Span(text=f" {context.words('brief.unseen_seen', text=seen)}", style="quiet"))
    return (
        cell(runs([number for gap in gaps for number in gap.numbers]) or "–", bold=True),
        Cell(text=tuple(names[:-1])),
        Cell(text=tuple(what)),
        cell(gaps[0].settle),
    )
