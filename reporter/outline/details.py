"""A part's details with how each is known: the size, the material, the year, and the word or paper behind it; and who says what."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Graded
from reporter.model.findings import Fact
from reporter.model.plugin import DetailField
from reporter.model.report import GradeLine, Paragraph
from reporter.outline.blocks import labelled, sentence
from reporter.outline.context import Context
from reporter.wording import date, joined

UNKNOWN = frozenset({"unknown", "not_known"})
"""Choices of a detail that say nothing of the part."""


def opening(context: Context, part: Graded, said: str) -> GradeLine:
    """A part's opening line; its place leads to the picture of the boat."""
    return GradeLine(
        grade=part.grade,
        word=context.grade_word(part),
        name=part.title,
        place=context.place(part),
        place_href="#boat",
        sentence=said,
        anchor=part.component.id,
    )


def details(context: Context, part: Graded) -> list[tuple[str, str]]:
    """Label and value of every detail that is known, in the kind's order; the value tells its basis in brackets.

    Who answered "not known" has told nothing.
    """
    words, rows = context.words, []
    for field in context.plugins[part.component.kind].details:
        fact = context.job.facts.get(part.component.id, {}).get(field.id)
        if fact and fact.choice not in UNKNOWN:
            note = part.component.details[field.id].note
            basis = joined("; ", words(f"basis.{fact.basis}"), note)
            value = words(
                "component.known_by", value=date(fact.date) or known(context, field, fact), basis=basis
            )
            rows.append((words.terms(field.title), value))
    return rows


def known(context: Context, field: DetailField, fact: Fact) -> str:
    """What is known of a detail: a choice, a value or a person's words."""
    value = context.value(fact.value, field.unit, field.imperial or field.unit)
    return context.words.terms(field.choices.get(fact.choice, "") or value) or fact.words


def judged(context: Context, part: Graded) -> str:
    """The inspector's own grade and reason beside that by rule; "" where the rule's stands."""
    words, judgement = context.words, part.judgement
    if judgement is None:
        return ""
    grades = {"grade": words(f"grade.{part.grade}"), "computed": words(f"grade.{part.computed}")}
    if judgement.reason == part.sentence:
        return words("component.judged_short", **grades)
    return words("component.judged", reason=sentence(judgement.reason), **grades)


def hearsay(context: Context, part: Graded) -> Iterator[Paragraph]:
    """What was told of the part, and by whom."""
    words = context.words
    for each in part.component.told:
        said = words("component.told_by", by=each.by, what=each.what)
        yield from labelled(words("component.told"), sentence(said[:1].upper() + said[1:]))


def examined(context: Context, part: Graded) -> str:
    """How far and by which means the part was looked at."""
    words, seen = context.words, part.component.examined
    how = f" {words.listed([words(f'how.{each}') for each in seen.how])}" if seen.how else ""
    return words("component.examined", extent=words(f"component.extent_{seen.extent}"), how=how)
