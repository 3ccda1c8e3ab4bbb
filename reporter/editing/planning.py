"""From an edit to the fewest primitive changes: what is equal before and after is not touched.

In: plain data, an address, the value wanted. Out: `Op`s, to be carried out one after the other. A list or mapping that
would be left empty goes as well, for an empty one is refused by the reader; at the top of a file a list stays, as `[]`.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from reporter.editing.edit import Address, EditError, Plain
from reporter.editing.plain_data import NAMED_BY, Op, Path, at, built, reach, short_for


def plan(data: Plain, address: Address, wanted: Plain) -> list[Op]:
    """The changes of `data` after which `wanted` stands at `address`."""
    path, missing = reach(data, address)
    if not missing:
        return _into(data, path, at(data, path), wanted)
    if wanted is None:
        return []
    here = at(data, path)
    whole = short_for(path, here)
    step = missing[0]
    if isinstance(whole, dict) and isinstance(step, str):
        value = built(missing[1:], wanted)
        if whole is not here:
            return [Op("set", path, {**whole, step: value})]
        return [Op("set" if step in whole else "insert", (*path, step), value)]
    if isinstance(here, list) and not isinstance(step, str):
        if isinstance(step, int) and step != len(here):
            raise EditError("An entry can only be added at the end of its list.", "Look at the list again.")
        inner = missing if isinstance(step, dict) else (0, *missing[1:])
        return [Op("insert", (*path, len(here)), built(inner, wanted)[0])]
    if here is None:
        return [Op("set", path, built(missing, wanted))]
    raise EditError("There is no place for this in the file as it is.", "Look at the entry again.")


def _into(data: Plain, path: Path, old: Plain, new: Plain) -> list[Op]:
    if new is None:
        return [_removal(data, path)]
    if len(path) and not _is_there(data, path):
        parent = short_for(path[:-1], at(data, path[:-1]))
        return [] if old == new else [Op("set", path[:-1], {**parent, path[-1]: new})]
    return list(_differences(path, old, new))


def _is_there(data: Plain, path: Path) -> bool:
    """Whether the last step stands in the file itself, and not only in what a short text is short for."""
    return not isinstance(at(data, path[:-1]), str)


def _removal(data: Plain, path: Path) -> Op:
    """Take out what stands at `path`, with whatever it would leave empty."""
    while len(path) > 1 and (not _is_there(data, path) or len(at(data, path[:-1])) == 1):
        path = path[:-1]
        if len(path) == 1 and isinstance(at(data, path), list):
            return Op("set", path, [])
    return Op("remove", path)


def _differences(path: Path, old: Plain, new: Plain) -> Iterator[Op]:
    if old == new:
        return
    if isinstance(old, dict) and isinstance(new, dict) and set(old) & set(new):
        for key in [key for key in old if key not in new and old[key] is not None]:
            yield Op("remove", (*path, key))
        for key, value in new.items():
            if key in old:
                yield from _differences((*path, key), old[key], value)
            else:
                yield Op("insert", (*path, key), value)
    elif isinstance(old, list) and isinstance(new, list) and old and new:
        yield from _lists(path, old, new)
    else:
        yield Op("set", path, new)


def _lists(path: Path, old: list[Plain], new: list[Plain]) -> Iterator[Op]:
    """What is equal at both ends stays; in between entries change one by one, then the rest comes or goes."""
    first = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(old, new, strict=False)))
    longest = min(len(old), len(new)) - first
    ends = zip(reversed(old), reversed(new), strict=False)
    last = min(longest, sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], ends)))
    gone, come = old[first : len(old) - last], new[first : len(new) - last]
    for number, (before, after) in enumerate(zip(gone, come, strict=False), first):
        same = _name(before) == _name(after)
        here = (*path, number)
        yield from _differences(here, before, after) if same else iter([Op("set", here, after)])
    for number in reversed(range(len(come), len(gone))):
        yield Op("remove", (*path, first + number))
    for number in range(len(gone), len(come)):
        yield Op("insert", (*path, first + number), come[number])


def _name(entry: Plain) -> Plain:
    """What an entry of a list is called; entries of different names are different things."""
    if not isinstance(entry, dict):
        return None
    return next((entry[key] for key in NAMED_BY.values() if key in entry), None)
