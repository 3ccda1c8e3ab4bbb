"""What earlier folders tell of the boat: what changed since, reading by reading, and what became of each recommendation.

Comes in: the visit of today and earlier ones, all graded with today's limits. Goes out: History. It says what differs
from the earlier record; it never says why, since nobody was there in between.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet

from reporter.grade.carried import carried
from reporter.grade.lineage import GradedVisit, Lineage, in_order, lineage_of
from reporter.grade.time_series import time_series_of
from reporter.model.assessment import Graded
from reporter.model.history import Changed, History, PartChange, Record, TimeSeries, Visit, worsened
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.saying import Text, say
from reporter.model.terms import Extent, Grade

ORDER = tuple(Changed)
_WORN = {Changed.BETTER: Changed.MIXED, Changed.UNCHANGED: Changed.WORN}
"""What a part's grade says of it, where a reading came nearer to its limit."""


def look_back(now: GradedVisit, earlier: Sequence[GradedVisit], plugins: Mapping[str, Plugin]) -> History:
    """The history of every part of `now`; without earlier visits only today's readings, as runs of one."""
    earlier = in_order(earlier)
    lineages = [lineage_of(part, now, earlier) for part in now.parts]
    runs, worn = list[TimeSeries](), set[str]()
    for lineage in lineages:
        plugin = plugins[lineage.part.component.kind]
        own = time_series_of(lineage, plugin)
        runs += own
        worn |= {run.component for run in own if worsened(run, plugin.limits)}
    return History(
        visits=tuple(_visit(visit.job) for visit in earlier),
        changes=_changes(lineages, now, earlier, worn) if earlier else (),
        runs=tuple(runs),
        carried=carried(lineages, earlier),
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


def _other_boat(job: Job, earlier: Sequence[GradedVisit]) -> list[Text]:
    """A hull number that differs, or a name where no hull numbers can be held against each other: it may be another boat."""
    own = job.sheet.vessel
    told: list[Text] = []
    for visit in earlier:
        number, theirs = visit.job.sheet.report.number, visit.job.sheet.vessel
        if not own.is_boat_of(theirs):
            by = "hull_number" if own.hull_number and theirs.hull_number else "name"
            ident = "history.other_boat" if by == "hull_number" else "history.other_name"
            told.append(say(ident, number=number, theirs=getattr(theirs, by), ours=getattr(own, by)))
    return told


def _changes(
    lineages: Sequence[Lineage], now: GradedVisit, earlier: Sequence[GradedVisit], worn: AbstractSet[str]
) -> tuple[PartChange, ...]:
    """Every part of today, then those of the latest earlier visit that are not listed any more; worst news first.

    A part whose reading came nearer to its limit (`worn`) is called neither better nor as it was.
    """
    found = [_change(lineage) for lineage in lineages]
    found = [
        each.model_copy(update={"changed": _WORN.get(each.changed, each.changed)})
        if each.component in worn
        else each
        for each in found
    ]
    kept = {id(old) for lineage in lineages for _, old in (*lineage.same, *lineage.replaced)}
    last = earlier[-1]
    found += [_gone(old, last, now) for old in last.parts if id(old) not in kept and _was_there(old)]
    return tuple(sorted(found, key=lambda change: ORDER.index(change.changed)))


def _change(lineage: Lineage) -> PartChange:
    part, latest = lineage.part, lineage.latest
    change = PartChange(
        component=part.component.id,
        title=part.title,
        changed=Changed.FIRST_TIME,
        now=part.grade,
        told_now=part.sentence,
    )
    if latest is None:
        return change
    visit, old = latest
    issued = visit.job.issued.get(old.component.id)
    return change.model_copy(
        update={
            "changed": _kind(lineage, old),
            "before": old.grade,
            "issued": issued if issued is not old.grade else None,
            "was": old.component.id if old.component.id != part.component.id else "",
            "since": visit.day,
            "told_before": old.sentence,
            "incidents": tuple(_incidents(lineage, visit)),
            "records": tuple(_record(seen, each) for seen, each in (*lineage.replaced, *lineage.same)),
        }
    )


def _record(visit: GradedVisit, part: Graded) -> Record:
    return Record(number=visit.job.sheet.report.number, day=visit.day, ident=part.component.id)


def _kind(lineage: Lineage, old: Graded) -> Changed:
    """The first of these that holds; work on record since then makes a better grade `done`."""
    extent = lineage.part.component.examined.extent
    if extent in {Extent.NOT_FITTED, Extent.NOT_FOUND} and _was_there(old):
        return Changed.GONE
    if extent is Extent.NOT_SEEN:
        return Changed.NOT_SEEN if _seen(old) else Changed.UNCHANGED
    if lineage.replaced and not lineage.same:
        return Changed.RENEWED
    return _by_grade(lineage, old) if _seen(old) else Changed.FIRST_TIME


def _by_grade(lineage: Lineage, old: Graded) -> Changed:
    """Two records of one part that was seen both times, by their grades."""
    now = lineage.part.grade
    if Grade.UNSEEN in {now, old.grade}:
        return _beside_unseen(lineage.part, old)
    if now.rank == old.grade.rank:
        return Changed.UNCHANGED
    if now.rank > old.grade.rank:
        return Changed.WORSE
    return Changed.DONE if worked_on(lineage) else Changed.BETTER


def _beside_unseen(part: Graded, old: Graded) -> Changed:
    """One of the two could not be graded: a bad grade next to it is still news."""
    if part.grade is old.grade:
        return Changed.UNCHANGED
    if part.grade is Grade.UNSEEN:
        return Changed.NOT_SEEN
    return Changed.WORSE if part.grade.rank > Grade.CLEAR.rank else Changed.FIRST_TIME


def worked_on(lineage: Lineage) -> bool:
    """Whether today's record tells of work that the earlier one does not."""
    before = [done for _, old in lineage.same for done in old.component.done]
    return any(done not in before for done in lineage.part.component.done)


def _seen(part: Graded) -> bool:
    return part.component.examined.extent not in {Extent.NOT_SEEN, Extent.NOT_FITTED}


def _was_there(part: Graded) -> bool:
    return part.component.examined.extent not in {Extent.NOT_FITTED, Extent.NOT_FOUND}


def _incidents(lineage: Lineage, since: GradedVisit) -> list[Text]:
    """What the log tells of the part since the earlier record, in the log's own words."""
    log = [each for each in lineage.now.job.sheet.incidents if each.component == lineage.part.component.id]
    logged = [each for each in log if each.date.middle >= since.day]
    return [say("history.incident", date=each.date, what=each.what) for each in logged]


def _gone(old: Graded, last: GradedVisit, now: GradedVisit) -> PartChange:
    log = [each.what for each in now.job.sheet.incidents if each.component == old.component.id]
    return PartChange(
        component=old.component.id,
        title=old.title,
        changed=Changed.GONE,
        before=old.grade,
        since=last.day,
        told_before=old.sentence,
        incidents=tuple(log),
    )
