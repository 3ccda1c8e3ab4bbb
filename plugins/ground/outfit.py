"""Ground tackle beside the outfit tables for small commercial vessels: what is aboard in parts of the table's figure.

Comes in: Evidence with the vessel's length. Goes out: checks for information: the codes were written for vessels in
commercial use, and their figures are for anchors of high holding power.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from reporter.contract import Check, Citation, Evidence, Text, Value, Working, Written, compare, say, vessel
from reporter.engineering import Formula, Symbol, formula, work
from reporter.engineering.rows import AnchorOutfit
from reporter.engineering.tackle import outfit

_TABLE = Citation.model_validate({
    "title": "UK small commercial vessel code and Caribbean small commercial vessel code",
    "clause": "Table 20.1; Annex 7", "status": "READ", "basis": "law",
})  # fmt: skip
_MEAN = Citation.model_validate({
    "title": "UK small commercial vessel code", "clause": "length by which the table is entered", "status": "MEMORY", "basis": "law",
})  # fmt: skip


@formula(
    title="Mean length",
    text="L = (L_oa + L_wl) / 2",
    symbols={
        "overall": Symbol("L_oa", "length overall", "m"),
        "waterline": Symbol("L_wl", "waterline length", "m"),
    },
    result=Symbol("L", "mean length", "m"),
    source=_MEAN,
)
def mean_length(overall: float, waterline: float) -> float:
    """Mean of length overall and waterline length, in metres."""
    return (overall + waterline) / 2


@formula(
    title="Mass in parts of the outfit table",
    text="s = m / m_t",
    symbols={
        "own": Symbol("m", "mass of the anchor", "kg"),
        "table": Symbol("m_t", "mass in the table", "kg"),
    },
    result=Symbol("s", "share of the table's figure", "%"),
    source=_TABLE,
)
def mass_share(own: float, table: float) -> float:
    """Mass aboard in parts of the table's, both in kilograms."""
    return own / table


@formula(
    title="Size in parts of the outfit table",
    text="s = d / d_t",
    symbols={"own": Symbol("d", "size aboard", "mm"), "table": Symbol("d_t", "size in the table", "mm")},
    result=Symbol("s", "share of the table's figure", "%"),
    source=_TABLE,
)
def size_share(own: float, table: float) -> float:
    """Size aboard in parts of the table's, both in metres."""
    return own / table


def beside_table(
    evidence: Evidence,
    own: Value | None,
    sum_: Formula[...],
    figure: Callable[[AnchorOutfit], Value],
) -> Iterator[Check]:
    """The share of the table's figure, against every limit that speaks of it; nothing where a size is not known."""
    found = _row(evidence)
    if own is None or found is None:
        return
    row, before, note = found
    share, working = work(sum_, {"own": own, "table": figure(row)})
    for limit in evidence.limits.values():
        if limit.quantity == "table_share":
            yield compare(evidence, share, limit, working=(*before, working), notes=note)


def _row(evidence: Evidence) -> tuple[AnchorOutfit, tuple[Working, ...], tuple[Text, ...]] | None:
    """The table's row; by length overall alone, which asks for more, where no waterline length is known."""
    overall, waterline = vessel(evidence, "length_overall"), vessel(evidence, "length_waterline")
    if overall is None:
        return None
    length = overall
    sums: tuple[Working, ...] = ()
    if waterline:
        length, mean = work(mean_length, {"overall": overall, "waterline": waterline})
        sums = (mean,)
    try:
        row = outfit(length.value)
    except ValueError:
        return None
    length_m = Written(figure=row.length_m, unit="m")
    note = say("said.outfit_mean" if waterline else "said.outfit_overall", length=length_m)
    return row, sums, (note,)
