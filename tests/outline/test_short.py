"""A report told in short: everything urgent on the first page, each fact once, sentences that can be read aloud."""

from __future__ import annotations

import math
import re
from collections import Counter

import pytest

from reporter.model.drawing import Numeral
from reporter.model.measure_bar import MeasureBar
from reporter.model.report import (
    Block,
    Figure,
    GradeLine,
    Paragraph,
    PhotoPair,
    Report,
    Table,
)
from reporter.model.terms import Grade
from reporter.outline import briefly, outline, overview
from reporter.outline.context import Context
from reporter.outline.jobs import urgent
from reporter.outline.plainly import runs, saying
from reporter.outline.speaking import spoken
from reporter.pipeline import grade
from reporter.wording import catalogue
from tests.outline.small import DEMO, graded_of, job_of, registry
from tests.outline.test_report import demo, joined, words_of

SERIOUS = {Grade.STOP, Grade.FIRST}
SILENT_E = re.compile(r"(?<=[a-z])(?:es|ed|e)\b")
VOWELS = re.compile(r"[aeiouy]+")


@pytest.fixture(scope="module")
def context() -> Context:
    job, template = job_of(DEMO), registry().template("pre_purchase")
    told = spoken(graded_of(DEMO, "pre_purchase"), job, registry())
    return Context(job, told, template, registry().plugins, registry().systems, catalogue())


def part_of(report: Report, anchor: str, end: str) -> list[Block]:
    """The blocks from the one with this anchor to the one with the other."""
    anchors = [getattr(block, "anchor", "") for block in report.blocks]
    return list(report.blocks[anchors.index(anchor) : anchors.index(end)])


def test_the_first_page_lists_everything_urgent_with_what_happens_else(context: Context) -> None:
    table = next(block for block in demo().blocks if isinstance(block, Table))
    text = " ".join(joined(cell.text) for row in table.rows for cell in row)
    found = urgent(context)
    assert len(found) == 10
    for part, action in found:
        assert context.words.terms(action.what) in text
        assert part.title in text
        assert part.component.place.lower() in text.lower()
        assert context.words.terms(context.plugins[part.component.kind].consequence) in text
    numbers = {
        number for row in table.rows if len(row) > 1 for number in re.findall(r"\d+", joined(row[0].text))
    }
    assert numbers == {str(action.number) for _, action in found}


@pytest.mark.parametrize("template", ["pre_purchase", "handover", "insurance"])
def test_what_happens_else_is_told_once(context: Context, template: str) -> None:
    """On the first page, and nowhere beside a part or in a list again; the same for what is to be done first."""
    text = "\n".join(text for block in demo(template).blocks for text in words_of(block))
    # What was recommended last time is another fact.
    text = re.sub(r"\nEarlier recommendations\n.*?\nWhat it looks like\n", "\n", text, flags=re.DOTALL)
    for part, action in urgent(context):
        assert text.count(context.words.terms(context.plugins[part.component.kind].consequence)) == 1
        assert text.count(context.words.terms(action.what)) == 1


def test_the_decision_counts_what_is_urgent() -> None:
    text = "\n".join(text for block in demo().blocks[:6] for text in words_of(block))
    assert "Do not sail her until five things are put right." in text
    assert "Five more come before the passage of" in text
    assert "and 7 more" not in text


def test_only_serious_parts_have_bars_and_a_line_of_what_their_failure_means() -> None:
    grade, bars = Grade.CLEAR, 0
    for block in part_of(demo(), "system-steering", "terms"):
        if isinstance(block, GradeLine):
            grade = block.grade
        bars += isinstance(block, MeasureBar)
        if isinstance(block, MeasureBar) or (
            isinstance(block, Paragraph) and joined(block.text).startswith("If it")
        ):
            assert grade in SERIOUS
    assert bars


def test_a_task_stands_in_words_once(context: Context) -> None:
    """Tasks that several parts share are told together; elsewhere their numbers stand for them."""
    text = "\n".join(text for block in demo().blocks for text in words_of(block))
    told = Counter(
        {
            what: text.count(what)
            for action in context.assessments.actions
            if (what := context.words.terms(action.what)) and len(what) > 40
        }
    )
    assert {what: count for what, count in told.items() if count > 1} == {}
    later = [action for action in context.assessments.actions if action.grade in {Grade.PLAN, Grade.WATCH}]
    assert [each.what for each in later if context.words.terms(each.what).lower() not in text.lower()] == []


