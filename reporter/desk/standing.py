"""What a folder says just now: read from memory as far as it goes, graded, and put into words.

In: the texts of a folder, what is installed. Out: a `Standing`, which every view is made of. Headers of photos are read
once for each state of a file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock

from reporter import pipeline
from reporter.door import read_photos
from reporter.errors import JobError, Problem
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.photo import PhotoFile
from reporter.model.sheet import CameraClock
from reporter.model.template import Template
from reporter.outline.context import Context
from reporter.outline.speaking import spoken
from reporter.registry import Registry
from reporter.wording import Catalogue, catalogue, speaking

DOOR = RLock()
"""The door's workers serve one asker at a time: one that fails restarts them all."""


@dataclass(frozen=True)
class Standing:
    """A folder at one version: its texts, the job, what is wrong with it, its grades in words."""

    version: str
    folder: Path
    texts: Mapping[str, str]
    job: Job
    problems: tuple[Problem, ...]
    graded: Assessments
    template: Template
    kinds: Registry
    words: Catalogue

    @property
    def context(self) -> Context:
        """What a section of the report is given; the page tells some of the same."""
        kinds = self.kinds
        return Context(self.job, self.graded, self.template, kinds.plugins, kinds.systems, self.words)

    def photo(self, file: str) -> PhotoFile | None:
        """The photo of that name below the photos folder; None for any other name."""
        return next((each for each in self.job.photos if each.name == f"photos/{file}"), None)


@dataclass
class Headers:
    """The reader of photos that remembers: header, EXIF and hash by path, time of change and size."""

    _known: dict[object, PhotoFile] = field(default_factory=dict)

    def __call__(
        self, files: list[Path], folder: Path, *, time_zone: str, clocks: Sequence[CameraClock] = ()
    ) -> list[PhotoFile]:
        """Read what is new among `files`."""
        keys = [_state(file, folder, time_zone, tuple(clocks)) for file in files]
        new = {key: file for key, file in zip(keys, files, strict=True) if key not in self._known}
        if new:
            with DOOR:
                read = read_photos(list(new.values()), folder, time_zone=time_zone, clocks=clocks)
            self._known |= dict(zip(new, read, strict=True))
        return [self._known[key] for key in keys]


def _state(file: Path, folder: Path, time_zone: str, clocks: tuple[CameraClock, ...]) -> object:
    status = file.lstat()
    told = tuple(each.model_dump_json() for each in clocks)
    return (str(file), str(folder), status.st_mtime_ns, status.st_size, time_zone, told)


def standing(
    version: str, folder: Path, texts: Mapping[str, str], registry: Registry, headers: Headers
) -> Standing:
    """The folder as it stands; faults are told beside what could be graded."""
    job, problems = pipeline.read_begun(folder, registry, texts, headers)
    template = registry.templates[job.sheet.purpose]
    try:
        graded = pipeline.grade(job, registry, template, keep_going=True)
    except JobError as error:
        # Work without a permission on record: told, and graded as if it were there.
        problems = [*problems, *error.problems]
        lenient = template.model_copy(update={"as_found_only": False})
        graded = pipeline.grade(job, registry, lenient, keep_going=True)
    lang = job.sheet.lang
    kinds = registry.in_language(lang)
    with speaking(lang):
        told = spoken(graded, job, kinds)
    return Standing(
        version,
        folder.absolute(),
        texts,
        job,
        tuple(problems),
        told,
        template,
        kinds,
        catalogue(lang, job.sheet.terms),
    )
