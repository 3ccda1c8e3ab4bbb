"""Parts told by how much they matter: a serious one on a page, one to be planned in a paragraph, a clear one in a row.

Comes in: what was graded. Goes out: the blocks of one system. What is left out here stays in the attached data.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from reporter.model.assessment import Check, Graded, SystemGrade
from reporter.model.report import Block, Cell, Paragraph, Photo, Span, Spread, Text, plain
from reporter.model.terms import Extent, Grade, LimitKind, Verdict
from reporter.outline.blocks import body, cell, labelled, note, sentence, subhead, table
from reporter.outline.context import Context
from reporter.outline.details import details, examined, hearsay, judged, opening
from reporter.outline.jobs import SERIOUS
from reporter.outline.measures import ages_of, deciding, worst_of_each
from reporter.outline.photos import in_pairs, shown
from reporter.outline.plainly import ended, finding, reading, runs, saying
from reporter.wording import joined

PLANNED = frozenset({Grade.PLAN, Grade.WATCH})
ABREAST = 2
"""So many photos stand beside what is said of them; more follow below."""
DOUBT = frozenset({Verdict.CLOSE, Verdict.DOUBTFUL})


def parts(context: Context, system: SystemGrade) -> Iterator[Block]:
    """The serious parts, then those to plan or watch with their photos in plates, then one table of the clear ones."""
    own = [part for part in context.fitted() if part.system == system.id]
    yield from _cautions(context, [part for part in own if part.grade in SERIOUS])
    for part in own:
        if part.grade in SERIOUS:
            yield from _serious(context, part)
    planned = sorted((part for part in own if part.grade in PLANNED), key=lambda part: -part.grade.rank)
    ages: dict[str, str] = {}
    for part in planned:
        yield from _planned(context, part, ages)
    short = [part for part in own if part.grade not in SERIOUS]
    yield from in_pairs([photo for part in short for _, photo in shown(context, part)])
    yield from _clear(context, system, [part for part in own if part.grade is Grade.CLEAR])


def _cautions(context: Context, worked_on: list[Graded]) -> Iterator[Block]:
    """The cautions of the kinds that have to be worked on first, each once."""
    kinds = dict.fromkeys(part.component.kind for part in worked_on)
    told = dict.fromkeys(
        context.words.terms(text) for kind in kinds for text in context.plugins[kind].cautions
    )
    if told:
        # It is read with what it warns of.
        yield note(f"{context.words('component.caution')}: {' '.join(told)}").model_copy(
            update={"keep": True}
        )


def _serious(context: Context, part: Graded) -> Iterator[Block]:
    """Photo with marks, what was found, what it means, what to do by number, the readings that decide."""
    yield opening(context, part, finding(context, part))
    photos, more = _shown(context, part)
    texts = tuple(_said(context, part))
    told: list[Block] = [Spread(photos=photos, texts=texts)] if photos else list(texts)
    told += [*in_pairs(more), *deciding(context, part, SERIOUS)]
    # All of it stands on one page, where it fits one.
    yield from (block.model_copy(update={"together": True}) for block in told)
    known = [f"{label}: {value}" for label, value in details(context, part)]
    known = [ended(context.words("brief.known", rows="; ".join(known)))] if known else []
    yield note(joined(" ", _besides(context, part), *known, examined(context, part)))


def _said(context: Context, part: Graded) -> Iterator[Paragraph]:
    """How it was judged, what was found, told, what it means, what the inspector thinks, what was done, what to do."""
    words, component = context.words, part.component
    if said := judged(context, part):
        yield note(said)
    yield from body(component.found)
    yield from hearsay(context, part)
    if not any(action.is_open and action.grade in SERIOUS for action in part.actions):
        # Where something is to be done first, the first page tells what happens if it is left.
        yield from labelled(words("brief.means"), words.terms(context.plugins[component.kind].consequence))
    yield from labelled(words("component.opinion"), component.opinion)
    for done in component.done:
        yield from labelled(words("component.done"), sentence(done.what))
    if pointer := _pointer(context, part):
        yield Paragraph(text=pointer)


def _shown(context: Context, part: Graded) -> tuple[tuple[Photo, ...], list[Photo]]:
    """The photos that stand beside the words, the deciding one always among them; and the others."""
    found = shown(context, part)
    by_weight = sorted(found, key=lambda pair: not pair[0].decides)
    beside = [photo for _, photo in by_weight[:ABREAST]]
    order = [photo for _, photo in found]
    more = [photo for photo in order if photo not in beside]
    return tuple(photo for photo in order if photo in beside), more


def _planned(context: Context, part: Graded, ages: dict[str, str]) -> Iterator[Block]:
    """One short paragraph under the opening line. An age that an earlier part has told is not told again."""
    words = context.words
    said = finding(context, part)
    if said in ages:
        said = words("brief.same_age", part=ages[said])
    elif any(check.kind is LimitKind.AGE and saying(context, check) == said for check in part.checks):
        ages[said] = part.title
    yield opening(context, part, said)
    if told := judged(context, part):
        yield note(told)
    told = joined(
        " ",
        " ".join(part.component.found.split()),
        *(ended(words("component.told_by", by=each.by, what=each.what)) for each in part.component.told),
        " ".join(part.component.opinion.split()),
        _besides(context, part),
    )
    shown = [str(plate) for (ident, _), plate in context.plates.items() if ident == part.component.id]
    lead = (Span(text=f"{told} "),) if told else ()
    see = words("brief.photos", numbers=words.listed(shown))
    if len(shown) == 1:
        see = words("brief.photo", number=shown[0])
    pictured = (Span(text=f"{see} "),) if shown else ()
    yield Paragraph(text=(*lead, *pictured, *_pointer(context, part)) or plain(words("component.clear_text")))


def told_in_line(part: Graded) -> list[Check]:
    """The readings that are told without bar and sum: what decides nothing at a part to plan stays in the data."""
    found = worst_of_each(part)
    if part.grade in SERIOUS:
        return [check for check in found if check.grade not in SERIOUS]
    if part.grade in PLANNED:
        return [check for check in found if check.grade is not Grade.CLEAR or check.verdict in DOUBT]
    return found if part.grade is Grade.CLEAR else []


def _besides(context: Context, part: Graded) -> str:
    """The other answers that are not clear, and the readings told in line, each with its limit."""
    opening = finding(context, part)
    answers = [
        saying(context, check)
        for check in part.checks
        if check.limit is None
        and check.value is None
        and check.governs
        and check.grade not in {Grade.CLEAR, Grade.UNSEEN}
    ]
    own = [part.component.found, part.component.opinion]
    answers = [text for text in dict.fromkeys(answers) if text != opening and not _says(own, text)]
    told = [check for check in told_in_line(part) if saying(context, check) != opening]
    rows = [text for check in told if (text := reading(context, check))]
    if rows:
        answers.append(ended(context.words("brief.readings", rows="; ".join(rows))))
    return " ".join(answers)


def _says(texts: Iterable[str], said: str) -> bool:
    """Whether a sentence of a person's own text is this one, or begins with it and goes on after a stop or a comma."""
    words = re.escape(" ".join(said.rstrip(".").split()))
    return any(
        re.search(rf"(?:^|[.!?] ){words}[.,;:]", " ".join(text.split()), re.IGNORECASE) for text in texts
    )


