"""What goes out as data or words: numbers in the unit beside them, trade terms resolved, a value printed once."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from pint import UnitRegistry
from typer.testing import CliRunner

from reporter.cli import app
from reporter.collect.ledger import Ledger
from reporter.collect.schema import schemas
from reporter.model.quantity import Value
from reporter.model.report import Table
from reporter.model.terms import BASE_UNIT, Dimension
from reporter.outline import outline
from reporter.outline.attached import assessed, in_units_told
from reporter.outline.speaking import spoken
from reporter.outputs.comparison import compared
from reporter.outputs.due_list import boat_of, icalendar_text, lines
from reporter.outputs.grades import summary
from reporter.outputs.kind_page import kind_page
from reporter.outputs.yard_csv import work_csv
from reporter.wording import Catalogue, catalogue
from tests.demo.test_demo import FOLDERS, graded, job
from tests.outline.small import registry

TERM = re.compile(
    r"\[(bottle screw|split pin|rigging screw|cap shroud|guardrail|kicker|spanner)\]", re.IGNORECASE
)
PINT: UnitRegistry[Any] = UnitRegistry()
OURS = {"°": "degree", "%": "percent", "": "dimensionless", "1": "dimensionless", "m²": "m**2", "N·m": "N*m",
        "years": "year", "links": "dimensionless", "turns": "dimensionless", "mm²": "mm**2", "h": "hour",
        "nmi": "nautical_mile", "kn": "knot", "rad": "radian", "N/mm²": "N/mm**2"}  # fmt: skip


def values(data: Any) -> Iterator[dict[str, Any]]:
    """Every value with its unit in JSON data."""
    if isinstance(data, dict):
        if {"value", "U", "unit"} <= set(data):
            yield data
        for each in data.values():
            yield from values(each)
    elif isinstance(data, list):
        for each in data:
            yield from values(each)


def words_of(name: str, terms: str = "uk") -> Catalogue:
    return catalogue(job(name).sheet.lang, terms)


@pytest.mark.parametrize("name", FOLDERS)
def test_every_number_stands_in_the_unit_beside_it(name: str) -> None:
    """Held against an outside library of units, value by value and uncertainty by uncertainty."""
    told = json.loads(assessed(graded(name)))
    assert told["format"] == 2
    for row in told["components"]:
        part = graded(name).part(row["id"])
        assert part is not None
        mine = [check.value for check in part.checks if check.value] + [spot.value for spot in part.spots]
        theirs = [each["value"] for each in row["checks"] if each["value"]]
        theirs += [each["value"] for each in row["spots"]]
        for held, shown in zip(mine, theirs, strict=True):
            base = OURS.get(BASE_UNIT[held.dimension], BASE_UNIT[held.dimension])
            unit = OURS.get(shown["unit"], shown["unit"])
            for have, want in ((shown["value"], held.value), (shown["U"], 2 * held.u)):
                assert PINT.Quantity(have, unit).to(base).magnitude == pytest.approx(
                    want, rel=1e-9, abs=1e-15
                )
            if shown["written"] and shown["unit"] and held.dimension is not Dimension.AGE:
                assert shown["unit"] == held.unit


def test_a_length_of_3_8_mm_reads_3_8() -> None:
    value = Value(dimension=Dimension.LENGTH, value=0.0038, u=0.00005, written="3.8", unit="mm")
    told = in_units_told({"spread": 0.0002, "value": value.model_dump(mode="json")})
    assert (told["value"]["value"], told["value"]["U"], told["spread"]) == (3.8, 0.1, 0.2)
    assert "u" not in told["value"]


def test_the_grades_of_an_issued_report_are_still_read(tmp_path: Any) -> None:
    from reporter.collect.earlier import issued_grades
    from reporter.collect.text_file import Place

    (tmp_path / "assessments.json").write_text(assessed(graded("outgoing")), "utf-8")
    found = issued_grades(Place(tmp_path, "earlier"), Ledger())
    assert found == {part.component.id: part.grade for part in graded("outgoing").components}


def every_exit(name: str) -> dict[str, Callable[[], str]]:
    """Every way in which text leaves the program but for the pages."""
    sheet, found = job(name).sheet, graded(name)
    template = registry().template(sheet.purpose)
    told = (job(name), found, template, registry())
    boats = [boat_of(job(name), found, registry())]
    day = sheet.inspection.last_day
    return {
        "json": lambda: words_of(name).terms(assessed(spoken(found, job(name), registry()))),
        "terminal": lambda: "\n".join(summary(*told)),
        "csv": lambda: work_csv(*told),
        "compare": lambda: "\n".join(compared(*told)),
        "due": lambda: "\n".join(
            line for by in ("date", "place", "supply") for line in lines(boats, day, by)
        ),
        "calendar": lambda: icalendar_text(boats, day).replace("\r\n ", ""),
        "pages": lambda: outline(*told).model_dump_json(exclude={"attachments"}),
    }


@pytest.mark.parametrize("name", FOLDERS)
@pytest.mark.parametrize("way", ["json", "terminal", "csv", "compare", "due", "calendar", "pages"])
def test_no_trade_term_leaves_unresolved(name: str, way: str) -> None:
    text = every_exit(name)[way]()
    assert text
    assert TERM.search(text) is None


@pytest.mark.slow
@pytest.mark.parametrize("kind", sorted(registry().plugins))
def test_no_trade_term_of_a_kind_leaves_unresolved(kind: str) -> None:
    run = CliRunner()
    for command in (["describe", kind], ["limits", kind], ["limits", kind, "--json"]):
        result = run.invoke(app, command)
        assert result.exit_code == 0
        assert TERM.search(result.output) is None, command
    american = kind_page(registry().plugin(kind), catalogue("en", "us"))
    assert "[" not in re.sub(r"\[x\]", "", american)


def test_no_trade_term_leaves_by_schema_or_refusal() -> None:
    assert TERM.search(json.dumps(schemas(registry().plugins, registry().templates))) is None
    ledger = Ledger()
    ledger.tell("findings.yaml", 1, "observed", "no answer to '[split pin]s'", "Answers: a ([split pin] in)")
    assert str(ledger.problems[0]).count("split pin") == 2
    assert TERM.search(str(ledger.problems[0])) is None


def cells(name: str, units: str) -> list[str]:
    """The text of every table cell of the report in those units."""
    from reporter.pipeline import grade

    given = job(name)
    # Told in short, a report leaves the readings as written to the attached data.
    update = {"units": units, "evidence": "all"}
    given = given.model_copy(update={"sheet": given.sheet.model_copy(update=update)})
    template = registry().template(given.sheet.purpose)
    report = outline(given, grade(given, registry(), template), template, registry())
    tables = [block for block in report.blocks if isinstance(block, Table)]
    return [
        "".join(span.text for span in cell.text) for table in tables for row in table.rows for cell in row
    ]


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_a_reading_is_printed_once_with_one_conversion(units: str) -> None:
    told = [text.replace("\u00a0", " ") for text in cells("survey", units)]
    assert [text for text in told if re.search(r"\([^()]*\([^()]*\d [a-z]+\)\)", text)] == []
    pairs = [re.fullmatch(r"([\d./ ]+) ?(\w+) \(([\d.]+) (\w+)\)", text) for text in told]
    assert [pair[0] for pair in pairs if pair and pair[2] == pair[4]] == []
    assert any(pair and pair[2] == "mm" and pair[4] == "in" for pair in pairs) == (units == "imperial")
