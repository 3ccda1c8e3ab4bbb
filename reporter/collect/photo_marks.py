"""Marks on photos beyond their schema: their bounds in words, marks without a size, a blur that a copy would undo.

In: the sheet as written, the components, the photo files. Out: problems with their lines. Nothing is opened.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, get_args

from pydantic import TypeAdapter, ValidationError

from reporter.collect.ledger import Ledger
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component
from reporter.model.photo import LARGEST_INSET, Arrow, Blur, Box, Inset, Mark, PhotoFile, Ruler
from reporter.model.sheet import JobSheet

_KINDS = {each.model_fields["kind"].default: each for each in get_args(get_args(Mark)[0])}
_MARK: TypeAdapter[Mark] = TypeAdapter(Mark)


def bounds_of_mark(loc: Loc) -> dict[str, float]:
    """The bounds of a number of a mark, by their names: `ge`, `gt`, `le`. `loc` leads through `marks`, place, kind and key."""
    kind, key = loc[loc.index("marks") + 2 :][:2]
    held = _KINDS[kind].model_fields[str(key)].metadata
    names = ("ge", "gt", "le")
    return {name: getattr(each, name) for each in held for name in names if hasattr(each, name)}


def tell_sizeless(sheet: YamlFile, ledger: Ledger) -> None:
    """Tells marks that begin where they end; of the sheet as written, so that no other fault stands before them."""
    for loc, raw in _written(sheet.data):
        try:
            mark = _MARK.validate_python(raw)
        except ValidationError:
            continue  # told when the whole sheet was validated
        if has_no_size(mark):
            what = f"This {mark.kind} begins and ends at the same place."
            sheet.tell(ledger, loc, what, "Correct one of its two points.")


def _written(data: Mapping[str, Any]) -> Iterator[tuple[Loc, object]]:
    for index, component in _entries(data, "components"):
        for number, use in _entries(component, "photos"):
            for nth, raw in _entries(use, "marks"):
                yield ("components", index, "photos", number, "marks", nth), raw


def _entries(holder: object, key: str) -> Iterator[tuple[int, Any]]:
    entries = holder.get(key) if isinstance(holder, Mapping) else None
    return enumerate(entries if isinstance(entries, list) else ())


def has_no_size(mark: Mark) -> bool:
    """True for a line or an arrow of no length, and for a rectangle of no width or height."""
    if isinstance(mark, Box | Blur):
        return mark.corner[0] == mark.opposite[0] or mark.corner[1] == mark.opposite[1]
    if isinstance(mark, Arrow):
        return mark.tail == mark.head
    return isinstance(mark, Ruler) and mark.start == mark.end


def check_copies(
    components: Mapping[int, Component],
    job: JobSheet | None,
    photos: tuple[PhotoFile, ...],
    sheets: tuple[YamlFile, YamlFile | None],
    ledger: Ledger,
) -> None:
    """Tells of a picture that is blurred under one name and not so under another: the copy would show what is hidden.

    `components` name photos as the files are; `sheets` are findings.yaml and job.yaml.
    """
    same = {photo.name: photo.sha256 or photo.name for photo in photos}
    hidden: dict[str, set[tuple[object, object]]] = {}
    for component in components.values():
        for use in component.photos:
            blurs = {(each.corner, each.opposite) for each in use.marks if isinstance(each, Blur)}
            hidden.setdefault(use.file, set()).update(blurs)
    for sheet, loc, name in _uses(components, job, sheets):
        twins = [each for each in hidden if each != name and same.get(each) == same.get(name, "")]
        bare = next((each for each in twins if hidden[each] - hidden.get(name, set())), "")
        if bare:
            ours, theirs = name.removeprefix("photos/"), bare.removeprefix("photos/")
            what = f"'{ours}' is the same picture as '{theirs}', where something is blurred that shows here."
            do = f"Use '{theirs}' in both places, or blur the same here."
            sheet.tell(ledger, loc, what, do)


def ask_about_insets(
    components: Mapping[int, Component], photos: tuple[PhotoFile, ...], sheet: YamlFile, ledger: Ledger
) -> None:
    """Asks about magnified pieces that the page has no room to print larger than what they show."""
    room = {
        each.name: LARGEST_INSET * min(each.width, each.height) / each.width for each in photos if each.width
    }
    for index, component in components.items():
        for number, use in enumerate(component.photos):
            for nth, mark in enumerate(use.marks):
                most = room.get(use.file, 1.0) / 2
                if isinstance(mark, Inset) and mark.radius >= most:
                    loc = ("components", index, "photos", number, "marks", nth)
                    what = f"This inset is printed no larger than what it shows; on this photo a radius below {most:.2f} is."
                    sheet.ask(ledger, loc, what)


def _uses(
    components: Mapping[int, Component], job: JobSheet | None, sheets: tuple[YamlFile, YamlFile | None]
) -> Iterator[tuple[YamlFile, Loc, str]]:
    """Every place where a photo is shown, once for each file."""
    findings, about = sheets
    found: dict[str, tuple[YamlFile, Loc, str]] = {}
    for index, component in components.items():
        for number, use in enumerate(component.photos):
            found.setdefault(use.file, (findings, ("components", index, "photos", number), use.file))
    for key, name in job.vessel.photos.items() if job and about else ():
        assert about is not None  # noqa: S101 - for the type checker
        found.setdefault(name, (about, ("vessel", key), name))
    yield from found.values()
