"""The ground tackle from the anchor to the bitter end, with the grade of each part at the part.

Comes in: a Job, its Assessments and the words for grades. Goes out: a Drawing in points, 482 wide, or None when the job lists
no ground tackle. Seen from the side, bow to the left; not to scale. A second rode is drawn below as a line of its own. Parts
that the job does not list are dashed.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessments, Drawing, DrawingWords, Extent, Graded, Job, Label, Shape, Words

from . import ground_shapes as shapes
from .naming import Parts, absent, gap, named, sentence

WIDTH, HEIGHT, LINE_HEIGHT, NOTE_HIGH = 482.0, 216.0, 62.0, 16.0
KINDS = ("anchor", "shackle", "swivel", "anchor_chain", "rode", "windlass", "bitter_end")
ALWAYS = ("anchor", "shackle", "anchor_chain", "windlass", "bitter_end")
"""Kinds that are drawn dashed where none is listed; not every boat has a swivel or rope."""
ByKind = dict[str, Parts]


def draw(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
    """The tackle of the main anchor with the bow, and every further rode as a line; None when nothing is listed."""
    parts = tuple(part for part in assessments.components if part.system == "ground")
    if not parts:
        return None
    without = tuple(part for part in parts if part.component.examined.extent is Extent.NOT_FITTED)
    main, *others = _rodes(job, tuple(part for part in parts if part not in without)) or [("", _by_kind([]))]
    missed = {part.component.kind for part in without if not main[1][part.component.kind]}
    shown = {kind for kind in KINDS if main[1][kind] or (kind in ALWAYS and kind not in missed)}
    drawn = [*_main(main[1], shown, told)]
    labels = [
        named(main[1][kind], told.say(f"drawing.part_{kind}"), at, rooms, told)
        for kind, (at, rooms) in shapes.label_places(WIDTH).items()
        if kind in shown
    ]
    for place, (group, kinds) in enumerate(others):
        made, named_there = _line(group, kinds, HEIGHT + LINE_HEIGHT * place, told)
        drawn += made
        labels += named_there
    height = HEIGHT + LINE_HEIGHT * len(others) + NOTE_HIGH
    drawn.append(Words(at=(6, height - 5), text=told.say("drawing.ground_note"), size=7.5, ink="second"))
    alt = " ".join(_alt(main, others, without, told))
    return Drawing(width=WIDTH, height=height, shapes=tuple(drawn), labels=tuple(labels), alt=alt)


def _rodes(job: Job, parts: Parts) -> list[tuple[str, ByKind]]:
    """The main rode first, then one for every other group; a part of no group belongs to the main one, a kedge to its own."""
    groups: dict[str, list[Graded]] = {}
    for part in parts:
        groups.setdefault(part.component.group or _use(job, part), []).append(part)
    rodes = [(group, _by_kind(own)) for group, own in groups.items()]
    if not rodes:
        return []
    main = max(rodes, key=lambda rode: _is_main(job, rode))
    return [main, *(rode for rode in rodes if rode is not main)]


def _use(job: Job, part: Graded) -> str:
    """A second anchor and its rode make a group of their own without saying so."""
    use = job.choice(part.component.id, "use")
    return use if use in {"kedge", "spare"} else ""


def _is_main(job: Job, rode: tuple[str, ByKind]) -> tuple[bool, bool, int]:
    uses = {job.choice(part.component.id, "use") for parts in rode[1].values() for part in parts}
    return ("main" in uses, bool(rode[1].get("windlass")), -len(rode[0]))


def _by_kind(parts: list[Graded]) -> ByKind:
    return {kind: tuple(part for part in parts if part.component.kind == kind) for kind in KINDS}


def _main(kinds: ByKind, shown: set[str], told: DrawingWords) -> Iterator[Shape]:
    """The bow with its fittings, and the rode running down to the anchor."""
    gone = {kind: absent(kinds[kind]) for kind in KINDS}
    yield from shapes.sea_and_ground(WIDTH)
    yield from shapes.bow()
    yield from shapes.rode(dashed_chain=gone["anchor_chain"], roped="rode" in shown, dashed_rope=gone["rode"])
    yield from shapes.inboard(dashed=gone["anchor_chain"] and gone["rode"])
    for kind in shapes.PLACES:
        yield from shapes.fitting(kind, dashed=gone[kind]) if kind in shown else ()
    roller = told.say("drawing.roller")
    yield Words(at=shapes.ROLLER_NAME, text=roller, size=7.5, ink="second", anchor="end")


def _line(group: str, kinds: ByKind, top: float, told: DrawingWords) -> tuple[list[Shape], list[Label]]:
    """A further rode, drawn straight: anchor, shackle, swivel, chain, rope, each named below."""
    y = top + 16
    shown = [kind for kind in KINDS if kinds[kind]]
    step = (WIDTH - 24) / max(len(shown), 3)
    drawn: list[Shape] = [Words(at=(6, top + 6), text=_title(group, told), size=7.5, ink="second")]
    labels = []
    for place, kind in enumerate(shown):
        x = 18 + step * place
        drawn += shapes.piece(kind, (x, y), step, dashed=absent(kinds[kind]))
        room = (x - 10, y + 8, min(x + step - 10, WIDTH - 4), top + LINE_HEIGHT)
        labels.append(named(kinds[kind], told.say(f"drawing.part_{kind}"), (x + 4, y + 4), (room,), told))
    return drawn, labels


def _title(group: str, told: DrawingWords) -> str:
    return told.say("drawing.another_rode", group=group) if group else told.say("drawing.no_rode")


def _alt(
    main: tuple[str, ByKind], others: list[tuple[str, ByKind]], without: Parts, told: DrawingWords
) -> Iterator[str]:
    missed = {part.component.kind for part in without}
    yield told.say("drawing.ground_alt", note=told.say("drawing.ground_note"))
    lacking = (_lacking(kind, told) for kind in KINDS if not main[1][kind] and kind not in missed)
    yield sentence(told.say("drawing.main_rode"), [*_said(main[1], told), *lacking])
    for group, kinds in others:
        yield sentence(_title(group, told), _said(kinds, told))
    if without:
        yield sentence(told.say("drawing.not_fitted"), [part.title for part in without])


def _said(kinds: ByKind, told: DrawingWords) -> Iterator[str]:
    return (f"{part.title}: {told(part)}" for kind in KINDS for part in kinds[kind])


def _lacking(kind: str, told: DrawingWords) -> str:
    return gap(kind, told, "drawing.dashed" if kind in ALWAYS else "drawing.not_drawn")
