"""The entry of a publication as a reference: names in their parts, dates as numbers, the rest as people read it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.abbreviations import MONTHS
from ...reading.exported import is_with_initials, names_in, readable_field, readable_name
from ...reading.model import Source
from ..findings.findings import Catalogue
from ..values.references import Person, Reference
from .source_reference import doi_of, printed_pages, publication_state

_IN_BOOK = frozenset(("inbook", "incollection", "inproceedings", "conference", "bookinbook", "suppbook", "inreference"))


def reference_of(catalogue: Catalogue, source: Source) -> Reference:
    """What the entry says of itself; nothing is filled in that it lacks."""

    def first(*names: str) -> str:
        return next(filter(None, (catalogue.readable(source, name).strip() for name in names)), "")

    def people(name: str) -> tuple[Person, ...]:
        field = source.fields.get(name)
        return tuple(persons_in(field.text)) if field is not None else ()

    authors = people("author")
    publisher = first("publisher", "school", "institution", "organization", "howpublished")
    # A body that publishes its own text is its author where nobody else is named, as on the pages here.
    if not authors and not source.fields.get("editor") and (body := first("organization", "institution")):
        authors = (Person(body=body),)
    return Reference(
        kind=source.type,
        authors=tuple(person for person in authors if person != OTHERS),
        has_more_authors=OTHERS in authors,
        editors=tuple(person for person in people("editor") if person != OTHERS),
        title=first("title"),
        container=first("booktitle") if source.type in _IN_BOOK else first("journal", "journaltitle"),
        publisher=publisher,
        place=first("address", "location"),
        date=_date(first("date"), first("year"), first("month"), first("day")),
        state=publication_state(catalogue, source),
        volume=first("volume"),
        issue=first("number", "issue") if source.type not in ("report", "techreport") else "",
        pages=printed_pages(catalogue, source),
        edition=first("edition"),
        number=first("number") if source.type in ("report", "techreport") else "",
        doi=doi_of(catalogue, source),
        address=first("url"),
        seen=_date(first("urldate"), "", "", ""),
        is_retracted=catalogue.standing(source.key) == "retracted",
    )


OTHERS = Person(body="and others")
"""What "and others" at the end of a list of names is read as."""


def persons_in(text: str) -> Iterator[Person]:
    """The people and bodies of an author or editor field, in order. text: as typed.

    Names are told apart as BibTeX does it (btxdoc 1988, section 4): "von Last, Jr, First", "von Last, First" and
    "First von Last", in which a part that begins with a small letter is a particle; what stands in braces is one word.
    """
    for name in names_in(text):
        person = _person(name)
        if person != Person():
            yield person


def _person(name: str) -> Person:
    shown = readable_name(name)
    if shown == "and others":
        return OTHERS
    if re.match(r"family\s*=", name):
        name = shown
    if _is_braced(name):
        return Person(body=shown)
    parts = [part.strip() for part in _split(name, ",")]
    if len(parts) > 1:
        particle, family = _particle(_split(parts[0], " "), is_family_last=True)
        given = parts[-1] if len(parts) > 1 else ""
        suffix = parts[1] if len(parts) > 2 else ""
        return Person(family, readable_field(given), particle, readable_field(suffix))
    if is_with_initials(shown):
        found = re.fullmatch(r"(.+?),? ((?:[A-Z]\.?[ -]?){1,4})", shown)
        if found is not None:
            particle, family = _particle(found[1].split(" "), is_family_last=True)
            return Person(family, found[2], particle)
    words = _split(name, " ")
    if len(words) == 1:
        return Person(body=shown) if "{" in name else Person(family=shown)
    small = next((at for at, word in enumerate(words[:-1]) if _begins_small(word) and at), None)
    if small is None:
        return Person(readable_field(words[-1]), readable_field(" ".join(words[:-1])))
    particle, family = _particle(words[small:], is_family_last=True)
    return Person(family, readable_field(" ".join(words[:small])), particle)


def _particle(words: list[str], *, is_family_last: bool) -> tuple[str, str]:
    """The words before the family name that begin with a small letter, and the family name."""
    last = len(words) - 1 if is_family_last else len(words)
    at = 0
    while at < last and _begins_small(words[at]):
        at += 1
    return readable_field(" ".join(words[:at])), readable_field(" ".join(words[at:]))


def _begins_small(word: str) -> bool:
    # A word in braces is never a particle; TeX's accents stand in braces too, and begin with a backslash.
    if word.startswith("{") and not word.startswith("{\\"):
        return False
    return readable_field(word)[:1].islower()


def _is_braced(name: str) -> bool:
    """Whether one pair of braces holds the whole name: a body, whatever words are in it."""
    if not name.startswith("{") or name.startswith("{\\"):
        return False
    depth = 0
    for at, sign in enumerate(name):
        depth += (sign == "{") - (sign == "}")
        if depth == 0:
            return at == len(name) - 1
    return False


def _split(text: str, sign: str) -> list[str]:
    """Pieces between a sign outside of braces; empty ones left out."""
    pieces = [""]
    depth = 0
    for each in text:
        depth += (each == "{") - (each == "}")
        if each == sign and depth == 0:
            pieces.append("")
        else:
            pieces[-1] += each
    return [piece for piece in pieces if piece.strip()]


def _date(date: str, year: str, month: str, day: str) -> tuple[int, ...]:
    """Year, month and day as far as they are told; of a span its beginning (ISO 8601, as biblatex has it)."""
    found = re.match(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?", date)
    if found is not None:
        return tuple(int(part) for part in found.groups() if part is not None)
    if not re.fullmatch(r"\d{4}", year):
        return ()
    number = _month(month)
    if number is None:
        return (int(year),)
    return (int(year), number, int(day)) if day.isdecimal() and 1 <= int(day) <= 31 else (int(year), number)


def _month(month: str) -> int | None:
    if month.isdecimal():
        return int(month) if 1 <= int(month) <= 12 else None
    starts = [name[:3].casefold() for name in MONTHS]
    return starts.index(month[:3].casefold()) + 1 if month[:3].casefold() in starts else None
