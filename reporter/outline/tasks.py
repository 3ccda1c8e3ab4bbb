"""What to do: every action by urgency, with its number, reason, date, access and what to bring."""

from __future__ import annotations

from collections.abc import Sequence

from reporter.model.assessment import Action
from reporter.model.base import grouped
from reporter.model.report import Block, Cell, Paragraph, Span, plain
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import Row, cell, head, heading, links_to, note, spanned, subhead, table
from reporter.outline.context import Context
from reporter.outline.decision import nothing_to_do
from reporter.outline.jobs import SERIOUS, ToDo, jobs, usual_day
from reporter.outline.plainly import ended, runs, takes
from reporter.wording import date, joined

ELSEWHERE = SERIOUS | {Grade.UNSEEN}
"""What a short report tells on its first page and among what was not seen."""


def write(context: Context) -> list[Block]:
    """The action list; the cautions stand before it."""
    words, found = context.words, jobs(context)
    if context.template.recommends:
        found = [job for job in found if job[1].grade.value in {*context.template.recommends, "clear"}]
    headed = heading(context, "actions")
    if context.brief:
        headed = headed.model_copy(update={"text": words("head.later")})
    blocks: list[Block] = [headed, note(words("terms.caution_1"))]
    if not found:
        return [*blocks, Paragraph(text=plain(nothing_to_do(context)))]
    told = [grade for grade in URGENCY if not (context.brief and grade in ELSEWHERE)]
    groups = {
        f"group_{grade}": [job for job in found if job[1].grade is grade and job[1].is_open] for grade in told
    }
    groups["group_closed"] = [job for job in found if not job[1].is_open]
    if context.brief:
        if not any(groups.values()):
            return []
        blocks.append(note(words("brief.list_note", unseen=words("head.not_seen"))))
    for title, group in groups.items():
        if group:
            listed = _in_short(context, group) if context.brief else [_in_full(context, group)]
            blocks += [subhead(words(f"action.{title}")), *listed]
    return blocks


def _in_full(context: Context, group: list[ToDo]) -> Block:
    """One row a job, with its reason, by when, and what it takes."""
    rows = (_row(context, job) for job in group)
    return table(
        context.words, "action", rows, "number", number=0.4, part=1.5, what=3.2, when=1.5, access=1.4
    )


def _row(context: Context, job: ToDo) -> Row:
    words, (part, action) = context.words, job
    why = f"{words.terms(action.why)}." if action.why else ""
    what = (
        Span(text=f"{words.terms(action.what)}. ", style="strong"),
        Span(text=f"{why} {_state(context, action)}".strip(), style="quiet"),
    )
    bring = "; ".join(words.terms(text) for text in (*action.parts, *action.supplies))
    needed = (words(f"{key}.{getattr(action, key)}") for key in ("access", "effort", "remedy"))
    return (
        cell(str(action.number), bold=True),
        head(part.title, f"#{part.component.id}"),
        Cell(text=what),
        cell(action.by_when),
        cell(joined("; ", *needed, bring)),
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


def _in_short(context: Context, group: list[ToDo]) -> list[Block]:
    """The tasks of one grade, equal ones in one row; the day that most of them share stands above, any other in the row."""
    when = usual_day(group)
    same = grouped(group, lambda job: (job[1].what, job[1].by_when)).values()
    rows = (_short_row(context, own, when) for own in same)
    lead = [note(context.words("brief.when", when=when))] if when else []
    return [*lead, table(context.words, "action", rows, number=0.6, part=1.7, what=4.3, takes=2.2)]


def _short_row(context: Context, own: Sequence[ToDo], when: str) -> Row:
    """Number, part, task and what it takes; why stands with the part."""
    action = own[0][1]
    other = "" if action.by_when == when or not when else ended(action.by_when)
    state = joined(" ", _state(context, action), other)
    return (
        cell(runs([each.number for _, each in own]), bold=True),
        Cell(text=links_to((part.title, f"#{context.home(part)}") for part, _ in own)),
        spanned(
            Span(text=ended(context.words.terms(action.what))),
            Span(text=f" {state}" if state else "", style="quiet"),
        ),
        cell(takes(context, action) or "–"),
    )
