"""The form of job.yaml, made from the model that the file is read into: no key stands here by name but for what is usual.

In: a standing. Out: JSON in the shape of a part's form. A group of keys becomes questions, a list of groups entries with
columns, a list of words lines.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from reporter.desk.fields import bare, is_group, said, sort_of
from reporter.desk.forms import placed
from reporter.desk.standing import Standing
from reporter.model.sheet import JobSheet

FILE = "job.yaml"
FIXED = {"format"}
USUAL = {
    "purpose",
    "report",
    "vessel",
    "people",
    "inspection",
    "scope",
    "not_examined",
    "next",
    "instruments",
    "opinion",
}
"""What nearly every job tells; the rest is folded away."""


def sheet(standing: Standing) -> dict[str, Any]:
    """Everything that job.yaml may hold, block by block."""
    words = standing.words
    own: list[dict[str, Any]] = []
    blocks: list[dict[str, Any]] = []
    for name, field in JobSheet.model_fields.items():
        kind = bare(field.annotation)
        if is_group(kind):
            questions = list(_group(standing, (name,), kind))
            blocks.append(_block(name, said(words, JobSheet, name)["title"], questions))
        elif name not in FIXED:
            own.append(_question(standing, (name,), JobSheet))
    purpose = next(each for each in own if each["id"] == "purpose")
    templates = standing.kinds.templates.items()
    purpose["choices"] = [{"id": name, "words": words(each.title_id)} for name, each in templates]
    purpose["sort"] = "choice"
    titles = [said(words, JobSheet, name)["title"] for name in ("purpose", "people")]
    first = _block("job", words.listed(titles), own)
    return {"kind": "", "title": "", "help": "", "blocks": [first, *blocks], "worked": []}


def _block(ident: str, title: str, questions: list[dict[str, Any]]) -> dict[str, Any]:
    return {"id": ident, "title": title, "tool": "", "questions": questions}


def _group(standing: Standing, path: tuple[str, ...], model: type[BaseModel]) -> Iterator[dict[str, Any]]:
    for name, field in model.model_fields.items():
        kind = bare(field.annotation)
        if is_group(kind):
            yield from _group(standing, (*path, name), kind)
        else:
            yield _question(standing, (*path, name), model)


def _question(standing: Standing, path: tuple[str, ...], model: type[BaseModel]) -> dict[str, Any]:
    words, name = standing.words, path[-1]
    return {
        "id": ".".join(path),
        **said(words, model, name),
        "main": "",
        "asked": True,
        "usual": path[0] in USUAL,
        "needed": model.model_fields[name].is_required(),
        **placed(standing, FILE, list(path)),
        "answers": [],
        **sort_of(words, model, name),
    }
