"""The short forms: counts agree with lists, consequences and states are told, lost links, the glossary, the job's new keys."""

from __future__ import annotations

import re
from functools import cache

import pytest

from reporter.model.findings import ActionEdit
from reporter.model.report import Heading, Paragraph, Report, Span, Table
from reporter.model.template import Template
from reporter.model.terms import Grade
from reporter.outline import outline
from reporter.outline.outlining import resolved
from reporter.outline.photos import corrected
from reporter.outline.work_list import work_list
from reporter.outputs.due_list import boat_of, lines
from reporter.pipeline import grade
from reporter.wording import catalogue
from tests.outline.small import DEMO, graded_of, job_of, registry
from tests.outline.test_report import demo, joined, whole


def section(report: Report, title: str) -> Report:
    """The blocks from a heading of level 2 to the next one."""
    start = next(
        place
        for place, block in enumerate(report.blocks)
        if isinstance(block, Heading) and block.text == title
    )
    rest = report.blocks[start + 1 :]
    end = next(
        (place for place, block in enumerate(rest) if isinstance(block, Heading) and block.level == 2),
        len(rest),
    )
    return report.model_copy(update={"blocks": rest[:end]})


def listed(report: Report) -> list[int]:
    """The numbers that lead the rows of the first table: "3", or "16–18, 20"."""
    table = next(block for block in report.blocks if isinstance(block, Table))
    found: list[int] = []
    for row in table.rows:
        if len(row) > 1:
            for text in joined(row[0].text).split(", "):
                low, _, high = text.partition("–")
                found += range(int(low), int(high or low) + 1)
    return found


@pytest.mark.parametrize("declined", [True, False])
def test_no_list_says_that_there_is_nothing_to_do_while_a_part_is_not_to_be_used(*, declined: bool) -> None:
    """All that was asked for of a part graded `stop` is declined: its grade stays, and so does what is said of it."""
    job = job_of(DEMO)
    part = next(each for each in job.components if each.id == "wire-starboard")
    template = registry().template("handover")
    alone = job.model_copy(update={"components": (part,), "paths": (), "earlier": ()})
    asked = grade(alone, registry(), template).components[0].actions
    edits = [ActionEdit(id=each.id, decline=True, reason="she is sold for scrap") for each in asked]
    part = part.model_copy(update={"actions": tuple(edits) if declined else ()})
    alone = alone.model_copy(update={"components": (part,)})
    assessments = grade(alone, registry(), template)
    assert assessments.components[0].grade is Grade.STOP
    for document in (
        outline(alone, assessments, template, registry()),
        work_list(alone, assessments, template, registry()),
    ):
        told = whole(document)
        assert "Nothing to do was found" not in told
        assert ("nothing is planned to put it right" in told) is declined


def test_the_count_of_open_jobs_is_that_of_the_list() -> None:
    told = section(demo("handover"), "What is open")
    count = re.search(
        r"Open jobs: (\d+) to be done, of them (.+?), and (\S+) more are to be looked at\.", whole(told)
    )
    assert count
    found = graded_of(DEMO, "handover").actions
    assert sorted(listed(told)) == [each.number for each in found if each.is_open]
    looks = sum(each.is_open and each.grade is Grade.UNSEEN for each in found)
    assert int(count[1]) == len(listed(told)) - looks
    assert sum(map(int, re.findall(r"\d+", count[2]))) == int(count[1])
    # The first page counts the same.
    first = re.search(
        r"(\S+) things are to be done, and (\S+) more are to be looked at", whole(demo("handover"))
    )
    assert first
    assert first.groups() == (count[1], count[3]) == (count[1], str(looks))


def test_a_recommendation_has_its_consequence_and_its_state() -> None:
    text = whole(section(demo("insurance"), "Recommendations: open, done, declined"))
    assert "plan: put right at the haul-out of October\u00a02026" in text
    assert "At anchor the rudder swings and works wire and sheaves all night" in text
    assert "Told on the first page.\nOpen\n" in text
    assert "Done by the owner, 12\u00a0May\u00a02026; proof:" in text


