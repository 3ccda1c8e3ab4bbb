"""The forms of a part and of job.yaml as the page is given them: what is asked, with where each answer stands and what stands there.

A part's is what `asking` asks; that of job.yaml is made from the model that the file is read into: a group of keys becomes
questions, a list of groups entries with columns, a list of words lines. No key stands here by name but for what is usual.
In: a standing, and a part. Out: JSON. What stands in a file is told as the file has it, whether it is in order or not, since
that is what an edit has to name.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from reporter.asking import asked
from reporter.desk.fields import bare, columns, is_group, said, sort_of
from reporter.desk.standing import Standing
from reporter.editing import EditError, rows_of, value_in
from reporter.model.findings import ActionEdit, Component, Done, Told
from reporter.model.form import Question
from reporter.model.sheet import JobSheet

FINDINGS, TABLE = "findings.yaml", "measurements.csv"
MAIN = {"details": "value", "observed": "choice"}
"""The key that a bare text stands for."""
LONG = {"found", "opinion", "private"}


def form_of(standing: Standing, part: Component) -> dict[str, Any]:
    """Everything that is asked of a part."""
    form = asked(standing.kinds.plugin(part.kind), standing.words, part, standing.job)
    told = form.model_dump(mode="json", by_alias=True)
    told["blocks"] = [
        {
            **block,
            "questions": [
                each
                for question, raw in zip(form.blocks[number].questions, block["questions"], strict=True)
                for each in _questions(standing, part.id, question, raw)
            ],
        }
        for number, block in enumerate(told["blocks"])
    ]
    return told


def _questions(
    standing: Standing, ident: str, question: Question, raw: dict[str, Any]
) -> list[dict[str, Any]]:
    if question.is_reading:
        return [_reading(standing, ident, question, raw)]
    told = {
        **raw,
        **placed(standing, FINDINGS, _below(ident, question.key)),
        "main": MAIN.get(question.key[0], ""),
    }
    if question.choices:
        told["meant"] = _meant(told["seen"], told["main"], question)
    if question.id in LONG:
        told["long"] = True
    if question.id == "done":
        told["columns"] = columns(standing.words, Done)
    if question.id == "opinion":
        # What somebody said is kept apart from what was found and what is made of it.
        return [_rows(standing, ident, "told", Told), told]
    if question.id == "judgement.reason":
        return [told, {**_rows(standing, ident, "actions", ActionEdit), "usual": False}]
    return [told]


def _meant(seen: Any, main: str, question: Question) -> dict[str, str]:
    """The choice that other words for it stand for, as collecting understood them. The file keeps its own words."""
    written = seen if isinstance(seen, list) else [seen]
    texts = [str(each.get(main, "") if isinstance(each, dict) else each) for each in written]
    # An answer that cannot be read is left out by collecting: then nobody knows which stands for which.
    told = [each.text for each in question.answers] if len(texts) == len(question.answers) else texts
    return {text: choice for text, choice in zip(texts, told, strict=True) if text != choice}


def _below(ident: str, key: tuple[str, ...]) -> list[Any]:
    return ["components", {"id": ident}, *key]


def placed(standing: Standing, file: str, address: list[Any]) -> dict[str, Any]:
    """Where an answer stands, and what stands there now."""
    return {"file": file, "address": address, "seen": seen(standing, file, address)}


def seen(standing: Standing, file: str, address: list[Any]) -> Any:
    """What stands at an address of a file; None also where the file cannot be read."""
    try:
        return value_in(standing.texts.get(file, ""), tuple(address), table=file == TABLE)
    except EditError:
        return None


def _reading(standing: Standing, ident: str, question: Question, raw: dict[str, Any]) -> dict[str, Any]:
    quantity = question.key[1]
    try:
        rows = rows_of(standing.texts.get(TABLE, "").removeprefix("\ufeff"), ident, quantity)
    except EditError:
        rows = []
    instruments = {each.id: each.kind for each in standing.job.sheet.instruments}
    answers = [
        {"address": list(address), "seen": row, "at": row.get("at", ""), "text": _written(row)}
        for address, row in rows
    ]
    methods = [{"id": each, "words": instruments.get(each, each)} for each in question.methods]
    return {
        **raw,
        "file": TABLE,
        "row": [ident, quantity],
        "main": "",
        "answers": answers,
        "methods": methods,
    }


def _written(row: dict[str, str]) -> str:
    return f"{row.get('value', '')} {row.get('unit', '')}".strip()


def _rows(standing: Standing, ident: str, name: str, model: type[BaseModel]) -> dict[str, Any]:
    """A list of entries that is no question of the kind's."""
    return {
        "id": name,
        "sort": "rows",
        **said(standing.words, Component, name),
        "columns": columns(standing.words, model),
        "main": "",
        "asked": True,
        "usual": True,
        **placed(standing, FINDINGS, _below(ident, (name,))),
    }


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
