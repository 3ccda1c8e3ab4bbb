"""The vessel's particulars, and how she was looked at: when, where, how she lay, with what."""

from __future__ import annotations

from reporter.model.report import Block, Column, Table
from reporter.outline.blocks import body, cell, facts, head, heading, note
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
        *_order(desk),
        (words("circumstance.when"), when),
        (words("circumstance.time_spent"), visit.time_spent),
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
    # What the author has to say of the whole is never lost: a template without the section has it here.
    return blocks if "opinion" in desk.template.sections else [*blocks, *opinion(desk)]


def _order(desk: Desk) -> list[tuple[str, str]]:
    """Who made the report, who stands behind it, who ordered it, who may rely on it, and for which waters."""
    sheet, words = desk.job.sheet, desk.words
    author = sheet.person("author")
    rows = [
        (words("circumstance.ordered_by"), sheet.report.ordered_by),
        (words("circumstance.may_rely"), "; ".join(sheet.report.may_rely)),
        (words("circumstance.waters"), sheet.next.waters),
    ]
    if author is None:
        return rows
    firm = ", ".join(text for text in (author.organisation, author.address) if text)
    told = (
        ("firm", firm),
        ("contact", author.contact),
        ("membership", author.membership),
        ("cover", author.cover),
    )
    return [*((words(f"circumstance.{name}"), text) for name, text in told), *rows]


def opinion(desk: Desk) -> list[Block]:
    """The author's opinion of the whole, marked as such; nothing where none is given."""
    said = desk.job.sheet.opinion
    if not said.strip():
        return []
    author = desk.job.sheet.person("author")
    name = author.name if author else desk.words("role.author")
    return [heading(desk, "opinion"), note(desk.words("circumstance.opinion", name=name)), *body(said)]


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