def test_care_that_no_record_tells_of_is_one_group_and_not_due_today() -> None:
    job = job_of(DEMO)
    boat = boat_of(job, graded_of(DEMO, "handover"), registry())
    care = [each for each in boat.due if each.unrecorded]
    day = job.sheet.inspection.last_day
    assert len(care) > 20
    assert min(each.on or day for each in care) > day
    text = " ".join("\n".join(lines([boat], day, "date")).split())
    assert text.count("Regular care, each part by its kind") == len({each.on for each in care})
    assert text.count("no earlier") == len({(each.on, each.when) for each in care})
    assert "\n".join(lines([boat], day, "supply")).count("Winches") >= 1


@pytest.mark.parametrize("template", ["pre_purchase", "handover", "insurance"])
def test_on_the_day_itself_only_that_is_due_which_forbids_to_sail(template: str) -> None:
    """What is graded `stop`, and what may reach a limit by then; everything else has a day of its own."""
    job = job_of(DEMO)
    boat = boat_of(job, graded_of(DEMO, template), registry())
    today = [each for each in boat.due if each.on == job.sheet.inspection.last_day]
    assert 5 <= len(today) <= 8
    assert all(each.grade is Grade.STOP or each.reason == "forecast" for each in today)


def test_a_link_to_a_section_that_is_left_out_is_plain_text() -> None:
    kept, lost = Span(text="a", href="#here"), Span(text="b", href="#there")
    blocks = resolved([Heading(level=2, text="H", anchor="here"), Paragraph(text=(kept, lost))])
    assert isinstance(blocks[1], Paragraph)
    assert [span.href for span in blocks[1].text] == ["#here", ""]


@cache
def with_sections(*names: str) -> Report:
    job, base = job_of(DEMO), registry().template("insurance")
    template = Template.model_validate({**base.model_dump(), "sections": names})
    return outline(job, graded_of(DEMO, "insurance"), template, registry())


def test_the_glossary_has_the_words_that_occur_and_no_others() -> None:
    words = with_sections("completion", "glossary")
    told = [joined(row[0].text) for row in next(iter(tables(section(words, "Words of the trade")))).rows]
    assert "sheave" in told
    assert told == sorted(told, key=str.lower)
    text = whole(with_sections("completion")).lower()
    assert ("windlass" in told) == ("windlass" in text)
    assert "tang" not in told or re.search(r"\btangs?\b", text)


def tables(report: Report) -> list[Table]:
    return [block for block in report.blocks if isinstance(block, Table)]


@pytest.mark.parametrize(
    "told",
    [
        "Teale Survey",
        "by post, Kiln Row 3",
        "professional indemnity, 250 000 a case",
        "Mateus Lindqvar, in writing, 4 May 2026",
        "his insurer, for the offer of cover only",
        "coast and estuaries in summer",
        "five and a half hours aboard",
        "I would make any offer wait for the mast to come down.",
    ],
)
@pytest.mark.parametrize("template", ["pre_purchase", "handover", "insurance"])
def test_the_jobs_own_facts_stand_in_every_report(template: str, told: str) -> None:
    assert told in whole(demo(template))


def test_the_authors_contact_is_printed_and_not_attached() -> None:
    attached = "".join(each.content.decode("utf-8") for each in demo("insurance").attachments)
    assert "Kiln Row" not in attached


@pytest.mark.parametrize(
    ("seconds", "told"),
    [
        (3800, "the camera’s clock was 1 h 3 min behind; times are corrected"),
        (-130, "the camera’s clock was 2 min ahead; times are corrected"),
        (12, "the camera’s clock was 12 s behind; times are corrected"),
    ],
)
def test_how_far_a_cameras_clock_was_off(seconds: float, told: str) -> None:
    """The correction is what was added to the camera's time: a clock that is behind needs plus."""
    assert corrected(seconds, catalogue()) == told


