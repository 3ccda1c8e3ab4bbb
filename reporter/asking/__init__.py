"""What is asked of a part: a kind's declaration, and what the folder already says, to a `Form`.

The one home of it for the field sheet, the plan and the entry page. It judges nothing, and knows no paper and no screen.
"""

from reporter.asking.asking import asked
from reporter.asking.naming import asking_version
from reporter.asking.walk import Part, Stop, expected, last_time, walk

__all__ = ["Part", "Stop", "asked", "asking_version", "expected", "last_time", "walk"]
