"""The first page: title, vessel, reader, date, the decision, and all that comes first. And the contents."""

from __future__ import annotations

from collections.abc import Callable

from reporter.model.assessment import Graded
from reporter.model.report import Block, Contents, Heading, Paragraph, Span, plain, strong
from reporter.model.sheet import Person
from reporter.model.terms import Extent, Grade
from reporter.outline.blocks import facts, heading, note
from reporter.outline.context import Context
from reporter.outline.decision import answer, comes_first, size_of_job
from reporter.outline.jobs import urgent
from reporter.outline.plainly import ended
from reporter.outline.unseen import gaps
from reporter.wording import date, joined
from reporter.wording.numbers import with_unit

FEW = 3
"""Up to so many parts no table of contents is printed."""
LONG = 7
"""From more urgent jobs on, the decision takes the first page for itself."""
SOME = 4
"""How many names of parts one line gives."""
DAYS = 365.2425
"""Days of a mean calendar year."""


def write(context: Context) -> list[Block]:
    """The decision and everything that comes first, then what the reader weighs it by.

    Where a template asks for further facts they stand before the table, with who looked: its reader looks for them first.
    """
    vessel, first = context.job.sheet.vessel, _asked_for(context)
    return [
        Heading(level=1, text=context.title, listed=False),
        Paragraph(text=strong(joined(", ", vessel.name, vessel.type)), style="lead"),
        note(_occasion(context)),
        *_left_out(context),
        *([facts(first)] if first else []),
        *answer(context),
        *comes_first(context),
        *([] if context.brief or _is_long(context) else [*scope(context), *about(context)]),
    ]


def _is_long(context: Context) -> bool:
    """True where the decision fills the first page, and the template has a place for what else a reader weighs it by."""
    return "about" in context.template.sections and len(urgent(context)) > LONG


def about_her(context: Context) -> list[Block]:
    """What did not fit under a long decision, after the boat; nothing where it did."""
    if not _is_long(context):
        return []
    return [heading(context, "about"), *scope(context), *about(context)]


def _occasion(context: Context) -> str:
    """For whom, when and where, how she lay: one line under the boat's name."""
    sheet, words = context.job.sheet, context.words
    client = sheet.person("client", "skipper_in", "underwriter", "owner")
    visit = sheet.inspection
    days = words.listed([date(day) for day in visit.dates])
    seen = words("first.seen", where=joined(", ", days, visit.place))
    whom = words("first.for", who=joined(", ", client.name, client.capacity)) if client else ""
    return joined(" ", whom, seen)


def _left_out(context: Context) -> list[Block]:
    """That this version does not tell everything, and what kind of thing it leaves out."""
    job, words = context.job, context.words
    if not job.left_out:
        return []
    what = words.listed([words(f"left_out.rule_{rule}") for rule in job.left_out])
    return [note(words("left_out.said", what=what, number=job.sheet.report.number))]


def about(context: Context) -> list[Block]:
    """What the reader weighs a short report by: on the page after the decision and the boat."""
    first = _asked_for(context)
    return [facts(row for row in _identity(context) if row not in first)]


def contents(context: Context) -> list[Block]:
    """The table of contents; a report of a few parts needs none."""
    if context.brief and len(context.assessments.components) <= FEW:
        return []
    return [Contents(title=context.words("head.contents"))]


def _asked_for(context: Context) -> list[tuple[str, str]]:
    """Who looked, and what the template asks for besides; nothing where it asks for nothing."""
    if not context.template.facts:
        return []
    author = context.job.sheet.person("author")
    by = [(context.words("first.prepared_by"), _author(context, author))] if author else []
    return [*by, *((context.words(f"first.{fact}"), FACTS[fact](context)) for fact in context.template.facts)]


def _identity(context: Context) -> list[tuple[str, str]]:
    """ISO/IEC 17020:2012, 7.4.2 a to d: who issues, which report, when, what was inspected."""
    sheet, words = context.job.sheet, context.words
    author, client = sheet.person("author"), sheet.person("client", "skipper_in", "underwriter", "owner")
    issued = sheet.report.issued
    issue = words("first.issued", date=date(issued)) if issued else words("first.draft")
    if sheet.report.supersedes:
        issue = f"{issue}; {words('first.supersedes', what=sheet.report.supersedes)}"
    owner = sheet.person("owner", "seller")
    return [
        (words("first.number"), f"{sheet.report.number}, {issue}"),
        (words("first.hull"), sheet.vessel.hull_number),
        (words("first.prepared_by"), _author(context, author) if author else ""),
        (words("first.owner"), owner.name if owner and owner is not client and owner is not author else ""),
        (words("circumstance.lay"), lay(context)),
    ]


def _parties(context: Context) -> str:
    giver, taker = context.job.sheet.person("skipper_out"), context.job.sheet.person("skipper_in")
    unknown = context.words("first.not_known")
    if giver is None and taker is None:
        return unknown
    return context.words(
        "first.parties_from_to",
        giver=giver.name if giver else unknown,
        taker=taker.name if taker else unknown,
    )


def _log(context: Context) -> str:
    vessel, visit = context.job.sheet.vessel, context.job.sheet.inspection
    hours = context.value(vessel.engine_hours, "h", "h")
    return joined(", ", context.value(vessel.miles, "nmi", "nmi"), hours, visit.time) or context.words(
        "first.not_known"
    )


