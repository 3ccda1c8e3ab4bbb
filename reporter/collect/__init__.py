"""Step 1, collect: a job folder to a `Job`; and the JSON Schemas of the files that a job folder holds."""

from __future__ import annotations

from reporter.collect.collecting import collect, collect_begun, collect_parts
from reporter.collect.photo_files import PhotoReader
from reporter.collect.schema import schemas

__all__ = ["PhotoReader", "collect", "collect_begun", "collect_parts", "schemas"]
