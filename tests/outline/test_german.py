"""The German of the program: all of it there, its placeholders kept, nothing claimed, and no English left on the pages.

The yardstick for English is the program's own: a word that its English texts use and its German ones never do.
"""

from __future__ import annotations

import importlib
import re
import string
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

from reporter import pipeline
from reporter.engineering.declaration import Formula
from reporter.kinds.shared import texts
from reporter.model.base import Noun
from reporter.model.report import Attachment, Report
from reporter.model.terms import Grade
from reporter.outline import outline
from reporter.outline.left_open import _merged
from reporter.outline.outlook import sentence
from reporter.outline.plainly import standing_alone
from reporter.outputs.grades import summary
from reporter.outputs.installed import installed, limits_told
from reporter.outputs.kind_page import kind_page
from reporter.outputs.yard_csv import work_csv
from reporter.registry import find, load
from reporter.wording import catalogue, speaking
from tests.formulas import every_formula
from tests.history.test_forecast_figures import CASES, found

ROOT = Path(__file__).parents[2]
KINDS = [file for file in (ROOT / "plugins").rglob("*.toml") if file.parent.name != "drawings"]
FILES = [*KINDS, *(ROOT / "reporter/kinds/shared").glob("*.toml")]
CLAIMS = re.compile(r"\b(sicher|seetüchtig|mängelfrei|einwandfrei|bestanden|zertifiziert|garantiert)\w*\b")
DENIED = {"sicherheit", "sicherheitsfaktor", "sicherheitsfaktors"}
"""Words that begin like a claim and are none: what a report is no measure of, and a ratio of two forces."""
WORD = re.compile(r"[^\W\d_]{3,}")
NAMES = frozenset({"gudgeon", "limits", "kind", "lloyd", "navy", "army", "bar"})
"""Words that stay English: a command to type, bodies in the names of sources, a unit."""
SHOWN = frozenset(
    {"text", "title", "alt", "caption", "word", "name", "place", "sentence", "label", "aside", "low_label", "high_label",
     "running_head", "running_foot", "subject", "page_word", "draft", "value"}
)  # fmt: skip
"""Fields of a report's nouns that a reader sees."""


def messages(lang: str) -> dict[str, str]:
    """The messages of one language alone, by dotted id."""
    return dict(_flat(tomllib.loads((ROOT / f"reporter/wording/{lang}.toml").read_text("utf-8"))))


def _flat(data: dict[str, Any], before: str = "") -> Iterator[tuple[str, str]]:
    for key, value in data.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{key}.")
        elif isinstance(value, str):
            yield f"{before}{key}", value


