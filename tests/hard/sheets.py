"""A field sheet filled in at random, as a person with cold hands might: boxes ticked, numbers and words in the wrong places."""

from __future__ import annotations

import random
from pathlib import Path

import pikepdf
from pikepdf.form import CheckboxField, ChoiceField, Form, TextField

from tests.hard import spoiling

PLAIN = ("0.4 mm", "254.5", "3", "12,5 mm", "2019", "05/2021", "at the top", "?", "ok", "1/2 in", "none", "-")


def fill(chance: random.Random, sheet: Path, target: Path) -> None:
    """A share of the fields, or nearly all; one text in five is what nobody expects."""
    share = chance.choice((0.01, 0.1, 0.5, 0.9))
    with pikepdf.open(sheet) as pdf:
        for field in Form(pdf):
            if chance.random() > share:
                continue
            if isinstance(field, CheckboxField):
                field.checked = chance.random() < 0.8
            elif isinstance(field, ChoiceField):
                field.value = str(chance.choice(field.options).export_value)
            elif isinstance(field, TextField):
                field.value = chance.choice(spoiling.NASTY if chance.random() < 0.2 else PLAIN)
        pdf.save(target)
