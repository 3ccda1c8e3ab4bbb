"""The fourth stage: the photos that a report uses, each visited once, to copies that can be printed and sent.

Comes in: the report, the job folder, a scratch folder. Goes out: a `Picture` for each file, on disk in the
scratch folder. No layout, no PDF; the originals are only read. All failures are gathered and told together.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from textwrap import wrap

from reporter import door
from reporter.develop import kept as keeping
from reporter.develop.copying import Copy, InsetOrder, Order, copy, put
from reporter.door import Refusal
from reporter.door.workers import Progress
from reporter.errors import JobError, Problem
from reporter.model.pages import Picture
from reporter.model.photo import Blur, Inset
from reporter.model.report import Photo, Report
from reporter.wording import catalogue
from reporter.wording.numbers import now_spoken

DOTS_PER_INCH = 220
"""Dots of the copy for each inch of its place on the page; *common practice* for photos in office print."""
PLACES = {"full": (170.0, 128.0), "column": (120.0, 96.0), "half": (83.0, 80.0)}
"""Width and height (mm) of the places that a photo can stand in; typesetting never makes a photo larger."""

_GREY, _INK = (222, 222, 222), (64, 64, 64)


@dataclass
class Wanted:
    """What all uses of one file want of it together."""

    sha256: str
    folder: str = ""
    box: tuple[int, int] = (0, 0)
    hidden: list[Blur] = field(default_factory=list)
    insets: dict[Inset, int] = field(default_factory=dict)


def develop(
    report: Report,
    folder: Path,
    scratch: Path,
    *,
    dpi: int = DOTS_PER_INCH,
    keep_going: bool = False,
    told: Progress | None = None,
    kept: Path | None = None,
    say: Callable[[str], str] = str,
) -> dict[str, Picture]:
    """The copies by `Photo.file`. Raises JobError with every photo that cannot be shown.

    `Picture.insets` are the file's different insets in the order in which the report first shows them. With
    `keep_going` a photo that cannot be shown becomes a grey plate that says why; so does `Picture.problem`.
    `told` is called with (done, all). `kept` is a folder of pictures of earlier runs: what it has is not made again.
    `say` puts what is wrong, and what to do about it, into the report's language.
    """
    wanted = gather(report, dpi)
    root, place = folder.absolute(), scratch.absolute()
    orders = [_order(name, each, root, place) for name, each in wanted.items()]
    answers = dict(zip(wanted, _copies(orders, place, told, kept), strict=True))
    refused = {name: answer for name, answer in answers.items() if isinstance(answer, Refusal)}
    if refused and not keep_going:
        raise JobError([Problem(name, 0, "", refusal.what, refusal.do) for name, refusal in refused.items()])
    return {
        name: _plate(Refusal(say(answer.what), say(answer.do)), wanted[name], place)
        if isinstance(answer, Refusal)
        else _picture(answer, place)
        for name, answer in answers.items()
    }


def _copies(
    orders: list[Order], scratch: Path, told: Progress | None, folder: Path | None
) -> list[Copy | Refusal]:
    if folder is None:
        return door.run(copy, [(order,) for order in orders], told=told)
    entries = [keeping.entry(order, folder) for order in orders]
    found = [entry and keeping.find(entry, scratch) for entry in entries]
    missing = [
        (order, str(entry or ""))
        for order, entry, made in zip(orders, entries, found, strict=True)
        if made is None
    ]
    before = len(orders) - len(missing)

    def count(done: int, _missing: int) -> None:
        if told:
            told(before + done, len(orders))

    count(0, 0)
    made_now = iter(door.run(keeping.copy_and_keep, missing, told=count))
    if missing:
        keeping.make_room(folder)
    return [made or next(made_now) for made in found]


def gather(report: Report, dpi: int) -> dict[str, Wanted]:
    """Every use of a file counts: the largest size, all its blurs, all its insets."""
    files: dict[str, Wanted] = {}
    for photo in report.photos:
        wanted = files.setdefault(photo.file, Wanted(photo.sha256, photo.folder))
        place = _pixels(photo, dpi)
        wanted.box = max(wanted.box, place)  # a wider place is also the higher one
        for mark in photo.marks:
            if isinstance(mark, Blur):
                wanted.hidden.append(mark)
            elif isinstance(mark, Inset):
                seen = wanted.insets.get(mark, 0)
                wanted.insets[mark] = max(seen, round(2 * mark.radius * mark.zoom * place[0]))
    return files


def _pixels(photo: Photo, dpi: int) -> tuple[int, int]:
    width, height = PLACES[photo.size]
    return round(width / 25.4 * dpi), round(height / 25.4 * dpi)


def _order(name: str, wanted: Wanted, root: Path, scratch: Path) -> Order:
    return Order(
        path=str(root / name),
        root=str(root / wanted.folder),
        scratch=str(scratch),
        sha256=wanted.sha256,
        box=wanted.box,
        hidden=tuple(_rect(blur) for blur in wanted.hidden),
        insets=tuple(InsetOrder(*mark.at, mark.radius, pixels) for mark, pixels in wanted.insets.items()),
    )


def _rect(blur: Blur) -> tuple[float, float, float, float]:
    (x1, y1), (x2, y2) = blur.corner, blur.opposite
    return min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)


def _picture(made: Copy, scratch: Path) -> Picture:
    insets = tuple(scratch / name for name in made.insets)
    return Picture(scratch / made.name, made.width, made.height, insets)


def _plate(refusal: Refusal, wanted: Wanted, scratch: Path) -> Picture:
    file, width, height = _draw_plate(str(refusal), wanted.box[0], scratch)
    return Picture(file, width, height, (file,) * len(wanted.insets), problem=str(refusal))


def _draw_plate(reason: str, width: int, scratch: Path) -> tuple[Path, int, int]:
    """File, width and height of a grey plate with the reason on it, of the shape 4:3, `width` pixels across."""
    from PIL import Image, ImageDraw, ImageFont

    height = round(width * 3 / 4)
    plate = Image.new("RGB", (width, height), _GREY)
    draw = ImageDraw.Draw(plate)
    draw.rectangle((0, 0, width - 1, height - 1), outline=_INK, width=max(1, width // 300))
    size = max(10, width // 26)
    words = "\n".join([catalogue(now_spoken().language)("photo.plate"), "", *wrap(reason, 44)])
    centre, font = (width / 2, height / 2), ImageFont.load_default(size)
    draw.multiline_text(centre, words, fill=_INK, font=font, anchor="mm", align="center")
    buffer = BytesIO()
    plate.save(buffer, "JPEG", quality=85)
    return scratch / put(buffer.getvalue(), scratch), width, height