def test_every_part_not_seen_is_told_once_with_what_would_settle_it(context: Context) -> None:
    gaps = part_of(demo(), "not_seen", "system-steering")
    rows = next(block for block in gaps if isinstance(block, Table)).rows
    text = "\n".join(joined(row[1].text) for row in rows if len(row) > 1)
    for part in context.with_grade(Grade.UNSEEN):
        assert text.count(part.title) == 1, part.title
    assert all(joined(row[3].text) for row in rows if len(row) > 1)
    assert [
        row[1]
        for row in rows
        if len(row) > 1 and "Cap shroud, port; Cap shroud, starboard" in joined(row[1].text)
    ]


def test_every_clear_part_is_a_row(context: Context) -> None:
    names = {joined(row[0].text) for block in demo().blocks if isinstance(block, Table) for row in block.rows}
    lines = {block.name for block in demo().blocks if isinstance(block, GradeLine)}
    for part in context.with_grade(Grade.CLEAR):
        assert any(name.startswith(part.title) for name in names), part.title
        assert part.title not in lines


def test_only_sources_that_are_pointed_to_are_listed() -> None:
    listed = next(block for block in part_of(demo(), "sources", "photo_register") if isinstance(block, Table))
    wanted = set(re.findall(r"Source (\d+)", demo().model_dump_json(exclude={"attachments"})))
    assert {joined(row[0].text) for row in listed.rows} == wanted


def discs() -> list[Numeral]:
    """The discs on the picture of the boat."""
    figure = next(block for block in demo().blocks if isinstance(block, Figure))
    return [shape for shape in figure.drawing.shapes if isinstance(shape, Numeral)]


def test_the_boat_has_a_disc_with_the_numbers_of_each_part_that_comes_first(context: Context) -> None:
    numbers: dict[str, list[int]] = {}
    for part, action in urgent(context):
        numbers.setdefault(part.component.id, []).append(action.number)
    assert {disc.text for disc in discs()} == {runs(own) for own in numbers.values()}
    assert {disc.href for disc in discs()} == {f"#{ident}" for ident in numbers}
    stops = {disc.text for disc in discs() if disc.grade is Grade.STOP}
    assert stops == {"1", "2, 3", "4", "5"}


def test_no_disc_of_the_boat_hides_another() -> None:
    found = discs()
    for place, one in enumerate(found):
        for other in found[:place]:
            assert math.dist(one.at, other.at) >= overview.REACH


def test_a_part_leads_back_to_the_picture_of_the_boat() -> None:
    lines = {block.anchor: block.place_href for block in demo().blocks if isinstance(block, GradeLine)}
    assert {lines[disc.href.removeprefix("#")] for disc in discs()} == {"#boat"}


def test_a_part_that_the_picture_has_no_place_for_is_said(context: Context) -> None:
    numbers = {"wire-starboard": [1], "halyards": [10]}
    text = joined(overview._key(context, numbers, {"halyards"}).text)
    assert text.endswith("Not drawn: no.\u00a01.")


def test_discs_that_mean_one_place_stand_round_it() -> None:
    """Twenty of them, all inside the picture, none on another."""
    taken: list[tuple[float, float]] = []
    for _ in range(20):
        taken.append(overview._free((20, 200), taken, (482, 500), 17))
    assert taken[0] == (20, 200)
    assert min(math.dist(one, other) for one in taken for other in taken if one != other) >= 17
    assert all(10 <= x <= 472 for x, _ in taken)


def with_photos(template: str, without: str = "") -> Report:
    """The demo with photos of the boat and of the number on her hull, told without one of the template's sections."""
    job = job_of(DEMO)
    named = {"photo": "photos/controls.jpg", "hull_number_photo": "photos/brake.jpg"}
    vessel = job.sheet.vessel.model_copy(update=named)
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": vessel})})
    chosen = registry().template(template)
    sections = tuple(each for each in chosen.sections if each != without)
    chosen = chosen.model_copy(update={"sections": sections})
    return outline(job, grade(job, registry(), chosen), chosen, registry())


