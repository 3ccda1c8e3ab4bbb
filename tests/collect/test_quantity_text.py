"""The grammar of quantities: what is read, what is refused, and that nothing else comes out."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.quantity_text import read_quantity, read_uncertainty
from reporter.engineering import units
from reporter.model.terms import Dimension

L, F, M, T, A = Dimension.LENGTH, Dimension.FORCE, Dimension.MASS, Dimension.TORQUE, Dimension.ANGLE
INCH = 0.0254


@pytest.mark.parametrize(
    ("text", "dimension", "value", "unit"),
    [
        ("12.7 mm", L, 0.0127, "mm"),
        ("12.7mm", L, 0.0127, "mm"),
        ("12,7 mm", L, 0.0127, "mm"),
        ("0,125 in", L, 0.125 * INCH, "in"),
        (".5 in", L, 0.5 * INCH, "in"),
        ("1234,567 mm", L, 1.234567, "mm"),
        ("1 234,5 mm", L, 1.2345, "mm"),
        ("1,234.5 mm", L, 1.2345, "mm"),
        ("1.234,5 mm", L, 1.2345, "mm"),
        ("1,234,567 mm", L, 1234.567, "mm"),
        ("12\u202f500 kg", M, 12500, "kg"),
        ("3/16 in", L, 3 / 16 * INCH, "in"),
        ("1 3/16 in", L, 19 / 16 * INCH, "in"),
        ('1-3/16"', L, 19 / 16 * INCH, "in"),
        ("3½ inches", L, 3.5 * INCH, "in"),
        ("17/16 in", L, 17 / 16 * INCH, "in"),
        ("6 ft 4 1/2 in", L, 76.5 * INCH, "in"),
        ("6' 4\"", L, 76 * INCH, "in"),
        ("6′4½″", L, 76.5 * INCH, "in"),
        ("36.5 ft", L, 36.5 * 0.3048, "ft"),
        ("31 000 nmi", L, 31000 * 1852, "nmi"),
        ("12 KN", F, 12000, "kN"),
        ("35 Nm", T, 35, "N·m"),
        ("12° ", A, 0.20943951023931953, "°"),
        ("-3.5 deg", A, -0.061086523819801536, "°"),
        ("12 years", Dimension.AGE, 12, "years"),
        ("18 months", Dimension.AGE, 1.5, "months"),
        ("1.5 %", Dimension.RATIO, 0.015, "%"),
        ("6.5 kts", Dimension.SPEED, 6.5 * 1852 / 3600, "kn"),
        ("-850 mV", Dimension.VOLTAGE, -0.85, "mV"),
        ("3", Dimension.COUNT, 3, ""),
        ("4 links", Dimension.COUNT, 4, "links"),
        ("2.5 turns", Dimension.COUNT, 2.5, "turns"),
    ],
)
def test_read(text: str, dimension: Dimension, value: float, unit: str) -> None:
    """Values in base units, the unit as written."""
    read = read_quantity(text, dimension)
    assert read.value == pytest.approx(value, rel=1e-12)
    assert (read.unit, read.written) == (unit, text.strip())
    assert read.u == 0


@pytest.mark.parametrize(
    ("text", "dimension", "u"),
    [
        ("254.0 ± 0.5 mm", L, 0.00025),
        ("254.0 mm ± 0.02 in", L, 0.01 * INCH),
        ("(254.0 ± 0.5) mm", L, 0.00025),
        ("254.0 +/- 0,5 mm", L, 0.00025),
        ("100 N ± 5 %", F, 2.5),
        ("12 % ± 1 %", Dimension.RATIO, 0.005),
        ("6' 4\" ± 1/4 in", L, 0.125 * INCH),
    ],
)
def test_what_follows_plus_minus_is_halved(text: str, dimension: Dimension, u: float) -> None:
    """Written is the expanded uncertainty with k = 2 (JCGM 100:2008, 6.2.1 and 6.3.3); kept is the standard one."""
    assert read_quantity(text, dimension).u == pytest.approx(u)


def test_the_uncertainty_of_a_column() -> None:
    """In the unit of the value, in its own, or in per cent of the value."""
    value = read_quantity("200 mm", L)
    assert read_uncertainty("0.5", value).u == pytest.approx(0.00025)
    assert read_uncertainty("± 0.02 in", value).u == pytest.approx(0.01 * INCH)
    assert read_uncertainty("1 %", value).u == pytest.approx(0.001)


@pytest.mark.parametrize(
    ("text", "dimension", "factor", "note"),
    [
        ("20 kg", F, 9.80665, "'kg' taken as kgf"),
        ("20 lbs", F, 4.4482216152605, "'lbs' taken as lbf"),
        ("20 kgm", T, 9.80665, "'kgm' taken as kgf·m"),
        ("20 ft-lb", T, 1.3558179483314004, "'ft-lb' taken as lbf·ft"),
    ],
)
def test_a_weight_for_a_force_is_told(text: str, dimension: Dimension, factor: float, note: str) -> None:
    """Kg where a force is due means kgf, and says so."""
    read = read_quantity(text, dimension)
    assert read.value == pytest.approx(20 * factor)
    assert read.note == note


@pytest.mark.parametrize(
    ("text", "dimension", "what"),
    [
        ("1,234 mm", L, "can mean 1.234 or 1234"),
        ("12,34,5 mm", L, "not one clear number"),
        ("1.234.567 mm", L, "not one clear number"),
        ("1 23 mm", L, "not one clear number"),
        ("12.7", L, "has no unit"),
        ("12.7 kg", L, "is for a weight"),
        ("12.7 furlongs", L, "no unit that can stand here"),
        ("12 nm", L, "nautical miles or newton metres"),
        ("12 M", L, "metres or nautical miles"),
        ("6 tons", M, "three weights"),
        ("-12 mm", L, "has a sign"),
        ("1e5 N", F, "a power or a product"),
        ("12 x 3 mm", L, "a power or a product"),
        ("9**9**9", L, "a power or a product"),
        ("nan", L, "no number"),
        ("inf mm", L, "no number"),
        ("1/0 in", L, "divides by nothing"),
        ("1 17/16 in", L, "one or more"),
        ("6' 14\"", L, "a foot has 12"),
        ("6' 4", L, "ends without a unit"),
        ("12° 30'", A, "degrees and minutes"),
        ("10-12 mm", L, "two numbers"),
        ("about 12 mm", L, "not one plain number"),
        ("~12 mm", L, "not one plain number"),
        ("12 mm ±", L, "Nothing follows"),
        ("12 ± -1 mm", L, "has a sign"),
        ("2.5", Dimension.COUNT, "not a whole number"),
        ("-2", Dimension.COUNT, "has a sign"),
        ("", L, "Nothing is written"),
        ("1" * 61, L, "characters"),
        ("1" * 16 + " mm", L, "more digits"),
        ("\u0661\u0662 mm", L, "no number"),
        ("__import__('os') mm", L, "no number"),
    ],
)
def test_refused(text: str, dimension: Dimension, what: str) -> None:
    """Each with what is wrong and something to do."""
    with pytest.raises(UnreadableError, match=what.replace("'", ".")) as told:
        read_quantity(text, dimension)
    assert told.value.do.endswith(".")


numbers = st.decimals(min_value="0", max_value="99999", places=3, allow_nan=False)
listed = st.sampled_from(
    [unit for unit in units.UNITS if unit.name and unit.dimension is not Dimension.COUNT]
)


@given(number=numbers, unit=listed, comma=st.booleans(), data=st.data())
def test_what_is_written_is_what_is_read(
    *, number: object, unit: units.Unit, comma: bool, data: st.DataObject
) -> None:
    """Any number with any spelling of any unit comes back as that number of that unit."""
    text = str(number).replace(".", ",") if comma else str(number)
    if comma and text.partition(",")[0] != "0" and len(text.partition(",")[0]) <= 3:
        text += "0"  # three digits after a comma would be refused
    spelling = data.draw(st.sampled_from([unit.name, *unit.spellings]))
    if spelling in {"1", "m per s"}:
        return
    read = read_quantity(f"{text} {spelling}", unit.dimension)
    assert units.from_base(read.value, read.unit) == pytest.approx(float(str(number)), rel=1e-12)
    assert read.unit == unit.name


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths(feet: int, inches: int, sixteenths: int) -> None:
    """Every reading of an imperial tape."""
    text = f"{feet} ft {inches} {sixteenths}/16 in"
    assert read_quantity(text, L).value == pytest.approx((feet * 12 + inches + sixteenths / 16) * INCH)


@given(
    st.text(max_size=70) | st.text("0123456789.,/-+±'\"° mftinkgNe*%", max_size=30),
    st.sampled_from(Dimension),
)
@example("9**9**9**9", L)
@example("±", L)
@example("0 0/1", L)
def test_any_text_is_a_number_or_told(text: str, dimension: Dimension) -> None:
    """Never another error, never a number that is none."""
    try:
        read = read_quantity(text, dimension)
    except UnreadableError as error:
        told = error
    else:
        assert abs(read.value) < 1e25
        assert read.u >= 0
        return
    assert told.what
    assert told.do
