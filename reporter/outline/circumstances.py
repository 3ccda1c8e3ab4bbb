"""The vessel's particulars, and how she was looked at: when, where, how she lay, with what."""

from __future__ import annotations

from reporter.model.report import Block, Table
from reporter.outline import overview
from reporter.outline.blocks import body, cell, facts, head, heading, note, table
from reporter.outline.context import Context
from reporter.outline.first_page import lay
from reporter.wording import date, joined

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


def particulars(context: Context) -> list[Block]:
    """The vessel, as far as it is known."""
    vessel, words = context.job.sheet.vessel, context.words
    rows = [(words(f"vessel.{name}"), getattr(vessel, name)) for name in ("name", "type", "builder")]
    rows.append((words("vessel.built"), date(vessel.built)))
    rows += [
        (words(f"vessel.{name}"), getattr(vessel, name))
        for name in ("hull_number", "registration", "flag", "home_port", "construction")
    ]
    rows += [(words("vessel.steering"), _gear(context)), (words("vessel.rig"), vessel.rig)]
    rows += [
        (words(f"vessel.{name}"), context.value(getattr(vessel, name), metric, imperial))
        for name, metric, imperial in SIZES
    ]
    fitted = date(vessel.rig_installed)
    if fitted and vessel.rig_installed_basis:
        fitted = words("component.known_by", value=fitted, basis=words(f"basis.{vessel.rig_installed_basis}"))
    last = (
        ("rig_age", "rig_installed", fitted),
        ("mast_out", "last_mast_out", date(vessel.last_mast_out)),
        ("last_check", "last_professional_check", vessel.last_professional_check),
    )
    # What the first page tells by the template's wish is not told again.
    rows += [
        (words(f"vessel.{name}"), said) for fact, name, said in last if fact not in context.template.facts
    ]
    photos = [] if overview.drawn(context) else overview.shown(context)
    return [heading(context, "particulars"), *photos, facts(rows)]


def _gear(context: Context) -> str:
    """Helm and gear as job.yaml states them; what it leaves out is told as not stated, a tiller's gear excepted."""
    vessel, words = context.job.sheet.vessel, context.words
    if not (vessel.steering or vessel.steering_gear):
        return words("steering.unstated")
    helm = words(f"steering.{vessel.steering or 'unstated_helm'}")
    if vessel.steering == "tiller" and not vessel.steering_gear:
        return helm
    gear = words(f"steering.{vessel.steering_gear or 'unstated_gear'}")
    return f"{helm}, {gear}"


def write(context: Context) -> list[Block]:
    """When, where, how she lay, who was there, and the instruments."""
    visit, words = context.job.sheet.inspection, context.words
    when = joined(", ", words.listed([date(day) for day in visit.dates]), visit.time)
    permission = context.job.sheet.permission
    given = f", {date(permission.date)}" if permission.date else ""
    allowed = words("circumstance.permission_yes", by=permission.by, date=given) if permission.work else ""
    rows = [
        *_order(context),
        (words("circumstance.when"), when),
        (words("circumstance.time_spent"), visit.time_spent),
        (words("circumstance.where"), visit.place),
        (words("circumstance.lay"), lay(context)),
        (words("circumstance.weather"), visit.conditions.weather),
        (words("circumstance.note"), visit.conditions.note),
        (words("circumstance.attended"), words.listed(list(visit.attended_by))),
        (words("circumstance.permission"), allowed or words("circumstance.permission_no")),
    ]
    blocks: list[Block] = [heading(context, "circumstances"), facts(rows)]
    if scope := context.job.sheet.scope:
        blocks.append(note(words("circumstance.scope", items=words.listed(list(scope)))))
    if context.job.sheet.instruments:
        blocks.append(_instruments(context))
    # What the author has to say of the whole is never lost: a template without the section has it here.
    return blocks if "opinion" in context.template.sections else [*blocks, *opinion(context)]


def _order(context: Context) -> list[tuple[str, str]]:
    """Who made the report, who stands behind it, who ordered it, who may rely on it, and for which waters."""
    sheet, words = context.job.sheet, context.words
    author = sheet.person("author")
    rows = [
        (words("circumstance.ordered_by"), sheet.report.ordered_by),
        (words("circumstance.may_rely"), "; ".join(sheet.report.may_rely)),
        (words("circumstance.waters"), sheet.next.waters),
    ]
    if author is None:
        return rows
    firm = joined(", ", author.organisation, author.address)
    told = (
        ("firm", firm),
        ("contact", author.contact),
        ("membership", author.membership),
        ("cover", author.cover),
    )
    return [*((words(f"circumstance.{name}"), text) for name, text in told), *rows]


def opinion(context: Context) -> list[Block]:
    """The author's opinion of the whole, marked as such; nothing where none is given."""
    said = context.job.sheet.opinion
    if not said.strip():
        return []
    author = context.job.sheet.person("author")
    name = author.name if author else context.words("role.author")
    return [heading(context, "opinion"), note(context.words("circumstance.opinion", name=name)), *body(said)]


def _instruments(context: Context) -> Table:
    words = context.words
    rows = (
        (head(each.kind), cell(each.resolution or "–"), cell(date(each.calibrated) or "–"))
        for each in context.job.sheet.instruments
    )
    return table(words, "circumstance", rows, instrument=1, resolution=1, calibrated=1)
