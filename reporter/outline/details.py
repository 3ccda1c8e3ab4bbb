"""A part's details with how each is known: the size, the material, the year, and the word or paper behind it."""

from __future__ import annotations

from reporter.model.assessment import Graded
from reporter.outline.desk import Desk
from reporter.wording import date


def details(desk: Desk, part: Graded) -> list[tuple[str, str]]:
    """Label and value of every detail that is known, in the kind's order; the value tells its basis in brackets."""
    words, rows = desk.words, []
    for field in desk.plugins[part.component.kind].details:
        fact = desk.job.facts.get(part.component.id, {}).get(field.id)
        if fact:
            shown = (
                field.choices.get(fact.choice, "")
                or date(fact.date)
                or desk.value(fact.value, field.unit, field.imperial or field.unit)
            )
            note = part.component.details[field.id].note
            basis = "; ".join(text for text in (words(f"basis.{fact.basis}"), note) if text)
            value = words("component.known_by", value=words.terms(shown) or fact.words, basis=basis)
            rows.append((words.terms(field.title), value))
    return rows


def examined(desk: Desk, part: Graded) -> str:
    """How far and by which means the part was looked at."""
    words, seen = desk.words, part.component.examined
    how = f" {words.listed([words(f'how.{each}') for each in seen.how])}" if seen.how else ""
    return words("component.examined", extent=words(f"component.extent_{seen.extent}"), how=how)
