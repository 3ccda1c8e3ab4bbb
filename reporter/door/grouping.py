"""Photos in the order they were taken, parted where the camera rested. Pure."""

from __future__ import annotations

import datetime as dt

from reporter.model.photo import PhotoFile


def group_by_gaps(photos: list[PhotoFile], gap_minutes: float) -> list[list[PhotoFile]]:
    """Groups in order of the (corrected) time; a pause longer than `gap_minutes` begins a new group.

    Photos without a time come last, as one group, by name. No group is empty.
    """
    timed = sorted((photo for photo in photos if photo.taken), key=_when)
    groups: list[list[PhotoFile]] = []
    for photo in timed:
        if groups and _when(photo)[0] - _when(groups[-1][-1])[0] <= dt.timedelta(minutes=gap_minutes):
            groups[-1].append(photo)
        else:
            groups.append([photo])
    untimed = sorted((photo for photo in photos if not photo.taken), key=lambda photo: photo.name)
    return [*groups, untimed] if untimed else groups


def _when(photo: PhotoFile) -> tuple[dt.datetime, str]:
    assert photo.taken is not None  # noqa: S101 - only asked of photos with a time
    return photo.taken.time, photo.name