def test_photos_of_the_boat_stand_beside_her_picture_and_come_first() -> None:
    report = with_photos("pre_purchase")
    section = part_of(report, "boat", "at_a_glance")
    (pair,) = [block for block in section if isinstance(block, PhotoPair)]
    assert [(photo.plate, photo.file) for photo in pair.photos] == [
        (1, "photos/controls.jpg"),
        (2, "photos/brake.jpg"),
    ]
    assert [photo.plate for photo in report.photos][:3] == [1, 2, 8]
    register = [block for block in report.blocks if isinstance(block, Table)][-1]
    assert joined(register.rows[0][0].text) == "1, 8"


def test_without_the_picture_photos_of_the_boat_stand_with_her_particulars() -> None:
    section = part_of(with_photos("insurance", "boat"), "particulars", "circumstances")
    assert [[photo.plate for photo in block.photos] for block in section if isinstance(block, PhotoPair)] == [
        [1, 2]
    ]


def test_answers_are_sentences(context: Context) -> None:
    told = {saying(context, check) for part in context.assessments.components for check in part.checks}
    assert {
        "A crack was found.",
        "A split pin is missing.",
        "The tube is cracked.",
        "Rust stain runs from the seal.",
    } <= told
    assert "Broken wires, starboard sheave: 3, where none is allowed." in told
    assert not [text for text in told if re.search(r"inside the limit of 0\.|Cracks: a crack", text)]


@pytest.mark.parametrize(
    ("numbers", "shown"), [([1], "1"), ([2, 1], "1, 2"), ([20, 16, 17, 18], "16–18, 20"), ([], "")]
)
def test_numbers_in_a_row_are_drawn_together(numbers: list[int], shown: str) -> None:
    assert runs(numbers) == shown


def test_a_job_may_ask_for_all_the_evidence() -> None:
    job = job_of(DEMO)
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update={"evidence": "all"})})
    chosen = registry().template("pre_purchase")
    report = outline(job, grade(job, registry(), chosen), chosen, registry())
    lines = [block for block in report.blocks if isinstance(block, GradeLine)]
    assert (
        len(lines)
        == len(job.components)
        > len([block for block in demo().blocks if isinstance(block, GradeLine)])
    )


def syllables(word: str) -> int:
    """Groups of vowels, a silent ending not counted: a rule of thumb, right on the whole."""
    word = word.lower()
    stem = word if word.endswith(("le", "les")) else SILENT_E.sub("", word)
    return max(len(VOWELS.findall(stem)), 1)


def reading_ease(texts: list[str]) -> float:
    """Flesch's reading ease: 206.835 - 1.015 words/sentences - 84.6 syllables/words (R. Flesch, 1948; from memory)."""
    sentences = [
        part for text in texts for part in re.split(r"[.!?](?:\s|$)", text) if re.search(r"[a-z]", part)
    ]
    words = [word for text in sentences for word in re.findall(r"[A-Za-z]+(?:['’][a-z]+)?", text)]
    return 206.835 - 1.015 * len(words) / len(sentences) - 84.6 * sum(map(syllables, words)) / len(words)


def test_the_first_pages_are_easy_to_read() -> None:
    """The decision, the boat and the glance: plain English is 60 and more on Flesch's scale."""
    anchors = [getattr(block, "anchor", "") for block in demo().blocks]
    opening = demo().blocks[: anchors.index("not_seen")]
    # Names and labels are no sentences, and would only flatter the figure.
    texts = [text for block in opening for text in words_of(block) if "." in text]
    assert reading_ease(texts) >= 60


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("The cat sat on the mat.", 100, 120),
        ("Institutional considerations necessitate comprehensive reevaluation.", -200, 0),
    ],
)
def test_the_scale_of_reading_ease(text: str, low: float, high: float) -> None:
    assert low < reading_ease([text]) < high


@pytest.mark.parametrize(
    ("own", "is_told"),
    [
        ("It was oiled. The chain is dry, with rust on two links.", False),
        ("the chain is\ndry.", False),
        ("Nobody could tell whether the chain is dry.", True),
        ("The chain is dry nowhere.", True),
        ("It creaks.", True),
    ],
)
def test_an_answer_that_the_inspectors_own_sentence_gives_is_told_once(
    context: Context, own: str, is_told: bool
) -> None:
    part = next(each for each in context.assessments.components if each.component.id == "chain")
    said = part.component.model_copy(update={"found": own, "opinion": ""})
    told = briefly._besides(context, part.model_copy(update={"component": said}))
    assert ("The chain is dry." in told) == is_told
    assert "Surface rust that a cloth takes off." in told
