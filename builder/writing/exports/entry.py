"""A reference as one BibTeX entry: its key, and its text."""

from __future__ import annotations

import re
from collections.abc import Collection
from itertools import chain, count
from string import ascii_lowercase

from ...reading.exported import names_in, readable_name
from ...reading.latex import readable_text
from ...reading.names import RESERVED_ADDRESSES
from ...reading.parsing import is_key
from .reference import Reference, letters_of

# Words of a title by which nobody knows a paper.
_SMALL_WORDS = """
    a an and are as at by do does for from how in is it its of on or over than that the their these this to under
    using versus was were became become what when where which who why with without after before between during into
    der die das ein eine und von zur zum im la le les el los las un une des du de et
"""
_SMALL = frozenset(_SMALL_WORDS.split())
_find_words = re.compile(r"[^\W\d_]+").findall


def free_key(reference: Reference, taken: Collection[str]) -> str:
    """Its own key where an entry can have it, else name, year and first telling word: "marlow2019repair".

    taken: keys in small letters; the next free letter is put behind one that is taken.
    """
    if reference.key and is_key(reference.key) and _is_free(reference.key, taken):
        return reference.key
    key = _key(reference)
    endings = chain(("",), ascii_lowercase[1:], (f"-{number}" for number in count(2)))
    return next(key + ending for ending in endings if _is_free(key + ending, taken))


def _is_free(key: str, taken: Collection[str]) -> bool:
    return key.lower() not in taken and key.lower() not in RESERVED_ADDRESSES


def _key(reference: Reference) -> str:
    names = names_in(reference.fields.get("author") or reference.fields.get("editor") or "")
    first = readable_name(names[0]) if names else ""
    family = first.split(",")[0]
    if family == first and first and not names[0].startswith("{"):
        family = first.split()[-1]
    year = re.search(r"\d{4}", reference.fields.get("date") or reference.fields.get("year") or "")
    words = [word for word in map(_ascii, _find_words(readable_text(_title(reference)))) if word]
    telling = next((word for word in words if word not in _SMALL and len(word) > 2), words[0] if words else "")
    parts = (_ascii(family)[:20], year[0] if year else "", telling[:20])
    return "".join(parts if parts[0] else (parts[2], parts[1])) or "paper"


def _ascii(text: str) -> str:
    return letters_of(text).encode("ascii", "ignore").decode()


def _title(reference: Reference) -> str:
    return reference.fields.get("title", "")


def entry_text(reference: Reference, key: str) -> str:
    """The file of the entry. An entry that was typed stays so, but for its key."""
    if reference.raw:
        old = re.escape(reference.key)
        head = re.compile(rf"(@\w+\s*[{{(]\s*){old}(?=\s*,)")
        return head.sub(lambda found: f"{found[1]}{key}", reference.raw, count=1)
    lines = [f"  {name} = {{{text}}},\n" for name, text in reference.fields.items()]
    return f"@{reference.type}{{{key},\n{''.join(lines)}  annotation = {{\n  }}\n}}\n"


def shown_title(reference: Reference) -> str:
    """The title as people read it."""
    return readable_text(_title(reference))
