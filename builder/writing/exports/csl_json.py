"""CSL-JSON: the items that citation processors take, by the names of their schema (csl-data.json, version 1.0)."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

from .gathering import Gathered
from .reference import CannotRead, Reference, as_body, as_people, as_tex

_TYPES = {
    "article": "article", "article-journal": "article", "article-magazine": "article", "article-newspaper": "article",
    "review": "article", "book": "book", "chapter": "incollection", "entry-encyclopedia": "inreference",
    "paper-conference": "inproceedings", "thesis": "thesis", "report": "report", "webpage": "online",
    "post-weblog": "online", "dataset": "dataset", "software": "software", "patent": "patent",
    "manuscript": "unpublished", "standard": "standard", "pamphlet": "booklet",
    # As a register of DOIs names them (common practice, no source).
    "journal-article": "article", "book-chapter": "incollection", "monograph": "book", "dissertation": "thesis",
    "proceedings-article": "inproceedings",
}  # fmt: skip
_WORDS = {
    "title": "title", "container-title-short": "shortjournal", "journalAbbreviation": "shortjournal",
    "collection-title": "series", "volume": "volume", "issue": "number", "edition": "edition",
    "publisher-place": "address", "language": "language", "title-short": "shorttitle", "shortTitle": "shorttitle",
    "ISBN": "isbn", "ISSN": "issn", "abstract": "abstract", "keyword": "keywords", "number": "eid",
}  # fmt: skip
_PARTS = frozenset(("incollection", "inproceedings", "inreference"))
_find_year = re.compile(r"(?<!\d)[12]\d{3}(?!\d)").search
_skip = re.compile(r"[\s,]*").match


def read_references(text: str) -> Iterator[Reference | CannotRead]:
    """Every reference in order; what follows a fault of the notation is not read."""
    for line, column, item in _items(text):
        if isinstance(item, dict):
            yield _reference(line, item)
        elif isinstance(item, CannotRead):
            yield item
        else:
            yield CannotRead("a reference is expected here, between { and }", line, column)


def _items(text: str) -> Iterator[tuple[int, int, Any]]:
    """Each with its line and column. One item alone is a list of one."""
    decoder = json.JSONDecoder()
    at = len(text) - len(text.lstrip())
    is_list = text.startswith("[", at)
    at += is_list
    while True:
        found = _skip(text, at)
        at = found.end() if found else at
        line, column = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
        if at >= len(text) or (is_list and text[at] == "]"):
            if at >= len(text) and is_list:
                message = "the list of references has no end: a ] is missing, is the file cut off?"
                yield line, column, CannotRead(message, line, column)
            return
        try:
            item, at = decoder.raw_decode(text, at)
        except json.JSONDecodeError as fault:
            message = "a quote, comma or bracket of JSON is missing here, or the file is cut off"
            yield line, column, CannotRead(f"{message}: the rest was not read", fault.lineno, fault.colno)
            return
        except RecursionError:
            message = "brackets stand in brackets too deep to be read"
            yield line, column, CannotRead(message, line, column)
            return
        yield line, column, item


def _reference(line: int, item: dict[str, Any]) -> Reference:
    kind = _TYPES.get(str(item.get("type", "")), "misc")
    entry = Gathered("csl")
    used = {"type", "author", "editor", "issued", "page", "DOI", "URL", "PMID", "PMCID", "container-title", "accessed"}
    if kind == "misc":
        entry.text("type", _words(item.get("type")))
    for role in ("author", "editor"):
        names = _list(item.get(role))
        entry.typed(role, " and ".join(filter(None, map(_person, names))))
        entry.kept(role, *map(_beside_name, names))
    for name, field in _WORDS.items():
        used.add(name)
        if entry.has(field):
            entry.kept(name, _words(item.get(name)))
        entry.text(field, _words(item.get(name)))
    entry.text("booktitle" if kind in _PARTS else "journal", _words(item.get("container-title")))
    used.add("publisher")
    entry.text("institution" if kind in ("thesis", "report") else "publisher", _words(item.get("publisher")))
    entry.pages(_words(item.get("page")))
    entry.doi_and_address(_words(item.get("DOI")), [_words(item.get("URL"))])
    entry.address("pmid", _words(item.get("PMID")))
    entry.address("pmcid", _words(item.get("PMCID")))
    _take_date(entry, item.get("issued"))
    accessed = _date(item.get("accessed"))
    entry.typed("urldate", accessed) if accessed else entry.kept("accessed", _words(item.get("accessed")))
    for name, value in item.items():
        if name not in used:
            entry.kept(name, _date(value) or _words(value))
    notice = "a note came along as `csl-note`, and is published with the entry: delete what is private"
    notices = (notice,) if "note" in item else ()
    return Reference(line, kind, entry.finished(), notices=notices)


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [] if value is None else [value]


def _words(value: Any) -> str:
    """A value as text: lists of texts in turn, anything deeper as it is written in JSON."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if isinstance(value, list) and all(isinstance(each, str | int | float) for each in value):
        return "; ".join(map(_words, value))
    return json.dumps(value, ensure_ascii=False)


def _person(name: Any) -> str:
    """A name of the schema, particles and suffix at the places of BibTeX: "van Aal, Jr, Ines"."""
    if not isinstance(name, dict):
        return as_people([_words(name)])
    family, given = _words(name.get("family")), _words(name.get("given"))
    if not family:
        return as_body(_words(name.get("literal") or name.get("name")) or given or _words(name))
    particles = (_words(name.get(f"{which}dropping-particle")) for which in ("", "non-"))
    # "de l'" touches what follows.
    family = re.sub(r"(?<=['’]) ", "", " ".join(filter(None, (*particles, family))))
    others = [as_tex(part) for part in (_words(name.get("suffix")), given) if part]
    return ", ".join((as_tex(family), *others)) if others else as_body(family)


_PARTS_OF_A_NAME = frozenset(
    ("family", "given", "suffix", "dropping-particle", "non-dropping-particle", "literal", "name", "parse-names")
)


def _beside_name(name: Any) -> str:
    """What a register says of a person beside the name: the number in ORCID, the place of work."""
    if not isinstance(name, dict):
        return ""
    left = {key: said for key, said in name.items() if said and key not in _PARTS_OF_A_NAME}
    return _words(left) if left else ""


def _date(value: Any) -> str:
    """A date of the schema to the day, the month or the year; "" where it is given in other words."""
    parts = value.get("date-parts") if isinstance(value, dict) else None
    if not (isinstance(parts, list) and len(parts) == 1 and isinstance(parts[0], list) and 1 <= len(parts[0]) <= 3):
        return ""
    try:
        numbers = [int(part) for part in parts[0]]
    except (TypeError, ValueError):
        return ""
    limits = ((1000, 9999), (1, 12), (1, 31))
    if not all(low <= number <= high for number, (low, high) in zip(numbers, limits, strict=False)):
        return ""
    return "-".join(f"{number:02}" for number in numbers)


def _take_date(entry: Gathered, value: Any) -> None:
    date = _date(value)
    if date:
        entry.typed("year" if len(date) == 4 else "date", date)
        if value.keys() - {"date-parts"}:
            entry.kept("issued", _words(value))
    elif value is not None:
        told = [value.get(name) for name in ("raw", "literal", "edtf")] if isinstance(value, dict) else [value]
        if not entry.date(_words(next(filter(None, told), ""))):
            # "Spring 2004", from November to December: its year at least is told.
            year = _find_year(_words(value))
            entry.typed("year", year[0] if year else "")
            entry.kept("issued", _words(value))
