"""Between reading and grading: a job as it may be told to others, with what is left out gone from it before anything else runs.

What no later step ever sees cannot stand in the file. Grades are the same: no rule touches a reading, an answer or a date.
"""

from __future__ import annotations

from reporter.disclose.leaving_out import leave_out
from reporter.disclose.secrets import must_be_absent

__all__ = ["leave_out", "must_be_absent"]
