"""The yard's jobs as a table, for a yard's own planning: the same jobs as on the yard's sheet, one line for each number.

Comes in: a graded job. Goes out: CSV, in which no cell is a formula.
"""

from __future__ import annotations

import csv
import io

from reporter.model.assessment import Assessments
from reporter.model.cell import inert
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.template import Template
from reporter.model.terms import Grade
from reporter.outline.context import Context, context_of
from reporter.outline.jobs import YardJob, plates, sizes, yard_jobs

CSV_COLUMNS = (
    "number", "precedence", "trade", "place", "part", "size", "what", "remedy", "access", "effort", "parts", "tools",
    "photos", "when", "hours", "done_by", "done_on", "checked_by",
)  # fmt: skip


def work_csv(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> str:
    """The table, with a head."""
    context = context_of(job, assessments, template, kinds)
    out = io.StringIO()
    writer = csv.DictWriter(out, CSV_COLUMNS, lineterminator="\n")
    writer.writeheader()
    for each in yard_jobs(context, merge=False):
        writer.writerow({column: inert(cell) for column, cell in _line(context, each).items()})
    return out.getvalue()


def _line(context: Context, job: YardJob) -> dict[str, str]:
    """A line of the file; by when the unseen is to be looked at is between owner and reader, not the yard's business."""
    words, action, part = context.words, job.action, job.parts[0]
    return {
        "number": str(job.numbers[0]),
        "precedence": words(f"work.group_{action.grade}"),
        "trade": job.trade,
        "place": job.place,
        "part": part.title,
        "size": sizes(context, part),
        "what": words.terms(action.what),
        "remedy": words(f"remedy.{action.remedy}"),
        "access": words(f"access.{action.access}"),
        "effort": words(f"effort.{action.effort}"),
        "parts": "; ".join(words.terms(text) for text in job.material),
        "tools": "; ".join(words.terms(text) for text in action.tools),
        "photos": ", ".join(str(plate) for plate in plates(context, part)),
        "when": "" if action.grade is Grade.UNSEEN else action.by_when,
    }