def _rig_age(context: Context) -> str:
    vessel, words = context.job.sheet.vessel, context.words
    if vessel.rig_installed is None:
        return words("first.not_known")
    days = (context.job.sheet.inspection.last_day - vessel.rig_installed.middle).days
    basis = words(f"basis.{vessel.rig_installed_basis}") if vessel.rig_installed_basis else ""
    known = joined(", ", basis, vessel.rig_installed_evidence)
    told = words(
        "first.rig_fitted", date=date(vessel.rig_installed), years=with_unit(str(round(days / DAYS)), "years")
    )
    return "; ".join((told, *([words("first.rig_known", basis=known)] if known else [])))


FACTS: dict[str, Callable[[Context], str]] = {
    "parties": _parties,
    "log": _log,
    "rig_age": _rig_age,
    "mast_out": lambda context: (
        date(context.job.sheet.vessel.last_mast_out) or context.words("first.not_known")
    ),
    "last_check": lambda context: (
        context.job.sheet.vessel.last_professional_check or context.words("first.not_known")
    ),
}


def _author(context: Context, author: Person) -> str:
    """The author with capacity, qualification and interest: what a reader weighs the report by."""
    interest = context.words("first.interest", what=author.interest or context.words("first.none_declared"))
    return joined(
        "; ", joined(", ", author.name, author.organisation, author.capacity), author.qualification, interest
    )


def _scope(context: Context) -> str:
    titles = [
        context.words.inside(system.title)
        for system in context.assessments.systems
        if system.components or system.expected
    ]
    return context.words("first.scope_text", systems=context.words.listed(titles))


def lay(context: Context) -> str:
    """How she lay: afloat or ashore, mast, rig tension, under way or not; then what of these nobody stated."""
    lay, words = context.job.sheet.inspection.conditions, context.words
    told = {
        "of_afloat": lay.afloat,
        "of_mast": lay.mast and f"mast_{lay.mast}",
        "of_tension": lay.rig_tension and f"tension_{lay.rig_tension}",
        "of_way": "" if lay.under_way is None else "under_way" if lay.under_way else "not_under_way",
    }
    stated = ", ".join(words(f"lay.{each}") for each in told.values() if each)
    left_out = [words(f"lay.{name}") for name, each in told.items() if not each]
    unstated = words("lay.unstated", what=words.listed(left_out)) if left_out else ""
    return joined("; ", stated, unstated)


def scope(context: Context) -> list[Block]:
    """How big the job is, what was not looked at, what the report is about, and whom it is for."""
    size = size_of_job(context)
    return [
        *([Paragraph(text=plain(size))] if size else []),
        *_not_examined(context),
        Paragraph(text=plain(_scope(context)), style="small"),
        *_told_apart(context),
        note(context.words("first.reliance")),
    ]


def _not_examined(context: Context) -> list[Block]:
    """What was left out of the visit, what could not be seen, and what is not listed at all."""
    words = context.words
    items: list[str] = []
    unseen = [part for part in context.fitted() if part.component.examined.extent is Extent.NOT_SEEN]
    partly = [
        part
        for part in context.fitted()
        if part not in unseen and (part.not_included or part.grade is Grade.UNSEEN) and not part.unjudged
    ]
    if unseen:
        items.append(words("first.parts_not_seen", names=_names(context, unseen)))
    if partly:
        items.append(words("first.parts_part_seen", names=_names(context, partly)))
    if unjudged := [part for part in context.fitted() if part.unjudged]:
        items.append(words("first.parts_unjudged", names=_names(context, unjudged)))
    absent = [
        words.inside(context.plugins[kind].title) if kind in context.plugins else kind
        for system in context.assessments.systems
        for kind in system.not_listed
    ]
    if absent:
        items.append(words("first.not_listed", names=words.listed(absent)))
    items += [
        words("first.not_examined_item", what=each.what, because=each.because)
        for each in context.job.sheet.not_examined
    ]
    if not items:
        return []
    lead = Span(text=f"{words('first.not_examined')}. ", style="strong")
    told = " ".join(ended(item) for item in items)
    pointer = Span(text=f" {words('first.see', section=words('head.not_seen'))}", href="#not_seen")
    has_section = "not_seen" in context.template.sections and gaps(context)
    return [Paragraph(text=(lead, Span(text=told), *((pointer,) if has_section else ())))]


def _names(context: Context, parts: list[Graded]) -> str:
    """The names of a few parts; of many the first ones and how many more."""
    names = [part.title for part in parts]
    if len(names) <= SOME + 1:
        return "; ".join(names)
    return "; ".join([*names[:SOME], context.words("first.others", count=len(names) - SOME)])


def _told_apart(context: Context) -> list[Block]:
    """Relaxed limits and grades better than by rule: a reader must not have to look for them."""
    words = context.words
    found: list[Block] = []
    if relaxed := context.assessments.relaxed_limits:
        found.append(note(words("first.relaxed", count=len(relaxed), section=words("head.method"))))
    better = [
        part.title for part in context.fitted() if part.judgement and part.grade.rank < part.computed.rank
    ]
    if better:
        found.append(note(words("first.judged_better", names=words.listed(better))))
    return found
