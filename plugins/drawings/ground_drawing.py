"""The ground tackle from the anchor to the bitter end, with the grade of each part at the part.

Comes in: a Job and its Assessments. Goes out: a Drawing in points, 482 wide, or None when the job lists no ground
tackle. Seen from the side, bow to the left; not to scale. A second rode is drawn below as a line of its own. Parts that
the job does not list are dashed.
"""

from __future__ import annotations

from reporter.contract import Assessments, Drawing, Extent, Graded, Job, Shape, Words

from . import ground_shapes as shapes
from .deck_sheet import absent, worst_of
from .labels import LINE, Box, Label, label, leader
from .steering_parts import Parts, grade_word, short_name

WIDTH, HEIGHT, LINE_HEIGHT = 482.0, 228.0, 62.0
KINDS = ("anchor", "shackle", "swivel", "anchor_chain", "rode", "windlass", "bitter_end")
TITLES = {
    "anchor": "Anchor", "shackle": "Shackle", "swivel": "Swivel", "anchor_chain": "Anchor chain", "rode": "Rope rode",
    "windlass": "Windlass", "bitter_end": "Bitter end",
}  # fmt: skip
ALWAYS = ("anchor", "shackle", "anchor_chain", "windlass", "bitter_end")
"""Kinds that are drawn dashed where none is listed; not every boat has a swivel or rope."""
NOTE = "Seen from the side, bow to the left; not to scale."
Kinds = dict[str, Parts]


def draw(job: Job, assessments: Assessments) -> Drawing | None:
    """The tackle of the main anchor with the bow, and every further rode as a line; None when nothing is listed."""
    parts = tuple(part for part in assessments.components if part.system == "ground")
    if not parts:
        return None
    without = tuple(part for part in parts if part.component.examined.extent is Extent.NOT_FITTED)
    main, *others = _rodes(job, tuple(part for part in parts if part not in without)) or [("", _by_kind([]))]
    missed = {part.component.kind for part in without if not main[1][part.component.kind]}
    made, labels = _main(main[1], missed)
    drawn = [*made, *(shape for each in labels for shape in each.shapes)]
    for place, (group, kinds) in enumerate(others):
        drawn += _line(group, kinds, HEIGHT - 14 + LINE_HEIGHT * place)
    height = HEIGHT + LINE_HEIGHT * len(others)
    drawn.append(Words(at=(6, height - 5), text=NOTE, size=7.5, ink="second"))
    return Drawing(width=WIDTH, height=height, shapes=tuple(drawn), alt=_alt(main, others, without))


def _rodes(job: Job, parts: Parts) -> list[tuple[str, Kinds]]:
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
    fact = job.facts.get(part.component.id, {}).get("use")
    return fact.choice if fact and fact.choice in {"kedge", "spare"} else ""


def _is_main(job: Job, rode: tuple[str, Kinds]) -> tuple[bool, bool, int]:
    uses = {
        fact.choice
        for parts in rode[1].values()
        for part in parts
        if (fact := job.facts.get(part.component.id, {}).get("use"))
    }
    return ("main" in uses, bool(rode[1].get("windlass")), -len(rode[0]))


def _by_kind(parts: list[Graded]) -> Kinds:
    return {kind: tuple(part for part in parts if part.component.kind == kind) for kind in KINDS}


