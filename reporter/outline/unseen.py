"""What was not seen, once, with what would settle it: gaps are kept apart from what is good."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reporter.model.assessment import Action, Graded
from reporter.model.base import grouped
from reporter.model.report import Block, Cell, Item, List, Span, plain, strong
from reporter.model.terms import Extent, Grade, Remedy
from reporter.outline.blocks import cell, heading, links_to, spanned, table
from reporter.outline.context import Context
from reporter.outline.plainly import ended, runs


def opening_up(context: Context) -> list[Block]:
    """The list for the seller: what a buyer should have opened up; told where it does not stand beside the gaps."""
    if "not_seen" in context.template.sections:
        return []
    items = tuple(
        Item(
            text=(
                *strong(f"{action.number} · {part.title}: "),
                *plain(f"{context.words.terms(action.what)}."),
            )
        )
        for part in context.assessments.components
        for action in part.actions
        if action.is_open and _opens(action)
    )
    return [heading(context, "opening_up"), List(items=items)] if items else []


def _opens(action: Action) -> bool:
    """Whether it is for getting at what was not seen."""
    return action.remedy is Remedy.OPEN_UP or (
        action.grade is Grade.UNSEEN and action.remedy is not Remedy.TEST
    )


def write(context: Context) -> list[Block]:
    """Every gap once, under the reason that it has, with the number and the words of what would settle it."""
    found = gaps(context)
    if not found:
        return []
    words = context.words
    rows: list[tuple[Cell, ...]] = []
    for because, same in by_reason(found):
        if len(same) > 1:
            rows.append((Cell(text=strong(ended(because)), columns=4),))
        rows += [_row(context, each, "" if len(same) > 1 else because) for each in same]
    return [
        heading(context, "not_seen"),
        table(words, "unseen", rows, number=0.6, part=1.7, what=3.0, settle=2.6),
    ]


@dataclass(frozen=True)
class Gap:
    """What of one part was not seen: its actions, why, what, and what would settle it."""

    part: Graded
    numbers: tuple[int, ...]
    because: str
    what: str
    settle: str


def gaps(context: Context) -> list[Gap]:
    """The gaps of all parts, in walking order."""
    return [gap for part in context.fitted() if (gap := _gap(context, part))]


def _gap(context: Context, part: Graded) -> Gap | None:
    actions = [action for action in part.actions if action.grade is Grade.UNSEEN and action.is_open]
    if not actions and part.grade is not Grade.UNSEEN:
        return None
    words = context.words
    if part.failed:
        numbers = tuple(action.number for action in actions)
        return Gap(part, numbers, part.failed, words("brief.unseen_ungraded"), words("brief.unseen_mend"))
    wanted = [words.terms(each.title) for each in part.missing if each.needed and each.id != "looked"]
    all_of_it = part.component.examined.extent is Extent.NOT_SEEN
    listed = [words.terms(text) for text in part.not_included]
    if all_of_it:
        listed = [words("brief.unseen_all")]
    elif not listed and part.component.examined.extent is Extent.PART_SEEN:
        listed = [words("brief.unseen_rest")]
    what = "; ".join(listed or wanted)
    tasks = [ended(words.terms(action.what)) for action in actions if action.task]
    general = words("brief.unseen_open" if all_of_it else "brief.unseen_look") if listed else ""
    if not listed and wanted:
        general = words("brief.unseen_take", items=words.listed([words.inside(text) for text in wanted]))
    settle = " ".join(tasks) or ended(general or "; ".join(words.terms(action.what) for action in actions))
    because = part.component.examined.because or words.terms(actions[0].why if actions else part.sentence)
    if part.unjudged and wanted and not part.component.examined.because:
        because = words("brief.unseen_untold")
    return Gap(part, tuple(action.number for action in actions), because, what, settle)


def by_reason(found: Sequence[Gap]) -> Iterator[tuple[str, list[Sequence[Gap]]]]:
    """Each reason with the gaps that it has, those of which the same is said together."""
    for because, gaps in grouped(found, lambda gap: gap.because).items():
        yield because, list(grouped(gaps, lambda gap: (gap.what, gap.settle)).values())


def _row(context: Context, gaps: Sequence[Gap], because: str) -> tuple[Cell, ...]:
    dark = [gap.part for gap in gaps if gap.part.grade is Grade.UNSEEN]
    names = ((gap.part.title, "" if gap.part in dark else f"#{context.home(gap.part)}") for gap in gaps)
    seen = " ".join(" ".join(part.component.found.split()) for part in dark).strip()
    what = Span(text=ended(f"{gaps[0].what}: {because}" if because else gaps[0].what))
    besides = f" {context.words('brief.unseen_seen', text=seen)}" if seen else ""
    return (
        cell(runs([number for gap in gaps for number in gap.numbers]) or "–", bold=True),
        Cell(text=links_to(names)),
        spanned(what, Span(text=besides, style="quiet")),
        cell(gaps[0].settle),
    )
