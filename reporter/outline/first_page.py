"""The first page: title, vessel, reader, date, the answer, and what comes first. And the contents."""

from __future__ import annotations

from collections.abc import Callable

from reporter.model.assessment import Graded
from reporter.model.job import Person
from reporter.model.report import Block, Contents, Heading, Paragraph, Span, plain, strong
from reporter.model.terms import Extent, Grade
from reporter.outline.blocks import bullets, facts, note
from reporter.outline.desk import Desk
from reporter.wording import date

MOST = 3
"""How many `stop` and `first` actions, and how many exclusions, the first page names before it points to the list."""


SOME = 4
"""How many names of parts one line gives."""


def write(desk: Desk) -> list[Block]:
    """The first page; it answers in a minute and names what was not examined."""
    vessel = desk.job.sheet.vessel
    return [
        Heading(level=1, text=desk.title, listed=False),
        Paragraph(text=strong(", ".join(text for text in (vessel.name, vessel.type) if text)), style="lead"),
        Paragraph(text=plain(desk.words(desk.template.reader_id)), style="note"),
        facts(_identity(desk)),
        Heading(level=2, text=desk.words("first.answer"), listed=False),
        Paragraph(text=plain(_answer(desk)), style="answer"),
        *_first_things(desk),
        *_not_examined(desk),
        Paragraph(text=plain(_scope(desk)), style="small"),
        *_told_apart(desk),
        note(desk.words("first.reliance")),
    ]


def contents(desk: Desk) -> list[Block]:
    """The table of contents, at the head of the second page."""
    return [Contents(title=desk.words("head.contents"), new_page=True)]


def _identity(desk: Desk) -> list[tuple[str, str]]:
    """ISO/IEC 17020:2012, 7.4.2 a to d: who issues, which report, when, what was inspected."""
    sheet, words = desk.job.sheet, desk.words
    author, client = sheet.person("author"), sheet.person("client", "skipper_in", "underwriter", "owner")
    issue = (
        words("first.issued", date=date(sheet.report.issued)) if sheet.report.issued else words("first.draft")
    )
    if sheet.report.supersedes:
        issue = f"{issue}; {words('first.supersedes', what=sheet.report.supersedes)}"
    visit = sheet.inspection
    hull = sheet.vessel.hull_number
    rows = [
        (words("first.number"), f"{sheet.report.number}, {issue}"),
        (words("first.prepared_for"), _joined(client.name, client.capacity) if client else ""),
        (words("first.prepared_by"), _author(desk, author) if author else ""),
        (
            words("first.inspected"),
            _joined(words.listed([date(day) for day in visit.dates]), visit.place, lay(desk)),
        ),
    ]
    if hull:
        rows.insert(1, (words("first.hull"), hull))
    rows += [(words(f"first.{fact}"), FACTS[fact](desk)) for fact in desk.template.facts]
    owner = sheet.person("owner", "seller")
    if owner and owner is not client and owner is not author:
        rows.insert(2, (words("first.owner"), owner.name))
    return rows


def _parties(desk: Desk) -> str:
    giver, taker = desk.job.sheet.person("skipper_out"), desk.job.sheet.person("skipper_in")
    unknown = desk.words("first.not_known")
    return desk.words(
        "first.parties_from_to",
        giver=giver.name if giver else unknown,
        taker=taker.name if taker else unknown,
    )


def _log(desk: Desk) -> str:
    vessel, visit = desk.job.sheet.vessel, desk.job.sheet.inspection
    hours = desk.value(vessel.engine_hours, "h", "h")
    return _joined(desk.value(vessel.miles, "nmi", "nmi"), hours, visit.time) or desk.words("first.not_known")


def _rig_age(desk: Desk) -> str:
    vessel, words = desk.job.sheet.vessel, desk.words
    if vessel.rig_installed is None:
        return words("first.not_known")
    basis = words(f"basis.{vessel.rig_installed_basis}") if vessel.rig_installed_basis else ""
    return _joined(date(vessel.rig_installed), basis, vessel.rig_installed_evidence)


FACTS: dict[str, Callable[[Desk], str]] = {
    "parties": _parties,
    "log": _log,
    "rig_age": _rig_age,
    "mast_out": lambda desk: date(desk.job.sheet.vessel.last_mast_out) or desk.words("first.not_known"),
    "last_check": lambda desk: desk.job.sheet.vessel.last_professional_check or desk.words("first.not_known"),
}


def _author(desk: Desk, author: Person) -> str:
    """The author with capacity, qualification and interest: what a reader weighs the report by."""
    interest = desk.words("first.interest", what=author.interest or desk.words("first.none_declared"))
    return "; ".join(
        text
        for text in (
            _joined(author.name, author.organisation, author.capacity),
            author.qualification,
            interest,
        )
        if text
    )


def _scope(desk: Desk) -> str:
    titles = [
        system.title.lower() for system in desk.assessments.systems if system.components or system.expected
    ]
    return desk.words("first.scope_text", systems=desk.words.listed(titles))


def _joined(*texts: str) -> str:
    return ", ".join(text for text in texts if text)


