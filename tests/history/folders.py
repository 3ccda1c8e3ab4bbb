"""Two visits to the demo's yacht, a year and a half apart, made from the demo folder by edits of its text."""

from __future__ import annotations

import shutil
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_job"

JOB = """\
format: 1
purpose: {purpose}
report:
  number: {number}
vessel:
  name: Marram
  steering: wheel
  steering_gear: chain_and_wire
  hull_number: XX-MRM04017C404
  miles: {miles} nmi
  engine_hours: {hours} h
people:
  - role: author
    name: Rowan Teale
    capacity: skipper
  - role: skipper_out
    name: Rowan Teale
  - role: skipper_in
    name: Mateus Lindqvar
inspection:
  dates: [{day}]
  place: Skerrow Haven
instruments:
  - id: {rule}
    kind: {kind}
    resolution: 0.5 mm
{more}"""
"""A job sheet of the format's own keys; the demo's own changes with the demo, and tests of time must not."""

READINGS = """\
component,quantity,at,state,side,value,unit,uncertainty,instrument,note
{chain},pitches,,found,,40,,,,
{chain},span,top of the sprocket,found,,{top},mm,0.3,{rule},
{chain},span,middle of the run,found,,{middle},mm,0.3,{rule},
"""


def findings(
    chain: str, *, lubrication: str = "oiled", more: str = "", was: str = "", wheel: bool = True
) -> str:
    """A chain and, if asked for, a wheel; `more` is added to the chain, four blanks deep."""
    listed = f"""\
format: 1
components:
  - id: {chain}
    kind: chain
    name: Steering chain
    place: pedestal
{f"    was: {was}" if was else ""}
    details:
      size: {{value: 08b_1, basis: stamped}}
      material: carbon
    examined: {{extent: seen, how: [hand, eye], included: [all_links, sprocket, joints]}}
    observed:
      corrosion: none
      stiff_links: none
      cracks: none
      lubrication: {lubrication}
      teeth: even
      joint: locked
      travel: clear
    photos:
      - {{file: chain_dry.jpg, shows: context, caption: The chain on its sprocket}}
{more}"""
    extra = """\
  - id: tiller
    kind: emergency_tiller
    name: Emergency tiller
    examined: {extent: not_seen, because: the locker was locked}
"""
    return listed + (extra if wheel else "")


def write(
    folder: Path, *, number: str, day: str, findings_text: str, chain: str = "chain", purpose: str = "handover",
    top: float = 509.0, middle: float = 508.5, miles: int = 30000, hours: int = 2000, rule: str = "rule",
    kind: str = "steel rule", more: str = "",
) -> Path:  # fmt: skip
    """A whole folder; photos come from the demo."""
    folder.mkdir(parents=True)
    sheet = JOB.format(
        purpose=purpose, number=number, day=day, miles=miles, hours=hours, rule=rule, kind=kind, more=more
    )
    (folder / "job.yaml").write_text(sheet, "utf-8")
    (folder / "findings.yaml").write_text(
        "\n".join(line for line in findings_text.split("\n") if line), "utf-8"
    )
    readings = READINGS.format(chain=chain, top=top, middle=middle, rule=rule)
    (folder / "measurements.csv").write_text(readings, "utf-8")
    (folder / "photos").mkdir()
    shutil.copy(DEMO / "photos" / "chain_dry.jpg", folder / "photos")
    assert yaml.safe_load((folder / "findings.yaml").read_text("utf-8"))
    return folder


def two_visits(root: Path, **later: object) -> tuple[Path, Path]:
    """Out in 2025 with an oiled chain, in again in 2026 with a dry and longer one."""
    outgoing = write(root / "outgoing", number="H-2025-1", day="2025-05-03", findings_text=findings("chain"))
    given: dict[str, object] = {
        "number": "H-2026-2",
        "day": "2026-11-07",
        "findings_text": findings("chain", lubrication="dry"),
        "top": 511.5,
        "middle": 510.5,
        "miles": 33000,
        "hours": 2100,
        "more": "earlier: [../outgoing]\n",
        **later,
    }
    return outgoing, write(root / "incoming", **given)  # type: ignore[arg-type]
