"""The row types of the reference tables.

What a row of each file in `tables/` holds, its unit in the field's name.

In: nothing. Out: types for `reference.table`. No arithmetic beyond a change of form, and no choice, happens
here.
"""

from __future__ import annotations

import math
from typing import Literal

from reporter.engineering.constants import PSI
from reporter.engineering.reference import Row
from reporter.model.terms import Sense


class ChainSize(Row, table="chain_sizes"):
    """One size of roller chain in carbon steel; a stainless chain is weaker and has no row here.

    `growth_when_new` is the length tolerance of a new chain as a fraction of its length.
    """

    name: str
    series: str
    pitch_mm: float
    roller_mm: float
    min_strength_kn: float
    measuring_load_lbf: float | None = None
    growth_when_new: float | None = None
    has_roller: bool = True


class Construction(Row, table="constructions"):
    """How a wire is laid up. A single strand (1x19) has no outer strands."""

    name: str
    strands: int
    wires_per_strand: int
    outer_strands: int

    @property
    def wires(self) -> int:
        """All wires of the rope."""
        return self.strands * self.wires_per_strand


class CableStrength(Row, table="control_cable"):
    """One row of a table of flexible control cable: strengths of carbon and of stainless steel."""

    diameter: str
    diameter_in: float
    construction: str
    over_nominal_in: float
    carbon_lbf: float
    stainless_lbf: float


class WireSize(Row, table="wire_sizes"):
    """A diameter that wire is sold in."""

    name: str
    diameter_mm: float

    @property
    def diameter(self) -> float:
        """Diameter in metres."""
        return self.diameter_mm / 1000


class RopeFactor(Row, table="rope_factors"):
    """Factors of the minimum breaking force: K of strength, C of metal area.

    `yacht_name` where we map one.
    """

    rope_class: str
    core: Literal["FC", "IWRC", "WSC"]
    strength_factor: float
    area_factor: float | None = None
    yacht_name: str = ""


class BendingStrength(Row, table="bending_strength"):
    """Share of its strength that a wire keeps when it is bent over a sheave of D/d = `ratio`."""

    ratio: float
    kept: float


class OuterWires(Row, table="crane_rope_breaks"):
    """Visible broken wires that discard a crane rope, by load-bearing wires in its outer strands."""

    wires_from: int
    wires_to: int
    in_6d: int
    in_30d: int
    lang_in_6d: int
    lang_in_30d: int


Scope = Literal["lay", "strand_in_lay", "6d", "8d", "30d", "end", "critical", "anywhere"]


class BrokenWireRule(Row, table="broken_wire_rules"):
    """One published rule on broken wires: over which length it counts, and what condemns.

    Exactly one of `reached` (this many or more), `more_than` (a count), `more_than_share` (of all wires, or
    of the strand's for the scope strand_in_lay) and `by_outer_wires` (a column of crane_rope_breaks) is
    given.
    """

    id: str
    written_for: str
    scope: Scope
    reached: int | None = None
    more_than: int | None = None
    more_than_share: float | None = None
    by_outer_wires: Literal["", "in_6d", "in_30d"] = ""
    governs: bool = False


class EndEfficiency(Row, table="end_efficiency"):
    """Share of the wire's strength that an end termination keeps."""

    id: str
    words: str
    kept: float


class StrandStrength(Row, table="strand_strength"):
    """A breaking load of standing wire as one source prints it: never a property of the diameter alone."""

    construction: str
    material: str
    diameter: str
    diameter_mm: float
    strength: float
    unit: str


class StretchFactor(Row, table="stretch_factors"):
    """G of the elastic stretch E % = W·G / D² (pounds-force, inches).

    `misprint` says why a row must not be used.
    """

    construction: str
    material: str
    factor: float
    misprint: str = ""

    @property
    def gross_modulus(self) -> float:
        """Modulus in pascals on the gross circle, from G: E = 400 / (π·G) pounds-force per square inch."""
        return 400 / (math.pi * self.factor) * PSI


