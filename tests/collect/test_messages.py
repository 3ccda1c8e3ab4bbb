"""Broken folders and the whole text that a tired sailor then reads, as files in messages/.

Each case spoils the good folder in one way. The texts were read through before they were kept; to look at all
of it after a change, run with GUDGEON_KEEP_MESSAGES=1 and read the difference.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reporter.collect import collect
from reporter.errors import JobError

MESSAGES = Path(__file__).parent / "messages"
Spoil = Callable[[str], str | bytes | None]


def swap(old: str, new: str) -> Spoil:
    """Replaces a piece of the good text, which must be there."""

    def spoil(text: str) -> str:
        assert old in text, old
        return text.replace(old, new)

    return spoil


def add(more: str) -> Spoil:
    """Adds lines at the end."""
    return lambda text: text + more


def whole(text: str | bytes | None) -> Spoil:
    """Another text altogether; None leaves the file out."""
    return lambda _: text


def rows(*lines: str) -> Spoil:
    """Measurements with these lines below the good header."""
    return lambda text: "\n".join([text.splitlines()[0], *lines]) + "\n"


JOB, FINDINGS, TABLE = "job.yaml", "findings.yaml", "measurements.csv"
MARK = "    photos:\n      - file: belt.jpg\n        marks:\n          - "

CASES: dict[str, dict[str, Spoil]] = {
    # job.yaml as YAML
    "job_missing": {JOB: whole(None)},
    "job_called_yml": {JOB: whole(None), "job.yml": whole("format: 1\n")},
    "job_empty": {JOB: whole("# nothing yet\n")},
    "job_is_a_list": {JOB: whole("- format: 1\n")},
    "job_with_tab": {JOB: swap("  name: Invented", "\tname: Invented")},
    "job_vessel_photo": {JOB: swap("  name: Invented", "  photo: bolt.jpg\n  name: Invented")},
    "job_colon_in_text": {JOB: swap("place: a berth", "place: berth: C14")},
    "job_open_quote": {JOB: swap("place: a berth", "place: 'a berth")},
    "job_open_bracket": {JOB: swap("2026-05-12]", "2026-05-12")},
    "job_indentation": {JOB: swap("  built: 2004", "   built: 2004")},
    "job_no_colon": {JOB: swap("purpose: trial", "purpose trial")},
    "job_at_sign": {JOB: swap("place: a berth", "place: @berth")},
    "job_doubled_key": {JOB: add("purpose: trial\n")},
    "job_anchor": {JOB: swap("name: Invented", "name: &boat Invented")},
    "job_alias": {JOB: swap("place: a berth", "place: *boat")},
    "job_tag": {JOB: swap("place: a berth", "place: !!python/object:x a")},
    "job_merge_key": {JOB: add("next:\n  <<: {passage: x}\n")},
    "job_two_documents": {JOB: add("---\nformat: 1\n")},
    "job_nested_deeply": {JOB: add("next: " + "[" * 40 + "]" * 40 + "\n")},
    "job_not_utf8": {JOB: lambda text: text.replace("a berth", "caf\u00e9").encode("latin-1")},
    "kind_in_two_words": {FINDINGS: swap("kind: belt", "kind: drive belt")},
    "readings_of_a_spreadsheet": {TABLE: lambda _: b"PK\x03\x04" + bytes(range(256))},
    "job_utf16": {JOB: lambda text: text.encode("utf-16")},
    "job_control_character": {JOB: swap("place: a berth", 'place: "a\\u0007berth"')},
    "job_too_large": {JOB: add("# " + "x" * 2_000_000)},
    # job.yaml as a sheet
    "job_unknown_key": {JOB: swap("purpose: trial", "purpos: trial")},
    "job_missing_keys": {JOB: whole("format: 1\n")},
    "job_empty_required_key": {JOB: swap("name: Invented", "name:")},
    "job_other_format": {JOB: swap("format: 1", "format: 2")},
    "job_unknown_purpose": {JOB: swap("purpose: trial", "purpose: trail")},
    "job_wrong_choice": {JOB: swap("built: 2004", "steering: weel")},
    "job_wrong_role": {JOB: swap("role: author", "role: autor")},
    "job_single_date": {JOB: swap("[2026-05-11, 2026-05-12]", "2026-05-12")},
    "job_impossible_date": {JOB: swap("2026-05-12]", "2026-02-30]")},
    "job_dates_in_other_orders": {
        JOB: swap("built: 2004", "built: 05/2004\n  rig_installed: 12.05.2019\n  last_mast_out: 12 May 2022")
    },
    "job_built_after_visit": {JOB: swap("built: 2004", "built: 2031")},
    "job_passage_before_visit": {JOB: add("next: {next_passage: 2026-03}\nreport_extra: 1\n")},
    "job_issued_before_visit": {JOB: swap("number: T-1", "number: T-1\n  issued: 2026-05-01")},
    "job_unit_missing": {JOB: swap("beam: 3.65 m", "beam: 3.65")},
    "job_unit_of_another_kind": {JOB: swap("beam: 3.65 m", "beam: 3.65 kg")},
    "job_ambiguous_comma": {JOB: swap("beam: 3.65 m", "beam: 3,650 m")},
    "job_ambiguous_miles": {JOB: swap("built: 2004", "miles: 31000 nm")},
    "job_group_for_a_quantity": {JOB: swap("beam: 3.65 m", "beam: {dimension: length, value: 3}")},
    "job_time_zone": {JOB: swap("time_zone: +01:00", "time_zone: Europe/Lisbonn")},
    "job_time_zone_letters": {JOB: swap("time_zone: +01:00", "time_zone: CEST")},
    "job_limit_unknown": {JOB: add("limits:\n  - {id: belt.strech, value: 2, reason: r, by: b}\n")},
    "job_limit_with_unit": {JOB: add("limits:\n  - {id: belt.stretch, value: 2 %, reason: r, by: b}\n")},
    "job_limit_not_a_number": {JOB: add("limits:\n  - {id: belt.stretch, value: nan, reason: r, by: b}\n")},
    "job_limit_negative": {JOB: add("limits:\n  - {id: belt.stretch, value: -2, reason: r, by: b}\n")},
    "job_camera_correction": {JOB: add("cameras:\n  - {camera: C, correction: two minutes}\n")},
    "job_instrument_twice": {JOB: add("  - id: rule\n    kind: another\n    resolution: fine\n")},
    "job_document_missing": {JOB: add("documents:\n  - {file: bill.pdf, shows: invoice}\n")},
    "job_earlier_missing": {JOB: add("earlier: [../gone]\n")},
    "job_earlier_itself": {JOB: add("earlier: ['.', ../job/photos/..]\n")},
    "job_yes_or_no": {JOB: add("permission: {work: perhaps}\n")},
    # findings.yaml
    "findings_missing": {FINDINGS: whole(None)},
    "findings_unknown_kind": {FINDINGS: swap("kind: belt", "kind: blet")},
    "findings_same_id_twice": {FINDINGS: swap("id: cloth", "id: port-belt")},
    "findings_id_with_capitals": {FINDINGS: swap("id: cloth", "id: The Cloth")},
    "findings_unknown_detail": {FINDINGS: swap("teeth: 13", "tooth: 13")},
    "findings_detail_choice": {FINDINGS: swap("value: steel,", "value: inox,")},
    "findings_detail_basis": {FINDINGS: swap("basis: stamped", "basis: read off")},
    "findings_decimal_slip": {FINDINGS: swap("pitch: 12.7 mm", "pitch: 127 mm")},
    "findings_imperial_slip": {FINDINGS: swap("pitch: 12.7 mm", "pitch: 5 in")},
    "findings_teeth_broken": {FINDINGS: swap("teeth: 13", "teeth: 13.5")},
    "findings_fitted_after_visit": {FINDINGS: swap("value: 2016", "value: 2061")},
    "findings_unknown_observation": {FINDINGS: swap("rust: surface", "corrosion: surface")},
    "findings_unknown_answer": {FINDINGS: swap("rust: surface", "rust: surfaces")},
    "findings_unknown_answer_in_list": {FINDINGS: swap("choice: tight", "choice: wobbly")},
    "findings_examined_item": {FINDINGS: swap("[all_round]", "[all_around]")},
    "findings_proved_item": {FINDINGS: swap("[direction]", "[compass]")},
    "findings_extent": {FINDINGS: swap("examined: part_seen", "examined: partly")},
    "findings_not_seen_without_reason": {FINDINGS: swap("examined: part_seen", "examined: not_seen")},
    "findings_not_seen_yet_observed": {
        FINDINGS: swap("extent: seen", "extent: not_seen\n      because: afloat")
    },
    "findings_left_without_work": {
        FINDINGS: swap("          at: upper end", "          at: upper end\n          state: left")
    },
    "findings_part_of_unknown": {FINDINGS: swap("kind: belt", "kind: belt\n    part_of: cloths")},
    "findings_part_of_itself": {
        FINDINGS: lambda text: text.replace("kind: belt", "kind: belt\n    part_of: cloth", 1).replace(
            "  - id: cloth\n", "  - id: cloth\n    part_of: port-belt\n"
        )
    },
    "findings_paths": {
        FINDINGS: add(
            "paths:\n  - {id: a, name: One way, parts: [port-belt, port-belt, cloths], lost: Nothing turns.}\n"
            "  - {id: a, name: Other way, parts: [], lost: Nothing turns.}\n"
        )
    },
    "findings_paths_twice": {
        FINDINGS: add(
            "paths:\n  - {id: a, name: One way, parts: [port-belt, cloth], lost: Nothing turns.}\n"
            "  - {id: a, name: Other way, parts: [belt, port-belt, port-belt], lost: Nothing turns.}\n"
        )
    },
    "findings_photo_missing": {FINDINGS: swap("- belt.jpg", "- belt2.jpg")},
    "findings_photo_capitals": {FINDINGS: swap("- belt.jpg", "- BELT.JPG")},
    "findings_photo_outside": {FINDINGS: swap("- belt.jpg", "- ../../secret.jpg")},
    "findings_photo_broken": {FINDINGS: swap("- belt.jpg", "- broken.jpg"), "photos/broken.jpg": whole("x")},
    "findings_observed_photo_missing": {FINDINGS: swap("at: upper end", "photos: [end.jpg]")},
    "findings_mark_outside": {
        FINDINGS: swap("    photos:\n      - belt.jpg\n", MARK + "{kind: ring, at: [0.4, 1.2]}\n")
    },
    "findings_mark_unknown": {
        FINDINGS: swap("    photos:\n      - belt.jpg\n", MARK + "{kind: circle, at: [0.4, 0.2]}\n")
    },
    "findings_mark_without_kind": {
        FINDINGS: swap("    photos:\n      - belt.jpg\n", MARK + "{at: [0.4, 0.2]}\n")
    },
    "findings_mark_commas": {
        FINDINGS: swap("    photos:\n      - belt.jpg\n", MARK + "{kind: ring, at: [0,4, 0,2]}\n")
    },
    "findings_mark_one_number": {
        FINDINGS: swap("    photos:\n      - belt.jpg\n", MARK + "{kind: ring, at: [0.4]}\n")
    },
    "findings_mark_no_size": {
        FINDINGS: swap(
            "    photos:\n      - belt.jpg\n",
            MARK + "{kind: blur, corner: [0.4, 0.2], opposite: [0.4, 0.6]}\n",
        )
    },
    "findings_mark_bounds_and_no_size": {
        FINDINGS: swap(
            "    photos:\n      - belt.jpg\n",
            MARK
            + "{kind: inset, at: [0.4, 0.2], radius: 0.3, zoom: 9}\n"
            + "          - {kind: ring, at: [0.4, 0.2], callout: 0}\n"
            + "          - {kind: arrow, tail: [0.4, 0.2], head: [0.4, 0.2]}\n",
        )
    },
    "findings_same_picture_shown": {
        FINDINGS: swap(
            "    photos:\n      - belt.jpg\n",
            MARK + "{kind: blur, corner: [0.1, 0.2], opposite: [0.4, 0.6]}\n      - copy.jpg\n",
        ),
        "photos/copy.jpg": whole("not looked into here"),
    },
    "job_same_picture_shown": {
        JOB: swap("  name: Invented", "  photo: copy.jpg\n  name: Invented"),
        FINDINGS: swap(
            "    photos:\n      - belt.jpg\n",
            MARK + "{kind: blur, corner: [0.1, 0.2], opposite: [0.4, 0.6]}\n",
        ),
        "photos/copy.jpg": whole("not looked into here"),
    },
    "findings_action_declined": {FINDINGS: add("    actions:\n      - {id: x, decline: yes}\n")},
    "findings_was_without_earlier": {FINDINGS: add("    was: belt\n")},
    "findings_judgement": {FINDINGS: add("    judgement: {grade: good, reason: looks fine}\n")},
    "findings_empty_entry": {FINDINGS: add("    told:\n      -\n")},
    "findings_list_for_text": {FINDINGS: add("    found: [one, two]\n")},
    "findings_text_for_group": {FINDINGS: add("    told:\n      - the owner said so\n")},
    # measurements.csv
    "table_no_header": {TABLE: whole("port-belt,span,254.5\n")},
    "table_unknown_column": {TABLE: swap("uncertainty", "uncertanty")},
    "table_missing_column": {TABLE: swap("component,quantity", "component,what")},
    "table_column_twice": {TABLE: swap("instrument,note", "note,note")},
    "table_open_quote": {TABLE: rows('port-belt,span,,,,254,mm,,,"touchy')},
    "table_comma_in_a_cell": {TABLE: rows("port-belt,span,,,,254,mm,,,one, two")},
    "table_decimal_comma_unquoted": {TABLE: rows("port-belt,span,,,,254,5,mm,0,5,rule,")},
    "table_unknown_component": {TABLE: rows("port_belt,span,,,,254,mm,,,")},
    "table_unknown_quantity": {TABLE: rows("port-belt,spam,,,,254,mm,,,", "cloth,span,,,,254,mm,,,")},
    "table_unknown_side": {TABLE: rows("port-belt,slack,,,left,12,mm,,,")},
    "table_side_missing": {TABLE: rows("port-belt,slack,,,,12,mm,,,")},
    "table_unknown_state": {TABLE: rows("port-belt,span,,before,,254,mm,,,")},
    "table_unknown_instrument": {TABLE: rows("port-belt,span,,,,254,mm,,ruler,")},
    "table_no_value": {TABLE: rows("port-belt,span,,,,,mm,,,")},
    "table_no_unit": {TABLE: rows("port-belt,span,,,,254,,,,")},
    "table_two_units": {TABLE: rows("port-belt,span,,,,10 in,mm,,,")},
    "table_unknown_unit": {TABLE: rows("port-belt,span,,,,254,milimeters,,,")},
    "table_fraction_turned_date": {
        TABLE: rows("port-belt,span,,,,16-Mar,in,,,", "port-belt,span,,,,03/16/2026,in,,,")
    },
    "table_fraction_turned_number": {TABLE: rows("port-belt,span,,,,46097,mm,,,")},
    "table_shortened_number": {TABLE: rows('port-belt,span,,,,"1,27E+02",mm,,,')},
    "table_spreadsheet_error": {TABLE: rows("port-belt,span,,,,####,mm,,,")},
    "table_decimal_slip": {TABLE: rows("port-belt,span,,,,2545,mm,,,")},
    "table_negative": {TABLE: rows("port-belt,span,,,,-254,mm,,,")},
    "table_range": {TABLE: rows("port-belt,span,,,,250-255,mm,,,")},
    "table_about": {TABLE: rows("port-belt,span,,,,about 254,mm,,,")},
    "table_power": {TABLE: rows("port-belt,span,,,,9**9**9,mm,,,")},
    "table_not_a_number": {TABLE: rows("port-belt,span,,,,nan,mm,,,")},
    "table_uncertainty_twice": {TABLE: rows("port-belt,span,,,,254 ± 1,mm,0.5,,")},
    "table_uncertainty_wrong_unit": {TABLE: rows("port-belt,span,,,,254,mm,0.5 N,,")},
    "table_only_for_others": {TABLE: rows("port-belt,flex,,,,12,mm,,,")},
    "table_left_without_work": {TABLE: rows("port-belt,span,top,left,,254.0,mm,,,")},
    "table_reading_of_unseen": {
        FINDINGS: swap("examined: part_seen", "examined: {extent: not_fitted}"),
        TABLE: rows("cloth,span,,,,1,mm,,,"),
    },
    # several at once
    "everything_at_once": {
        JOB: swap("purpose: trial", "purpose: trail\nlimits: 3"),
        FINDINGS: swap("teeth: 13", "tooth: 13\n      maker: [x]"),
        TABLE: rows("belt,span,,,,254,mm,,,"),
    },
}


def spoilt(case: dict[str, Spoil], good: dict[str, str]) -> dict[str, str | bytes | None]:
    """The files that a case changes."""
    return {name: spoil(good.get(name, "")) for name, spoil in case.items()}


@pytest.mark.parametrize("name", CASES)
def test_the_message_is_as_kept(name: str, folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """The full text, word for word."""
    root = folder(spoilt(CASES[name], good))
    with pytest.raises(JobError) as told:
        collect(root, installed, photos=photos)
    text = str(told.value).replace(str(root), "<folder>") + "\n"
    kept = MESSAGES / f"{name}.txt"
    if os.environ.get("GUDGEON_KEEP_MESSAGES"):
        kept.write_text(text, "utf-8")
    assert text == kept.read_text("utf-8")


def test_every_kept_message_has_its_case() -> None:
    """No message file is left over."""
    assert {path.stem for path in MESSAGES.glob("*.txt")} == set(CASES)


FOREIGN = re.compile(
    r"pydantic|literal|validation|traceback|(?-i:None\b)|NoneType|\bstr\b|\bint\b|\bdict\b|\btuple\b|\bfloat\b|exception|"
    r"ValueError|Input should|http|<class|scalar|token|mapping|sequence|schema",
    re.IGNORECASE,
)


@pytest.mark.parametrize("name", CASES)
def test_no_message_speaks_like_a_program(name: str) -> None:
    """No words of the libraries, and always something to do."""
    text = (MESSAGES / f"{name}.txt").read_text("utf-8")
    assert not FOREIGN.search(text)
    assert text.count("    → ") == int(text.split()[0])