def _main(kinds: Kinds, missed: set[str]) -> tuple[list[Shape], list[Label]]:
    """The bow with its fittings, and the rode running down to the anchor; kinds that are `missed` are not fitted."""
    gone = {kind: absent(kinds[kind]) for kind in KINDS}
    shown = {kind for kind in KINDS if kinds[kind] or (kind in ALWAYS and kind not in missed)}
    drawn = [
        *shapes.sea_and_ground(WIDTH),
        *shapes.bow(),
        *shapes.rode(dashed_chain=gone["anchor_chain"], roped="rode" in shown, dashed_rope=gone["rode"]),
        *shapes.inboard(dashed=gone["anchor_chain"] and gone["rode"]),
    ]
    for kind, shape in shapes.FITTINGS.items():
        drawn += shape(dashed=gone[kind]) if kind in shown else ()
    labels: list[Label] = []
    for kind, (corner, room, target, rise) in shapes.label_places().items():
        if kind in shown:
            made = _named(kinds[kind], TITLES[kind], corner, room, rise=rise)
            labels.append(made)
            drawn += [leader(_foot(made.box, target), target)] if target else []
    roller = "bow roller: see the anchor"
    drawn.append(Words(at=shapes.ROLLER_NAME, text=roller, size=7.5, ink="second", anchor="end"))
    return drawn, labels


def _named(parts: Parts, title: str, at: tuple[float, float], room: float, *, rise: bool) -> Label:
    if not parts:
        return label(title, "not listed", None, at=at, room=room, rise=rise)
    part = worst_of(parts)
    more = f" (+{len(parts) - 1} more)" if len(parts) > 1 else ""
    return label(short_name(part), f"{grade_word(part)}{more}", part.grade, at=at, room=room, rise=rise)


def _foot(box: Box, target: tuple[float, float]) -> tuple[float, float]:
    """Where a leader leaves its label: the nearest point of the box, a little off it."""
    x = min(max(target[0], box.left + 4), box.right - 4)
    if x != target[0]:
        return (box.left - 2 if target[0] < box.left else box.right + 1, box.top + LINE * 0.6)
    if target[1] > box.bottom:
        return (x, box.bottom + 1.5)
    if target[1] < box.top:
        return (x, box.top - 1.5)
    return (x, box.bottom)


def _line(group: str, kinds: Kinds, top: float) -> list[Shape]:
    """A further rode, drawn straight: anchor, shackle, swivel, chain, rope, each named below."""
    y = top + 14
    shown = [kind for kind in KINDS if kinds[kind]]
    step = (WIDTH - 24) / max(len(shown), 3)
    drawn: list[Shape] = [Words(at=(6, top + 2), text=_title(group), size=7.5, ink="second")]
    for place, kind in enumerate(shown):
        x = 18 + step * place
        drawn += shapes.piece(kind, (x, y), step, dashed=absent(kinds[kind]))
        drawn += label_of(kinds[kind], TITLES[kind], (x - 8, y + 10), step - 10)
    return drawn


def _title(group: str) -> str:
    return f"Another rode ({group})" if group else "Parts of no rode"


def label_of(parts: Parts, title: str, at: tuple[float, float], room: float) -> tuple[Shape, ...]:
    """The label of a piece of a further rode."""
    return _named(parts, title, at, room, rise=False).shapes


def _alt(main: tuple[str, Kinds], others: list[tuple[str, Kinds]], without: Parts) -> str:
    missed = {part.component.kind for part in without}
    told = [
        f"Schematic of the ground tackle from the anchor to the bitter end. {NOTE}",
        _sentence("Main rode", main[1], missed),
    ]
    told += [_sentence(_title(group), kinds, None) for group, kinds in others]
    told += [f"Not fitted, not drawn: {'; '.join(part.title for part in without)}."] if without else []
    return " ".join(told)


def _sentence(name: str, kinds: Kinds, missed: set[str] | None) -> str:
    """The parts of one rode; of the main one also what is not listed (`missed` kinds are told as not fitted)."""
    said = [f"{part.title}: {grade_word(part)}" for kind in KINDS for part in kinds[kind]]
    if missed is not None:
        lacking = [kind for kind in KINDS if not kinds[kind] and kind not in missed]
        said += [
            f"{TITLES[kind].lower()} not listed, {'' if kind in ALWAYS else 'not '}drawn{' dashed' if kind in ALWAYS else ''}"
            for kind in lacking
        ]
    return f"{name}: {'; '.join(said)}."
