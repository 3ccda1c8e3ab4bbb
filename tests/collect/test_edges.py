"""The exact edges of what collecting takes: one step inside is taken, one step outside is told."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest

from reporter.collect import collect
from reporter.collect.check_job import first_day, last_possible
from reporter.collect.csv_table import mangled, read_table, serial
from reporter.collect.dates import date_fault
from reporter.collect.detail_values import _date, _number, _words
from reporter.collect.earlier import earlier_places
from reporter.collect.ledger import Ledger, listed
from reporter.collect.measurements import _absurd, _read
from reporter.collect.photo_marks import has_no_size
from reporter.collect.plausible import implausible
from reporter.collect.quantity_slips import UnreadableError
from reporter.collect.shape import _moment
from reporter.collect.text_file import Place, _where_is
from reporter.collect.yaml_file import read_yaml
from reporter.errors import JobError, Problem
from reporter.model.findings import Detail
from reporter.model.photo import Arrow, Blur, Box, LabelMark, Mark, Ring, Ruler
from reporter.model.plugin import DetailField, Quantity
from reporter.model.quantity import PartialDate, Value
from reporter.model.terms import Basis, Dimension


def told(root: Path, installed: Any, photos: Any) -> list[Problem]:
    """The problems of a folder that has some."""
    with pytest.raises(JobError) as raised:
        collect(root, installed, photos=photos)
    return list(raised.value.problems)


@pytest.mark.parametrize(
    ("date", "first", "last"),
    [
        (PartialDate(year=2016), "2016-01-01", "2016-12-31"),
        (PartialDate(year=2016, month=2), "2016-02-01", "2016-02-29"),
        (PartialDate(year=2015, month=2), "2015-02-01", "2015-02-28"),
        (PartialDate(year=2015, month=11), "2015-11-01", "2015-11-30"),
        (PartialDate(year=2015, month=12), "2015-12-01", "2015-12-31"),
        (PartialDate(year=2015, month=12, day=7), "2015-12-07", "2015-12-07"),
        (dt.date(2014, 3, 4), "2014-03-04", "2014-03-04"),
    ],
)
def test_what_a_date_leaves_open(date: PartialDate | dt.date, first: str, last: str) -> None:
    """The Gregorian calendar: leap years, and the turn of the year."""
    assert (first_day(date).isoformat(), last_possible(date).isoformat()) == (first, last)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("1849", "the year is 1849"), ("1850", ""), ("2199", ""), ("2200", "the year is 2200"), ("2020-00", "no month 0"),
        ("2020-01", ""), ("2020-12", ""), ("2020-13", "no month 13"), ("2020-02-29", ""), ("2021-02-29", "no day 29"),
        ("2020-04-00", "no day 0"), ("2020-04-31", "no day 31"), ("2020-04-30", ""), ("2020-4", "lacks a nought"),
    ],
)  # fmt: skip
def test_the_first_and_last_of_years_months_and_days(text: str, fault: str) -> None:
    found = date_fault(text, partial=True)
    assert (found is None) == (not fault)
    assert found is None or fault in found[0]


def test_a_list_is_cut_after_24() -> None:
    words = [f"w{number}" for number in range(27)]
    assert listed(words[:24]) == ", ".join(words[:24])
    assert listed(words[:25]) == ", ".join(words[:24]) + ", and 1 more"
    assert listed(words) == ", ".join(words[:24]) + ", and 3 more"
    assert listed([]) == "none"


def test_the_fraction_that_a_date_was_made_of() -> None:
    """Less than one and more than nothing; both orders where both are."""
    for text, fraction in (
        ("3/16/2026", "3/16"),
        ("16-Mar", "3/16"),
        ("03/03/2026", "the fraction"),
        ("00/16/2026", "the fraction"),
        ("2026-07-08", "7/8"),
    ):
        found = mangled(text)
        assert found is not None
        assert f"({fraction}, with its unit)" in found[1]


@pytest.mark.parametrize(
    ("number", "day"),
    [(36525, ""), (36526, "1/1"), (54788, "12/31"), (54789, ""), (46097, "3/16"), (45352, "3/1")],
)
def test_day_numbers_of_a_spreadsheet(number: int, day: str) -> None:
    """36526 is 1 January 2000 and 54788 31 December 2049, counted from 30 December 1899 (common practice)."""
    found = serial(str(number))
    assert (found is None) == (not day)
    assert found is None or found[0].endswith(f" {day}.")


SPAN = Quantity(
    id="span", title="Span", dimension=Dimension.LENGTH, unit="mm", method="rule", plausible=(50, 400)
)


def test_a_number_is_absurd_above_ten_times_the_plausible() -> None:
    assert not _absurd("4000", SPAN)
    assert not _absurd("40", SPAN)
    assert _absurd("4000,5", SPAN)
    assert not _absurd("3/16", SPAN)


def test_the_plausible_range_holds_its_own_ends() -> None:
    """A thousand-millionth of the larger end is left for the last bit of a conversion, no more."""

    def odd(metres: float, span: tuple[float, float] = (50, 400_000)) -> bool:
        return implausible(Value.model_validate(_length(metres)), "Span", span, "mm") is not None

    assert not odd(0.05)
    assert odd(0.0494)
    assert not odd(400.0)
    assert not odd(400.0 * (1 + 5e-10))
    assert odd(400.0 * (1 + 2e-9))
    assert not odd(-0.4 * (1 + 5e-10), (-400, 100))


def _length(metres: float) -> dict[str, Any]:
    return {"value": metres, "dimension": "length", "written": f"{metres} m", "unit": "m"}


def test_a_bare_number_is_a_ratio_only_where_no_unit_is_due() -> None:
    for unit, taken in (("", True), ("1", True), ("%", False)):
        field = DetailField(id="share", title="Share", holds="ratio", unit=unit)
        fact, fault = _number(Detail(value="0.4", basis=Basis.SEEN), field)
        assert (fact is not None) == taken
        assert (fault is None) == taken


@pytest.mark.parametrize(
    ("mark", "is_nothing"),
    [
        (Box(corner=(0.1, 0.2), opposite=(0.1, 0.5)), True),
        (Blur(corner=(0.1, 0.2), opposite=(0.5, 0.2)), True),
        (Box(corner=(0.1, 0.2), opposite=(0.2, 0.1)), False),
        (Arrow(tail=(0.1, 0.2), head=(0.1, 0.2)), True),
        (Arrow(tail=(0.1, 0.2), head=(0.1, 0.3)), False),
        (Ruler(start=(0.1, 0.2), end=(0.1, 0.2)), True),
        (Ruler(start=(0.1, 0.2), end=(0.2, 0.2)), False),
        (Ring(at=(0.1, 0.1)), False),
        (LabelMark(at=(0.1, 0.1), text="x"), False),
    ],
)
def test_marks_without_a_size(mark: Mark, is_nothing: bool) -> None:
    """A level or upright arrow or line has a size; a box of no width has none."""
    assert has_no_size(mark) == is_nothing


def test_letters_that_no_font_has_are_told_with_their_place(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    changes = {
        "job.yaml": good["job.yaml"].replace("place: a berth", "place: 港 in Σύρος, no. 5 ½"),
        "findings.yaml": good["findings.yaml"].replace("found: Little worn.", f"found: {'שלום' * 3} {'x' * 30} 😀"),
        "measurements.csv": good["measurements.csv"] + "".join(f"port-belt,pitches,,,,20,,,,山{n}\n" for n in range(20)),
    }  # fmt: skip
    remarks = [each for each in collect(folder(changes), installed, photos=photos).remarks if "fonts" in each]
    assert (
        remarks[0]
        == "job.yaml, line 15 · inspection › place: the fonts of a PDF lack 港; printed is [U+6E2F]."
    )
    assert (
        "findings.yaml, line 19 · port-belt › found: the fonts of a PDF lack שלום😀; printed is [U+05E9 "
        in remarks[1]
    )
    assert len(remarks) == 2 + 12 + 1
    assert remarks[-1] == "measurements.csv: 8 more entries hold characters that the fonts of a PDF lack."


@pytest.mark.parametrize(("named", "problems"), [(20, 0), (21, 1)])
def test_twenty_earlier_folders_are_the_most(named: int, problems: int, tmp_path: Path) -> None:
    names = tuple(f"../v{number}" for number in range(named))
    ledger = Ledger()
    sheet = read_yaml(f"a: 1\nearlier: [{', '.join(names)}]\n", "job.yaml", ledger)
    assert sheet is not None
    assert len(earlier_places(Place(tmp_path), sheet, names, ledger)) == 20
    assert [each.line for each in ledger.problems] == [2] * problems


@pytest.mark.parametrize(("deep", "problems"), [(23, 0), (24, 1)])
def test_a_sheet_is_24_levels_deep_at_most(deep: int, problems: int) -> None:
    """The sheet itself is the first."""
    ledger = Ledger()
    read_yaml(f"a: {'[' * deep}x{']' * deep}\n", "job.yaml", ledger)
    assert len(ledger.problems) == problems


def test_an_empty_table_is_told_at_its_first_line() -> None:
    ledger = Ledger()
    assert read_table("\n\n", "m.csv", ("component",), ("component",), ledger) == []
    assert [(each.line, each.what) for each in ledger.problems] == [(1, "This file is empty.")]


def test_of_two_files_that_may_be_meant_the_first_is_named(tmp_path: Path) -> None:
    for name in ("job.yml", "JOB.YAML"):
        (tmp_path / name).touch()
    assert _where_is(tmp_path / "job.yaml") == "The folder has 'JOB.YAML': rename it to 'job.yaml'."


def test_times_are_those_of_the_visits_zone_unless_the_job_itself_has_faults(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A fault of the findings does not shift the photos' times."""
    zones: list[str] = []

    def reader(files: list[Path], root: Path, *, time_zone: str, clocks: Any = ()) -> Any:
        zones.append(time_zone)
        return photos(files, root, time_zone=time_zone, clocks=clocks)

    broken = {"findings.yaml": good["findings.yaml"].replace("teeth: 13", "tooth: 13")}
    for changes in (broken, {"job.yaml": good["job.yaml"].replace("purpose: trial", "purpose: trail")}):
        told(folder(changes), installed, reader)
    assert zones == ["+01:00", "UTC"]