def lay(desk: Desk) -> str:
    """How she lay: afloat or ashore, mast, rig tension, under way or not."""
    conditions, words = desk.job.sheet.inspection.conditions, desk.words
    parts = [
        words(f"lay.{conditions.afloat}"),
        words(f"lay.mast_{conditions.mast}"),
        words(f"lay.tension_{conditions.rig_tension}"),
        words("lay.under_way" if conditions.under_way else "lay.not_under_way"),
    ]
    return ", ".join(parts)


def _answer(desk: Desk) -> str:
    """The counts by grade in words, and whether anything has to be put right first."""
    parts, words = desk.fitted(), desk.words
    order = (Grade.STOP, Grade.FIRST, Grade.PLAN, Grade.WATCH, Grade.CLEAR, Grade.UNSEEN)
    counts = {grade: sum(part.grade is grade for part in parts) for grade in order}
    counted = [
        words("first.count_of", count=count, word=words(f"grade.{grade}"))
        for grade, count in counts.items()
        if count
    ]
    total = words("first.parts_one") if len(parts) == 1 else words("first.parts_many", count=len(parts))
    sentence = words("first.counts", total=total, parts=", ".join(counted))
    urgent = any(
        each.is_open and each.grade in {Grade.STOP, Grade.FIRST} for each in desk.assessments.actions
    )
    if urgent or desk.with_grade(Grade.STOP, Grade.FIRST):
        return sentence
    return f"{sentence} {words('first.nothing_first')}"


def room(desk: Desk) -> int:
    """How many lines of each list the page has room for: further facts take some of it."""
    return MOST - bool(desk.template.facts)


def _first_things(desk: Desk) -> list[Block]:
    urgent = [
        each for each in desk.assessments.actions if each.grade in {Grade.STOP, Grade.FIRST} and each.is_open
    ]
    if not urgent:
        return []
    items: list[tuple[Span, ...]] = []
    for action in urgent[: room(desk)]:
        part = next(part for part in desk.assessments.components if action in part.actions)
        words = desk.words
        items.append(
            (
                Span(
                    text=f"{action.number} · {words(f'grade.{action.grade}')} · {part.title}: ",
                    style="strong",
                ),
                Span(
                    text=f"{_short(words.terms(action.why))}. {words.terms(action.what)}.",
                    href=f"#{part.component.id}",
                ),
            )
        )
    blocks: list[Block] = [Heading(level=3, text=desk.words("first.has_first"), listed=False), bullets(items)]
    if len(urgent) > room(desk):
        more = desk.words(
            "first.more_first", count=len(urgent) - room(desk), section=desk.words("head.actions")
        )
        blocks.append(Paragraph(text=(Span(text=more, href="#actions"),), style="small"))
    return blocks


def _short(why: str) -> str:
    """The first of several reasons; the action list has them all."""
    return why.split("; ", maxsplit=1)[0].rstrip(".")


def _not_examined(desk: Desk) -> list[Block]:
    """What was left out of the visit, what could not be seen, and what is not listed at all."""
    words = desk.words
    items: list[str] = []
    unseen = [part for part in desk.fitted() if part.component.examined.extent is Extent.NOT_SEEN]
    partly = [
        part
        for part in desk.fitted()
        if part not in unseen and (part.not_included or part.grade is Grade.UNSEEN)
    ]
    if unseen:
        items.append(words("first.parts_not_seen", names=_names(desk, unseen)))
    if partly:
        items.append(words("first.parts_part_seen", names=_names(desk, partly)))
    absent = [
        desk.plugins[kind].title.lower() if kind in desk.plugins else kind
        for system in desk.assessments.systems
        for kind in system.not_listed
    ]
    if absent:
        items.append(words("first.not_listed", names=words.listed(absent)))
    items += [
        words("first.not_examined_item", what=each.what, because=each.because)
        for each in desk.job.sheet.not_examined
    ]
    if not items:
        return []
    blocks: list[Block] = [Heading(level=3, text=words("first.not_examined"), listed=False)]
    if len(items) > room(desk) + 1:
        more = words("first.more_first", count=len(items) - room(desk), section=words("head.not_seen"))
        return [
            *blocks,
            bullets(items[: room(desk)]),
            Paragraph(text=(Span(text=more, href="#not_seen"),), style="small"),
        ]
    return [*blocks, bullets(items)]


def _names(desk: Desk, parts: list[Graded]) -> str:
    """The names of a few parts; of many the first ones and how many more."""
    names = [part.title for part in parts]
    if len(names) <= SOME + 1:
        return desk.words.listed(names)
    return desk.words.listed([*names[:SOME], desk.words("first.others", count=len(names) - SOME)])


def _told_apart(desk: Desk) -> list[Block]:
    """Relaxed limits and grades better than by rule: a reader must not have to look for them."""
    words = desk.words
    found: list[Block] = []
    if relaxed := desk.assessments.relaxed_limits:
        found.append(note(words("first.relaxed", count=len(relaxed), section=words("head.method"))))
    better = [part.title for part in desk.fitted() if part.judgement and part.grade.rank < part.computed.rank]
    if better:
        found.append(note(words("first.judged_better", names=words.listed(better))))
    return found
