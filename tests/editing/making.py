"""Random edits of a findings file, and a second way to carry them out: on plain data, with nothing of ours."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from typing import Any

import yaml

from reporter.editing import Edit, plain

Address = tuple[Any, ...]
WORDS = (
    "steel", "at the port end", "5/16 in", "12,5 mm", "yes", "no", "1.10", "# not a comment", "a: b", "- dash",
    "it's", 'say "so"', "null", "[x", "{y}", "*star", "&and", "!bang", "%per", "@at", "`tick", "trailing ", " leading",
    "two  blanks", "tab\tin", "é ü ñ Ω", "a\nb", "a\n\nb", "ends\n", "x" * 150, "long words " * 20, "comma, here", "? q",
    "key:", "| pipe", "> more", "~", "---", "word # hash", "2026-05-12", "0x1F", "😀", "'single'", "back\\slash",
)  # fmt: skip


def read(text: str) -> Any:
    """The file as the reader of YAML has it, every scalar a text; what stands empty is left out."""
    return _full(yaml.load(text.removeprefix("\ufeff"), Loader=yaml.CBaseLoader))  # noqa: S506 - it builds nothing but texts


def _full(node: Any) -> Any:
    if isinstance(node, dict):
        return {key: _full(each) for key, each in node.items() if each not in ("", [])}
    return [_full(each) for each in node] if isinstance(node, list) else node


def look(data: Any, address: Address) -> Any:
    """What stands at an address, by the plainest code."""
    for step in address:
        if isinstance(step, dict):
            key, name = next(iter(step.items()))
            key = "file" if key == "photo" else key
            data = next(
                (
                    each
                    for each in data or []
                    if each == name or (isinstance(each, dict) and each.get(key) == name)
                ),
                None,
            )
        elif isinstance(step, int):
            data = data[step] if isinstance(data, list) and step < len(data) else None
        else:
            data = data.get(step) if isinstance(data, dict) else None
        if data is None:
            return None
    return data


def done(data: Any, address: Address, wanted: Any) -> Any:
    """The edit on plain data: set, or taken out with whatever is left empty above it."""
    if wanted is None and look(data, address) is None:
        return data
    data = copy.deepcopy(data)
    *way, last = address
    here, above = data, []
    for step, following in zip(way, address[1:], strict=True):
        inner = look(here, (step,))
        if inner is None:
            inner = {} if isinstance(following, str) else []
            here[step] = inner
        elif isinstance(inner, str):
            inner = {"file" if isinstance(step, dict) else "extent": inner}
            _put(here, step, inner)
        above.append((here, step))
        here = inner
    _put(here, last, wanted)
    while above and not here:
        inner, (here, step) = here, above.pop()
        _put(here, step, None)
        if not above and isinstance(inner, list):
            break
    return data


def _put(here: Any, step: Any, value: Any) -> None:
    if isinstance(here, list):
        _in_list(here, step, value)
    elif value is None:
        del here[step]
    else:
        here[step] = value


def _in_list(entries: list[Any], last: Any, wanted: Any) -> None:
    old = look(entries, (last,))
    index = entries.index(old) if isinstance(last, dict) and old is not None else last
    if wanted is None:
        del entries[index]
    elif old is None:
        entries.append(wanted)
    else:
        entries[index] = wanted


def random_edit(rng: random.Random, data: Any) -> Edit:
    """One edit of a kind that a page makes, with the value that stands there as the one seen."""
    part = rng.choice(data["components"])
    here: Address = ("components", {"id": part["id"]})
    address, wanted = rng.choice(_KINDS)(rng, part, here)
    return Edit("findings.yaml", address, plain(look(data, address)), plain(wanted))


def _word(rng: random.Random) -> str:
    return rng.choice(WORDS)


def _field(rng: random.Random, _part_seen: Any, here: Address) -> tuple[Address, Any]:
    key = rng.choice(["name", "place", "found", "opinion", "group", "private", "future_key"])
    return (*here, key), rng.choice([None, _word(rng), _word(rng)])


def _answer(rng: random.Random, part: Any, here: Address) -> tuple[Address, Any]:
    known = [*part.get("observed", {}), "one_more"]
    answer = rng.choice(
        [
            None,
            "loose",
            {"choice": "loose", "note": _word(rng)},
            [{"choice": "a", "at": "port"}, {"choice": "b"}],
        ]
    )
    return (*here, "observed", rng.choice(known)), answer


def _detail(rng: random.Random, part: Any, here: Address) -> tuple[Address, Any]:
    known = [*part.get("details", {}), "one_more"]
    return (*here, "details", rng.choice(known)), rng.choice(
        [None, "8 mm", {"value": _word(rng), "basis": "told"}]
    )


def _examined(rng: random.Random, _part_seen: Any, here: Address) -> tuple[Address, Any]:
    how = rng.sample(["hand", "eye", "mirror", "camera"], rng.randint(0, 3))
    return rng.choice(
        [
            ((*here, "examined", "how"), how),
            ((*here, "examined"), "seen"),
            ((*here, "examined", "because"), _word(rng)),
        ]
    )


def _mark(rng: random.Random, part: Any, here: Address) -> tuple[Address, Any]:
    photos = [each for each in part.get("photos", []) if isinstance(each, dict)]
    if not photos:
        return (*here, "photos", {"photo": "new.jpg"}), {"file": "new.jpg", "caption": _word(rng)}
    photo = rng.choice(photos)
    marks = photo.get("marks", [])
    place = (*here, "photos", {"photo": photo["file"]}, "marks")
    mark = {"kind": "ring", "at": [round(rng.random(), 3), 0.5], "radius": 0.05}
    return rng.choice(
        [
            ((*place, len(marks)), mark),
            (
                (*place, rng.randrange(len(marks))) if marks else (*place, 0),
                mark if not marks else rng.choice([None, mark]),
            ),
        ]
    )


def _photo(rng: random.Random, part: Any, here: Address) -> tuple[Address, Any]:
    photos = [each["file"] if isinstance(each, dict) else each for each in part.get("photos", [])]
    if photos and rng.random() < 0.5:
        return (*here, "photos", {"photo": rng.choice(photos)}), None
    name = f"IMG_{rng.randrange(1000)}.jpg"
    return (*here, "photos", {"photo": name}), {"file": name}


def _part(rng: random.Random, _part_seen: Any, here: Address) -> tuple[Address, Any]:
    if rng.random() < 0.5:
        return here, None
    ident = f"new-{rng.randrange(10**6)}"
    return ("components", {"id": ident}), {
        "id": ident,
        "kind": "chain",
        "examined": {"extent": "seen", "how": ["eye"]},
        "found": _word(rng),
    }


def _deed(rng: random.Random, part: Any, here: Address) -> tuple[Address, Any]:
    done_so_far = part.get("done", [])
    return (*here, "done", len(done_so_far)), {"what": _word(rng).strip() or "x", "by": "self"}


_KINDS: list[Callable[[random.Random, Any, Address], tuple[Address, Any]]] = [
    _field, _field, _field, _answer, _answer, _detail, _examined, _mark, _mark, _photo, _part, _deed,
]  # fmt: skip
