"""Who wrote a publication, as its entry names them: people, or a body whose name is one word to BibTeX."""

from __future__ import annotations

import re
from functools import lru_cache

from ...reading.latex import readable_text
from ...reading.model import Source

_AND = re.compile(r"\s+and\s+", re.IGNORECASE)


@lru_cache(maxsize=16384)  # decoding TeX is slow; index, reference and search ask for the same names
def names_of(text: str) -> tuple[str, ...]:
    """The names of an author or editor field, in order, TeX resolved.

    text: as typed. An "and" between braces belongs to a corporate name; "others" is "and others" with nobody named.
    """
    names: list[str] = []
    start = depth = 0
    for found in re.finditer(r"\\.|[{}]|\s+and\s+", text, re.IGNORECASE | re.DOTALL):
        token = found[0]
        if token == "{":
            depth += 1
        elif token == "}":
            depth -= 1
        elif depth == 0 and _AND.fullmatch(token):
            names.append(text[start : found.start()])
            start = found.end()
    names.append(text[start:])
    readable = (" ".join(_decoded(name).split()) for name in names)
    return tuple("and others" if name == "others" else name for name in readable if name)


def _decoded(text: str) -> str:
    # Decoding is slow, and most names hold nothing to decode.
    return readable_text(text) if re.search(r"[\\{}~$]", text) else text


def authors_of(source: Source) -> tuple[str, ...]:
    """Authors, else editors, else the body that published it; empty where the entry names nobody."""
    for name in ("author", "editor", "organization", "institution"):
        field = source.fields.get(name)
        if field is not None and field.text.strip():
            return names_of(field.text)
    return ()


def first_author(source: Source) -> str:
    """The first author's family name, or a body's whole name; "author not reported" where the entry names nobody."""
    names = authors_of(source)
    if not names:
        return "author not reported"
    # A body's name has no comma and may hold several words: its braces are gone by now, so the raw field is asked.
    field = source.fields.get("author") or source.fields.get("editor")
    is_body = field is None or (field.text.lstrip().startswith("{") and "," not in names[0])
    if is_body:
        return names[0]
    return names[0].split(",")[0].strip() if "," in names[0] else names[0].rsplit(" ", 1)[-1]
