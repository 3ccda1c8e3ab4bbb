"""One part as the page is given it: its cautions, its form, its photos with their marks, and what follows from it all.

In: a standing and the part's id. Out: JSON. The marks are laid by what lays them in the report's own page.
"""

from __future__ import annotations

from typing import Any

from reporter.desk.faults import of_part
from reporter.desk.forms import FINDINGS, form_of, seen
from reporter.desk.standing import Standing
from reporter.model.assessment import Action, Check, Graded, Missing
from reporter.model.photo import Inset, PhotoUse
from reporter.outline.measures import bar, sum_in_lines
from reporter.web.bars import measure_bar
from reporter.web.marks import FluidOverlay
from reporter.wording import speaking

INSET_WIDTH = 400


def part(standing: Standing, ident: str) -> dict[str, Any] | None:
    """The part of that id; None where there is none that could be read."""
    graded = standing.graded.part(ident)
    if graded is None:
        return None
    plugin, words = standing.kinds.plugin(graded.component.kind), standing.words
    with speaking(standing.job.sheet.lang):
        return {
            "version": standing.version,
            "id": ident,
            "kind": plugin.kind,
            "title": graded.title,
            "cautions": [words.terms(each) for each in plugin.cautions],
            "form": form_of(standing, graded.component),
            "photos": [each for use in graded.component.photos if (each := _photo(standing, ident, use))],
            "faults": of_part(standing, ident),
            "outcome": _outcome(standing, graded),
        }


def _photo(standing: Standing, ident: str, use: PhotoUse) -> dict[str, Any] | None:
    file = use.file.removeprefix("photos/")
    known = standing.photo(file)
    written = _written(standing, ident, file)
    if written is None:
        return None
    address = ["components", {"id": ident}, "photos", {"photo": written}]
    shown = known is not None and not known.problem and known.width > 0
    insets = [f"/photo/{file}?w={INSET_WIDTH}&at={each.at[0]},{each.at[1]}&radius={each.radius}"
              for each in use.marks if isinstance(each, Inset)]  # fmt: skip
    overlay = FluidOverlay(known.height / known.width, insets) if known and shown else None
    return {
        "file": file,
        "address": address,
        "seen": seen(standing, FINDINGS, address),
        "width": known.width if known else 0,
        "height": known.height if known else 0,
        "caption": use.caption,
        "overlay": overlay.lay(use.marks) if overlay else "",
        "keyed": [list(each) for each in overlay.keyed] if overlay else [],
    }


def _written(standing: Standing, ident: str, file: str) -> str | None:
    """How the file of findings calls a photo: with its folder or without."""
    for name in (file, f"photos/{file}"):
        if seen(standing, FINDINGS, ["components", {"id": ident}, "photos", {"photo": name}]) is not None:
            return name
    return None


def _outcome(standing: Standing, part: Graded) -> dict[str, Any]:
    words = standing.words
    checks = [each for each in part.checks if each.governs]
    sentence = words.terms(part.sentence) or words("component.clear_text")
    capped = [words.terms(each) for each in part.capped]
    return {
        "grade": part.grade.value,
        "word": standing.context.grade_word(part),
        "score": part.score,
        "sentence": sentence,
        "checks": [
            _check(standing, part, each) for each in sorted(checks, key=lambda each: -each.grade.rank)
        ],
        # What is needed keeps the part from being clear, and is told there.
        "missing": [_missing(standing, each) for each in part.missing if each.why or not each.needed],
        "settle": [words.terms(each.what) for each in part.actions if each.settles and each.is_open],
        "actions": [_action(standing, each) for each in part.actions],
        "capped": [each for each in capped if each != sentence],
    }


def _check(standing: Standing, part: Graded, check: Check) -> dict[str, Any]:
    words = standing.words
    picture = bar(standing.context, part, check) if check.limit else None
    return {
        "title": words.terms(check.title),
        "grade": check.grade.value,
        "word": words(f"grade.{check.grade}"),
        "sentence": f"{words.terms(check.sentence or check.said)}.".replace("..", "."),
        "bar": measure_bar(picture) if picture else "",
        "working": [words.terms(line) for each in check.working for line in sum_in_lines(each)],
    }


def _missing(standing: Standing, missing: Missing) -> str:
    title = standing.words.terms(missing.title)
    return f"{title}: {standing.words.terms(missing.why)}" if missing.why else title


def _action(standing: Standing, action: Action) -> dict[str, Any]:
    return {
        "number": action.number,
        "words": standing.words.terms(action.what),
        "when": standing.words.terms(action.by_when),
        "grade": action.grade.value,
    }
