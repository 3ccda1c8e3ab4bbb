"""Answers to an observation, written short: one that is in order, and one that asks for something to be done.

Comes in: id, words, and for a bad answer its grade, remedy and action. Goes out: a Choice. It knows no part of a boat.
"""

from __future__ import annotations

from reporter.contract import Choice, Grade, Remedy


def fine(ident: str, words: str) -> Choice:
    """An answer that finds no fault."""
    return Choice(id=ident, words=words, grade=Grade.CLEAR)


def unseen(ident: str, words: str) -> Choice:
    """An answer that tells how little was seen: no fault, and no good news either."""
    return Choice(id=ident, words=words, grade=Grade.CLEAR, gap=True)


def bad(ident: str, words: str, grade: Grade, remedy: Remedy, action: str, *, damage: bool = False) -> Choice:
    """An answer that leads to a grade, with what is to be done; `damage` withholds every strength margin."""
    return Choice(id=ident, words=words, grade=grade, remedy=remedy, action=action, damage=damage)
