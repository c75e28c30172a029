"""Sentences that name a figure instead of typing it: "$key/claim", "$key/claim/level", "$question/factor/name"."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..records import NamedTuple

_STEP = r"[\w-]*\w"
_find = compiled(rf"\$\$|\$({_STEP}(?:/{_STEP})+)").finditer


class Reference(NamedTuple):
    """A figure named in prose."""

    text: str
    """The steps, without the dollar: "marlow2019furcal/overall"."""
    offset: int
    """Of the dollar, in the text it stood in."""

    @property
    def steps(self) -> tuple[str, ...]:
        """The parts between the slashes, at least two."""
        return tuple(self.text.split("/"))


_find_code = compiled(r"```.*?(?:```|\Z)|`[^`\n]*`", re.DOTALL).finditer


def split_outside_code(markdown: str) -> list[str | Reference]:
    """A Markdown page in order, its references apart; code stays as it is, a dollar in it too."""
    parts: list[str | Reference] = []
    end = 0
    for code in _find_code(markdown):
        parts += _moved(split_references(markdown[end : code.start()]), end)
        parts.append(code[0])
        end = code.end()
    return parts + _moved(split_references(markdown[end:]), end)


def _moved(parts: list[str | Reference], offset: int) -> list[str | Reference]:
    return [part._replace(offset=part.offset + offset) if isinstance(part, Reference) else part for part in parts]


def split_references(text: str) -> list[str | Reference]:
    """The text in order, plain parts and references; "$$" is a dollar in a plain part.

    A reference ends before the first character that cannot belong to it: before a full stop, a comma, a closing
    bracket, and before a slash or hyphen behind which no letter or digit follows. A lone dollar stays text.
    """
    if "$" not in text:
        return [text] if text else []
    parts: list[str | Reference] = []
    plain = ""
    end = 0
    for found in _find(text):
        plain += text[end : found.start()]
        end = found.end()
        if found[1] is None:
            plain += "$"
            continue
        if plain:
            parts.append(plain)
            plain = ""
        parts.append(Reference(found[1], found.start()))
    plain += text[end:]
    if plain:
        parts.append(plain)
    return parts


def reports_named_in(text: str) -> set[str]:
    """Keys of reports that a text names, and ids of questions whose results it does."""
    return {part.steps[0] for part in split_references(text) if isinstance(part, Reference)}
