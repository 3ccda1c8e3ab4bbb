"""Documents made in a process of their own, so that the page answers meanwhile; their progress and their pages.

In: the job folder and what is wanted. Out: a file in a folder of this run, its number of pages, pictures of them. One
document is made at a time; the last one of each kind is kept until the next.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from threading import Lock, Thread
from typing import Any, Literal

from reporter.desk.making import STEPS
from reporter.errors import NoSuchError, UsageError

ENDINGS = {"report": ".pdf", "html": ".html", "work": "-work.pdf", "plan": "-plan.pdf", "sheet": "-sheet.pdf"}
WIDEST, NARROWEST = 2400, 60


@dataclass(frozen=True)
class Build:
    """How far a document is. `step` of `steps` is done; `words` says which it is at."""

    build: int = 0
    what: str = ""
    step: int = 0
    steps: int = 0
    words: str = ""
    state: Literal["idle", "running", "done", "failed"] = "idle"
    error: str = ""
    do: str = ""
    pages: int = 0
    file: str = ""


class Building:
    """All documents of one run, in `scratch`."""

    def __init__(self, scratch: Path) -> None:
        self.scratch = scratch
        self._lock = Lock()
        self._now = Build()
        self._process: subprocess.Popen[str] | None = None
        self._files: set[str] = set()

    def told(self) -> dict[str, Any]:
        """The document that is made, or was last."""
        with self._lock:
            return asdict(self._now)

    def start(self, folder: Path, what: str) -> int:
        """Begin a document; UsageError while another one is being made, or for one that is not known."""
        if what not in ENDINGS:
            msg = f"'{str(what)[:40]}' is no document."
            raise UsageError(msg, f"Documents are: {', '.join(ENDINGS)}.")
        with self._lock:
            if self._now.state == "running":
                raise UsageError("A document is being made already.", "Wait for it.")
            file = f"{folder.name}{ENDINGS[what]}"
            number = self._now.build + 1
            self._now = Build(number, what, 0, STEPS[what], state="running", file=file)
            self._process = self._begin(folder, file, what)
            Thread(target=self._follow, args=(self._process, number), daemon=True).start()
            return number

    def _begin(self, folder: Path, file: str, what: str) -> subprocess.Popen[str]:
        # -P and another folder to start in: nothing of a job folder is ever imported.
        command = [
            sys.executable,
            "-P",
            "-m",
            "reporter.desk.making",
            str(folder),
            str(self.scratch / file),
            what,
        ]
        return subprocess.Popen(  # noqa: S603 - our own program, no shell
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            cwd=self.scratch,
            # Ctrl-C in the terminal is for the desk, which ends this process itself.
            start_new_session=True,
            # What it leaves when it is ended lies in the folder of this run, and goes with it.
            env={**os.environ, "PYTHONSAFEPATH": "1", "TMPDIR": str(self.scratch)},
        )

    def _follow(self, process: subprocess.Popen[str], number: int) -> None:
        failed = {"error": "The program that makes the document ended early.", "do": "Try it again."}
        with process:
            for line in process.stdout or ():
                told = json.loads(line)
                if "step" in told:
                    self._set(number, step=self._now.step + 1, words=str(told["step"])[2:])
                else:
                    failed = {} if "done" in told else {key: str(told[key]) for key in ("error", "do")}
        if failed:
            self._set(number, state="failed", **failed)
            return
        self._files.add(self._now.file)
        self._set(number, state="done", step=self._now.steps, pages=_pages(self.scratch / self._now.file))

    def _set(self, number: int, **told: Any) -> None:
        with self._lock:
            if self._now.build == number:
                self._now = replace(self._now, **told)

    def file(self, name: str) -> Path:
        """A document that was made; NoSuchError for any other name."""
        if name not in self._files:
            raise NoSuchError("There is no such document.", "Make it first.")
        return self.scratch / name

    def page(self, number: int, width: int) -> bytes:
        """A page of the last document as a JPEG, counted from 1."""
        now = self._now
        if now.state != "done" or not 1 <= number <= now.pages:
            raise NoSuchError("There is no such page.", "Make the document first.")
        return _picture(self.scratch / now.file, number, min(max(width, NARROWEST), WIDEST))

    def end(self) -> None:
        """Nothing goes on after the server has ended."""
        process = self._process
        if process and process.poll() is None:
            process.terminate()
            process.wait()


_reading = Lock()
"""PDFium does one thing at a time."""


def _pages(file: Path) -> int:
    if file.suffix != ".pdf":
        return 0
    import pypdfium2

    with _reading, pypdfium2.PdfDocument(file) as document:
        return len(document)


def _picture(file: Path, number: int, width: int) -> bytes:
    from io import BytesIO

    import pypdfium2

    with _reading, pypdfium2.PdfDocument(file) as document:
        page = document[number - 1]
        image = page.render(scale=width / page.get_width()).to_pil()
        page.close()
    buffer = BytesIO()
    image.convert("RGB").save(buffer, "JPEG", quality=82)
    return buffer.getvalue()
