"""Component kinds as data: one TOML file tells a kind whole.

Comes in: the text of a kind's file. Goes out: a `Plugin`. It opens no job folder and judges nothing; the one piece of
code that a file may name (`assess`) is imported when it is first called.
"""

from reporter.kinds.reading import faults, parse_kind, read_kind, unexplained
from reporter.kinds.schema import kind_schema
from reporter.kinds.shared import words_of_kind

__all__ = ["faults", "kind_schema", "parse_kind", "read_kind", "unexplained", "words_of_kind"]
