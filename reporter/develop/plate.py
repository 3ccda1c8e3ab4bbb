"""The grey plate that stands in for a photo that cannot be shown, with the reason on it.

Comes in: the reason and a width. Goes out: a JPEG in the scratch folder. Opens no photo, so needs no worker.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from textwrap import wrap

from reporter.develop.copying import put
from reporter.wording import catalogue
from reporter.wording.numbers import now_spoken

_GREY, _INK = (222, 222, 222), (64, 64, 64)


def draw_plate(reason: str, width: int, scratch: Path) -> tuple[Path, int, int]:
    """File, width and height of a plate of the shape 4:3, `width` pixels across."""
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
