"""Any valid set of findings, written on a sheet and taken back, gives the same findings.

The oracle is the reader of job folders itself: one folder has the findings written into its files by the standard
libraries of YAML and CSV, the other gets them by way of the sheet; both are read, and compared as values.
"""

from __future__ import annotations

import csv
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from reporter import pipeline, visiting
from reporter.archive import read_form
from reporter.editing import JobFiles
from reporter.model.findings import Component
from reporter.model.form import Filled, FilledForm
from reporter.model.job import Job
from reporter.model.plugin import Plugin
from reporter.model.report import Fields, FillIn, Report, TickBox
from reporter.outline.field_sheet import field_sheet
from reporter.taking import folder_data, take
from reporter.wording import catalogue
from tests.effort import tries
from tests.sheet.answers import answers
from tests.sheet.making import REGISTRY, fill_with_pypdf, sheet_of

JOB = """\
format: 1
purpose: insurance
report: {number: "7"}
vessel: {name: Sanderling}
people: [{role: author, name: Rowan Teale, capacity: owner}]
inspection: {dates: [2026-05-12], place: Skerrow Haven}
instruments: [{id: rule, kind: steel rule, resolution: 0.5 mm}, {id: caliper, kind: vernier caliper}]
"""
COLUMNS = ("component", "quantity", "at", "side", "value", "unit", "instrument")
KINDS = sorted(kind for kind, plugin in REGISTRY.plugins.items() if plugin.observations)
WORDS = st.from_regex(r"[A-Za-zäöüß½(][A-Za-z0-9äöüß:#'\"()\[\]{}%&*!|>@` -]{0,30}[a-z.]", fullmatch=True)
PLACES = st.from_regex(r"[a-z][a-z0-9 ./%]{0,14}[a-z]", fullmatch=True).map(
    lambda text: " ".join(text.split())
)
BASES = ("invoice", "stamped", "measured", "seen", "told", "estimate")


def number(draw: st.DrawFn, span: tuple[float, float], *, whole: bool) -> str:
    """A number that the kind holds for plausible."""
    low, high = span
    if whole:
        return str(draw(st.integers(int(low + 0.999), int(high))))
    share = draw(st.integers(0, 1000)) / 1000
    text = f"{float(f'{low + (high - low) * (0.01 + 0.98 * share):.4g}'):f}"
    return text.rstrip("0").rstrip(".")


@st.composite
def findings(draw: st.DrawFn) -> tuple[dict[str, Any], list[dict[str, str]]]:
    """One part with everything that may be told of it, and its readings."""
    plugin = REGISTRY.plugin(draw(st.sampled_from(KINDS)))
    part: dict[str, Any] = {"id": "one", "kind": plugin.kind}
    for name in ("name", "place", "found", "opinion"):
        if draw(st.booleans()):
            part[name] = draw(WORDS)
    part["examined"] = {"extent": draw(st.sampled_from(["seen", "part_seen"]))}
    if items := draw(
        st.lists(st.sampled_from([each.id for each in plugin.examination] or ["-"]), unique=True)
    ):
        part["examined"] |= {"included": items} if plugin.examination else {}
    if how := draw(st.lists(st.sampled_from(["hand", "eye", "from_deck"]), unique=True)):
        part["examined"]["how"] = how
    if details := dict(_details(draw, plugin)):
        part["details"] = details
    if observed := dict(_observed(draw, plugin)):
        part["observed"] = observed
    return part, list(_rows(draw, plugin, part))


def _details(draw: st.DrawFn, plugin: Plugin) -> Iterator[tuple[str, dict[str, str]]]:
    for field in plugin.details:
        if not draw(st.booleans()):
            continue
        if field.holds == "choice":
            value = draw(st.sampled_from(sorted(field.choices)))
        elif field.holds == "date":
            value = draw(st.sampled_from(["1999", "2017-03", "2025-12-31"]))
        elif field.holds == "words":
            value = draw(WORDS)
        elif field.plausible:
            value = f"{number(draw, field.plausible, whole=field.holds == 'count')} {'' if field.unit == '1' else field.unit}".strip()
        else:
            continue
        yield field.id, {"value": value, "basis": draw(st.sampled_from(BASES))}


def _observed(draw: st.DrawFn, plugin: Plugin) -> Iterator[tuple[str, list[dict[str, str]]]]:
    for seen in plugin.observations:
        if draw(st.booleans()):
            places = draw(st.lists(st.just("") | PLACES, min_size=1, max_size=3, unique=True))
            yield (
                seen.id,
                [
                    {
                        "choice": draw(st.sampled_from([each.id for each in seen.choices])),
                        **({"at": at} if at else {}),
                    }
                    for at in places
                ],
            )


