"""Between reading and grading: a job as it may be told to others, with what is left out gone from it before anything else runs.

What no later step ever sees cannot stand in the file. Grades are the same: no rule touches a reading, an answer or a date.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection

    from reporter.model.job import Job
    from reporter.model.report import Report
    from reporter.model.template import Rule

__all__ = ["leave_out", "must_be_absent"]


def leave_out(job: Job, rules: Collection[Rule]) -> Job:
    """The job without what the rules name; the job itself where there are none."""
    from reporter.disclose.leaving_out import cut

    return cut(job, rules) if rules else job


def must_be_absent(report: Report, job: Job, rules: Collection[Rule]) -> None:
    """Raise DisclosureError where a name, place or number of the uncut `job` still stands in the report."""
    from reporter.disclose.secrets import refuse_leaks

    refuse_leaks(report, job, rules)
