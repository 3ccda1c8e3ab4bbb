"""No cell of a table that the program writes is a formula to a spreadsheet, and each reads back as it was."""

from __future__ import annotations

import csv
from functools import cache
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.collect.csv_table import read_table
from reporter.collect.ledger import Ledger
from reporter.collect.measurements import NEEDED
from reporter.editing import Edit, edited, value_in
from reporter.model.cell import inert, plain
from reporter.model.job import COLUMNS, Job
from reporter.outline.attached import attachments
from reporter.outputs.yard_csv import work_csv
from tests.demo.test_demo import graded, job
from tests.outline.small import registry

RUNS = (
    "=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\r=1+1", "=cmd|'/c x'!A1", " =1+1", '=HYPERLINK("x")', "--1", "-",
    "＝1+1", "-1.5 mm",
)  # fmt: skip
"""The first signs are those that OWASP's page on CSV injection lists."""
STAYS = ("", "-1.5", "+3", "-1,5", "1-2", "a=b", "'quoted'", "'-5", "–")


@cache
def hostile() -> Job:
    """The demo with a formula in every word that a table of hers repeats."""
    demo = job("survey")
    readings = tuple(each.model_copy(update={"note": "=1+1", "at": "@x"}) for each in demo.readings)
    photos = tuple(each.model_copy(update={"camera": "=2+2"}) for each in demo.photos)
    parts = tuple(each.model_copy(update={"name": "=3+3", "place": "+4"}) for each in demo.components)
    return demo.model_copy(update={"readings": readings, "photos": photos, "components": parts})


@pytest.mark.parametrize("text", RUNS)
def test_what_a_spreadsheet_would_run_is_text(text: str) -> None:
    assert inert(text) == f"'{text}"
    assert plain(inert(text)) == text


@pytest.mark.parametrize("text", STAYS)
def test_numbers_and_other_words_stay(text: str) -> None:
    assert inert(text) == plain(text) == text


@given(st.text("='+-@ \t\rx1.", max_size=6))
def test_each_cell_reads_back(text: str) -> None:
    assert plain(inert(text)) == text


def test_no_table_that_is_written_holds_a_formula() -> None:
    made, template = hostile(), registry().template("pre_purchase")
    files = {each.name: each.content.decode() for each in attachments(made, graded("survey"), template)}
    tables = [files["measurements.csv"], files["photo_register.csv"], yard()]
    cells = [cell for text in tables for row in csv.reader(StringIO(text)) for cell in row]
    assert {"'=1+1", "'@x", "'=2+2", "'=3+3"} <= set(cells)
    assert [cell for cell in cells if inert(cell) != cell and plain(cell) == cell] == []
    again = read_table(files["measurements.csv"], "measurements.csv", COLUMNS, NEEDED, Ledger())
    assert {(row["note"], row["at"]) for row in again} == {("=1+1", "@x")}


def yard() -> str:
    """The yard's table of the hostile job."""
    from reporter.pipeline import grade

    template = registry().template("pre_purchase")
    return work_csv(hostile(), grade(hostile(), registry(), template), template, registry())


def test_what_is_written_into_a_folder_is_inert_as_well() -> None:
    address = ({"row": ["a", "play", "", 0]},)
    row = {"component": "a", "quantity": "play", "value": "-2", "note": "=1+1"}
    text = edited("", [Edit("measurements.csv", address, None, row)], table=True)
    assert "'=1+1" in text
    assert ",-2," in text
    assert value_in(text, address, table=True) == row