def _rows(draw: st.DrawFn, plugin: Plugin, part: dict[str, Any]) -> Iterator[dict[str, str]]:
    details = part.get("details", {})
    for taken in plugin.readings:
        other = any(
            name in details and details[name]["value"] not in among for name, among in taken.only_if.items()
        )
        if other or not draw(st.booleans()):
            continue
        instrument = draw(st.sampled_from(["", "rule", "caliper"]))
        unit = "" if taken.unit == "1" else taken.unit
        for at in draw(
            st.lists(st.sampled_from(["", *taken.places]) | PLACES, min_size=1, max_size=2, unique=True)
        ):
            for side in ("port", "starboard") if taken.per_side else ("",):
                for _ in range(draw(st.integers(1, taken.repeats))):
                    value = number(draw, taken.plausible, whole=taken.dimension == "count")
                    row = ("one", taken.id, at, side, value, unit, instrument)
                    yield {key: cell for key, cell in zip(COLUMNS, row, strict=True) if cell}


def folder_with(place: Path, part: dict[str, Any], rows: list[dict[str, str]]) -> Path:
    """A job folder that says this."""
    place.mkdir()
    (place / "job.yaml").write_text(JOB)
    told = {"format": 1, "components": [part]}
    (place / "findings.yaml").write_text(yaml.safe_dump(told, sort_keys=False, allow_unicode=True), "utf-8")
    with (place / "measurements.csv").open("w", newline="", encoding="utf-8") as file:
        table = csv.DictWriter(file, COLUMNS)
        table.writeheader()
        table.writerows(rows)
    return place


def fields_of(sheet: Report) -> tuple[Filled, ...]:
    """The fields of a sheet as they would come back untouched."""
    items = [item for block in sheet.blocks if isinstance(block, Fields) for item in block.items]
    return tuple(
        Filled(1, each.field, each.label, "on" if each.on else "", "on" if each.on else "")
        if isinstance(each, TickBox)
        else Filled(1, each.field, each.label, each.value, each.value)
        for each in items
        if isinstance(each, TickBox | FillIn)
    )


def facts(job: Job) -> tuple[Any, ...]:
    """What a folder says, without the order in which it says it."""
    (part,) = job.components
    return _part(part), sorted(
        (each.quantity, each.at, each.side, each.value.value, each.value.u, each.instrument, each.resolution)
        for each in job.readings
    )


def _part(part: Component) -> dict[str, Any]:
    told = part.model_dump(mode="json", exclude={"observed", "examined"})
    seen = {
        ident: sorted((each.choice, each.at) for each in answers_)
        for ident, answers_ in part.observed.items()
    }
    examined = part.examined
    return told | {
        "seen": seen,
        "extent": examined.extent,
        "how": set(examined.how),
        "included": set(examined.included),
    }


@pytest.mark.slow
@settings(max_examples=tries(40, 12), deadline=None, suppress_health_check=list(HealthCheck))
@given(findings())
def test_any_findings_come_back_the_same_by_way_of_the_sheet(
    told: tuple[dict[str, Any], list[dict[str, str]]],
) -> None:
    part, rows = told
    place = Path(tempfile.mkdtemp())
    try:
        job = pipeline.collect(folder_with(place / "told", part, rows), REGISTRY)
        empty = folder_with(place / "sheet", {"id": "one", "kind": part["kind"], "examined": "part_seen"}, [])
        blank = pipeline.collect(empty, REGISTRY)
        sheet = field_sheet(
            blank, REGISTRY.template("insurance"), REGISTRY, page="A4", everything=True, empty=True
        )
        printed = {each.name: each for each in fields_of(sheet)}
        written = answers(job, printed)
        fields = tuple(
            Filled(1, each.name, each.label, written.get(name, each.value), each.printed)
            for name, each in printed.items()
        )
        meaning = yaml.safe_load(sheet.attachments[0].content)
        files = JobFiles(empty)
        taken = take(FilledForm(meaning, fields), folder_data(files), REGISTRY, catalogue(), replace=True)
        assert taken.of("unreadable") == []
        if taken.edits:
            files.accept("sheet", taken.edits)
        assert facts(pipeline.collect(empty, REGISTRY)) == facts(job)
    finally:
        shutil.rmtree(place)


@pytest.mark.slow
@settings(max_examples=tries(3, 2), deadline=None, suppress_health_check=list(HealthCheck))
@given(findings())
def test_and_so_they_do_through_the_file_itself(told: tuple[dict[str, Any], list[dict[str, str]]]) -> None:
    part, rows = told
    place = Path(tempfile.mkdtemp())
    try:
        job = pipeline.collect(folder_with(place / "told", part, rows), REGISTRY)
        empty = folder_with(place / "sheet", {"id": "one", "kind": part["kind"], "examined": "part_seen"}, [])
        sheet = sheet_of(empty, place / "sheet.pdf", everything=True, empty=True)
        written = answers(job, {each.name for each in read_form(sheet).fields})
        visiting.take(empty, fill_with_pypdf(sheet, place / "filled.pdf", written), REGISTRY, replace=True)
        assert facts(pipeline.collect(empty, REGISTRY)) == facts(job)
    finally:
        shutil.rmtree(place)
