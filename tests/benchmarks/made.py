"""The job folders that the benchmarks run on: an invented boat, as many parts and photos as asked for.

Comes in: an empty folder's path and numbers. Goes out: job.yaml, findings.yaml, measurements.csv, photos. No timing here.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

from reporter.contract import Plugin
from reporter.registry import Registry
from tests.benchmarks.photos import make

SHEET = """format: 1
purpose: pre_purchase
evidence: all
report: {number: B-1, revision: 0}
vessel:
  name: Marram
  type: sloop, wheel steering on a pedestal
  built: 2004
  steering: wheel
  steering_gear: chain_and_wire
  displacement: 6900 kg
people:
  - {role: author, name: Rowan Teale, capacity: skipper, interest: none}
inspection:
  dates: [2026-05-12]
  place: Skerrow Haven
  time_zone: +01:00
next: {next_passage: 2026-06-20, passage: delivery}
instruments:
  - {id: rule, kind: "steel rule, 300 mm", resolution: 0.5 mm}
"""
KINDS = (
    "chain",
    "wheel",
    "steering_wire",
    "sheave",
    "quadrant",
    "pedestal",
    "rudder_bearing",
    "rudder_blade",
    "wheel_brake",
    "emergency_tiller",
)
"""A fixed choice, so that figures of different days can be compared."""
DETAILS = {
    "chain": "{size: 08b_1, material: carbon, joint: clevis, installed: 2016}",
    "steering_wire": "{diameter: 6 mm, installed: 2016}",
    "rudder_bearing": "{installed: 2004}",
}
"""What the arithmetic of a kind asks for; kinds not named here go without details."""
READINGS = {"chain.pitches": "20", "chain.span": "254.5"}
PART = """
  - id: {kind}_{number}
    kind: {kind}
    name: {kind} {number}
    group: set {turn}
    details: {details}
    examined: {{extent: seen, how: [hand, eye], included: {included}}}
    observed: {observed}
    found: Seen from end to end; a long enough remark to run over a line of the column in which it is set.
"""
PHOTO = """      - file: {number:04d}.jpg
        caption: Photo {number} of the part as found, with a caption of ordinary length.
        decides: true
        marks:
          - {{kind: ring, at: [0.4, 0.5], radius: 0.05, callout: 1}}
          - {{kind: label, at: [0.6, 0.3], text: pitted link}}
"""
HEAD = "component,quantity,at,state,side,value,unit,uncertainty,instrument,note\n"


def job(folder: Path, registry: Registry, parts: int, photos: int = 0) -> None:
    """A job of so many parts, the kinds in turn, the photos spread over them and all printed at full width."""
    plugins = [registry.plugin(kind) for kind in KINDS]
    (folder / "photos").mkdir(parents=True)
    if photos:
        make(folder / "photos", photos)
    (folder / "job.yaml").write_text(SHEET, "utf-8")
    named = [(number, plugins[number % len(plugins)]) for number in range(parts)]
    findings = "".join(
        _part(number, plugin, number // len(plugins), range(number, photos, parts))
        for number, plugin in named
    )
    (folder / "findings.yaml").write_text(f"format: 1\ncomponents:\n{findings}", "utf-8")
    rows = [row for number, plugin in named for row in _readings(number, plugin)]
    (folder / "measurements.csv").write_text(HEAD + "".join(rows), "utf-8")


def _part(number: int, plugin: Plugin, turn: int, photos: Sequence[int]) -> str:
    """Every second part of a kind looks a little worse than the other; parts of one turn belong together."""
    observed = {each.id: each.choices[turn % 2].id for each in plugin.observations}
    text = PART.format(
        kind=plugin.kind,
        number=number,
        turn=turn,
        details=DETAILS.get(plugin.kind, "{}"),
        included="[all]" if plugin.examination else "[]",
        observed=json.dumps(observed),
    )
    return text + ("    photos:\n" + "".join(PHOTO.format(number=each) for each in photos) if photos else "")


def _readings(number: int, plugin: Plugin) -> Iterator[str]:
    for quantity in plugin.readings:
        if quantity.asked == "usual" and not quantity.only_if:
            low, high = quantity.plausible
            value = READINGS.get(f"{plugin.kind}.{quantity.id}") or str(round(low + (high - low) / 10))
            side = "port" if quantity.per_side else ""
            yield f"{plugin.kind}_{number},{quantity.id},,found,{side},{value},{quantity.unit},,,\n"
