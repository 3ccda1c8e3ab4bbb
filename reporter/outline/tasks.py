"""What to do: every action by urgency, with its number, reason, date, access and what to bring."""

from __future__ import annotations

from collections import Counter

from reporter.model.assessment import Action, Graded
from reporter.model.report import Block, Cell, Column, Heading, Paragraph, Span, Table, plain
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import cell, heading, note
from reporter.outline.context import Context
from reporter.outline.decision import nothing_to_do
from reporter.outline.plainly import ended, runs, takes
from reporter.wording import date


def write(context: Context) -> list[Block]:
    """The action list; the cautions stand before it."""
    actions = [(action, part) for part in context.assessments.components for action in part.actions]
    actions.sort(key=lambda pair: pair[0].number)
    if context.template.recommends:
        actions = [pair for pair in actions if pair[0].grade.value in {*context.template.recommends, "clear"}]
    headed = heading(context, "actions")
    if context.brief:
        headed = headed.model_copy(update={"text": context.words("head.later")})
    blocks: list[Block] = [headed, note(context.words("terms.caution_1"))]
    if not actions:
        return [*blocks, Paragraph(text=plain(nothing_to_do(context)))]
    if context.brief:
        rows = _in_short(context, actions)
        return [*blocks, *rows] if rows else []
    groups = {
        f"action.group_{grade}": [pair for pair in actions if pair[0].grade is grade and pair[0].is_open]
        for grade in URGENCY
    }
    groups["action.group_closed"] = [pair for pair in actions if not pair[0].is_open]
    for title, group in groups.items():
        if group:
            blocks += [Heading(level=3, text=context.words(title), listed=False), _table(context, group)]
    return blocks


def _table(context: Context, group: list[tuple[Action, Graded]]) -> Table:
    columns = tuple(
        Column(
            title=context.words(f"action.{title}"),
            share=share,
            align="right" if title == "number" else "left",
        )
        for title, share in (("number", 0.4), ("part", 1.5), ("what", 3.2), ("when", 1.5), ("access", 1.4))
    )
    return Table(columns=columns, rows=tuple(_row(context, action, part) for action, part in group))


def _row(context: Context, action: Action, part: Graded) -> tuple[Cell, ...]:
    words = context.words
    why = f"{words.terms(action.why)}." if action.why else ""
    what = (
        Span(text=f"{words.terms(action.what)}. ", style="strong"),
        Span(text=f"{why} {_state(context, action)}".strip(), style="quiet"),
    )
    bring = "; ".join(words.terms(text) for text in (*action.parts, *action.supplies))
    takes = (words(f"{key}.{getattr(action, key)}") for key in ("access", "effort", "remedy"))
    access = "; ".join(filter(None, (*takes, bring)))
    return (
        cell(str(action.number), bold=True),
        Cell(text=(Span(text=part.title, href=f"#{part.component.id}"),), head=True),
        Cell(text=what),
        cell(action.by_when),
        cell(access),
    )


def _state(context: Context, action: Action) -> str:
    """Declined, done, or added by the inspector: told beside the action itself."""
    words, edit = context.words, action.edit
    told = []
    if edit and edit.decline:
        told.append(words("action.declined", reason=edit.reason))
    if edit and edit.done:
        told.append(words("action.done", date=date(edit.done.date), by=edit.done.by, what=edit.done.what))
    if action.proposed_by == "inspector":
        told.append(words("action.own"))
    return " ".join(f"({text})" for text in told)


def _in_short(context: Context, actions: list[tuple[Action, Graded]]) -> list[Block]:
    """What is not told among what comes first nor among what was not seen; equal tasks share one row."""
    told = {Grade.STOP, Grade.FIRST, Grade.UNSEEN}
    groups = {f"action.group_{grade}": [pair for pair in actions if pair[0].grade is grade and pair[0].is_open]
              for grade in URGENCY if grade not in told}  # fmt: skip
    groups["action.group_closed"] = [pair for pair in actions if not pair[0].is_open]
    note_ = context.words("brief.list_note", unseen=context.words("head.not_seen"))
    blocks: list[Block] = [note(note_)] if any(groups.values()) else []
    for title, group in groups.items():
        if group:
            blocks += [
                Heading(level=3, text=context.words(title), listed=False),
                *_short_table(context, group),
            ]
    return blocks


def _short_table(context: Context, group: list[tuple[Action, Graded]]) -> list[Block]:
    """The tasks of one grade; the day that most of them share stands above, any other in the row.

    What is done or declined is due on no day.
    """
    closed = not group[0][0].is_open
    when = "" if closed else Counter(action.by_when for action, _ in group).most_common(1)[0][0]
    shares = (("number", 0.6), ("part", 1.7), ("what", 4.3), ("takes", 2.2))
    columns = tuple(Column(title=context.words(f"action.{title}"), share=share) for title, share in shares)
    same: dict[tuple[str, str], list[tuple[Action, Graded]]] = {}
    for action, part in group:
        same.setdefault((action.what, action.by_when), []).append((action, part))
    rows = tuple(_short_row(context, pairs, when) for pairs in same.values())
    lead = [] if closed else [note(context.words("brief.when", when=when))]
    return [*lead, Table(columns=columns, rows=rows)]


def _short_row(context: Context, pairs: list[tuple[Action, Graded]], when: str) -> tuple[Cell, ...]:
    """Number, part, task and what it takes; why stands with the part."""
    action = pairs[0][0]
    names: list[Span] = []
    for _, part in pairs:
        names += [Span(text=part.title, href=f"#{context.home(part)}"), Span(text="; ")]
    state = " ".join(
        filter(
            None,
            (_state(context, action), "" if action.by_when == when or not when else ended(action.by_when)),
        )
    )
    what = (
        Span(text=ended(context.words.terms(action.what))),
        Span(text=f" {state}" if state else "", style="quiet"),
    )
    return (
        cell(runs([each.number for each, _ in pairs]), bold=True),
        Cell(text=tuple(names[:-1])),
        Cell(text=tuple(span for span in what if span.text)),
        cell(takes(context, action) or "–"),
    )
