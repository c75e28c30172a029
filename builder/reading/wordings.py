"""Wordings that become a step in the id of a figure: each needs a slug of its own that is no field's name."""

from __future__ import annotations

from collections.abc import Iterable

from ..problems import error
from .slugs import slug
from .values import Words
from .yaml_text import Sheet


def check_slugs(wordings: Iterable[Words], taken: frozenset[str], where: str, sheet: Sheet) -> None:
    """Notes each wording whose slug is empty, a field's name, or that of another one in the same place.

    taken: names of the fields that may stand at this step. where: as a message calls the place, "this claim".
    """
    seen: dict[str, Words] = {}
    for wording in wordings:
        name = slug(wording.text)
        if not name:
            message = f'"{wording.text}" has no letter or digit, so nothing can be named by it'
            mend = "type the words that the paper has for it"
        elif name in taken:
            message = f'"{wording.text}" is also the name of a field'
            mend = "word it differently, or add a word"
        elif name in seen:
            other = seen[name]
            there = f'"{other.text}" (line {other.position.line})'
            message = f'"{wording.text}" and {there} have the same short name "{name}" in {where}'
            mend = "add a word to one of the two that tells it from the other"
        else:
            seen[name] = wording
            continue
        sheet.problems.append(error(wording.position, "same-short-name", message, mend))
