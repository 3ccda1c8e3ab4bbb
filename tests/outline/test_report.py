"""What the report says: the first page's elements, no banned claim, nothing private, links that lead somewhere."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache

import pytest

from reporter.model.report import (
    Block,
    GradeLine,
    Heading,
    List,
    Paragraph,
    Report,
    Signatures,
    Spread,
    Table,
    Text,
)
from reporter.outline import outline
from reporter.pipeline import grade
from tests.outline.small import DEMO, ROOT, graded_of, job_of, registry
from tests.test_words import claims

TEMPLATES = ("pre_purchase", "handover", "insurance")


@cache
def demo(template: str = "pre_purchase") -> Report:
    """The demo job outlined by one template."""
    chosen = registry().template(template)
    return outline(job_of(DEMO), graded_of(DEMO, template), chosen, registry())


def words_of(block: Block) -> Iterator[str]:
    """Every text of a block that a reader sees."""
    if isinstance(block, Heading):
        yield block.text
    elif isinstance(block, Paragraph):
        yield joined(block.text)
        yield joined(block.aside)
    elif isinstance(block, GradeLine):
        yield from (block.word, block.name, block.place, block.sentence)
    elif isinstance(block, Spread):
        for each in block.texts:
            yield from words_of(each)
    elif isinstance(block, List):
        yield from (joined(item.text) for item in block.items)
    elif isinstance(block, Table):
        yield from (joined(cell.text) for row in block.rows for cell in row)
    elif isinstance(block, Signatures):
        yield from (text for group in block.blocks for blank in group for text in (blank.label, blank.value))


def joined(text: Text) -> str:
    return "".join(span.text for span in text)


def first_page(report: Report) -> str:
    """All text before what was not seen: the decision, the boat, what they are weighed by."""
    end = next(
        place for place, block in enumerate(report.blocks) if getattr(block, "anchor", "") == "not_seen"
    )
    return "\n".join(text for block in report.blocks[:end] for text in words_of(block))


def whole(report: Report) -> str:
    return "\n".join(text for block in report.blocks for text in words_of(block))


@pytest.mark.parametrize(
    ("element", "text"),
    [
        ("issuing body", "Rowan Teale"),
        ("unique identification", "RT-2026-014"),
        ("date of issue", "draft, not issued"),
        ("date of inspection", "12\u00a0May\u00a02026"),
        ("item inspected", "Marram"),
        ("identity of the item", "XX-MRM04017C404"),
        ("client", "Mateus Lindqvar"),
        ("result", "looked into"),
        ("what was not examined", "Rudder blade and lower bearing: afloat"),
    ],
)
def test_the_first_page_has_what_an_inspection_report_must_have(element: str, text: str) -> None:
    """ISO/IEC 17020:2012, 7.4.2 (read in a secondary text); 7.4.4 asks for correct, accurate and clear."""
    assert text in first_page(demo()), element


def test_there_is_room_for_the_authors_approval() -> None:
    """ISO/IEC 17020:2012, 7.4.2: signature or other sign of approval."""
    assert any(isinstance(block, Signatures) for block in demo().blocks)


def test_the_date_of_issue_is_told_once_issued() -> None:
    job = job_of(DEMO)
    import datetime as dt

    issued = job.sheet.report.model_copy(update={"issued": dt.date(2026, 5, 14)})
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update={"report": issued})})
    chosen = registry().template("pre_purchase")
    report = outline(job, grade(job, registry(), chosen), chosen, registry())
    assert "issued 14\u00a0May\u00a02026" in first_page(report)
    assert (report.draft, demo().draft) == ("", "DRAFT")


@pytest.mark.parametrize("template", TEMPLATES)
def test_no_report_claims_what_it_must_not(template: str) -> None:
    assert claims(whole(demo(template))) == []


@pytest.mark.parametrize("template", TEMPLATES)
def test_nothing_private_is_printed_or_attached(template: str) -> None:
    report = demo(template)
    everything = whole(report) + "".join(each.content.decode("utf-8") for each in report.attachments)
    assert "touchy" in (ROOT / "demo_job/findings.yaml").read_text("utf-8")
    assert "touchy" not in everything
    assert "notes to yourself" not in everything


@pytest.mark.parametrize("template", TEMPLATES)
def test_every_link_leads_to_an_anchor(template: str) -> None:
    text = demo(template).model_dump_json(exclude={"attachments"})
    wanted = set(re.findall(r'"href":"#([^"]+)"', text))
    given = set(re.findall(r'"anchor":"([^"]+)"', text))
    assert wanted <= given


@pytest.mark.parametrize("template", TEMPLATES)
def test_headings_never_jump_a_level(template: str) -> None:
    level = 0
    for block in demo(template).blocks:
        if isinstance(block, Heading | GradeLine):
            assert block.level <= level + 1
            level = block.level


@pytest.mark.parametrize("template", TEMPLATES)
def test_no_bracketed_term_or_placeholder_is_left(template: str) -> None:
    left = re.findall(r"\[[a-z ]+\]|\{[a-z_]+\}", whole(demo(template)))
    assert left == []


def test_templates_differ() -> None:
    titles = {demo(template).title for template in TEMPLATES}
    assert len(titles) == 3
    assert "score" in whole(demo("pre_purchase")).lower()


def test_the_attached_assessments_are_json_with_every_part() -> None:
    attached = {each.name: each.content for each in demo().attachments}
    assert list(attached) == [
        "job.yaml",
        "findings.yaml",
        "measurements.csv",
        "assessments.json",
        "photo_register.csv",
    ]
    data = json.loads(attached["assessments.json"])
    assert {row["id"] for row in data["components"]} >= {"chain"}


def test_outlining_twice_gives_the_same_value() -> None:
    assert demo.__wrapped__("pre_purchase") == demo("pre_purchase")


def test_the_job_may_disclose_less_than_its_template_but_not_more() -> None:
    job = job_of(DEMO)
    chosen = registry().template("pre_purchase").model_copy(update={"discloses": ("job", "findings")})
    job = job.model_copy(
        update={"sheet": job.sheet.model_copy(update={"disclose": ("findings", "measurements")})}
    )
    report = outline(job, grade(job, registry(), chosen), chosen, registry())
    assert [each.name for each in report.attachments] == ["findings.yaml"]
