"""Times, offsets and clock corrections, by values worked out by hand."""

# ruff: noqa: DTZ001 - the times of cameras have no zone

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest

from reporter.door.clocks import Clocks, correction
from reporter.door.metadata import Tags
from reporter.door.taken import taken, zone
from reporter.errors import JobError
from reporter.model.photo import OffsetBasis, Taken
from reporter.model.sheet import CameraClock, ClockReading

UTC = ZoneInfo("UTC")
NOON = "2027:05:12 12:00:00"


def _taken(tags: Tags, where: dt.tzinfo = UTC, seconds: float = 0.0) -> Taken | None:
    return taken(tags, where, lambda _: seconds)


@pytest.mark.parametrize(
    "text",
    ["", "    :  :     :  :  ", "0000:00:00 00:00:00", "2001:12:00 00:00:00", "2017:08:21 15:08:70", "2027:13:01 00:00:00",
     "2027:02:29 10:00:00", "2027:05:12", "Tue May  7 21:48:30 2002", "06:01:1998 10:00:00", "2027:05:12 24:00:00"],
)  # fmt: skip
def test_blank_zero_and_impossible_dates_are_no_time(text: str) -> None:
    assert _taken(Tags(date=text)) is None


def test_leap_day_and_parts_of_a_second() -> None:
    found = _taken(Tags(date="2028:02:29 23:59:59", fraction="050"))
    assert found is not None
    assert found.time == dt.datetime(2028, 2, 29, 23, 59, 59, 50_000)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("+00:00", 0), ("-08:00", -480), ("+05:45", 345), ("+14:00", 840), ("-12:00", -720),
     ("+14:15", None), ("-12:30", None), ("   :  ", None), ("+02:75", None), ("2", None)],
)  # fmt: skip
def test_written_offset(text: str, minutes: int | None) -> None:
    found = _taken(Tags(date=NOON, offset=text))
    assert found is not None
    expected = (0, OffsetBasis.ASSUMED) if minutes is None else (minutes, OffsetBasis.WRITTEN)
    assert (found.offset_minutes, found.offset_basis) == expected


def _with_fix(seconds_behind_local: int) -> Taken | None:
    """A photo at noon whose satellite time is that much earlier."""
    fix = dt.datetime(2027, 5, 12, 12) - dt.timedelta(seconds=seconds_behind_local)
    clock = (float(fix.hour), float(fix.minute), float(fix.second))
    return _taken(Tags(date=NOON, gps_date=f"{fix:%Y:%m:%d}", gps_time=clock), zone("+09:00"))


@pytest.mark.parametrize(
    ("behind", "minutes"),
    [
        (7200, 120),
        (7200 + 120, 120),
        (7200 - 120, 120),
        (-12 * 3600, -720),
        (14 * 3600, 840),
        (20700, 345),
        (0, 0),
    ],
)
def test_inferred_offset(behind: int, minutes: int) -> None:
    found = _with_fix(behind)
    assert found is not None
    assert (found.offset_minutes, found.offset_basis) == (minutes, OffsetBasis.INFERRED)


@pytest.mark.parametrize(
    "behind", [7200 + 121, 7200 - 121, 420, -12 * 3600 - 900, 14 * 3600 + 900, -22 * 3600]
)
def test_refused_inference(behind: int) -> None:
    found = _with_fix(behind)
    assert found is not None
    assert (found.offset_minutes, found.offset_basis) == (540, OffsetBasis.ASSUMED)


@pytest.mark.parametrize(
    ("day", "clock"),
    [("2027:05:259", (10.0, 0.0, 0.0)), ("1999:99:99", (10.0, 0.0, 0.0)), ("2027:05:12", ()), ("", (10.0, 0.0, 0.0)),
     ("0000:00:00", (10.0, 0.0, 0.0)), ("2027:05:12", (99.0, 99.0, 99.0))],
)  # fmt: skip
def test_damaged_satellite_time_gives_no_offset(day: str, clock: tuple[float, ...]) -> None:
    found = _taken(Tags(date=NOON, gps_date=day, gps_time=clock))
    assert found is not None
    assert found.offset_basis is OffsetBasis.ASSUMED


