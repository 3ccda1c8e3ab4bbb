"""Sources that several modules of the trade's arithmetic share, so that one spelling of each exists.

In: nothing. Out: `Citation`s. A formula with a source of its own keeps it beside the formula.
"""

from __future__ import annotations

from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis, SourceStatus

GEOMETRY = Citation(title="geometry", status=SourceStatus.DERIVED, basis=LimitBasis.PRACTICE)
MECHANICS = Citation(title="general mechanics", status=SourceStatus.DERIVED, basis=LimitBasis.PRACTICE)
SECOND_HAND_PAGE = Citation(
    title="trade page on rig loads", status=SourceStatus.READ_2, basis=LimitBasis.PRACTICE
)
HIGH_SPEED_CRAFT = "class rules for high-speed and light craft"
