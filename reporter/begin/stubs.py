"""The first `findings.yaml`: no part yet, and below it each part that this boat should have, as a comment to be taken up. Pure.

A stub is the long form of an entry, with the questions of its kind and their answers. Its lines begin with `#`; taking these
away makes an entry that reads. What stands behind a second `#` is then still to be chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.asking import Stop
from reporter.begin.job_sheet import scalar
from reporter.begin.proposing import Placed, Proposal
from reporter.model.plugin import Kinds, Plugin
from reporter.model.terms import Extent

_HEAD = """\
# One entry for each part that you looked at, or could not look at, and why.
# To take up a part below, remove the first # of its lines; then the second #
# before what you looked at and what you saw, leaving one answer to each.
# `gudgeon describe KIND` tells how to look; `gudgeon plugins` lists all kinds.
# What she has not got, delete, or say `extent: not_fitted`.
format: 1

components:
"""
_WAITING = """\

# Photos that no part is proposed for, in the order they were taken, parted
# where you paused for more than {gap:g} minutes. Move them to a part's photos.
"""


def findings_text(
    kinds: Kinds, stops: Sequence[Stop], made: Proposal, remarks: Sequence[str], gap_minutes: float
) -> str:
    """The text of findings.yaml: a stub for each part of `stops`, and for each other kind that a photo is proposed to."""
    lines = [_HEAD.rstrip("\n")]
    listed = [(stop, part.kind) for stop in stops for part in stop.parts]
    for stop, kind in listed:
        if (stop, kind) == next(each for each in listed if each[0] == stop):
            lines += ["", f"# ---- {stop.system.title}: {stop.title}"]
        lines += ["", *_stub(kinds.plugins[kind], made.by_kind.get(kind, []))]
    shown = [kind for kind in made.by_kind if kind not in {each for _, each in listed}]
    lines += ["", "# ---- Shown on photos, and not expected of every boat"] if shown else []
    for kind in shown:
        lines += ["", *_stub(kinds.plugins[kind], made.by_kind[kind])]
    lines += _waiting(made.waiting, gap_minutes)
    lines += ["", "# Remarks on photos:", *(f"#   {_one_line(each)}" for each in remarks)] if remarks else []
    return "\n".join(lines) + "\n"


def _stub(plugin: Plugin, photos: Sequence[Placed]) -> Iterator[str]:
    """An entry of this kind, commented out."""
    yield f"#  - id: {plugin.kind.replace('_', '-')}"
    yield f"#    kind: {plugin.kind:<24} # {plugin.title}"
    yield "#    examined:"
    others = ", ".join(each.value for each in Extent if each is not Extent.SEEN)
    yield f"#      extent: seen                # or {others}"
    if plugin.examination:
        yield "#      included:                   # what of it you looked at; all of it: [all]"
        yield from (f"#        # - {each.id:<22} # {_one_line(each.words)}" for each in plugin.examination)
    usual = [each for each in plugin.observations if each.asked == "usual"]
    if usual:
        yield "#    observed:"
        yield from (f"#      # {each.id}: {' | '.join(one.id for one in each.choices)}" for each in usual)
    readings = [each.id for each in plugin.readings if each.asked == "usual"]
    if readings:
        yield f"#    # to measure, for measurements.csv: {', '.join(readings)}"
    if photos:
        yield "#    photos:"
        yield from (f"#      - {_use(each)}" for each in photos)


def _waiting(groups: Sequence[Sequence[Placed]], gap_minutes: float) -> Iterator[str]:
    if groups:
        yield _WAITING.format(gap=gap_minutes).rstrip("\n")
    for group in groups:
        times = [each.photo.taken.time for each in group if each.photo.taken]
        yield f"# {times[0]:%Y-%m-%d %H:%M} to {times[-1]:%H:%M}" if times else "# photos without a time"
        yield from (f"#      - {_use(each)}" for each in group)


def _use(placed: Placed) -> str:
    """A photo as findings.yaml takes it, with its caption; behind it when it was taken, and why it is proposed here."""
    name = scalar(placed.photo.name)
    use = f"{{file: {name}, caption: {scalar(placed.caption)}}}" if placed.caption else name
    when = f"{placed.photo.taken.time:%H:%M:%S}" if placed.photo.taken else ""
    notes = "; ".join(filter(None, (when, placed.why)))
    return f"{use}   # {notes}" if notes else use


def _one_line(text: str) -> str:
    return "".join(each if each.isprintable() else " " for each in text)