def test_what_a_long_decision_leaves_no_room_for_follows_the_boat() -> None:
    titles = [
        block.text for block in demo("handover").blocks if isinstance(block, Heading) and block.level == 2
    ]
    assert titles[:2] == ["Where aboard it is", "About this report"]
    told = whole(section(demo("handover"), "About this report"))
    assert "How big the job is" in told
    assert "It is no survey of the vessel" in told
    assert "How big the job is" not in whole(demo("handover")).partition("Where aboard it is")[0]


def test_who_hands_over_is_not_known_once_where_nobody_is_named() -> None:
    assert "by not known" not in whole(demo("handover"))
    assert "Handed over" in whole(demo("handover"))


def test_a_report_points_to_no_section_that_it_has_not() -> None:
    """The formula of the score stands in "method", which the short forms leave to the data."""
    assert "How grades and scores are made" not in whole(demo("handover"))
    assert "How grades and scores are made" in whole(demo("pre_purchase"))


def test_what_is_not_fitted_bears_no_sign_of_what_was_not_seen() -> None:
    cells = [
        cell
        for block in section(demo("handover"), "At a glance").blocks
        if isinstance(block, Table)
        for row in block.rows
        for cell in row
    ]
    signs = {joined(cell.text): cell.grade for cell in cells}
    assert (signs["not\u00a0fitted"], signs["not\u00a0seen"]) == (None, Grade.UNSEEN)


@pytest.mark.parametrize(
    ("template", "title"), [("insurance", "What it looks like"), ("pre_purchase", "Photo register")]
)
def test_how_the_times_of_photos_are_known_is_told_once(template: str, title: str) -> None:
    told = whole(section(demo(template), title))
    assert told.count("the camera’s clock was 1 h 3 min behind") == 1
    assert re.search(r"Photos [\d, –]+: time zone assumed", told)
    shown = told + " ".join(joined(photo.caption) for photo in demo(template).photos)
    assert "12\u00a0May\u00a02026, 13:25 +01:00" in shown
    assert shown.count("by the camera’s own clock") == 1


def test_a_photo_of_the_worst_names_its_number_and_its_part_once() -> None:
    told = " ".join(joined(photo.caption) for photo in demo("insurance").photos)
    assert "Photo 14. Lower terminal, starboard cap shroud, stop. Swage of" in told
    assert told.count("Photo 14.") == 1


def test_what_all_forecasts_rest_on_is_told_once() -> None:
    told = whole(section(demo("insurance"), "Measured wear and where it leads"))
    assert told.count("With two readings nobody can tell") == 1


def test_where_the_deviation_is_asked_for_the_compass_is_what_fails_if_it_is_left() -> None:
    """The job stands at the chain, whose own consequence is another matter."""
    folder = DEMO / "outgoing"
    template = registry().template("handover")
    first = next(
        block
        for block in outline(job_of(folder), graded_of(folder, "handover"), template, registry()).blocks
        if isinstance(block, Table)
        and any("Take the compass's deviation" in joined(c.text) for row in block.rows for c in row)
    )
    row = next(row for row in first.rows if "Take the compass" in joined(row[-1].text))
    assert joined(row[2].text).startswith("The compass may show a wrong course")


def test_what_was_renewed_is_told_as_it_is_found_now() -> None:
    history = section(demo("insurance"), "What changed since the earlier record")
    rows = {
        joined(row[0].text): row for block in history.blocks if isinstance(block, Table) for row in block.rows
    }
    sheave = rows["Port sheave"]
    assert joined(sheave[1].text) == "renewed since"
    assert joined(sheave[4].text) == "No fault found in what was examined."


def test_one_earlier_visits_day_is_told_once_and_not_in_every_row() -> None:
    history = section(demo("insurance"), "What changed since the earlier record")
    assert whole(history).count("3\u00a0September\u00a02025") == 1
