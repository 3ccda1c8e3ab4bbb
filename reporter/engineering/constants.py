"""Exact sizes of the units that some published rules are written in, in base units.

In: nothing. Out: floats. A function converts with these only where its formula's constants hold in such a
unit; all other conversion is the printer's.
"""

from __future__ import annotations

INCH = 0.0254
FOOT = 0.3048
KNOT = 1852 / 3600
KILOGRAM_FORCE = 9.80665
POUND_FORCE = 4.4482216152605
PSI = POUND_FORCE / INCH**2
