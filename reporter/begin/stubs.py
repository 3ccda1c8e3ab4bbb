"""The first `findings.yaml`: no part yet, and below it each part that this boat should have, as a comment to be taken up. Pure.

A stub is the long form of an entry, with the questions of its kind and their answers. Its lines begin with `#`; taking these
away makes an entry that reads. What stands behind a second `#` is then still to be chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from reporter.asking import Stop
from reporter.begin.job_sheet import scalar
from reporter.begin.proposing import Placed, Proposal
from reporter.model.plugin import Kinds, Plugin
from reporter.model.terms import Extent
from reporter.wording import Catalogue, catalogue

_WIDTH = 79
"""Characters of a line of the comment at the head, which is read in any editor."""


def findings_text(
    kinds: Kinds,
    stops: Sequence[Stop],
    made: Proposal,
    remarks: Sequence[str],
    gap_minutes: float,
    lang: str = "en",
) -> str:
    """The text of findings.yaml: a stub for each part of `stops`, and for each other kind that a photo is proposed to."""
    words = catalogue(lang)
    lines = [*_comment(words("begin.entries"), words("begin.take_up"), words("begin.not_there"))]
    lines += ["format: 1", "", "components:"]
    listed = [(stop, part.kind) for stop in stops for part in stop.parts]
    for stop, kind in listed:
        if (stop, kind) == next(each for each in listed if each[0] == stop):
            lines += ["", f"# ---- {words.terms(stop.system.title)}: {words.terms(stop.title)}"]
        lines += ["", *_stub(kinds.plugins[kind], made.by_kind.get(kind, []), words)]
    shown = [kind for kind in made.by_kind if kind not in {each for _, each in listed}]
    lines += ["", f"# ---- {words('begin.shown_besides')}"] if shown else []
    for kind in shown:
        lines += ["", *_stub(kinds.plugins[kind], made.by_kind[kind], words)]
    lines += _waiting(made.waiting, gap_minutes, words)
    lines += (
        ["", f"# {words('begin.remarks')}", *(f"#   {_one_line(each)}" for each in remarks)]
        if remarks
        else []
    )
    return "\n".join(lines) + "\n"


def _comment(*paragraphs: str) -> Iterator[str]:
    for each in paragraphs:
        yield from wrap(each, _WIDTH, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def _stub(plugin: Plugin, photos: Sequence[Placed], words: Catalogue) -> Iterator[str]:
    """An entry of this kind, commented out."""
    yield f"#  - id: {plugin.kind.replace('_', '-')}"
    yield f"#    kind: {plugin.kind:<24} # {words.terms(plugin.title)}"
    yield "#    examined:"
    others = ", ".join(each.value for each in Extent if each is not Extent.SEEN)
    yield f"#      extent: seen                # {words('begin.or', others=others)}"
    if plugin.examination:
        yield f"#      included:                   # {words('begin.included')}"
        yield from (
            f"#        # - {each.id:<22} # {_one_line(words.terms(each.words))}"
            for each in plugin.examination
        )
    usual = [each for each in plugin.observations if each.asked == "usual"]
    if usual:
        yield "#    observed:"
        yield from (f"#      # {each.id}: {' | '.join(one.id for one in each.choices)}" for each in usual)
    readings = [each.id for each in plugin.readings if each.asked == "usual"]
    if readings:
        yield f"#    # {words('begin.to_measure')} {', '.join(readings)}"
    if photos:
        yield "#    photos:"
        yield from (f"#      - {_use(each, words)}" for each in photos)


def _waiting(groups: Sequence[Sequence[Placed]], gap_minutes: float, words: Catalogue) -> Iterator[str]:
    if groups:
        yield ""
        yield from _comment(words("begin.waiting", gap=f"{gap_minutes:g}"))
    for group in groups:
        times = [each.photo.taken.time for each in group if each.photo.taken]
        span = (
            words("begin.span", first=f"{times[0]:%Y-%m-%d %H:%M}", last=f"{times[-1]:%H:%M}")
            if times
            else words("begin.no_time")
        )
        yield f"# {span}"
        yield from (f"#      - {_use(each, words)}" for each in group)


def _use(placed: Placed, words: Catalogue) -> str:
    """A photo as findings.yaml takes it, with its caption; behind it when it was taken, and why it is proposed here."""
    name = scalar(placed.photo.name)
    use = f"{{file: {name}, caption: {scalar(placed.caption)}}}" if placed.caption else name
    when = f"{placed.photo.taken.time:%H:%M:%S}" if placed.photo.taken else ""
    why = words(f"begin.by_{placed.why}") if placed.why else ""
    notes = "; ".join(filter(None, (when, why)))
    return f"{use}   # {notes}" if notes else use


def _one_line(text: str) -> str:
    return "".join(each if each.isprintable() else " " for each in text)
