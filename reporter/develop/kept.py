"""Pictures kept from one run to the next, in the user's own cache folder, so that a changed word costs no developing.

Comes in: an order, and later the copy that was made of it. Goes out: the same copy again, byte for byte, or nothing. An
entry's name says all that the picture follows from: what the photo holds, what is asked of it, the program that makes it
and the libraries that decode. Of a photo with something hidden only the outcome is kept. An entry that is damaged, cut
short, a link, somebody else's or of another name counts as none; so does a folder that cannot be used.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import stat
from contextlib import suppress
from functools import lru_cache
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

from reporter.develop.copying import Copy, Order, copy, put
from reporter.door.formats import PLAIN
from reporter.machine.own_folder import own_folder

MOST_BYTES = 500_000_000
"""Of all entries together: some 1,500 photos at the full width of a page. What was used longest ago goes first."""
_MAKERS = ("develop", "door")
_LIBRARIES = ("pillow", "pi-heif")
_BEGINNING = b"gudgeon picture\n"
_DIGEST = 32
_ENTRY = re.compile(r"[0-9a-f]{64}(\.\d+)?")


def kept_pictures() -> Path:
    """Where pictures are kept, a folder of our own; it need not be there yet."""
    return own_folder() / "pictures"


def entry(order: Order, folder: Path) -> Path | None:
    """Where the picture of an order is kept, or will be; nowhere for a photo of which only the name is known."""
    if not order.sha256:
        return None
    asked = (order.sha256, Path(order.path).suffix.lower(), order.box, order.hidden, order.insets)
    return folder / hashlib.sha256(f"{_recipe()}{asked!r}".encode()).hexdigest()


def find(path: Path, scratch: Path) -> Copy | None:
    """The copy that an entry holds, laid into the scratch folder again."""
    try:
        held = _opened(_read(path), path.name)
        if held is None:
            return None
        (width, height), contents = held
        names = [put(content, scratch) for content in contents]
        os.utime(path)
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return Copy(names[0], width, height, tuple(names[1:]))


def copy_and_keep(order: Order, path: str) -> Copy:
    """Makes the copy and keeps it. Runs in a worker; what cannot be kept is no fault."""
    made = copy(order)
    if not path:
        return made
    with suppress(OSError):
        contents = [(Path(order.scratch) / each).read_bytes() for each in (made.name, *made.insets)]
        _keep(Path(path), (made.width, made.height), contents)
    return made


def make_room(folder: Path, most: int = MOST_BYTES) -> None:
    """Takes away what was used longest ago until the rest is no more than `most` bytes."""
    found = []
    with suppress(OSError), os.scandir(folder) as there:
        for each in filter(lambda each: _ENTRY.fullmatch(each.name), there):
            about = each.stat(follow_symlinks=False)
            found.append((about.st_mtime_ns, each.name, about.st_size))
    kept = 0
    for _, name, size in sorted(found, reverse=True):
        kept += size
        if kept > most:
            with suppress(OSError):
                (folder / name).unlink()


@lru_cache(maxsize=1)
def _recipe() -> str:
    """The program's own steps and the libraries that decode and encode: another of them may give other pixels."""
    digest = hashlib.sha256(repr([version(each) for each in _LIBRARIES]).encode())
    for package in _MAKERS:
        for file in sorted(files("reporter").joinpath(package).iterdir(), key=lambda each: each.name):
            if file.name.endswith((".py", ".icc")):
                digest.update(file.read_bytes())
    return digest.hexdigest()


def _keep(path: Path, size: tuple[int, int], contents: list[bytes]) -> None:
    if not _is_ours(path.parent):
        return
    head = json.dumps({"entry": path.name, "size": size, "lengths": [*map(len, contents)]})
    body = b"".join([head.encode(), b"\n", *contents])
    unfinished = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        with os.fdopen(
            os.open(unfinished, os.O_WRONLY | os.O_CREAT | os.O_EXCL | PLAIN, 0o600), "wb"
        ) as file:
            file.write(_BEGINNING + hashlib.sha256(body).digest() + body)
        unfinished.replace(path)
    except OSError:
        unfinished.unlink(missing_ok=True)
        raise


def _is_ours(folder: Path) -> bool:
    """Makes the folder for its owner alone; one that belongs to somebody else is not used."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    about = folder.stat()
    if not _owned(about):
        return False
    if stat.S_IMODE(about.st_mode) & 0o077:
        folder.chmod(0o700)
    return True


def _owned(about: os.stat_result) -> bool:
    return not hasattr(os, "getuid") or about.st_uid == os.getuid()


def _read(path: Path) -> bytes:
    """An ordinary file of our own; nothing of any other."""
    with os.fdopen(os.open(path, os.O_RDONLY | PLAIN), "rb") as file:
        about = os.fstat(file.fileno())
        ordinary = stat.S_ISREG(about.st_mode) and _owned(about) and about.st_size <= MOST_BYTES
        return file.read() if ordinary else b""


def _opened(data: bytes, name: str) -> tuple[tuple[int, int], list[bytes]] | None:
    """Size and pictures of an entry, if it is whole and the one that is asked for."""
    start = len(_BEGINNING) + _DIGEST
    if data[:start] != _BEGINNING + hashlib.sha256(data[start:]).digest():
        return None
    head, _, rest = data[start:].partition(b"\n")
    told, contents = json.loads(head), []
    for length in told["lengths"]:
        contents.append(rest[:length])
        rest = rest[length:]
    width, height = told["size"]
    return ((width, height), contents) if told["entry"] == name else None
