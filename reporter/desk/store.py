"""One open job: its version, its edits, what was lost. Everything that changes the folder goes through here.

The version is a fingerprint of the files, so that it is another one whoever changed them, and the same again after a
restart.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from threading import RLock

from reporter import pipeline
from reporter.collect.in_language import Translator, written_language
from reporter.desk.standing import Headers, Standing, standing
from reporter.editing import Edit, EditError, JobFiles, Lost
from reporter.editing.saving import KEPT
from reporter.errors import JobError, NoSuchError
from reporter.registry import Registry
from reporter.wording import languages

FILES = ("job.yaml", "findings.yaml", "measurements.csv")
MOST_FILES = 20_000


class Store:
    """The job in `folder`."""

    def __init__(self, folder: Path, registry: Registry) -> None:
        self.folder = folder
        self.files = JobFiles(folder)
        self.registry = _Spoken(registry)
        self._headers = Headers()
        self._lock = RLock()
        """Held while the folder is read and graded; edits do not wait for that, the files have a lock of their own."""
        self._last: Standing | None = None
        self._lost: tuple[str, list[Lost]] = ("", [])
        _sweep(folder)

    @property
    def version(self) -> str:
        """The version of the folder as it is now."""
        told = hashlib.sha256()
        for line in _marks(self.folder):
            told.update(line.encode("utf-8", "replace"))
        return told.hexdigest()[:16]

    def standing(self) -> Standing:
        """What the folder says now, read anew only where something changed; NoSuchError when it is gone."""
        if not self.folder.is_dir():
            raise NoSuchError(
                "The job folder is not where it was.", "Put it back, or start gudgeon desk where it is now."
            )
        with self._lock:
            version = self.version
            if self._last is None or self._last.version != version:
                texts = {name: _read(self.folder / name) for name in FILES}
                held = {name: text for name, text in texts.items() if text is not None}
                self._last = self._in_its_language(
                    standing(version, self.folder, held, self.registry, self._headers)
                )
            return self._last

    def _in_its_language(self, english: Standing) -> Standing:
        said = self.registry.translator(english.job.sheet.lang)
        if said is None or not english.problems:
            return english
        return replace(english, problems=tuple(said.error(JobError(list(english.problems))).problems))

    def say(self, english: str) -> str:
        """A refusal in the language of the job."""
        said = self.registry.translator(written_language(self.folder))
        return said.text(english) if said else english

    def lost(self) -> list[Lost]:
        """Accepted edits that an outside change took away."""
        with self._lock:
            version = self.version
            if self._lost[0] != version:
                self._lost = (version, self.files.lost())
            return self._lost[1]


class _Spoken(Registry):
    """What is installed, with the words of each language read once."""

    def __init__(self, registry: Registry) -> None:
        super().__init__(
            registry.plugins, registry.systems, registry.templates, registry.found, registry.broken
        )
        object.__setattr__(self, "_in", lru_cache(maxsize=4)(registry.in_language))
        object.__setattr__(self, "_says", lru_cache(maxsize=4)(self._translator))

    def in_language(self, lang: str) -> Registry:
        """The same kinds and systems in another language's words."""
        told: Registry = self._in(lang)  # type: ignore[attr-defined]
        return told

    def translator(self, lang: str) -> Translator | None:
        """What puts refusals into a language; None for English, in which they are made."""
        told: Translator | None = self._says(lang)  # type: ignore[attr-defined]
        return told

    def _translator(self, lang: str) -> Translator | None:
        return None if lang not in languages()[1:] else pipeline.translator(lang, self)


def _sweep(folder: Path) -> None:
    """Photos that were still coming when a run was cut off."""
    for each in (folder / KEPT / "coming").glob("*"):
        with suppress(OSError):
            each.unlink()


def _read(path: Path) -> str | None:
    """The text; None for what the reader of the folder has to tell about: absent, a link, no text."""
    try:
        if path.is_symlink():
            return None
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _marks(folder: Path) -> Iterator[str]:
    """Name, size and time of change of everything that the job is made of."""
    for name in (*FILES, ".gudgeon/journal.jsonl"):
        yield f"{name} {_mark(folder / name)}"
    for sub in ("photos", "documents"):
        for number, (where, _, names) in enumerate(os.walk(folder / sub)):
            if number > MOST_FILES:
                break
            for name in sorted(names)[:MOST_FILES]:
                yield f"{where} {name} {_mark(Path(where) / name)}"


def _mark(path: Path) -> str:
    try:
        status = path.lstat()
    except OSError:
        return "-"
    return f"{status.st_size} {status.st_mtime_ns} {status.st_ino} {stat.S_IFMT(status.st_mode)}"


def edits_of(raw: object) -> list[Edit]:
    """The edits that a request holds."""
    if not isinstance(raw, list) or not raw:
        raise EditError("There is nothing to change.", "Give edits as a list.")
    return [Edit.of(each) for each in raw]
