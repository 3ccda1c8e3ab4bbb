"""When a photo was taken and how that is known: from the camera's own words to a `Taken`.

Comes in: EXIF text, the job's time zone, the camera's correction. Goes out: a `Taken`, or None. Pure: no
file, no clock. The only date used is DateTimeOriginal; "file changed" (0x0132) is never taken for it.
Formats: JEITA CP-3451 (Exif 2.2), 4.6.5; offset tags: CIPA DC-008 (Exif 2.31), by the tag texts of libexif
and exiftool.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable

from reporter.door.metadata import Tags
from reporter.model.photo import OffsetBasis, Taken

_DATE = re.compile(r"(\d{4})[:./-](\d\d)[:./-](\d\d)[ T](\d\d):(\d\d):(\d\d)")
_OFFSET = re.compile(r"([+-])(\d\d):(\d\d)")
_QUARTER = 15 * 60
_LATEST_FIX = 120
"""Seconds by which a satellite fix may be older than the shutter. Real files: median 2, at most 101."""
_LOWEST, _HIGHEST = -12 * 60, 14 * 60

Correction = Callable[[dt.datetime], float]
"""Seconds to add to a camera time."""


def taken(tags: Tags, zone: dt.tzinfo, correction: Correction) -> Taken | None:
    """The time of one photo; None when the camera gave none or an impossible one.

    The offset is the written one, else the one that satellite time shows for the camera's clock, else that of
    `zone`.
    """
    camera_time = _camera_time(tags)
    if camera_time is None:
        return None
    seconds = correction(camera_time)
    try:
        time = camera_time + dt.timedelta(seconds=seconds)
    except OverflowError:
        return None
    offset, basis = _offset(tags, camera_time, time, zone)
    return Taken(
        camera_time=camera_time, time=time, correction=seconds, offset_minutes=offset, offset_basis=basis
    )


def zone(text: str) -> dt.tzinfo:
    """The time zone of `text`: a name of the IANA database ("Europe/Lisbon", "UTC") or an offset ("+02:00").

    Raises ValueError, in plain words, for anything else.
    """
    written = _offset_minutes(text.strip())
    if written is not None:
        return dt.timezone(dt.timedelta(minutes=written))
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        return ZoneInfo(text.strip())
    except (ZoneInfoNotFoundError, ValueError, OSError):
        msg = f"{text!r} is no time zone: write a name such as Europe/Lisbon, or an offset such as +02:00"
        raise ValueError(msg) from None


def _camera_time(tags: Tags) -> dt.datetime | None:
    """Blank and zero fields mean unknown (CP-3451, 4.6.5 D); so does a date that no calendar has."""
    found = _DATE.fullmatch(tags.date)
    if not found:
        return None
    # The digits stand after the point: "5" is half a second, "050" a twentieth.
    digits = tags.fraction if tags.fraction.isascii() and tags.fraction.isdigit() else "0"
    year, month, day, hour, minute, second = (int(part) for part in found.groups())
    try:
        return dt.datetime(year, month, day, hour, minute, second, int(digits[:6].ljust(6, "0")))  # noqa: DTZ001
    except ValueError:
        return None


def _offset(
    tags: Tags, camera_time: dt.datetime, time: dt.datetime, zone: dt.tzinfo
) -> tuple[int, OffsetBasis]:
    written = _offset_minutes(tags.offset)
    if written is not None:
        return written, OffsetBasis.WRITTEN
    inferred = _inferred(tags, camera_time)
    if inferred is not None:
        return inferred, OffsetBasis.INFERRED
    assumed = zone.utcoffset(time.replace(tzinfo=None)) or dt.timedelta(0)
    return round(assumed.total_seconds() / 60), OffsetBasis.ASSUMED


def _offset_minutes(text: str) -> int | None:
    found = _OFFSET.fullmatch(text)
    if not found or int(found[3]) > 59:  # noqa: PLR2004
        return None
    minutes = (int(found[2]) * 60 + int(found[3])) * (-1 if found[1] == "-" else 1)
    return minutes if _LOWEST <= minutes <= _HIGHEST else None


def _inferred(tags: Tags, camera_time: dt.datetime) -> int | None:
    """Camera time minus satellite time, when that is near enough to a quarter hour of a civil zone."""
    fix = _fix(tags)
    if fix is None:
        return None
    seconds = (camera_time - fix).total_seconds()
    quarters = round(seconds / _QUARTER)
    near = abs(seconds - quarters * _QUARTER) <= _LATEST_FIX
    return quarters * 15 if near and _LOWEST <= quarters * 15 <= _HIGHEST else None


def _fix(tags: Tags) -> dt.datetime | None:
    """Date and time (UTC) of the satellite fix; CP-3451, 4.6.6."""
    found = re.fullmatch(r"(\d{4}):(\d\d):(\d\d)", tags.gps_date)
    if not found or not tags.gps_time:
        return None
    hours, minutes, seconds = tags.gps_time
    if not (0 <= hours < 24 and 0 <= minutes < 60 and 0 <= seconds < 61):  # noqa: PLR2004
        return None
    try:
        day = dt.datetime(int(found[1]), int(found[2]), int(found[3]))  # noqa: DTZ001
    except ValueError:
        return None
    return day + dt.timedelta(hours=hours, minutes=minutes, seconds=seconds)
