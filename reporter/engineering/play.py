"""Free play of the wheel, and how much of the steering is left.

For information, since no yacht limit is published.

In: metres, radians, newton metres. Out: the same. The lash limits are road-vehicle law; each row names its
jurisdiction.
"""

from __future__ import annotations

from dataclasses import dataclass

from reporter.engineering import domain
from reporter.engineering.constants import INCH
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import LashLimit


@formula
def play_angle(rim_play: float, wheel: float) -> float:
    """Angle in radians that the wheel turns before the rudder follows."""
    domain.not_negative(rim_play=rim_play)
    domain.positive(wheel_diameter=wheel)
    return 2 * rim_play / wheel


@formula
def arc_kept(reached: float, full: float) -> float:
    """Share of the steering arc of one side that is still reached."""
    domain.not_negative(angle_reached=reached)
    domain.positive(full_angle=full)
    return reached / full


@dataclass(frozen=True)
class LashYardstick:
    """A lash limit in metres for a wheel, and the row it comes from."""

    limit: float
    row: LashLimit


@lookup(LashLimit)
def lash_limits(wheel: float) -> tuple[LashYardstick, ...]:
    """Every jurisdiction's limit for a wheel of this diameter in metres.

    A rule whose rows stop below it is left out.
    """
    domain.positive(wheel_diameter=wheel)
    # 16 in entered as 406.4 mm must not miss the 16 in row by a rounding error.
    inches = round(wheel / INCH, 6)
    return tuple(LashYardstick(row.limit_in * INCH, row) for row in table(LashLimit) if _covers(row, inches))


def _covers(row: LashLimit, inches: float) -> bool:
    # Jurisdictions differ on which row a wheel of exactly the bound belongs to.
    above = inches > row.over_in if row.up_to_included or row.over_in == 0 else inches >= row.over_in
    if row.up_to_in is None:
        return above
    return above and (inches <= row.up_to_in if row.up_to_included else inches < row.up_to_in)
