"""References as CSL-JSON: what a processor of citation styles reads, and so do programs for references."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from ...results.values.references import Person, Reference

MARK = "invented for demonstration"

CSL_TYPES = {
    "article": "article-journal", "suppperiodical": "article-journal", "review": "article-journal",
    "letter": "article-journal", "book": "book", "mvbook": "book", "booklet": "book", "collection": "book",
    "mvcollection": "book", "proceedings": "book", "mvproceedings": "book", "manual": "book", "reference": "book",
    "inbook": "chapter", "bookinbook": "chapter", "suppbook": "chapter", "incollection": "chapter",
    "inreference": "chapter", "inproceedings": "paper-conference", "conference": "paper-conference",
    "report": "report", "techreport": "report", "thesis": "thesis", "phdthesis": "thesis", "mastersthesis": "thesis",
    "online": "webpage", "electronic": "webpage", "www": "webpage", "dataset": "dataset", "software": "software",
    "unpublished": "manuscript", "patent": "patent",
}  # fmt: skip
"""Types of CSL 1.0.2 (appendix III) by types of BibTeX and biblatex; "document" for all others."""


def csl_item(key: str, reference: Reference, mark: str = "") -> dict[str, object]:
    """One publication in the schema of CSL-JSON 1.0.2, without what the entry does not say.

    mark: said in its note, where the publication is invented.
    """
    notes = ("Retracted publication" if reference.is_retracted else "", mark)
    item: dict[str, object] = {
        "id": key,
        "type": CSL_TYPES.get(reference.kind, "document"),
        "title": reference.title,
        "author": [*map(_name, reference.authors), *([{"literal": "others"}] if reference.has_more_authors else [])],
        "editor": list(map(_name, reference.editors)),
        "container-title": reference.container,
        "publisher": reference.publisher,
        "publisher-place": reference.place,
        "issued": _date(reference.date),
        "volume": reference.volume,
        "issue": reference.issue,
        "page": reference.pages.replace("–", "-"),
        "edition": reference.edition,
        "number": reference.number,
        "DOI": reference.doi,
        "URL": reference.address,
        "accessed": _date(reference.seen),
        "status": reference.state,
        "note": "; ".join(filter(None, notes)),
    }
    return {name: value for name, value in item.items() if value}


def csl_json(items: Iterable[dict[str, object]]) -> Iterator[str]:
    """A list of them as text, one a line."""
    between = "[\n"
    for item in items:
        yield between + json.dumps(item, ensure_ascii=False)
        between = ",\n"
    yield "\n]\n" if between != "[\n" else "[]\n"


def _name(person: Person) -> dict[str, str]:
    if person.body:
        return {"literal": person.body}
    parts = {
        "family": person.family,
        "given": person.given,
        "non-dropping-particle": person.particle,
        "suffix": person.suffix,
    }
    return {name: value for name, value in parts.items() if value}


def _date(parts: tuple[int, ...]) -> dict[str, object]:
    return {"date-parts": [list(parts)]} if parts else {}
