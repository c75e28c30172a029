"""Who wrote a publication, as its entry names them: people, or a body whose name is one word to BibTeX."""

from __future__ import annotations

import re
from functools import lru_cache

from ...reading.exported import is_with_initials, names_in, readable_name
from ...reading.model import Source


@lru_cache(maxsize=16384)  # decoding TeX is slow; index, reference and search ask for the same names
def names_of(text: str) -> tuple[str, ...]:
    """The names of an author or editor field, in order, as a page prints them. text: as typed."""
    return tuple(shown for name in names_in(text) if (shown := readable_name(name)))


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
    if "," in names[0]:
        return names[0].split(",")[0].strip()
    if is_with_initials(names[0]):
        return re.sub(r"(?: (?:[A-Z]\.?-?){1,4})+$", "", names[0])
    return names[0].rsplit(" ", 1)[-1]