class FoldingRule(Row, table="folding_rule"):
    """Growth over a base length that stands for a share of the breaking load."""

    construction: str
    growth_mm: float
    base_mm: float
    share: float
    misprint: str = ""

    @property
    def strain(self) -> float:
        """Growth as a fraction of the base length."""
        return self.growth_mm / self.base_mm


class GaugeSetting(Row, table="gauge_settings"):
    """Start settings of a tension gauge for 1x19 wire, with the breaking column of the same table."""

    diameter_mm: float
    breaking_kgf: float
    forestay_kgf: float
    shroud_kgf: float


class GroundChain(Row, table="ground_chain"):
    """Short-link chain in metric sizes."""

    size_mm: float
    grade: int
    pitch_mm: float
    outer_width_mm: float
    iso_4565: bool
    din_766: bool
    kg_per_m: float
    proof_kn: float
    min_break_kn: float


class WorkingChain(Row, table="working_chain"):
    """Working load limits of welded chain in inch sizes; breaking load = `break_over_working` × working."""

    size: str
    size_in: float
    grade: str
    working_lbf: float
    break_over_working: int


class SlingChain(Row, table="sling_chain"):
    """Least thickness at any point of a sling chain's link before it is removed."""

    size: str
    size_in: float
    least: str
    least_in: float


class AnchorOutfit(Row, table="anchor_outfit"):
    """Statutory ground tackle of small commercial craft by mean length.

    None where only one code gives a rope.
    """

    length_m: float
    main_kg: float
    kedge_kg: float
    main_chain_mm: float
    main_rope_mm: float
    main_rope_in_both_codes: bool
    kedge_chain_mm: float
    kedge_rope_mm: float


class WindLoad(Row, table="wind_loads"):
    """Horizontal load on the ground tackle by wind and length of boat."""

    anchor: str
    wind_kn: float
    length_ft: float
    load_lbf: float


class LifelineWire(Row, table="lifeline_wire"):
    """Least lifeline wire by length overall; a bound belongs to the row where its `..._included` says so."""

    longer_than_m: float
    longer_included: bool
    up_to_m: float | None = None
    up_to_included: bool
    wire_mm: float


class Galvanic(Row, table="galvanic_series"):
    """Potential of a metal in sea water. Rows of different `reference` electrodes must not be mixed."""

    metal: str
    reference: str
    potential_mv: float


class LashLimit(Row, table="lash_limits"):
    """Free play at the rim that a road-vehicle rule allows, for wheels over `over_in` up to `up_to_in`."""

    rule: str
    over_in: float
    up_to_in: float | None = None
    up_to_included: bool = True
    limit_in: float


class Tightening(Row, table="tightening"):
    """A tightening torque of a stainless fastener; it means nothing without its `conditions`."""

    thread: str
    conditions: str
    low: float
    high: float
    unit: str


class KnotStrength(Row, table="knot_strength"):
    """Share of a fibre rope's strength that a knot or splice keeps, lowest to highest."""

    knot: str
    low: float
    high: float


class StressFactor(Row, table="stress_factors"):
    """Share of the material's strength that a class society allows."""

    part: str
    sailing: float
    survival: float


class PublishedFigure(Row, table="yardsticks"):
    """A single published figure.

    `sense` says on which side of it a value is in order, the figure itself included.

    `strict` marks a figure that must not be reached.
    """

    id: str
    subject: str
    value: float
    unit: str
    sense: Sense
    strict: bool = False
    written_for: str = ""

    def met_by(self, value: float) -> bool:
        """Whether a value in the row's own unit is in order, without any guard band."""
        # Some texts say 'more than', others 'or more': the figure itself goes either way.
        if self.strict and value == self.value:
            return False
        return value <= self.value if self.sense is Sense.AT_MOST else value >= self.value


class BlockLoad(Row, table="block_loads"):
    """Load on a block as printed, in terms of the line's load, by the angle the line is turned through."""

    angle_deg: float
    factor: float
