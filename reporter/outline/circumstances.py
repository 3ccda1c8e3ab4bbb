"""The vessel's particulars, and how she was looked at: when, where, how she lay, with what."""

from __future__ import annotations

from reporter.model.report import Block, Column, Table
from reporter.outline.blocks import cell, facts, head, heading, note
from reporter.outline.desk import Desk
from reporter.outline.first_page import lay
from reporter.wording import date

SIZES = (
    ("length_overall", "m", "ft"),
    ("length_waterline", "m", "ft"),
    ("beam", "m", "ft"),
    ("draught", "m", "ft"),
    ("displacement", "kg", "lb"),
    ("righting_moment", "N·m", "lbf·ft"),
    ("sail_area", "m²", "ft²"),
    ("miles", "nmi", "nmi"),
    ("engine_hours", "h", "h"),
)


def particulars(desk: Desk) -> list[Block]:
    """The vessel, as far as it is known."""
    vessel, words = desk.job.sheet.vessel, desk.words
    rows = [(words(f"vessel.{name}"), getattr(vessel, name)) for name in ("name", "type", "builder")]
    rows.append((words("vessel.built"), date(vessel.built)))
    rows += [
        (words(f"vessel.{name}"), getattr(vessel, name))
        for name in ("hull_number", "registration", "flag", "home_port", "construction")
    ]
    gear = f"{words(f'steering.{vessel.steering}')}, {words(f'steering.{vessel.steering_gear}')}"
    rows += [(words("vessel.steering"), gear), (words("vessel.rig"), vessel.rig)]
    rows += [
        (words(f"vessel.{name}"), desk.value(getattr(vessel, name), metric, imperial))
        for name, metric, imperial in SIZES
    ]
    fitted = date(vessel.rig_installed)
    if fitted and vessel.rig_installed_basis:
        fitted = words("component.known_by", value=fitted, basis=words(f"basis.{vessel.rig_installed_basis}"))
    rows += [
        (words("vessel.rig_installed"), fitted),
        (words("vessel.last_mast_out"), date(vessel.last_mast_out)),
        (words("vessel.last_professional_check"), vessel.last_professional_check),
    ]
    return [heading(desk, "particulars"), facts(rows)]


def write(desk: Desk) -> list[Block]:
    """When, where, how she lay, who was there, and the instruments."""
    visit, words = desk.job.sheet.inspection, desk.words
    when = ", ".join(text for text in (words.listed([date(day) for day in visit.dates]), visit.time) if text)
    permission = desk.job.sheet.permission
    given = f", {date(permission.date)}" if permission.date else ""
    allowed = words("circumstance.permission_yes", by=permission.by, date=given) if permission.work else ""
    rows = [
        (words("circumstance.when"), when),
        (words("circumstance.where"), visit.place),
        (words("circumstance.lay"), lay(desk)),
        (words("circumstance.weather"), visit.conditions.weather),
        (words("circumstance.note"), visit.conditions.note),
        (words("circumstance.attended"), words.listed(list(visit.attended_by))),
        (words("circumstance.permission"), allowed or words("circumstance.permission_no")),
    ]
    blocks: list[Block] = [heading(desk, "circumstances"), facts(rows)]
    if scope := desk.job.sheet.scope:
        blocks.append(note(words("circumstance.scope", items=words.listed(list(scope)))))
    if desk.job.sheet.instruments:
        blocks.append(_instruments(desk))
    return blocks


def _instruments(desk: Desk) -> Table:
    words = desk.words
    columns = tuple(
        Column(title=words(f"circumstance.{title}")) for title in ("instrument", "resolution", "calibrated")
    )
    rows = tuple(
        (head(each.kind), cell(each.resolution or "–"), cell(date(each.calibrated) or "–"))
        for each in desk.job.sheet.instruments
    )
    return Table(columns=columns, rows=rows)
