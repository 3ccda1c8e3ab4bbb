"""The photos of a job: which files there are, what is known of each, and whether every photo named exists.

In: the folder, the components, and the reader that opens photo files (the door; injected). Out: a `PhotoFile` for each
picture, and components whose photos are named as the files are. Films and other files are passed over with a remark.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Protocol

from reporter.collect.ledger import Ledger, listed
from reporter.collect.photo_marks import tell_sizeless
from reporter.collect.stored import Shelf, kept_elsewhere, lacks_folder, plain_files
from reporter.collect.text_file import Place
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component
from reporter.model.photo import PICTURES, PhotoFile
from reporter.model.sheet import CameraClock, JobSheet

FILMS = {".mov", ".mp4", ".m4v", ".avi", ".3gp", ".mts", ".mkv", ".webm", ".mpg", ".mpeg", ".insv"}


class PhotoReader(Protocol):
    """What reads header, EXIF and hash of photo files; one `PhotoFile` for each path, in order."""

    def __call__(
        self, files: list[Path], folder: Path, *, time_zone: str, clocks: Sequence[CameraClock] = ()
    ) -> list[PhotoFile]:
        """Read `files`, whose names are relative to `folder`; times are corrected by `clocks`."""


def read_photo_files(
    place: Place, job: JobSheet | None, photos: PhotoReader, ledger: Ledger
) -> tuple[PhotoFile, ...]:
    """Every picture of the photos folder; times are those of UTC where job.yaml has faults."""
    files = _pictures(place, ledger)
    if not files:
        return ()
    in_order = job is not None and not any(each.file == place.named("job.yaml") for each in ledger.problems)
    zone, clocks = (job.inspection.time_zone, job.cameras) if job and in_order else ("UTC", ())
    return tuple(photos(files, place.folder, time_zone=zone, clocks=clocks))


def _pictures(place: Place, ledger: Ledger) -> list[Path]:
    files = plain_files(place, "photos", ledger)
    films = [path.name for path in files if path.suffix.lower() in FILMS]
    others = [path.name for path in files if path.suffix.lower() not in FILMS | PICTURES]
    for what, names in (("films", films), ("files that are no pictures", others)):
        if names:
            ledger.remark(f"{place.named('photos')}: passed over {what} ({listed(names)}).")
    return [path for path in files if path.suffix.lower() in PICTURES]


def checked_photos(
    components: dict[int, Component],
    photos: tuple[PhotoFile, ...],
    sheet: YamlFile,
    ledger: Ledger,
    place: Place,
) -> dict[int, Component]:
    """The components with photos named as the files are; photos that are missing or cannot be shown are told."""
    tell_sizeless(sheet, ledger)
    elsewhere = kept_elsewhere(place, "photos", ledger)
    if any(True for component in components.values() for _ in _named(component)):
        elsewhere |= lacks_folder(place, "photos", ledger, elsewhere=elsewhere)
    shelf = Shelf("photos", [photo.name for photo in photos], elsewhere=elsewhere)
    broken = {photo.name: photo.problem for photo in photos if photo.problem}
    used: set[str] = set()
    for index, component in components.items():
        for loc, written in _named(component):
            here = ("components", index, *loc)
            found = shelf.find(written)
            # The file is at fault, wherever it is named: once is enough.
            _tell(shelf, written, {} if found in used else broken, sheet, here, ledger)
            used.add(found)
    for name in sorted(set(broken) - used):
        ledger.remark(f"{name}: not used, and it could not be: {broken[name]}")
    return {index: _renamed(component, shelf) for index, component in components.items()}


def with_vessel_photos(
    job: JobSheet, photos: tuple[PhotoFile, ...], sheet: YamlFile, ledger: Ledger, place: Place
) -> JobSheet:
    """The sheet with the photos of the boat herself named as the files are; what is missing or cannot be shown is told."""
    elsewhere = kept_elsewhere(place, "photos", Ledger())
    elsewhere |= bool(job.vessel.photos) and lacks_folder(place, "photos", ledger, elsewhere=elsewhere)
    shelf = Shelf("photos", [photo.name for photo in photos], elsewhere=elsewhere)
    broken = {photo.name: photo.problem for photo in photos if photo.problem}
    found: dict[str, str] = {}
    for key, written in job.vessel.photos.items():
        here: Loc = ("vessel", key)
        found[key] = shelf.find(written) or written
        _tell(shelf, written, broken, sheet, here, ledger)
    return job.model_copy(update={"vessel": job.vessel.model_copy(update=found)}) if found else job


def _tell(
    shelf: Shelf, written: str, broken: Mapping[str, str], sheet: YamlFile, here: Loc, ledger: Ledger
) -> None:
    """Notes what is wrong with a photo that a sheet names: it is not there, or cannot be shown."""
    where = (sheet.file, sheet.line(here), sheet.key(sheet.found(here)))
    if fault := shelf.fault(written):
        ledger.tell(*where, *fault)
    elif unseen := _cannot_show(written, broken.get(shelf.find(written), "")):
        ledger.tell_photo(*where, *unseen)


def _cannot_show(written: str, problem: str) -> tuple[str, str] | None:
    what, _, do = problem.partition(": ")
    do = do or "use another photo"
    return (f"'{written}' cannot be shown: {what}.", f"{do[:1].upper()}{do[1:]}.") if problem else None


def _named(component: Component) -> Iterator[tuple[Loc, str]]:
    """Where a component names photos, and what it writes there."""
    for number, use in enumerate(component.photos):
        yield ("photos", number, "file"), use.file
    for ident, seen in component.observed.items():
        for number, each in enumerate(seen):
            for nth, name in enumerate(each.photos):
                yield ("observed", ident, number, "photos", nth), name


def _renamed(component: Component, shelf: Shelf) -> Component:
    uses = tuple(
        use.model_copy(update={"file": shelf.find(use.file) or use.file}) for use in component.photos
    )
    observed = {
        ident: tuple(
            each.model_copy(update={"photos": tuple(shelf.find(name) or name for name in each.photos)})
            for each in seen
        )
        for ident, seen in component.observed.items()
    }
    return component.model_copy(update={"photos": uses, "observed": observed})