def _pointer(context: Context, part: Graded) -> Text:
    """What is to be done, by number: the words stand once, on the first page, in the list or among the gaps."""
    places: dict[str, list[int]] = {"first": [], "actions": [], "not_seen": []}
    for action in part.actions:
        now = action.is_open and action.grade in SERIOUS
        gap = action.is_open and action.grade is Grade.UNSEEN
        places["first" if now else "not_seen" if gap else "actions"].append(action.number)
    spans: list[Span] = []
    for place, numbers in places.items():
        if numbers:
            there = place == "first" or place in context.template.sections
            said = context.words(f"brief.{place}", numbers=runs(numbers))
            spans += [Span(text=said, href=f"#{place}" if there else ""), Span(text=" ")]
    return tuple(spans[:-1])


def _clear(context: Context, system: SystemGrade, own: list[Graded]) -> Iterator[Block]:
    """Every clear part in a row: how it was looked at, what was found, its readings with their limits."""
    words = context.words
    absent = [
        part.title
        for part in context.assessments.components
        if part.system == system.id and part.component.examined.extent is Extent.NOT_FITTED
    ]
    if own:
        yield subhead(words("brief.clear"))
        rows = (_row(context, part) for part in own)
        yield table(words, "brief", rows, part=1.3, how=1.0, found=4.2).model_copy(update={"fit": True})
    if absent:
        yield note(words("brief.not_fitted", names=words.listed(absent)))


def _row(context: Context, part: Graded) -> tuple[Cell, ...]:
    words = context.words
    how = [words(f"how.{each}") for each in part.component.examined.how]
    rows = [text for check in told_in_line(part) if (text := reading(context, check))]
    told = [" ".join(part.component.found.split())]
    told += [ended("; ".join(rows))] if rows else []
    told += [ended(saying(context, check)) for check in ages_of(part)[:1]]
    looked_at = dict.fromkeys(
        words.terms(check.title) for check in part.checks if check.limit is None and check.value is None
    )
    if looked_at and not any(told):
        items = words.listed([words.inside(text) for text in looked_at])
        told.append(words("brief.looked_at", items=items))
    shown = " ".join(text for text in told if text) or words("component.clear_text")
    name = [Span(text=part.title)]
    if part.actions:
        name.append(Span(text=f" {runs([action.number for action in part.actions])}", href="#actions"))
    return (Cell(text=tuple(name), head=True), cell(words.listed(how) or "–"), cell(shown))
