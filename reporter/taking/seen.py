"""Boxes that were ticked: how much was seen, what was gone through, what was observed, what was proved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reporter.asking.naming import WHERE
from reporter.model.form import Filled, Option
from reporter.taking.answers import one_of
from reporter.taking.entries import Entries, Steps

ALL = "all"


def take_examined(entries: Entries) -> None:
    """How much of the part was seen; which ways of looking and which items were ticked beside those the folder has."""
    boxes = entries.under("examined", "extent")
    changed = [each for each in boxes.values() if each.changed]
    ticked = [steps[0] for steps, each in boxes.items() if each.value]
    if changed and len(ticked) > 1:
        for each in changed:
            entries.taken.refuse(each, "take.two_boxes", "take.one_box")
    elif changed:
        _one(entries, ticked[0] if ticked else "", changed[-1])
    for name in ("how", "included"):
        _several(entries, ("examined", name))


def take_proved(entries: Entries) -> None:
    """What was proved after work."""
    _several(entries, ("proved",))


def _one(entries: Entries, wanted: str, field: Filled) -> None:
    """The extent that is ticked now. What was not seen needs its reason beside it."""
    part, taken = entries.part, entries.taken
    there = part.extent
    if wanted == there:
        return
    because = entries.fields.get(("examined", "because"))
    reason = part.get("examined", "because") or (because.value if because else "")
    if wanted == "not_seen" and not reason:
        taken.refuse(field, "take.no_reason", "take.give_reason")
        return
    if taken.settles(field, there, wanted):
        part.put(wanted or None, "examined", "extent")


def _several(entries: Entries, path: tuple[str, ...]) -> None:
    """Ticks that are new are added to the folder's list; those taken away go only where replacing is asked for."""
    part, taken = entries.part, entries.taken
    boxes = {steps[0]: each for steps, each in entries.under(*path).items() if steps}
    there: list[str] = list(part.get(*path) or [])
    now = list(there)
    for ident, field in boxes.items():
        has = ident in there or ALL in there
        if not field.changed or bool(field.value) == has:
            continue
        if field.value:
            now.append(ident)
            taken.added(field, ident)
        elif taken.may_replace(field, ident, ""):
            now = [each for each in (list(boxes) if ALL in now else now) if each != ident]
    if now != there:
        part.put(now or None, *path)


def take_observed(entries: Entries) -> None:
    """Every row of every observation: the boxes ticked at one place."""
    for ident in entries.tables("observed"):
        fields = entries.under("observed", ident)
        question = entries.question("observed", ident)
        if question is None:
            entries.gone(fields)
            continue
        for step in dict.fromkeys(steps[0] for steps in fields):
            own = {steps[1:]: each for steps, each in fields.items() if steps[0] == step}
            if changed := [each for each in own.values() if each.changed]:
                with entries.taken.told(own.get((), changed[-1])):
                    _take_row(entries, ident, _read_row(own, question.choices))


@dataclass(frozen=True)
class _Row:
    """The answers of one row and their place, now and as printed; `fields` are what each answer is told by."""

    now: list[str]
    before: list[str]
    at: str
    was_at: str
    fields: dict[str, Filled]
    last: Filled


def _read_row(own: dict[Steps, Filled], choices: Sequence[Option]) -> _Row:
    """Boxes that are ticked, or the one answer that is written. UnreadableError where that is none."""
    where, written = own.get((WHERE,)), own.get(())
    at, was_at = (where.value, where.printed) if where else ("", "")
    last = [each for each in own.values() if each.changed][-1]
    if written is not None:
        now = [one_of(written.value, choices)] if written.value else []
        before = [one_of(written.printed, choices)] if written.printed else []
        return _Row(now, before, at, was_at, dict.fromkeys(now, written), last)
    known = {each.id for each in choices}
    boxes = {steps[0]: each for steps, each in own.items() if steps != (WHERE,) and steps[0] in known}
    now = [choice for choice, each in boxes.items() if each.value]
    before = [choice for choice, each in boxes.items() if each.printed]
    return _Row(now, before, at, was_at, boxes, last)


def _take_row(entries: Entries, ident: str, row: _Row) -> None:
    """One row: what it says now against what the folder says, of the same place and as found."""
    taken = entries.taken
    if row.at and not row.now:
        taken.refuse(row.last, "take.place_alone", "take.tick_too")
        return
    answers = _answers(entries.part.get("observed", ident))
    stale = [each for each in answers if _is(each, row.before, row.was_at) and not _is(each, row.now, row.at)]
    other = [
        each for each in answers if _found(each) and _at(each) == row.at and not _is(each, row.now, row.at)
    ]
    against = stale or (other if not row.before else [])
    if against:
        told = ", ".join(_told(each) for each in against)
        sheet = ", ".join(_told(_answer(choice, row.at)) for choice in row.now)
        if not taken.may_replace(row.last, told, sheet):
            return
        answers = [each for each in answers if each not in against]
    for choice in row.now:
        if not any(_is(each, [choice], row.at) for each in answers):
            answers.append(_answer(choice, row.at))
            if not against:
                taken.added(row.fields[choice], _told(answers[-1]))
    _put(entries, ident, answers)


def _answer(choice: str, at: str) -> dict[str, Any]:
    return {"choice": choice, "at": at} if at else {"choice": choice}


def _put(entries: Entries, ident: str, answers: list[dict[str, Any]]) -> None:
    """As short as a person would write it: one answer stands alone, a bare choice without its key."""
    short = [each["choice"] if set(each) == {"choice"} else each for each in answers]
    old = entries.part.get("observed", ident)
    if _answers(old) != answers:
        entries.part.put(None if not short else short[0] if len(short) == 1 else short, "observed", ident)


def _answers(there: Any) -> list[dict[str, Any]]:
    several = there if isinstance(there, list) else [] if there is None else [there]
    return [dict(each) if isinstance(each, dict) else {"choice": str(each)} for each in several]


def _found(answer: dict[str, Any]) -> bool:
    return str(answer.get("state") or "found") == "found"


def _at(answer: dict[str, Any]) -> str:
    return str(answer.get("at") or "")


def _is(answer: dict[str, Any], choices: Sequence[str], at: str) -> bool:
    return _found(answer) and _at(answer) == at and answer.get("choice") in choices


def _told(answer: dict[str, Any]) -> str:
    return " ".join(filter(None, (str(answer.get("choice")), f"({_at(answer)})" if _at(answer) else "")))