def placeholders(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def kinds(lang: str) -> Iterator[tuple[Path, dict[tuple[str, ...], str | list[str]]]]:
    """Each kind's file and shared block in one language, with its own texts."""
    for file in FILES:
        stem, *other = file.name.removesuffix(".toml").split(".")
        if other == ([] if lang == "en" else [lang]):
            yield file.with_name(stem), dict(texts(tomllib.loads(file.read_text("utf-8"))))


def words(text: str) -> set[str]:
    return {word.lower() for word in WORD.findall(text)}


def test_every_message_has_its_german_with_the_same_placeholders() -> None:
    english, german = messages("en"), messages("de")
    assert set(english) - set(german) == set()
    differing = [
        ident for ident, text in english.items() if placeholders(text) != placeholders(german[ident])
    ]
    assert differing == []


def test_every_trade_term_has_its_german() -> None:
    data = {
        lang: tomllib.loads((ROOT / f"reporter/wording/{lang}.toml").read_text("utf-8"))
        for lang in ("en", "de")
    }
    assert {row["uk"] for row in data["en"]["usage"]} == {row["uk"] for row in data["de"]["usage"]}
    assert catalogue("de").terms("[split pin]") == "Splint"


def test_every_system_and_station_has_its_german() -> None:
    german = messages("de")
    for system in load(find()).systems.values():
        wanted = {f"system.{system.id}", *(f"station.{system.id}.{each.id}" for each in system.stations)}
        assert wanted - set(german) == set()


@pytest.mark.parametrize("formula", every_formula(), ids=lambda each: each.name)
def test_every_formula_is_told_in_german(formula: Formula[...]) -> None:
    german = messages("de")
    signs = ("title", *(each.sign for each in (*formula.symbols.values(), formula.result)))
    assert [sign for sign in signs if f"formula.{formula.name}.{sign}" not in german] == []


def test_the_german_claims_nothing_it_must_not() -> None:
    said = list(messages("de").values())
    said += [
        "; ".join(each) if isinstance(each, list) else each for _, own in kinds("de") for each in own.values()
    ]
    found = {match.group().lower() for text in said for match in CLAIMS.finditer(text.lower())}
    assert {word for word in found if not re.match(r"sicher(n|t|ung|heits)", word)} - DENIED == set()


@pytest.fixture(scope="module")
def german() -> Report:
    """The sample job, outlined in German."""
    registry = load(find())
    job = pipeline.collect(ROOT / "demo_job", registry, "de")
    template = registry.template(job.sheet.purpose)
    graded = pipeline.grade(job, registry, template)
    with speaking("de"):
        return outline(job, graded, template, registry.in_language("de"))


def shown(noun: Any, field: str = "") -> Iterator[str]:
    """Every string of a report that a reader sees."""
    if isinstance(noun, Noun) and not isinstance(noun, Attachment):
        for name, value in noun:
            # A report's own field of that name is the size of its print.
            yield from () if isinstance(noun, Report) and name == "text" else shown(value, name)
    elif isinstance(noun, tuple):
        for each in noun:
            yield from shown(each, field)
    elif isinstance(noun, str) and field in SHOWN:
        yield noun


def english_only() -> set[str]:
    """The words of the program's English that its German never uses, without those whose German is still to come."""
    told, other = set[str](), set[str]()
    spoken = dict(kinds("de"))
    for file, own in kinds("en"):
        for path, text in own.items():
            said = text if isinstance(text, str) else " ".join(text)
            (told if path in spoken.get(file, {}) else other).update(words(re.sub(r"\{\w+\}", "", said)))
    for text in messages("en").values():
        told |= words(re.sub(r"\{[\w:]*\}", "", text))
    theirs = {word for _, own in kinds("de") for text in own.values() for word in words(str(text))}
    theirs |= {word for text in messages("de").values() for word in words(text)}
    return told - other - theirs


def job_text() -> str:
    """What the inspector wrote."""
    files = (ROOT / "demo_job").rglob("*")
    return "\n".join(
        file.read_text("utf-8") for file in files if file.suffix in {".yaml", ".csv", ".md", ".txt"}
    )


def own_words() -> set[str]:
    """What the inspector wrote, and what stands in the names of sources; their generic words have their German."""
    texts_, german = [job_text()], catalogue("de")
    registry = load(find())
    for plugin in registry.plugins.values():
        for limit in plugin.limits:
            texts_ += [limit.source.title, limit.source.clause, limit.source.edition]
    for formula in every_formula():
        texts_ += [formula.source.title, formula.source.clause, formula.source.edition]
    return words(" ".join(text for text in texts_ if german.cited(text) == text))


def test_no_english_of_the_program_is_left_on_german_pages(german: Report) -> None:
    # Hashes are no words, though some of their letters may look like one.
    seen = words(re.sub(r"[0-9a-f]{16,}", " ", " ".join(shown(german))))
    assert seen & english_only() - own_words() - NAMES == set()


def test_dates_and_numbers_stand_as_germans_write_them(german: Report) -> None:
    """Unicode CLDR: "12. Mai 2027", and a comma before the decimals."""
    text = " ".join(shown(german)).replace("\u00a0", " ")
    assert "12. Mai 2026" in text
    english = re.compile(r"\d+ (?:January|February|March|May|June|July|October|December) \d{4}")
    assert set(english.findall(text)) <= set(english.findall(job_text())), "but for what the inspector wrote"
    assert "innerhalb des Grenzwerts 1,5 %" in text


def test_a_translation_says_which_text_governs(german: Report) -> None:
    assert "gilt der englische Text" in " ".join(shown(german))


def test_a_terminal_is_told_in_german_as_well(tmp_path: Path) -> None:
    registry, calendar = load(find()), tmp_path / "due.ics"
    lines = pipeline.due([ROOT / "demo_job"], registry, as_of=None, by="date", calendar=calendar, lang="de")
    assert "Fällig, Stand 12. Mai 2026" in lines[0]
    text = calendar.read_text("utf-8").replace("\n ", "")
    seen = words(" ".join(lines)) | words(re.sub(r"(?m)^(?!SUMMARY|DESCRIPTION).*$", "", text))
    assert seen & english_only() - own_words() - NAMES - {"summary", "description"} == set()


def terminal(lang: str) -> dict[str, str]:
    """What each command prints in a language."""
    registry = load(find())
    told = registry.in_language(lang)
    job = pipeline.collect(ROOT / "demo_job", registry, lang)
    template = registry.template(job.sheet.purpose)
    graded = pipeline.grade(job, registry, template)
    spoken = catalogue(lang)
    demo = ROOT / "demo_job"
    with speaking(lang):
        return {
            "check": "\n".join(summary(job, graded, template, told)),
            "csv": work_csv(job, graded, template, told).partition("\n")[2],
            "limits": "\n".join(line for each in told.plugins.values() for line in limits_told(each, spoken)),
            "describe": "\n".join(kind_page(each, spoken) for each in told.plugins.values()),
            "plugins": "\n".join(installed(registry, lang)),
            "compare": "\n".join(pipeline.compare(demo / "outgoing", demo, registry, lang, everything=True)),
            "due": "\n".join(
                line
                for by in ("date", "place", "supply")
                for line in pipeline.due([demo], registry, as_of=None, by=by, calendar=None, lang=lang)
            ),
        }


@pytest.mark.slow
def test_every_command_speaks_german() -> None:
    """No word of the program's English; ids stand in backticks, at the head of a line, or name a template or a kind."""
    ids = {part for plugin in load(find()).plugins.values() for part in re.split(r"[._]", plugin.kind)}
    ids |= {part for name in load(find()).templates for part in name.split("_")} | {
        "shows",
        "context",
        "close",
    }
    english, allowed = english_only(), own_words() | NAMES | ids
    left = {}
    for command, text in terminal("de").items():
        # In a list of limits a line without a space is an id.
        told = re.sub(r"(?m)^\S+$", "", text) if command == "limits" else text
        found = words(re.sub(r"`[^`]*`|“[^”]*”", "", told)) & english - allowed
        if found:
            left[command] = found
    assert left == {}


@pytest.mark.slow
def test_a_terminal_keeps_its_width_in_german() -> None:
    for command, text in terminal("de").items():
        if command not in {"csv", "describe"}:
            assert [line for line in text.splitlines() if len(line) > 80] == [], command


def test_generic_words_of_sources_are_those_that_are_cited() -> None:
    """An entry that no limit and no formula cites is idle; those that none has are names of publications or numbers."""
    sources = [limit.source for plugin in load(find()).plugins.values() for limit in plugin.limits]
    sources += [formula.source for formula in every_formula()]
    cited = {text for source in sources for text in (source.title, source.clause, source.edition)}
    said = tomllib.loads((ROOT / "reporter/wording/sources.de.toml").read_text("utf-8"))["said"]
    assert set(said) - cited == set()
    practice = {source.clause for source in sources if source.title == "common practice"}
    assert {text for text in practice if text not in said and re.search(r"[a-z]{4}", text)} == set()


def test_a_drawing_knows_places_in_both_languages() -> None:
    parts = importlib.import_module("reporter_plugins.drawings.deck_parts")
    for english, german in (("bow", "Bug"), ("foredeck", "Vorschiff"), ("at the mast", "am Mast"), ("amidships", "mittschiffs"),
                            ("coachroof", "Kajütdach"), ("cockpit", "Plicht"), ("pushpit", "Heckkorb"), ("aft", "achtern")):  # fmt: skip
        assert parts.along_of(german) == parts.along_of(english) is not None, german
    assert parts.along_of("unter Deck") is None
    found = parts._COUNTED.search("zweite stütze von achtern, steuerbord")
    assert (found[2], found[3]) == ("zweite", "achtern")
    assert parts._COUNTED.search("der dritten stütze von vorn")[2] == "dritte"


def test_a_drawing_knows_sides_in_both_languages() -> None:
    sides_in = importlib.import_module("reporter_plugins.drawings.naming")._sides_in
    assert sides_in("Backbordwant, Steuerbord") == ["port", "starboard"]
    assert sides_in("Stb-Winsch; stbd; Bb") == ["starboard", "starboard", "port"]
    assert sides_in("support, portable") == []


def test_a_noun_keeps_its_capital_inside_a_sentence(german: Report) -> None:
    """German writes nouns large wherever they stand, and all else small inside a sentence, where a title or a job begins small in English."""
    listed = [text for text in shown(german) if text.startswith("Angesehen: ")]
    assert len(listed) > 5
    items = [each for text in listed for each in text[11:].rstrip(".").split("; ")]
    small = {each for each in items if not each[:1].isupper()}
    assert small >= {"was den Baum oben hält", "von Hand, ohne Strom", "das Strecktau selbst"}
    assert {each.partition(" ")[0] for each in small} == {"das", "von", "was", "wie"}
    assert any(text.endswith(", Kettenlängung: ") for text in shown(german))
    halyard = cast("Any", SimpleNamespace(component=SimpleNamespace(id="halyard"), title="Großfall"))
    said = {
        lang: _merged([(halyard, "Fall erneuern")], {"halyard": 35}, catalogue(lang)) for lang in ("de", "en")
    }
    assert said == {"de": "35 Fall erneuern", "en": "35 fall erneuern"}


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("Mantel gerissen", "Mantel gerissen."),
        ("ein Riss", "Gefunden: ein Riss."),
        ("der Kompass leckt", "Der Kompass leckt."),
        ("gerissen", ""),
        ("Keine da", ""),
    ],
)
def test_an_answer_that_names_its_thing_needs_no_title_before_it(said: str, told: str) -> None:
    assert standing_alone(said, catalogue("de")) == told


