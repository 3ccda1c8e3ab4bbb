"""What earlier folders tell of the boat: what changed since, reading by reading, and what became of each recommendation.

Comes in: the visit of today and earlier ones, all graded with today's limits. Goes out: History. It says what differs
from the earlier record; it never says why, since nobody was there in between.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reporter.grade.carried import carried
from reporter.grade.lineage import Line, Look, in_order, line_of
from reporter.grade.runs import runs_of
from reporter.model.assessment import Graded
from reporter.model.history import Change, Changed, History, Record, Visit
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.saying import Text, say
from reporter.model.terms import Extent, Grade

ORDER = tuple(Changed)


def look_back(now: Look, earlier: Sequence[Look], plugins: Mapping[str, Plugin]) -> History:
    """The history of every part of `now`; without earlier visits only today's readings, as runs of one."""
    earlier = in_order(earlier)
    lines = [line_of(part, now, earlier) for part in now.parts]
    runs = [run for line in lines for run in runs_of(line, plugins[line.part.component.kind])]
    return History(
        visits=tuple(_visit(look.job) for look in earlier),
        changes=_changes(lines, now, earlier) if earlier else (),
        runs=tuple(runs),
        carried=carried(lines, earlier),
        remarks=tuple(_other_boat(now.job, earlier)),
    )


def _visit(job: Job) -> Visit:
    sheet, author = job.sheet, job.sheet.person("author")
    return Visit(
        number=sheet.report.number,
        day=sheet.inspection.last_day,
        place=sheet.inspection.place,
        author=author.name if author else "",
        miles=sheet.vessel.miles,
        hours=sheet.vessel.engine_hours,
    )


def _other_boat(job: Job, earlier: Sequence[Look]) -> list[Text]:
    """A hull number that differs: the folders may be of two boats."""
    own = job.sheet.vessel.hull_number
    others = {look.job.sheet.report.number: look.job.sheet.vessel.hull_number for look in earlier}
    return [
        say("history.other_boat", number=number, theirs=theirs, ours=own)
        for number, theirs in others.items()
        if own and theirs and own.split() != theirs.split()
    ]


def _changes(lines: Sequence[Line], now: Look, earlier: Sequence[Look]) -> tuple[Change, ...]:
    """Every part of today, then those of the latest earlier visit that are not listed any more; worst news first."""
    found = [_change(line) for line in lines]
    kept = {id(old) for line in lines for _, old in (*line.same, *line.replaced)}
    last = earlier[-1]
    found += [_gone(old, last, now) for old in last.parts if id(old) not in kept and _was_there(old)]
    return tuple(sorted(found, key=lambda change: ORDER.index(change.changed)))


def _change(line: Line) -> Change:
    part, latest = line.part, line.latest
    change = Change(
        component=part.component.id,
        title=part.title,
        changed=Changed.FIRST_TIME,
        now=part.grade,
        told_now=part.sentence,
    )
    if latest is None:
        return change
    look, old = latest
    issued = look.job.issued.get(old.component.id)
    return change.model_copy(
        update={
            "changed": _kind(line, old),
            "before": old.grade,
            "issued": issued if issued is not old.grade else None,
            "was": old.component.id if old.component.id != part.component.id else "",
            "since": look.day,
            "told_before": old.sentence,
            "incidents": tuple(_incidents(line, look)),
            "records": tuple(_record(seen, each) for seen, each in (*line.replaced, *line.same)),
        }
    )


def _record(look: Look, part: Graded) -> Record:
    return Record(number=look.job.sheet.report.number, day=look.day, ident=part.component.id)


def _kind(line: Line, old: Graded) -> Changed:
    """The first of these that holds; work on record since then makes a better grade `done`."""
    extent = line.part.component.examined.extent
    if extent in {Extent.NOT_FITTED, Extent.NOT_FOUND} and _was_there(old):
        return Changed.GONE
    if extent is Extent.NOT_SEEN:
        return Changed.NOT_SEEN if _seen(old) else Changed.UNCHANGED
    if line.replaced and not line.same:
        return Changed.RENEWED
    return _by_grade(line, old) if _seen(old) else Changed.FIRST_TIME


def _by_grade(line: Line, old: Graded) -> Changed:
    """Two records of one part that was seen both times, by their grades."""
    now = line.part.grade
    if Grade.UNSEEN in {now, old.grade}:
        return _beside_unseen(line.part, old)
    if now.rank == old.grade.rank:
        return Changed.UNCHANGED
    if now.rank > old.grade.rank:
        return Changed.WORSE
    return Changed.DONE if worked_on(line) else Changed.BETTER


def _beside_unseen(part: Graded, old: Graded) -> Changed:
    """One of the two could not be graded: a bad grade next to it is still news."""
    if part.grade is old.grade:
        return Changed.UNCHANGED
    if part.grade is Grade.UNSEEN:
        return Changed.NOT_SEEN
    return Changed.WORSE if part.grade.rank > Grade.CLEAR.rank else Changed.FIRST_TIME


def worked_on(line: Line) -> bool:
    """Whether today's record tells of work that the earlier one does not."""
    before = [done for _, old in line.same for done in old.component.done]
    return any(done not in before for done in line.part.component.done)


def _seen(part: Graded) -> bool:
    return part.component.examined.extent not in {Extent.NOT_SEEN, Extent.NOT_FITTED}


def _was_there(part: Graded) -> bool:
    return part.component.examined.extent not in {Extent.NOT_FITTED, Extent.NOT_FOUND}


def _incidents(line: Line, since: Look) -> list[Text]:
    """What the log tells of the part since the earlier record, in the log's own words."""
    log = [each for each in line.now.job.sheet.incidents if each.component == line.part.component.id]
    logged = [each for each in log if each.date.middle >= since.day]
    return [say("history.incident", date=each.date, what=each.what) for each in logged]


def _gone(old: Graded, last: Look, now: Look) -> Change:
    log = [each.what for each in now.job.sheet.incidents if each.component == old.component.id]
    return Change(
        component=old.component.id,
        title=old.title,
        changed=Changed.GONE,
        before=old.grade,
        since=last.day,
        told_before=old.sentence,
        incidents=tuple(log),
    )
