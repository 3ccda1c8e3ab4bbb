"""Who signs where: fields by role, one person once, and under which words a party signs that only received the report."""

from __future__ import annotations

import pytest

from reporter.model.report import Report, Signatures
from reporter.model.sheet import Person
from reporter.outline import outline
from reporter.pipeline import grade
from tests.outline.small import ROOT, job_of, registry


def signing(template: str, *people: tuple[str, str], folder: str = "demo_job/outgoing") -> Report:
    """A report signed by these people: role and name."""
    job = job_of(ROOT / folder)
    named = tuple(Person.model_validate({"role": role, "name": name}) for role, name in people)
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update={"people": named})})
    chosen = registry().template(template)
    return outline(job, grade(job, registry(), chosen), chosen, registry())


def block(report: Report) -> Signatures:
    return next(each for each in report.blocks if isinstance(each, Signatures))


@pytest.mark.parametrize(
    ("template", "people", "fields"),
    [
        ("handover", [("author", "A"), ("skipper_out", "A"), ("skipper_in", "B")], ("handed_over", "received")),
        ("handover", [("author", "A"), ("skipper_out", "C"), ("skipper_in", "B"), ("witness", "W")],
         ("author", "handed_over", "received", "witness")),
        ("pre_purchase", [("author", "A"), ("client", "B"), ("witness", "W")], ("author", "received", "witness")),
        ("pre_purchase", [("author", "A"), ("witness", "W"), ("witness", "X")], ("author", "witness", "witness_2")),
        ("insurance", [("author", "A"), ("owner", "B"), ("underwriter", "C")], ("author", "received", "received_2")),
    ],
)  # fmt: skip
def test_each_role_has_its_field(
    template: str, people: list[tuple[str, str]], fields: tuple[str, ...]
) -> None:
    signed = block(signing(template, *people))
    assert signed.fields == fields
    assert len(signed.blocks) == len(fields)


def test_who_only_receives_a_survey_does_not_sign_the_authors_statement() -> None:
    report = signing("pre_purchase", ("author", "A"), ("client", "B"), ("witness", "W"))
    first, received, witness = (rows[0].label for rows in block(report).blocks)
    assert first == "Signature"
    assert "having received" in received
    assert "witness" in witness


def test_in_a_handover_both_sign_for_the_condition() -> None:
    report = signing("handover", ("author", "A"), ("skipper_out", "A"), ("skipper_in", "B"))
    assert [rows[0].label for rows in block(report).blocks] == ["Signature", "Signature"]


@pytest.mark.parametrize(("template", "place"), [("pre_purchase", -1), ("handover", -2)])
def test_the_page_says_whose_clock_it_was(template: str, place: int) -> None:
    report = signing(template, ("author", "A"))
    told = report.blocks[report.blocks.index(block(report)) + place]
    assert told.kind == "paragraph"
    assert "the signer’s own computer" in told.text[0].text
