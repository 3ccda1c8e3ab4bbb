"""A small report with three fields to sign, keys of people who do not exist, and their seals on it."""

from __future__ import annotations

import datetime as dt
import zlib
from dataclasses import dataclass
from pathlib import Path

from reporter.archive import archive
from reporter.model.report import Attachment, Blank, Heading, Paragraph, Report, Signatures, plain
from reporter.seal import add_signature, make_key, open_key
from reporter.seal.keys import Key
from reporter.typeset import typeset

PASSWORD = "four words that differ"  # noqa: S105 - of keys that live as long as a test
AUTHOR, RECEIVER, WITNESS, STRANGER = "Rowan Teale", "Mateus Lindqvar", "Joss Pellamar", "Nobody Known"
INK = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 150"><g fill="none" stroke="black">
<path d="M10 80 C 40 10, 65 10, 95 80 S 150 150, 180 80 q 20 -60 40 0 t 40 0"/><polyline points="5,90 260,95"/></g></svg>"""
NAMES = ("author", "received", "witness")


def report(words: str = "The wire has five broken strands.", data: bytes = b"format: 1\n") -> Report:
    """A report of one page."""
    blanks = (Blank(label="Signature"), Blank(label="Name"))
    return Report(
        title="Wire",
        subject="A made-up report",
        author=AUTHOR,
        number="2027-014",
        dated=dt.date(2027, 5, 12),
        running_head="",
        running_foot="",
        blocks=(
            Heading(level=1, text="Wire", listed=False),
            Paragraph(text=plain(words)),
            Signatures(blocks=(blanks,) * len(NAMES), fields=NAMES),
        ),
        attachments=(
            Attachment(
                name="job.yaml", media_type="application/yaml", description="Job", packed=zlib.compress(data)
            ),
        ),
    )


def written(document: Report, folder: Path, name: str = "report.pdf") -> bytes:
    """The finished, unsealed file."""
    folder.mkdir(parents=True, exist_ok=True)
    archive(document, typeset(document, {}, folder / "pages.pdf"), folder / name)
    return (folder / name).read_bytes()


def key_of(folder: Path, name: str) -> Key:
    """A new key, as its owner would open it."""
    file = folder / f"{name}.p12"
    make_key(file, name, PASSWORD, dt.datetime.now(dt.UTC) - dt.timedelta(minutes=1))
    return open_key(file, PASSWORD)


@dataclass(frozen=True)
class Made:
    """The unsealed report, then sealed, then signed by one and by two others; and everybody's key."""

    keys: dict[str, Key]
    plain: bytes
    sealed: bytes
    received: bytes
    witnessed: bytes


def made(folder: Path) -> Made:
    """Everything that the tests of this folder begin with."""
    keys = {name: key_of(folder, name) for name in (AUTHOR, RECEIVER, WITNESS, STRANGER)}
    unsealed = written(report(), folder)
    sealed = add_signature(unsealed, keys[AUTHOR], ink=INK)
    received = add_signature(sealed, keys[RECEIVER], "received", INK)
    return Made(keys, unsealed, sealed, received, add_signature(received, keys[WITNESS], "witness"))
