"""The walk: which parts, in which order, and which earlier visit tells of them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from reporter import pipeline
from reporter.asking import Part, last_time, walk
from reporter.model.findings import Component
from reporter.model.job import Job
from reporter.model.quantity import PartialDate
from reporter.registry import find, load

REGISTRY = load(find())
DEMO = pipeline.collect(Path(__file__).parents[2] / "demo_job", REGISTRY)


def visit(day: str, number: str, *idents: str) -> Job:
    """An earlier visit that lists chains of these ids."""
    parts = tuple(
        Component.model_validate({"id": each, "kind": "chain", "examined": "seen"}) for each in idents
    )
    inspection = DEMO.sheet.inspection.model_copy(update={"dates": (dt.date.fromisoformat(day),)})
    report = DEMO.sheet.report.model_copy(update={"number": number})
    sheet = DEMO.sheet.model_copy(update={"inspection": inspection, "report": report})
    return DEMO.model_copy(
        update={"sheet": sheet, "components": parts, "earlier": (), "readings": (), "facts": {}}
    )


def now(*earlier: Job, **part: object) -> tuple[Job, Component]:
    """Today's folder with one chain, and that chain."""
    chain = Component.model_validate({"id": "chain", "kind": "chain", "examined": "seen", **part})
    return DEMO.model_copy(update={"components": (chain,), "earlier": earlier, "facts": {}}), chain


def parts_of(job: Job) -> dict[str, Part]:
    template = REGISTRY.template(job.sheet.purpose)
    return {part.ident: part for stop in walk(REGISTRY, job, template) for part in stop.parts}


def test_last_time_is_the_latest_visit_in_whatever_order_folders_are_named() -> None:
    job, chain = now(
        visit("2023-05-01", "a", "chain"), visit("2025-05-01", "b", "chain"), visit("2024-05-01", "c")
    )
    found = last_time(job, chain)
    assert found is not None
    assert found[0].sheet.report.number == "b"


def test_a_part_is_known_by_what_it_was_called_and_not_when_it_was_renewed_since() -> None:
    job, chain = now(visit("2025-05-01", "b", "old-chain"), was="old-chain")
    assert last_time(job, chain) is not None
    renewed = chain.model_copy(update={"installed": PartialDate.model_validate("2025-09")})
    assert last_time(job, renewed) is None
    fitted_before = chain.model_copy(update={"installed": PartialDate.model_validate("2025")})
    assert last_time(job, fitted_before) is not None, "a bare year may lie before the visit"


def test_what_was_listed_last_time_and_what_is_expected_are_walked_as_well() -> None:
    job, _ = now(visit("2025-05-01", "b", "chain", "second-chain"))
    parts = parts_of(job)
    assert (parts["chain"].component is not None, parts["second-chain"].component) == (True, None)
    assert parts["second-chain"].before is not None
    assert parts["steering-wire"].kind == "steering_wire", "the purpose expects one, and nobody has listed it"
    assert parts["steering-wire"].before is None
    tiller = job.sheet.vessel.model_copy(update={"steering_gear": "direct"})
    other = job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": tiller})})
    assert "steering-wire" not in parts_of(other), "not with this gear"


def test_stations_stand_in_the_order_of_their_systems_and_parts_are_numbered_through() -> None:
    stops = walk(REGISTRY, DEMO, REGISTRY.template(DEMO.sheet.purpose))
    order = [
        (system.id, station.title) for system in REGISTRY.systems.values() for station in system.stations
    ]
    places = [order.index((stop.system.id, stop.title)) for stop in stops]
    assert places == sorted(places)
    assert [part.number for stop in stops for part in stop.parts] == list(range(1, len(DEMO.components) + 1))
