"""What a tired skipper reads on a terminal: sentences, what matters first, nothing twice; and answers that name their thing."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest

from reporter.model.terms import Extent, Grade
from reporter.outline import outline
from reporter.outline.plainly import standing_alone
from reporter.outline.speaking import spoken
from reporter.outline.work_list import work_list
from reporter.outputs.grades import summary
from reporter.wording import catalogue
from reporter.wording.catalogue import Listed
from tests.demo.test_demo import FOLDERS, graded, job
from tests.outline.small import registry
from tests.outline.test_report import demo, whole


def lines(name: str) -> list[str]:
    """What `gudgeon check` prints of a folder of the demo."""
    sheet = job(name).sheet
    return summary(job(name), graded(name), registry().template(sheet.purpose), registry())


@pytest.mark.parametrize("kind", sorted(registry().plugins))
def test_a_bad_answer_says_what_is_wrong_with_what(kind: str) -> None:
    """Not "Shoes or lining: worn thin." but "Shoes or lining are worn thin."; a gap is told among the gaps."""
    words = catalogue()
    bad = [
        (f"{question.id}.{choice.id}", words.terms(choice.words))
        for question in registry().plugins[kind].observations
        for choice in question.choices
        if choice.grade not in {Grade.CLEAR, Grade.UNSEEN} and not choice.gap
    ]
    assert [(ident, said) for ident, said in bad if not standing_alone(said, words)] == []
    told = [standing_alone(said, words) for _, said in bad]
    assert [text for text in told if re.search(r"\b(is|are|has|have) (is|are)\b", text)] == []


@pytest.mark.parametrize("name", sorted(FOLDERS))
def test_check_tells_what_matters_first(name: str) -> None:
    told = lines(name)
    assert max(map(len, told)) <= 80
    assert re.match(r"Marram, .+?\. (Do not sail|One thing|Nothing)", told[0])
    heads = [f"{word}: " for word in ("Stop", "First", "Plan", "Watch")]
    heads += ["What was not seen", "No fault found", "The systems", "What would make"]
    places = [place for head in heads for place, line in enumerate(told) if line.startswith(head)]
    assert places == sorted(places)
    assert len(places) >= 5


@pytest.mark.parametrize("name", sorted(FOLDERS))
def test_check_names_every_part_and_says_equal_things_once(name: str) -> None:
    text = " ".join(" ".join(lines(name)).split())
    titles = [part.component.name for part in graded(name).components if part.component.name]
    assert [title for title in titles if title not in text] == []
    for said in re.findall(r"[A-Z][^.:]{50,}\.", text):
        assert text.count(said) == 1, said


def test_what_is_found_of_several_parts_is_one_entry_with_all_their_names() -> None:
    text = " ".join(" ".join(lines("survey")).split())
    assert "Cap shroud, starboard; Lower shrouds; Backstay: Fitted 2014, 12 years ago: past 10 years." in text
    assert (
        "The mast was not climbed. Cap shroud, port; Cap shroud, starboard; Lower shrouds; Backstay: The wire"
        in text
    )


def test_what_was_seen_from_deck_only_asks_for_a_look_from_close_by_and_not_for_an_answer() -> None:
    """Whoever goes up answers from where it was looked at: asking for both would say one thing twice."""
    parts = spoken(graded("survey"), job("survey"), registry()).components
    told = [text for part in parts for text in part.capped if "close by" in text]
    assert told
    assert [text for text in told if "from where" in text.lower()] == []


def test_check_says_of_every_part_not_seen_why() -> None:
    text = " ".join(" ".join(lines("survey")).split())
    for part in graded("survey").components:
        seen = part.component.examined
        if seen.extent is Extent.NOT_SEEN:
            assert seen.because[1:] in text, part.component.id


@pytest.mark.parametrize(
    ("lang", "said", "told"),
    [
        ("en", "the tube cracked", "The tube is cracked."),
        ("en", "a crack", "A crack was found."),
        ("en", "the stop pads are worn", "The stop pads are worn."),
        ("en", "does not light", ""),
        ("de", "das Rohr gerissen", "Das Rohr ist gerissen."),
        ("de", "nicht an Bord", ""),
    ],
)
def test_an_answer_becomes_a_sentence(lang: str, said: str, told: str) -> None:
    assert standing_alone(said, catalogue(lang)) == told


@pytest.mark.parametrize(
    ("items", "told"),
    [
        (("mast", "boom and vang"), "mast; boom and vang"),
        (("Cap shroud, port", "Backstay", "Forestay"), "Cap shroud, port; Backstay; Forestay"),
        (("mast", "boom", "vang"), "mast, boom and vang"),
        (("sand", "boom"), "sand and boom"),
        (("boom and vang",), "boom and vang"),
    ],
)
def test_what_has_a_comma_or_an_and_of_its_own_is_parted_by_semicolons(
    items: tuple[str, ...], told: str
) -> None:
    assert str(Listed(items)) == told


GONE = (
    r"Cracks: a crack", r"Not taken: ", r"Examined: ", r"limit of 0\b", r"[Dd]iameter lost −", r"not known \(",
    r"corrected by \d+ s", r"\d+ stop, \d+ first", r"Look at what was not seen: .*find out", r"Find out: from",
    r"\.\.|: \.|; \.|\(\)|[a-z]: ;", r"(?<!no)(?<! Regs)(?<! tit)\. [a-z]", r"\b(is|are) (is|are)\b", r"\bNone\b",
)  # fmt: skip
"""Ways to say things that nobody would read aloud, and the marks of a sentence that was put together wrongly."""


@cache
def documents() -> dict[str, str]:
    """The text of every report of the demo, of the handover's, and of the yard's sheet."""
    told = {name: whole(demo(name)) for name in ("pre_purchase", "handover", "insurance")}
    for name, make in (("outgoing", outline), ("survey", work_list)):
        template = registry().template(job(name).sheet.purpose)
        told[f"{name} {make.__name__}"] = whole(make(job(name), graded(name), template, registry()))
    return told


def test_no_document_says_what_nobody_would_read_aloud() -> None:
    told = documents()
    assert len(told) == 5
    found = {
        (name, text[max(0, hit.start() - 40) : hit.end() + 40])
        for name, text in told.items()
        for pattern in GONE
        for hit in re.finditer(pattern, text)
    }
    assert found == set()


def test_no_long_sentence_is_told_twice_in_a_document() -> None:
    """The program's own; a caution stands with each list of work, and what a part's failure means with the part as well."""
    # A short form lists every job, and the urgent ones stand on its first page as well.
    jobs = " ".join(
        catalogue().terms(f"{task.words}.") for kind in registry().plugins.values() for task in kind.tasks
    )
    own = " ".join(file.read_text("utf-8") for folder in FOLDERS.values() for file in folder.glob("*.yaml"))
    own = " ".join(own.split())
    for name, text in documents().items():
        said = Counter(re.findall(r"[A-Z][^.:;]{70,}\.", text.replace("\n", " ")))
        twice = {each for each, count in said.items() if count > 1 and each[:40] not in own}
        known = TWICE if name == "pre_purchase" else f"{TWICE} {jobs}"
        assert {each for each in twice if each not in known} == set(), name


TWICE = " ".join(
    [catalogue()("terms.caution_1"), *(each.consequence for each in registry().plugins.values())]
)
