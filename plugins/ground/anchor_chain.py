"""Anchor chain: wear of its links by two diameters, length over eleven links, strength.

Comes in: Evidence of one chain, with the vessel's length. Goes out: wear against the limits of class, which are strict
about their own figure; stretch against the pitch of its standard, where that is known: 10 mm chain has two. Limits
stand in anchor_chain.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Amount,
    Assessment,
    Check,
    Dimension,
    Evidence,
    MeasurementPoint,
    Missing,
    SourceFigure,
    Text,
    Value,
    Working,
    against,
    asking,
    at_or_over,
    beside,
    chosen,
    either,
    is_spent,
    neighbours,
    say,
    series,
    size_question,
    stated,
    sums,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.constants import INCH
from reporter.engineering.tackle import (
    chain_wear,
    eleven_links,
    ground_chains,
    mean_diameter,
    section_left,
    sling_least,
    sling_share,
)

from .chain_strength import strength
from .outfit import size_beside_table

NEIGHBOUR = "anchor_chain.diameter.neighbour"
OR_MORE = {"anchor_chain.wear.renew", "anchor_chain.wear.remove"}
"""Limits whose text says "or more": the figure itself is over."""


def assess(evidence: Evidence) -> Assessment:
    """Wear, stretch and strength; a guessed size and an unknown pitch become questions."""
    worn, stretched = tuple(_wear(evidence)), tuple(_stretch(evidence))
    spent = is_spent(evidence, (*worn, *stretched))
    sized = size_question(evidence, "size", NEIGHBOUR) if evidence.at("worn") else None
    asked = [each for each in (sized, _pitch_question(evidence)) if each]
    return Assessment(
        checks=(
            *worn,
            *stretched,
            *strength(evidence, spent=spent),
            *size_beside_table(evidence, "size", "chain"),
        ),
        missing=tuple(missing for missing, _ in asked),
        actions=tuple(action for _, action in asked),
    )


def _wear(evidence: Evidence) -> Iterator[Check]:
    """Mean of two diameters at each place against class, and the least of them against the law for slings."""
    size = stated(evidence, "size")
    if size is None or neighbours(evidence, "size", NEIGHBOUR):
        return
    for spot in evidence.at("worn"):
        mean, before = _mean(evidence, spot)
        wear, sum_ = work(chain_wear, {"size": size, "worn": mean})
        left, section = work(section_left, {"size": size, "worn": mean})
        for check in against(evidence, "wear", wear, like=spot, working=(*before, sum_)):
            yield at_or_over(check) if check.limit and check.limit.id in OR_MORE else check
        yield worked_out("anchor_chain", "section_left", left, (section,), like=spot)
        yield from _beside_law(evidence, size, spot)


def _mean(evidence: Evidence, spot: MeasurementPoint) -> tuple[Value, tuple[Working, ...]]:
    """Mean of the two diameters at one place; where only one was taken it stands for both."""
    across = beside(evidence, "worn_across", spot)
    if across is None:
        return spot.value, ()
    mean, sum_ = work(mean_diameter, {"first": spot.value, "second": across.value})
    return mean, (sum_,)


def _beside_law(evidence: Evidence, size: Value, spot: MeasurementPoint) -> Iterator[Check]:
    try:
        row = sling_least(size.value)
    except ValueError:
        return
    across = beside(evidence, "worn_across", spot)
    least = min((each.value for each in (spot, across) if each), key=lambda value: value.value)
    share, sum_ = work(sling_share, {"least": least, "law": row.least_in * INCH})
    yield from against(evidence, "sling_share", share, like=spot, working=(sum_,))


def _pitches(evidence: Evidence) -> tuple[float, ...]:
    """Every pitch in millimetres that this chain can have, by its own statement or by size and standard."""
    own, size = stated(evidence, "pitch"), stated(evidence, "size")
    if own:
        return (units.from_base(own.value, "mm"),)
    if size is None:
        return ()
    standard = chosen(evidence, "standard")
    rows = [
        row
        for row in ground_chains(size.value)
        if not (standard == "iso_4565" and not row.iso_4565)
        and not (standard == "din_766" and not row.din_766)
    ]
    return () if standard == "other" else tuple(sorted({row.pitch_mm for row in rows}))


def _stretch(evidence: Evidence) -> Iterator[Check]:
    """Eleven links against eleven pitches.

    With two pitches possible nothing is said here, since the wrong one would read as a stretch of several per cent:
    `_pitch_question` asks.
    """
    pitches = _pitches(evidence)
    if len(pitches) != 1:
        return
    pitch = Value(dimension=Dimension.LENGTH, value=units.to_base(pitches[0], "mm"), unit="mm")
    for spot, result, sum_ in sums(evidence, eleven_links, {"length": "eleven"}, {"pitch": pitch}):
        yield from against(evidence, "stretch", result, like=spot, working=(sum_,))


def _pitch_question(evidence: Evidence) -> tuple[Missing, Action] | None:
    """Ten-millimetre chain has two pitches: without its standard, eleven links say nothing, and a gypsy may not fit."""
    pitches = _pitches(evidence)
    if len(pitches) < 2:  # noqa: PLR2004 - two pitches make the question
        return None
    words = either([SourceFigure(figure=pitch, unit="mm") for pitch in pitches])
    spots = evidence.at("eleven")
    over = series([_share(spots[0].value.value, pitch) for pitch in pitches], by=", ") if spots else ""
    measured = say("pitch_measured", kind="anchor_chain", shares=over) if spots else ""
    return asking(
        "anchor_chain.pitch",
        say("pitch_title", kind="anchor_chain"),
        say("pitch_why", kind="anchor_chain", pitches=words, measured=measured),
        say("pitch_ask", kind="anchor_chain", pitches=words),
    )


def _share(length: float, pitch: float) -> Text:
    full = 11 * pitch
    share = Amount(amount=length / units.to_base(full, "mm"), unit="%", decimals=1)
    return say("pitch_share", kind="anchor_chain", share=share, length=SourceFigure(figure=full, unit="mm"))
