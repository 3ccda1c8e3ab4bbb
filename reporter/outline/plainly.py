"""Findings as sentences that can be read aloud: "A split pin is missing." instead of "Wire attachments: a split pin missing".

Comes in: checks in words. Goes out: text. Nothing is judged; what cannot be told better is told as it stands.
"""

from __future__ import annotations

import re

from reporter.model.assessment import Action, Check, Graded
from reporter.model.report import Span
from reporter.model.terms import Access, Dimension, LimitKind, Sense, Verdict
from reporter.outline.context import Context
from reporter.outline.readings import side_of
from reporter.wording import Catalogue, exact, joined, quantity
from reporter.wording.numbers import with_unit

_STATE = re.compile(
    r"^((?:an?|the|der|das|eine?) (?:(?!\b(?:is|are|has|have|were|ist|sind|hat)\b)[^,;:])+) "
    r"(missing|broken|cracked|worn|bent|torn|seized|gerissen|gebrochen|verbogen|verschlissen|festgefressen)$",
    re.IGNORECASE,
)
"""An article, a thing, and a state without a verb, in the languages of the catalogue."""
_THING = re.compile(r"^(?:an?|eine?) [\w-]+$", re.IGNORECASE)
_GERMAN_PAIR = re.compile(r"^(?!Kein)[A-ZÄÖÜ][\w-]+ [a-zäöü][\w-]+$")
"""A German noun and its state: "Mantel gerissen"; in English no noun is told by its capital."""
_ALONE = re.compile(
    r"^(?!not |no |none |does |all |is |but |from |hidden |nicht |keine? |keinen |nur |alle |ist |aber |von |aus )[\w-]+,? \S+ \S+",
    re.IGNORECASE,
)
"""Three words and more that name their thing: they need no title before them."""
TWELVE = 12
"""Up to here a count is written as a word."""


def finding(context: Context, part: Graded) -> str:
    """What holds the part down, as one sentence; that nothing was found where it is clear."""
    if not part.sentence:
        return context.words("component.clear_text")
    return told(context, part, part.sentence)


def reason(context: Context, part: Graded, action: Action) -> str:
    """Why something is to be done: the first of its reasons, as a sentence."""
    return next(iter(reasons(context, part, action)), finding(context, part))


def reasons(context: Context, part: Graded, action: Action) -> list[str]:
    """Why something is to be done, each reason as a sentence; a person's own words as they stand."""
    known = {text for each in part.checks for text in (each.sentence, each.said)}
    pieces = action.why.split("; ")
    if not known.issuperset(pieces):
        pieces = [action.why] if action.why else []
    return list(dict.fromkeys(told(context, part, piece) for piece in pieces))


def told(context: Context, part: Graded, text: str) -> str:
    """The check behind a reason as a sentence; a person's own reason as it stands."""
    check = next((each for each in part.checks if text in {each.sentence, each.said}), None)
    return saying(context, check) if check else ended(context.words.terms(text))


def saying(context: Context, check: Check) -> str:
    """One check as a sentence."""
    words = context.words
    if check.limit is None and check.value is None:
        return _answer(context, check)
    if check.kind is LimitKind.AGE:
        # The source stands beside it or in the annex.
        return ended(words.terms(check.said).partition(" (")[0])
    if _none_allowed(check) and check.value and check.verdict is not Verdict.UNSEEN:
        count = round(check.value.value)
        where = "".join(f", {text}" for text in (check.at, side_of(check.side, words)) if text)
        name = words.terms(check.title)
        return words("plain.some" if count else "plain.none", title=name, where=where, count=count)
    return ended(words.terms(check.said))


def _none_allowed(check: Check) -> bool:
    limit, value = check.limit, check.value
    return bool(
        limit and value and limit.value == 0 and value.dimension is Dimension.COUNT and not limit.between
    )


def _answer(context: Context, check: Check) -> str:
    """An answer that names its thing stands alone; any other is led by what was looked for."""
    said, title = context.words.terms(check.said), context.words.terms(check.title)
    return standing_alone(said, context.words) or ended(f"{title}: {said}")


def standing_alone(said: str, words: Catalogue) -> str:
    """The sentence that an answer makes by itself; "" where it does not name its thing."""
    if found := _STATE.match(said):
        return ended(words("plain.state", thing=found[1], state=found[2]))
    if _THING.match(said):
        return ended(words("plain.found", thing=said))
    is_pair = words.locale.language == "de" and _GERMAN_PAIR.match(said)
    return ended(said) if is_pair or _ALONE.match(said) else ""


def ended(text: str) -> str:
    """A sentence: a capital at its head, a full stop at its end."""
    # A number stays bound to its unit by the space that does not break.
    text = re.sub(r"[ \t\n]+", " ", text).strip()
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."


def reading(context: Context, check: Check) -> str:
    """A reading with the limit it was held against, for a row: "side play 0.4 ± 0.1 mm, at most 1 mm allowed"."""
    limit, value, words = check.limit, check.value, context.words
    if limit is None or value is None:
        return ""
    if check.verdict is Verdict.UNSEEN or _none_allowed(check):
        return words.inside(saying(context, check).rstrip("."))
    expanded = 0.0 if value.dimension is Dimension.COUNT else 2 * value.u
    shown = quantity(value.value, limit.unit, expanded=expanded)
    bound = with_unit(exact(limit.value), limit.unit)
    if limit.sense is Sense.WINDOW:
        high = with_unit(exact(limit.upper or limit.value), limit.unit)
        bound = words("check.window", low=exact(limit.value), high=high)
    where = joined(", ", check.at, side_of(check.side, words))
    told_ = {"title": words.terms(check.title), "place": f" ({where})" if where else ""}
    return words(f"plain.reading_{limit.sense}", **told_, value=shown, bound=bound)


def counted(context: Context, count: int) -> str:
    """A count as a word up to twelve, in figures above."""
    return context.words(f"count.n{count}") if count <= TWELVE else str(count)


def runs(numbers: list[int]) -> str:
    """Numbers with those that follow each other drawn together: "3, 16–18, 20"."""
    stretches: list[list[int]] = []
    for number in sorted(numbers):
        if stretches and number == stretches[-1][-1] + 1:
            stretches[-1].append(number)
        else:
            stretches.append([number])
    shown = [
        ", ".join(map(str, each)) if len(each) <= 2 else f"{each[0]}–{each[-1]}"  # noqa: PLR2004
        for each in stretches
    ]
    return ", ".join(shown)


def takes(context: Context, action: Action) -> str:
    """What a job takes: how much work, in which state of the boat, and whose."""
    words = context.words
    # "As she lies" is said only where nothing else is.
    access = "" if action.access is Access.ANY and action.effort else words(f"access.{action.access}")
    told_ = [words(f"effort.{action.effort}"), access, words(f"trade.{action.effort}")]
    return ", ".join(text for text in told_ if text)


def linked(part: Graded, context: Context) -> Span:
    """The part's name, leading to where it is told."""
    return Span(text=part.title, href=f"#{context.home(part)}", style="strong")
