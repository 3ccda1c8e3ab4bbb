"""The yard's sheet: every open job once, by precedence; material as the schedule has it; nobody's name, no opinion."""

from __future__ import annotations

import csv
import io
from functools import cache

from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.report import Report, Table
from reporter.outline.work_list import work_list
from reporter.outputs.due_list import boat_of
from reporter.outputs.yard_csv import work_csv
from tests.outline.small import DEMO, graded_of, job_of, registry
from tests.outline.test_report import joined, whole


@cache
def told() -> tuple[Job, Assessments, Report, list[dict[str, str]]]:
    job, template = job_of(DEMO), registry().template("pre_purchase")
    assessments = graded_of(DEMO, "pre_purchase")
    text = work_csv(job, assessments, template, registry())
    report = work_list(job, assessments, template, registry())
    return job, assessments, report, list(csv.DictReader(io.StringIO(text)))


def numbers(report: Report) -> list[int]:
    """The numbers in the first column of the first table, row by row; rows of one cell name the precedence."""
    table = next(block for block in report.blocks if isinstance(block, Table) and block.style == "boxes")
    cells = [joined(row[0].text) for row in table.rows if len(row) == len(table.columns)]
    return [int(each) for text in cells for each in text.split(", ")]


def test_every_open_job_stands_once_and_the_urgent_ones_first() -> None:
    _, assessments, report, rows = told()
    wanted = [each.number for each in assessments.actions if each.is_open]
    assert sorted(numbers(report)) == sorted(int(row["number"]) for row in rows) == wanted
    first = [each.number for each in assessments.actions if each.is_open and each.grade in {"stop", "first"}]
    assert set(numbers(report)[: len(first)]) == set(first)


def test_equal_jobs_on_several_parts_are_one_row_and_each_keeps_its_line_in_the_csv() -> None:
    _, _, report, rows = told()
    text = whole(report)
    assert "Cap shroud, port; Cap shroud, starboard; Lower shrouds; Backstay" in text
    assert len(rows) == len(numbers(report))


def test_the_csv_has_material_access_and_effort_under_their_heads() -> None:
    row = next(each for each in told()[3] if each["parts"].startswith("chain, 08B-1"))
    assert (row["access"], row["effort"]) == ("opened up", "half a day")
    assert row["parts"].startswith("chain, 08B-1")
    assert row["trade"] == "Steering gear"
    assert row["checked_by"] == ""


def test_the_sheet_asks_for_what_the_schedule_has_to_be_bought() -> None:
    job, assessments, _, rows = told()
    bring = {each.number: each.bring for each in boat_of(job, assessments, registry()).due if each.number}
    listed = {int(row["number"]): row["parts"] for row in rows}
    # Trade terms in brackets are swapped for the chosen usage.
    wanted = {number: "; ".join(parts).replace("[", "").replace("]", "") for number, parts in bring.items()}
    assert listed == wanted


def test_no_persons_name_no_score_no_opinion() -> None:
    job, assessments, report, rows = told()
    text = whole(report) + str(rows)
    assert [person.name for person in job.sheet.people if person.name in text] == []
    assert "score" not in text.lower()
    assert "sale" not in text
    opinions = [part.component.opinion for part in assessments.components if part.component.opinion.strip()]
    assert opinions
    assert [each for each in opinions if each[:40] in text] == []


def test_what_a_persons_own_job_uses_up_is_not_guessed_from_the_kind() -> None:
    """The surveyor's stay in the shroud's stead takes no split pins; the rule's job on the same terminal does."""
    _, _, _, rows = told()
    own = next(row for row in rows if row["what"].startswith("Set a spare halyard"))
    assert own["parts"] == ""
    assert any("split pins" in row["parts"] for row in rows if row["part"] == own["part"])


def test_sizes_stand_beside_their_names_and_photos_begin_their_captions() -> None:
    text = whole(told()[2])
    assert "chain size: 08B-1; material: carbon steel" in text
    assert "(photos\u00a07, 8)" in text
    assert r"Photo\xa06. Engine controls. " in repr(told()[2].blocks)
