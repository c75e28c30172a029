"""A text as YAML reads it again, word for word."""

from __future__ import annotations

import json
import re

_is_plain = re.compile(r"[A-Za-z0-9](?:[^:#\n]|:(?![ \t]|$)|(?<![ \t])#)*").fullmatch
_ends_in_brackets = re.compile(r"[,\[\]{}:]").search


def typed(text: str, *, is_in_brackets: bool = False) -> str:
    """A text as it stands behind a field's colon, in quotes where YAML would read it otherwise.

    is_in_brackets: it stands in a list or block on one line, where commas and brackets end a text.
    """
    is_plain = _is_plain(text) and not text.endswith((" ", "\t"))
    is_whole = not (is_in_brackets and _ends_in_brackets(text))
    return text if is_plain and is_whole else json.dumps(text, ensure_ascii=False)