def test_assumed_offset_follows_summer_time() -> None:
    """Lisbon: UTC in winter, +01:00 from the last Sunday of March (IANA tz database, Europe)."""
    offsets = []
    for month in ("01", "07"):
        found = _taken(Tags(date=f"2027:{month}:12 12:00:00"), zone("Europe/Lisbon"))
        assert found is not None
        offsets.append(found.offset_minutes)
    assert offsets == [0, 60]


@pytest.mark.parametrize(
    "text", ["", "Lisbon", "+2", "+25:00", "../etc/passwd", "Europe", "/etc/localtime", "\0"]
)
def test_unknown_zone(text: str) -> None:
    with pytest.raises(ValueError, match="time zone"):
        zone(text)


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("+00:03:10", 190), ("-1d 00:01:35", -86495), ("-1d", -86400), ("+95", 95), ("-3.5 s", -3.5), ("+95s", 95),
     ("+ 01:00:00", 3600), ("\N{MINUS SIGN}00:00:02", -2), ("+12:00:00.5", 43200.5)],
)  # fmt: skip
def test_correction(text: str, seconds: float) -> None:
    assert correction(text) == seconds


@pytest.mark.parametrize(
    "text", ["", "95", "00:03:10", "+03:10", "+00:60:00", "+1d 2d", "+", "+1d1", "+1e3", "fast", "+d"]
)
def test_no_correction(text: str) -> None:
    with pytest.raises(ValueError, match="sign"):
        correction(text)


def _reading(camera: str, true: str) -> ClockReading:
    return ClockReading(
        camera_time=dt.datetime.fromisoformat(camera), true_time=dt.datetime.fromisoformat(true)
    )


def test_two_readings_are_joined_by_a_straight_line() -> None:
    """+100 s at 10:00, +108 s at 14:00 of the camera: 2 s an hour; at 11:30 it is 100 + 1.5 x 2 = 103."""
    clock = CameraClock(
        camera="Maker  Model 1",
        readings=(
            _reading("2027-05-12T14:00:00", "2027-05-12T14:01:48"),
            _reading("2027-05-12T10:00:00", "2027-05-12T10:01:40"),
        ),
    )
    at = Clocks([clock]).of("MAKER Model 1")
    day = dt.datetime(2027, 5, 12)
    hours = (9, 10, 11.5, 12, 14, 20)
    assert [at(day + dt.timedelta(hours=hour)) for hour in hours] == [100, 100, 103, 104, 108, 108]
    assert Clocks([clock]).of("Other camera")(day) == 0


def test_corrected_time_stands_beside_the_original() -> None:
    found = _taken(Tags(date=NOON), zone("Europe/Lisbon"), -86495)
    assert found is not None
    assert found.camera_time == dt.datetime(2027, 5, 12, 12)
    assert found.time == dt.datetime(2027, 5, 11, 11, 58, 25)
    assert found.correction == -86495


def test_all_bad_clocks_are_told_together() -> None:
    reading = _reading("2027-05-12T10:00:00", "2027-05-12T10:01:40")
    clocks = [
        CameraClock(camera="a", correction="fast"),
        CameraClock(camera="b"),
        CameraClock(camera="c", correction="+1", readings=(reading,)),
        CameraClock(
            camera="d", readings=(_reading("2027-05-12T10:00:00+02:00", "2027-05-12T10:01:40+02:00"),)
        ),
        CameraClock(camera="e", readings=(reading, _reading("2027-05-12T10:00:00", "2027-05-12T10:01:41"))),
        CameraClock(camera="f", correction="+1"),
        CameraClock(camera="F ", correction="+2"),
    ]
    with pytest.raises(JobError) as caught:
        Clocks(clocks)
    assert [problem.key for problem in caught.value.problems] == [
        f"cameras[{place}]" for place in (0, 1, 2, 3, 4, 6)
    ]
    assert all(problem.what and problem.do for problem in caught.value.problems)