def test_a_fault_of_one_component_hides_none_of_another(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    findings = good["findings.yaml"].replace("teeth: 13", "tooth: 13") + "    found: [one, two]\n"
    problems = told(folder({"findings.yaml": findings}), installed, photos)
    assert [each.line for each in problems] == [8, 26]


def test_a_fault_within_a_group_of_the_job_hides_none_elsewhere(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """The second date cannot be; the purpose is looked at all the same."""
    job = good["job.yaml"].replace("2026-05-12]", "2026-02-30]").replace("purpose: trial", "purpose: trail")
    problems = told(folder({"job.yaml": job}), installed, photos)
    assert {each.key for each in problems} == {"purpose", "inspection › dates › entry 2"}


def test_a_mark_in_words_is_told(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """Neither outside the photo nor one number too many: words."""
    mark = "- {file: belt.jpg, marks: [{kind: ring, at: [left, 0.2]}]}"
    findings = good["findings.yaml"].replace("- belt.jpg", mark)
    (problem,) = told(folder({"findings.yaml": findings}), installed, photos)
    assert (problem.line, "'left'" in problem.what) == (22, True)


def test_bounds_are_told_in_the_words_of_their_place(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A number out of bounds lies outside the photo only in a mark, and a mark's words may be too many."""
    mark = f"- {{file: belt.jpg, marks: [{{kind: label, at: [0.1, 0.2], text: {'x' * 81}}}]}}"
    changes = {
        "job.yaml": good["job.yaml"].replace("built: 2004", "rudders: 3"),
        "findings.yaml": good["findings.yaml"].replace("- belt.jpg", mark),
    }
    found = {each.file: each.what for each in told(folder(changes), installed, photos)}
    assert found == {
        "job.yaml": "3 is too large; 2 is the most.",
        "findings.yaml": "This text has 81 characters; 80 is the most.",
    }


@pytest.mark.parametrize(
    ("mark", "what", "do"),
    [
        ("kind: ring, at: [0.1, 0.2], callout: 100", "100 is too large; 99 is the most.", "Write a number from 1 to 99."),
        ("kind: ring, at: [0.1, 0.2], callout: 0", "0 is too small; 1 is the least.", "Write a number from 1 to 99."),
        ("kind: ring, at: [0.1, 0.2], radius: 2", "2 is too large; 1 is the most.", "of the photo's width"),
        ("kind: ring, at: [0.1, 0.2], radius: 0", "0 must be more than 0.", "of the photo's width"),
        ("kind: ring, at: [0.1, 1.2]", "1.2 lies outside the photo.", "0 is the left or upper edge"),
        ("kind: ring, at: [-0.1, 0.2]", "-0.1 lies outside the photo.", "0 is the left or upper edge"),
        ("kind: ring, at: [0.1, 0.2, 0.3]", "Two numbers are due here, not 3.", "with decimal points"),
    ],
)  # fmt: skip
def test_only_a_place_lies_outside_the_photo(
    mark: str, what: str, do: str, folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A number of the text and a radius have bounds of their own."""
    marked = f"- {{file: belt.jpg, marks: [{{{mark}}}]}}"
    findings = good["findings.yaml"].replace("- belt.jpg", marked)
    (problem,) = told(folder({"findings.yaml": findings}), installed, photos)
    assert problem.what == what
    assert do in problem.do


def test_photos_of_an_extracted_report_may_stay_behind(folder: Any, installed: Any, photos: Any) -> None:
    """Only where its register lies there and no photos folder does."""
    register = {"photo_register.csv": "file,sha256\n", "photos/belt.jpg": None}
    job = collect(folder(register), installed, photos=photos)
    assert any("photo_register.csv tells" in each for each in job.remarks)
    other = folder({**register, "photos/other.jpg": "x"}, name="other")
    assert [each.file for each in told(other, installed, photos)] == ["findings.yaml"]
    without = folder({"photos/belt.jpg": None}, name="without")
    assert [each.file for each in told(without, installed, photos)] == ["photos"]


def test_a_limit_of_less_than_one_may_not_be_less_than_nothing(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    change = "limits:\n  - {id: belt.stretch, value: -0.5, reason: r, by: A. Tester}\n"
    (problem,) = told(folder({"job.yaml": good["job.yaml"] + change}), installed, photos)
    assert "cannot be -0.5" in problem.what


def test_words_may_be_400_characters_long() -> None:
    for length, taken in ((400, True), (401, False)):
        fact, fault = _words(Detail(value="x" * length, basis=Basis.SEEN))
        assert (fact is not None, fault is None) == (taken, taken)


def test_a_part_may_be_fitted_on_the_day_of_the_visit() -> None:
    field = DetailField(id="fitted", title="Fitted", holds="date")
    for day, taken in (("2026-05-12", True), ("2026-05-13", False)):
        fact, fault = _date(Detail(value=day, basis=Basis.SEEN), field, dt.date(2026, 5, 12))
        assert (fact is not None, fault is None) == (taken, taken)


def test_a_fault_within_a_component_hides_none_of_its_others(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A list in place of words, and a detail that the kind does not have, in one component."""
    findings = (
        good["findings.yaml"]
        .replace("teeth: 13", "tooth: 13")
        .replace("found: Little worn.", "found: [a, b]")
    )
    assert len(told(folder({"findings.yaml": findings}), installed, photos)) == 2


@pytest.mark.parametrize(
    ("text", "unit", "millimetres"), [("5 mm", "mm", 5), ("5", "mm", 5), ("0.5", "in", 12.7), ("5 mm", "", 5)]
)
def test_a_unit_may_stand_in_its_column_or_beside_the_number_or_at_both(
    text: str, unit: str, millimetres: float
) -> None:
    span = Quantity(
        id="span", title="Span", dimension=Dimension.LENGTH, unit="mm", method="rule", plausible=(0, 9)
    )
    assert _read(text, unit, span).value == pytest.approx(millimetres / 1000)


def test_a_bare_reading_is_a_ratio_where_its_unit_is_none() -> None:
    share = Quantity(
        id="share", title="Share", dimension=Dimension.RATIO, unit="1", method="told", plausible=(0, 1)
    )
    assert _read("0.4", "", share).value == pytest.approx(0.4)
    with pytest.raises(UnreadableError):
        _read("40", "", share.model_copy(update={"unit": "%"}))


def test_a_moment_has_a_day_that_can_be_and_a_time() -> None:
    for text, taken in (
        ("2026-05-12 09:30:00", True),
        ("2026-05-12T09:30", True),
        ("2026-02-30 09:30", False),
    ):
        assert (_moment(text) is None) == taken, text


@pytest.mark.parametrize("entry", ["- rule", "- {kind: steel rule}", "- {id: 3, kind: steel rule}"])
def test_an_instrument_that_cannot_be_read_stops_no_other_check(
    entry: str, folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """Words in place of an instrument, or one without an id: told, and the findings' own fault as well."""
    sheet = good["job.yaml"].partition("instruments:")[0] + f"instruments:\n  {entry}\n"
    findings = good["findings.yaml"].replace("teeth: 13", "tooth: 13")
    problems = told(folder({"job.yaml": sheet, "findings.yaml": findings}), installed, photos)
    assert "findings.yaml" in {each.file for each in problems}


@pytest.mark.parametrize(("radius", "asked"), [("0.13", False), ("0.14", True), ("0.25", True)])
def test_an_inset_that_would_not_be_larger_than_its_source_is_asked_about(
    radius: str, asked: bool, folder: Any, good: Any, installed: Any, photos: Any
) -> None:
    """On a photo of 4 to 3 the room is 0.36 of its height, that is 0.27 of its width."""

    def sized(*where: Any, **how: Any) -> list[Any]:
        return [each.model_copy(update={"width": 1200, "height": 900}) for each in photos(*where, **how)]

    mark = f"- {{file: belt.jpg, marks: [{{kind: inset, at: [0.5, 0.5], radius: {radius}}}]}}"
    made = folder({"findings.yaml": good["findings.yaml"].replace("- belt.jpg", mark)})
    told = [each for each in collect(made, installed, photos=sized).remarks if "no larger" in each]
    assert [each.endswith("on this photo a radius below 0.14 is.") for each in told] == [True] * asked
