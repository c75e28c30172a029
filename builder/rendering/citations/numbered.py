"""References as the text that medical journals number: ICMJE's recommendations, by the style in numbered.csl.

The style is written after the samples of formatted references of the National Library of Medicine, to which the ICMJE
Recommendations (section IV.A.3.g) refer. Where the processor slips, what goes into it or comes out is mended here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache
from importlib.resources import files
from typing import Any

from ...results.values.guide import Guide
from ...results.values.references import Person, Reference
from .csl_json import csl_item

# Private characters that no entry holds: they stand for punctuation that a style cannot say.
_BODY = "\ue000"
_MORE = "\ue001"


def cited_by_number(guide: Guide, keys: Iterable[str]) -> Iterator[str]:
    """References of a guide in the order of their keys, each behind its number from 1, as plain text:
    "1. Marlow I, Okafor T. Repairs, seen again. Ann Imagined Repair. 2019;7:41-52. doi: 10.5555/air.2019.41".

    Raises KeyError for a key without an entry. Whoever puts them on a page of HTML escapes them.
    """
    references = {entry.key: entry.reference for entry in guide.sources}
    for number, key in enumerate(keys, start=1):
        yield numbered_reference(references[key], number)


def numbered_reference(reference: Reference, number: int) -> str:
    """One reference behind its number, as plain text on one line."""
    return f"{number}. {reference_as_text(reference)}"


@lru_cache(maxsize=16384)  # pages, slides and lists ask for the same ones
def reference_as_text(reference: Reference) -> str:
    """A reference without a number, as plain text on one line."""
    from citeproc import Citation, CitationItem, CitationStylesBibliography, formatter
    from citeproc.source.json import CiteProcJSON

    bibliography = CitationStylesBibliography(_style(), CiteProcJSON([_item(reference)]), formatter.plain)
    bibliography.register(Citation([CitationItem("r")]))
    (entry,) = bibliography.bibliography()
    return _mended(str(entry))


@lru_cache(maxsize=1)
def _style() -> Any:
    from citeproc import CitationStylesStyle

    with files(__package__).joinpath("numbered.csl").open("rb") as file:
        # A test holds the style against the schema: nobody else waits for that.
        return CitationStylesStyle(file, validate=False)


def _item(reference: Reference) -> dict[str, object]:
    """What the processor is handed: names by their initials, pages shortened, a state in the words of journals."""
    item = csl_item("r", reference)
    authors = [_handed(person) for person in reference.authors]
    if reference.has_more_authors:
        authors.append({"literal": _MORE})
    item |= {
        "author": authors,
        "editor": [_handed(person) for person in reference.editors],
        "page": _shortened(reference.pages),
        "edition": _ordinal(reference.edition),
        "status": {"online first": "Epub ahead of print", "in press, online first": "Epub ahead of print"}.get(
            reference.state, reference.state[:1].upper() + reference.state[1:]
        ),
    }
    item["title"] = reference.title or "[title not reported]"
    return {name: value for name, value in item.items() if value}


def _handed(person: Person) -> dict[str, str]:
    if person.body:
        return {"literal": _BODY + person.body}
    # The processor keeps the hyphen of "Jean-Luc" whatever the option says, and words that begin with a small letter.
    initials = " ".join(word[0].upper() for word in re.split(r"[\s.\-‐]+", person.given) if word)
    parts = {"family": person.family, "given": initials, "non-dropping-particle": person.particle}
    handed = {name: value for name, value in parts.items() if value}
    return handed | ({"suffix": person.suffix.rstrip(".")} if person.suffix else {})


def _shortened(pages: str) -> str:
    """ "341–349" as "341-9" (NLM's samples); numbers of unlike length whole, which the processor cuts wrongly."""
    found = re.fullmatch(r"([A-Za-z]*)(\d+)[–-]\1(\d+)", pages)
    if found is None or len(found[2]) != len(found[3]):
        return pages.replace("–", "-")
    start, first, last = found.groups()
    same = next((at for at, (one, other) in enumerate(zip(first, last, strict=True)) if one != other), None)
    return f"{start}{first}" if same is None else f"{start}{first}-{last[same:]}"


def _ordinal(edition: str) -> str:
    """ "2" as "2nd"; words as they are."""
    if not edition.isdecimal():
        return re.sub(r"\s*(?:edition|ed\.?)$", "", edition, flags=re.IGNORECASE)
    ending = "th" if edition[-2:] in ("11", "12", "13") else {"1": "st", "2": "nd", "3": "rd"}.get(edition[-1], "th")
    return edition + ending


def _mended(entry: str) -> str:
    """The processor's line with what it cannot punctuate: a group behind people, "and others", a title that asks."""
    text = re.sub(r"^\d+\. ", "", entry)
    text = text.replace(f", {_BODY}", "; ").replace(_BODY, "")
    text = text.replace(f", {_MORE}", ", et al").replace(_MORE, "et al")
    text = re.sub(r"([?!])\.(?= |$)", r"\1", text)
    text = re.sub(r"\. (\[cited [^]]+\]) (?=Available)", r" \1. ", text)
    text = " ".join(unicodedata.normalize("NFC", text).split())
    # An address is not followed by a stop, which programs would take for a part of it.
    is_address = re.search(r"(?:doi: |Available from: )\S+$", text) is not None
    return text if is_address or text.endswith((".", "?", "!")) else f"{text}."
