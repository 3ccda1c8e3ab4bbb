"""Who signs, in which field, and under which words; the receiving party's decision.

Comes in: the job's people and the roles that the template names. Goes out: blocks. A role that nobody under `people` has
gets no field: who is to sign is listed there.
"""

from __future__ import annotations

from reporter.model.report import Blank, Block, Paragraph, Signatures, Table, plain
from reporter.model.sheet import Person
from reporter.outline.blocks import boxes, cell, head, heading, note, table
from reporter.outline.context import Context
from reporter.wording import joined

FIELDS = {"author": "author", "skipper_out": "handed_over", "witness": "witness"}
"""The name of each role's field; every other role is a party that receives the report."""
RECEIVED = "received"


def signatures(context: Context) -> list[Block]:
    """Room for the signatures that the template asks for, and for the receiving party's decision."""
    words, people = context.words, _people(context)
    if not people:
        return []
    lines = Signatures(blocks=tuple(_blanks(context, each) for each in people), fields=_names(people))
    decides = context.template.decision
    return [
        heading(context, "signatures"),
        Paragraph(
            text=plain(words("sign.statement_handover" if decides else "sign.statement")), together=True
        ),
        # The decision stands with what is signed for, so what is said of clocks comes before both.
        note(words("sign.clock")).model_copy(update={"together": True}),
        *([_decision(context)] if decides else []),
        lines,
    ]


def _people(context: Context) -> list[Person]:
    """Those who sign, in the template's order of roles; one person signs once.

    The author of a handover is mostly one of the two skippers.
    """
    sheet = context.job.sheet
    people = [each for role in context.template.signed_by for each in sheet.people if each.role == role]
    others = {each.name for each in people if each.role != "author"}
    return [each for each in people if each.role != "author" or each.name not in others]


def _blanks(context: Context, person: Person) -> tuple[Blank, ...]:
    words = context.words
    name = joined(", ", person.name, person.capacity)
    return (
        Blank(label=_label(context, person)),
        Blank(label=words(f"role.{person.role}"), value=name),
        Blank(label=words("sign.date")),
        Blank(label=words("sign.place")),
    )


def _label(context: Context, person: Person) -> str:
    """What is signed for: a statement of one's own, or in a survey no more than having received the report."""
    field = FIELDS.get(person.role, RECEIVED)
    if field == "witness" or (field == RECEIVED and not context.template.decision):
        return context.words(f"sign.{field}")
    return context.words("sign.signature")


def _names(people: list[Person]) -> tuple[str, ...]:
    """A field's name for each of them; the second of one kind is `received_2`."""
    found: list[str] = []
    for person in people:
        name = FIELDS.get(person.role, RECEIVED)
        times = sum(each == name or each.startswith(f"{name}_") for each in found)
        found.append(f"{name}_{times + 1}" if times else name)
    return tuple(found)


def _decision(context: Context) -> Table:
    """The receiving party's word: one box to be ticked, and room for conditions."""
    words = context.words
    rows = ((head(words(f"sign.{each}")), cell(""), cell("")) for each in ("accept", "accept_if", "decline"))
    ticks = boxes(table(words, "sign", rows, decision=2, tick=0.6, conditions=3))
    return ticks.model_copy(update={"together": True})
