"""The folders that the desk was opened on: one job, or a folder of jobs to choose from or to begin one in.

In: the folder named on the command line. Out: the open job's store. A name that is chosen is one of those that are listed.
"""

from __future__ import annotations

from pathlib import Path
from threading import Lock
from typing import Any

from reporter.begin import Answers, empty_job
from reporter.desk.store import Store
from reporter.editing import EditError, value_in
from reporter.errors import NoSuchError, UsageError
from reporter.registry import Registry

MOST_LISTED = 500
LONGEST_NAME = 60


class Jobs:
    """What can be opened below one folder, and what is open."""

    def __init__(self, folder: Path, registry: Registry, *, is_job: bool) -> None:
        self.folder = folder
        self.registry = registry
        self._lock = Lock()
        self._open = Store(folder, registry) if is_job else None
        self._is_job = is_job

    def store(self) -> Store:
        """The open job; NoSuchError when none has been chosen yet."""
        if self._open is None:
            raise NoSuchError("No job is open yet.", "Choose one, or begin one.")
        return self._open

    @property
    def name(self) -> str | None:
        """The name of the open job."""
        return self._open.folder.name if self._open else None

    def told(self) -> dict[str, Any]:
        """What can be chosen, and what is open."""
        folders = [] if self._is_job else sorted(_job_folders(self.folder))
        return {
            "folder": str(self.folder),
            "jobs": [{"name": each.name, "title": _title(each)} for each in folders[:MOST_LISTED]],
            "open": self.name,
        }

    def open(self, name: object) -> None:
        """Open one of the jobs that are listed."""
        with self._lock:
            folder = next((each for each in _job_folders(self.folder) if each.name == name), None)
            if folder is None or self._is_job:
                raise NoSuchError("There is no job of that name here.", "Choose one of the list.")
            self._open = Store(folder, self.registry)

    def begin(self, name: object) -> None:
        """Begin a job in a folder of its own, with nothing in it yet, and open it."""
        with self._lock:
            folder = self.folder / _folder_name(name)
            if self._is_job:
                raise UsageError("A job is open already.", "Start gudgeon desk in another folder.")
            empty_job(folder, Answers(), self.registry, self.registry.template(Answers.purpose))
            self._open = Store(folder, self.registry)


def _job_folders(folder: Path) -> list[Path]:
    try:
        return [each for each in folder.iterdir() if not each.is_symlink() and (each / "job.yaml").is_file()]
    except OSError:
        return []


def _title(folder: Path) -> str:
    """The boat's name, where it can be read."""
    try:
        text = (folder / "job.yaml").read_bytes()[:2_000_000].decode("utf-8")
        found = value_in(text, ("vessel", "name"))
    except (OSError, UnicodeDecodeError, EditError):
        return ""
    return found if isinstance(found, str) else ""


def _folder_name(name: object) -> str:
    told = name.strip() if isinstance(name, str) else ""
    fits = told and len(told) <= LONGEST_NAME and told.isprintable() and not set(told) & set('/\\:*?"<>|')
    if not fits or told.startswith(".") or told.endswith("."):
        raise UsageError("This is no name for a folder.", "Use letters, digits, spaces and dashes.")
    return told
