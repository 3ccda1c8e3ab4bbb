"""Ground tackle beside the outfit tables for small commercial vessels: what is aboard in parts of the table's figure.

Comes in: Evidence with the vessel's length. Goes out: checks for information: the codes were written for vessels in
commercial use, and their figures are for anchors of high holding power.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from reporter.contract import (
    Check,
    Dimension,
    Evidence,
    SourceFigure,
    Text,
    Value,
    Working,
    against,
    chosen,
    say,
    stated,
    vessel,
)
from reporter.engineering import Formula, units, work
from reporter.engineering.rows import AnchorOutfit
from reporter.engineering.tackle import mean_length, outfit, size_share


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
    yield from against(evidence, "table_share", share, working=(*before, working), notes=note)


def size_beside_table(evidence: Evidence, detail: str, column: str) -> Iterator[Check]:
    """The size of a chain or a rope beside the table's `main_<column>_mm`, or that of the kedge."""
    use = chosen(evidence, "use")
    if use in {"main", "kedge"}:

        def figure(row: AnchorOutfit) -> Value:
            size = getattr(row, f"{use}_{column}_mm")
            return Value(dimension=Dimension.LENGTH, value=units.to_base(size, "mm"), unit="mm")

        yield from beside_table(evidence, stated(evidence, detail), size_share, figure)


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
    length_m = SourceFigure(figure=row.length_m, unit="m")
    note = say("said.outfit_mean" if waterline else "said.outfit_overall", length=length_m)
    return row, sums, (note,)