def test_of_several_things_asked_for_together_a_german_answer_names_the_one() -> None:
    """Not "Bugrolle und ihre Wangen: gerissen", which leaves open which; a word of one state is that of no noun."""
    words_, unclear = catalogue("de"), []
    for plugin in load(find()).in_language("de").plugins.values():
        for question in plugin.observations:
            several = re.search(r"\w, \w| und (?!zu)| oder ", question.title)
            for choice in question.choices:
                bad = choice.grade not in {Grade.CLEAR, Grade.UNSEEN} and not choice.gap
                if bad and several and re.fullmatch(r"[a-zäöüß]+", words_.terms(choice.words)):
                    unclear.append(f"{plugin.kind}.{question.id}.{choice.id}: {choice.words}")
    assert unclear == []


def test_sides_dates_and_rates_are_told_in_german(german: Report) -> None:
    """A reading's side is the folder's key and not its writer's word; a date stands with its preposition."""
    text = "\n".join(shown(german))
    assert "Verbleibender Spannweg (Steuerbord)" in text
    assert not re.search(r"\((starboard|port)\)", text)
    assert "vor der Überfahrt am 20.\u00a0Juni\u00a02026" in text
    assert "beim Auskranen im Oktober\u00a02026" in text


def test_a_rate_has_the_same_figures_in_both_languages() -> None:
    with speaking("en"):
        english = sentence(found(CASES["two"]), catalogue("en"))
    with speaking("de"):
        told = sentence(found(CASES["two"]), catalogue("de"))
    rates = [re.findall(r"(\d+[.,]\d+)\D+±\D+(\d+[.,]\d+)", text)[0] for text in (english, told)]
    assert [each.replace(",", ".") for each in rates[1]] == list(rates[0])
