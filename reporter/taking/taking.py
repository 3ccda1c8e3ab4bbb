"""A filled sheet against its folder, part by part: every field that somebody changed is taken, told or named.

Comes in: the form as read, the folder's plain data, the kinds in the sheet's language. Goes out: `SheetTaken`. A field that stands
as it was printed says nothing: neither of what the folder has learnt since, nor of what was never looked at.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from reporter.asking import asked, asking_version
from reporter.asking.naming import steps_of
from reporter.errors import UsageError, VerificationError
from reporter.model.form import Filled, FilledForm
from reporter.model.plugin import Kinds
from reporter.taking.entries import ABSENT, Entries, PartEntry
from reporter.taking.folder import FolderData
from reporter.taking.readings import Rows, take_readings
from reporter.taking.seen import take_examined, take_observed, take_proved
from reporter.taking.taken import SheetTaken
from reporter.taking.written import take_details, take_photos, take_words
from reporter.wording import Catalogue

FORMAT = 1
Steps = tuple[str, ...]


def take(
    form: FilledForm, folder: FolderData, kinds: Kinds, words: Catalogue, *, replace: bool = False
) -> SheetTaken:
    """What the sheet brings to the folder. UsageError where it belongs to another boat, VerificationError where it is none of ours."""
    taken = SheetTaken(words, replace)
    parts = _parts(form, folder, taken)
    rows = Rows([dict(row) for row in folder.rows])
    known = folder.entries
    for ident, fields in _by_part(form).items():
        told = parts.get(ident)
        plugin = kinds.plugins.get(str(told.get("kind"))) if told else None
        changed = [each for each in fields.values() if each.changed]
        if not told or plugin is None:
            for each in changed:
                taken.refuse(each, "take.no_part", "take.by_hand", part=ident)
            continue
        if not changed:
            continue
        if told["kind"] in form.meaning.get("kinds", {}) and form.meaning["kinds"][
            told["kind"]
        ] != asking_version(plugin):
            taken.remarks.append(words("take.other_kind", title=plugin.title))
        given = {key: str(told.get(key) or "") for key in ("name", "place", "side", "group")}
        part = PartEntry.of(ident, plugin.kind, known.get(ident), given)
        entries = Entries(part, plugin, asked(plugin, words), fields, taken, folder.instruments, folder.today)
        _take_part(entries, rows, folder)
    taken.edits += rows.edits
    return taken


def _take_part(entries: Entries, rows: Rows, folder: FolderData) -> None:
    part, taken = entries.part, entries.taken
    take_examined(entries)
    take_words(entries)
    take_photos(entries, folder.photos)
    take_details(entries)
    looked = [*entries.changed("observed"), *entries.changed("readings")]
    if looked and part.extent in ABSENT:
        for each in looked:
            taken.refuse(each, "take.absent", "take.correct_extent", part=part.ident)
    elif looked:
        take_observed(entries)
        take_readings(entries, rows)
    take_proved(entries)
    if not part.extent and (part.is_changed or looked):
        part.put("part_seen", "examined", "extent")
        taken.remarks.append(taken.words("take.no_extent", part=part.ident))
    if part.is_changed:
        taken.edits.append(part.edit())


def _parts(form: FilledForm, folder: FolderData, taken: SheetTaken) -> dict[str, dict[str, Any]]:
    """The parts that the sheet says it was printed for, by id; a part listed since counts as what the folder says it is."""
    meaning = form.meaning
    told = meaning.get("parts")
    if meaning.get("format") != FORMAT or not isinstance(told, list):
        raise VerificationError("The sheet was written by another version of this program.", "Print it anew.")
    vessel = folder.job.get("vessel")
    name = vessel.get("name") if isinstance(vessel, dict) else None
    if name and meaning.get("vessel") != name:
        msg = f"This sheet belongs to {meaning.get('vessel')}, the folder to {name}."
        raise UsageError(msg, "Name the folder that the sheet was printed from.")
    report = folder.job.get("report")
    number = report.get("number") if isinstance(report, dict) else None
    if number and meaning.get("report") != number:
        taken.remarks.append(taken.words("take.other_report", sheet=meaning.get("report"), folder=number))
    parts = {str(each.get("id")): dict(each) for each in told if isinstance(each, dict)}
    for ident, entry in folder.entries.items():
        if ident in parts and isinstance(entry.get("kind"), str):
            parts[ident]["kind"] = entry["kind"]
    return parts


def _by_part(form: FilledForm) -> dict[str, dict[Steps, Filled]]:
    """Fields by their part, each by the steps behind it."""
    parts: dict[str, dict[Steps, Filled]] = {}
    for steps, each in _stepped(form):
        parts.setdefault(steps[0], {})[steps[1:]] = each
    return parts


def _stepped(form: FilledForm) -> Iterator[tuple[Steps, Filled]]:
    for each in form.fields:
        yield steps_of(each.name), each
