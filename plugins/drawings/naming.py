"""What a drawing calls its parts: which of several speaks, on which side it is, and its label.

Comes in: graded parts, and the report's words for their grades. Goes out: labels without a place, and sides. It draws nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from reporter.contract import XY, DrawingWords, Extent, Grade, Graded, Label, Room

SIDES = ("starboard", "port")
LEADING = ("wheel", "quadrant", "rudder_bearing", "rudder_blade")
"""The kinds that tell one helm or one rudder from the other."""
BOTH_RUNS = "both runs"
_WHERE = {
    "starboard": "side.starboard", "port": "side.port", "both sides": "drawing.both_sides",
    "both sides together": "drawing.both_sides_together", BOTH_RUNS: "drawing.both_runs",
}  # fmt: skip
_SIDE = re.compile(r"(?<![a-z])(?:(starboard|stbd|stb)|(port|bb))(?![a-z])|(steuerbord)|(backbord)")
"""Sides as people write them in the languages of the catalogue; German joins them to the part: Backbordwant."""

Parts = tuple[Graded, ...]


def named(
    parts: Parts,
    title: str,
    at: XY,
    rooms: tuple[Room, ...],
    told: DrawingWords,
    *,
    where: str = "",
    also: str = "",
) -> Label:
    """The label of a place: one part's own name, or the place's `title` for several parts or none.

    `where` goes before the grade unless the name tells it, `also` on a line of its own. The worse, the more it must be seen.
    """
    if not parts:
        word = _placed(where, told.say("drawing.not_listed"), title, told)
        return Label(text=title, word=word, at=at, rooms=rooms)
    part = speaker(parts)
    text = part.title if len(parts) == 1 else title
    return Label(
        text=text,
        word="\n".join(row for row in (_placed(where, _shared(parts, told), text, told), also) if row),
        grade=part.grade,
        at=at,
        rooms=rooms,
        part=part.component.id,
        priority=max(part.grade.rank, 0),
    )


def _placed(where: str, word: str, text: str, told: DrawingWords) -> str:
    return f"{said_of(where, told)}: {word}" if where and where not in _sides_in(text) else word


def said_of(where: str, told: DrawingWords) -> str:
    """A side or both of them in the report's language; a group keeps the inspector's own word."""
    return told.say(_WHERE[where]) if where in _WHERE else where


def gap(place: str, told: DrawingWords, ident: str = "drawing.dashed") -> str:
    """What is said of a place where nothing is listed."""
    return told.say(ident, title=told.say(f"drawing.part_{place}"))


def sentence(name: str, said: Iterable[str]) -> str:
    """A name, and behind it what is said of all that stands under it."""
    return f"{name}: {'; '.join(said)}."


def _shared(parts: Parts, told: DrawingWords) -> str:
    """The grade's word, and for several parts how many share it."""
    word = told(speaker(parts))
    if len(parts) == 1:
        return word
    alike = len({told(part) for part in parts}) == 1
    return told.say("drawing.all" if alike else "drawing.worst", word=word, count=len(parts))


def urgency(part: Graded) -> float:
    """What speaks first where several parts share a label: the worst grade; one unseen among clear ones is told."""
    return 0.5 if part.grade is Grade.UNSEEN else part.grade.rank


def speaker(parts: Parts) -> Graded:
    """The part that speaks for all of them."""
    return max(parts, key=urgency)


def absent(parts: Parts) -> bool:
    """Whether nothing is there to be drawn in full: not listed, not fitted, or looked for and not found."""
    gone = {Extent.NOT_FITTED, Extent.NOT_FOUND}
    return all(part.component.examined.extent in gone for part in parts)


def group_of(part: Graded, by_id: Mapping[str, Graded] | None = None) -> str:
    """What the part belongs to, as it is compared and shown: its own group, else that of the larger part (in `by_id`).

    Small letters, one line; a helm or rudder with neither is told by its side.
    """
    by_id = by_id or {}
    whole = part.component
    for _ in by_id:
        if whole.group or whole.part_of not in by_id:
            break
        whole = by_id[whole.part_of or ""].component
    of_itself = whole is part.component and by_id
    told = whole.group or ("" if of_itself and whole.kind not in LEADING else whole.side)
    return " ".join(told.lower().split())


def side_of(part: Graded, helm: str = "") -> str:
    """Which side a part is on, as told by group, name, id or place; "" for both or not told.

    With two helms the group names the helm, so that its word counts once for the helm and once for the side.
    """
    component = part.component
    if component.side:
        return component.side
    group = group_of(part)
    if group in SIDES and group != helm:
        return group
    for text in (component.name, component.id, component.place):
        words = _sides_in(text)
        if helm in words:
            words.remove(helm)
        if len(set(words)) == 1:
            return words[0]
    return ""


def bad_side(part: Graded) -> str:
    """The side on which a part of both sides has what it is graded by; "" where that is not told of all of it."""
    worst = max((check.grade.rank for check in part.checks if check.governs), default=0)
    if worst <= 0 or worst != part.grade.rank:
        return ""
    deciding = [check for check in part.checks if check.governs and check.grade.rank == worst]
    sides = {check.side or "".join(_sides_in(check.at)) for check in deciding}
    side = next(iter(sides))
    return side if len(sides) == 1 and side in SIDES else ""


def bad_place(part: Graded) -> str:
    """Where along the boat the worst was seen, in the inspector's words; "" where nothing or several things are told."""
    places = {check.at for check in part.checks if check.governs and check.grade == part.grade and check.at}
    return next(iter(places)) if len(places) == 1 else ""


def both(part: Graded) -> str:
    """What is said of a part that stands for both sides: the side where its grade comes from, where that is known."""
    return bad_side(part) or ("both sides together" if part.grade.rank > 0 else "both sides")


def _sides_in(text: str) -> list[str]:
    return [SIDES[(found.lastindex or 0) % 2 == 0] for found in _SIDE.finditer(text.lower())]
