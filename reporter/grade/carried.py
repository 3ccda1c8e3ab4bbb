"""What became of each recommendation of earlier reports: open, done, declined, lapsed, or its part not seen this time.

Comes in: parts with their earlier selves. Goes out: one line per recommendation that an earlier report made. A
recommendation is the same one as long as its id (for the inspector's own, its words) and its part are the same in
each report; it keeps the number of the report that first made it.
"""

from __future__ import annotations

from collections.abc import Sequence

from reporter.grade.lineage import GradedVisit, Lineage, fitted_on
from reporter.model.assessment import Action, Graded
from reporter.model.findings import Done
from reporter.model.history import Carried
from reporter.model.saying import say
from reporter.model.terms import Extent, Grade


def carried(lineages: Sequence[Lineage], earlier: Sequence[GradedVisit]) -> tuple[Carried, ...]:
    """Every recommendation of earlier visits that was not closed before the latest of them, oldest first."""
    found = [each for lineage in lineages for each in _of_line(lineage)]
    known = {id(old) for lineage in lineages for _, old in (*lineage.same, *lineage.replaced)}
    if earlier:
        last = earlier[-1]
        gone = [old for old in last.parts if id(old) not in known]
        found += [
            _plain(old, action, [(last, old)], "not_seen")
            for old in gone
            for action in old.actions
            if action.is_open
        ]
    return tuple(sorted(found, key=lambda each: (each.since, each.first, each.component)))


def _of_line(lineage: Lineage) -> list[Carried]:
    """What the latest record of the part recommends, and those before it as long as the part was not seen since."""
    past = lineage.same or lineage.replaced
    found: dict[str, Carried] = {}
    for _, old in reversed(past):
        for action in old.actions:
            if not (action.edit and action.edit.done) and key(action) not in found:
                found[key(action)] = _lived(lineage, action, _made_in(past, action))
        if old.component.examined.extent is not Extent.NOT_SEEN:
            break
    return list(found.values())


def key(action: Action) -> str:
    """What makes two recommendations the same: the id, or the words of one that the inspector added."""
    return " ".join(action.what.lower().split()) if action.proposed_by == "inspector" else action.id


def _made_in(past: Sequence[tuple[GradedVisit, Graded]], action: Action) -> list[tuple[GradedVisit, Graded]]:
    """The unbroken row of visits, up to the latest, that made this recommendation; oldest first.

    A visit that did not see the part breaks no row.
    """
    row: list[tuple[GradedVisit, Graded]] = []
    for visit, old in reversed(past):
        if _same(old, action):
            row.append((visit, old))
        elif old.component.examined.extent is not Extent.NOT_SEEN:
            break
    return row[::-1]


def _same(part: Graded, action: Action) -> Action | None:
    return next((each for each in part.actions if key(each) == key(action)), None)


def _plain(part: Graded, action: Action, made: Sequence[tuple[GradedVisit, Graded]], state: str) -> Carried:
    visit, old = made[0]
    first = _same(old, action)
    return Carried.model_validate(
        {
            "component": part.component.id,
            "title": part.title,
            "what": action.what,
            "first": f"{visit.job.sheet.report.number}/{first.number if first else action.number}",
            "since": visit.day,
            "grade": action.grade,
            "state": state,
        }
    )


def _lived(lineage: Lineage, action: Action, made: Sequence[tuple[GradedVisit, Graded]]) -> Carried:
    """What today's record says of a recommendation: the inspector's word first, then work, then whether it stands."""
    part = lineage.part
    again = _same(part, action)
    said = next((edit for edit in part.component.actions if edit.id and edit.id == action.id), None)
    base = _plain(part, action, made, "open")
    if lineage.replaced and not lineage.same:
        fitted = fitted_on(lineage.now.job, part.component)
        return base.model_copy(
            update={
                "state": "done",
                "on": say("history.on", date=fitted) if fitted else "",
                "reason": say("history.renewed"),
            }
        )
    if again:
        base = base.model_copy(update={"number": again.number, "action": again.id})
    if said and said.done:
        return _done(base, said.done)
    if said and said.decline:
        return base.model_copy(update={"state": "declined", "reason": said.reason})
    if done := _work(lineage, action):
        return _done(base, done)
    if again:
        # A decline stands until somebody takes it back; the recommendation is told with it.
        declined = action.edit if action.edit and action.edit.decline else None
        return base.model_copy(update={"state": "declined", "reason": declined.reason}) if declined else base
    return base.model_copy(update={"state": _silent(lineage)})


def _work(lineage: Lineage, action: Action) -> Done | None:
    """Work on record that names the recommendation, or one of the checks it settles."""
    names = {action.id, *action.settles}
    return next((done for done in lineage.part.component.done if names & set(done.settles)), None)


def _silent(lineage: Lineage) -> str:
    extent, grade = lineage.part.component.examined.extent, lineage.part.grade
    if extent is Extent.NOT_SEEN or (extent is Extent.PART_SEEN and grade is Grade.UNSEEN):
        return "not_seen"
    return "lapsed"


def _done(base: Carried, done: Done) -> Carried:
    update = {
        "state": "done",
        "by": done.by,
        "on": say("history.on", date=done.date) if done.date else "",
        "proof": done.documents,
        "reason": done.what,
    }
    return base.model_copy(update=update)
