"""The state of an earlier recommendation in words: open under which number, done by whom and when, declined and why.

Comes in: one recommendation carried over. Goes out: text, and the table of all of them.
"""

from __future__ import annotations

from reporter.model.history import Carried
from reporter.model.report import Block
from reporter.outline.blocks import cell, head, subhead, table
from reporter.outline.context import Context
from reporter.wording import date, joined


def state_of(context: Context, each: Carried) -> str:
    """The state with who, when, proof or reason, as far as they are known."""
    words = context.words
    if each.state == "done":
        told = joined(", ", each.on, each.by, each.reason, *each.proof)
        return words("history.done_told", told=told).strip()
    if each.state == "declined":
        return words("history.declined", reason=each.reason)
    said = words("history.open" if each.state == "open" else f"history.{each.state}")
    return f"{said}, {words('history.number_now', number=each.number)}" if each.number else said


def carried_over(context: Context) -> list[Block]:
    """The table of earlier recommendations of the grades that the template recommends; nothing without any."""
    wanted = {*context.template.recommends}
    found = [each for each in context.assessments.history.carried if each.grade.value in wanted]
    found.sort(key=lambda each: (each.since, len(each.first), each.first))  # 2 stands before 10
    if not found:
        return []
    words = context.words
    one_visit = len(context.assessments.history.visits) == 1  # whose day is told with what changed
    rows = (
        (
            head(
                each.first if one_visit else words("history.visit", number=each.first, date=date(each.since))
            ),
            cell(each.title),
            cell(words.terms(each.what)),
            cell(state_of(context, each)),
        )
        for each in found
    )
    return [
        subhead(words("history.recommendations")),
        table(words, "history", rows, first_made=1.3, part=1.4, what=2.6, state=2.2),
    ]
