"""The fields of one entry while they are gathered: each value once, and what has no field under its own tag."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from ...reading.exported import doi_in
from .reference import as_address, as_pages, as_people, as_tex

_NAMES = """
    author editor title booktitle journal shortjournal series year date volume number pages eid edition publisher
    institution address doi pmid pmcid url urldate isbn issn language note shorttitle affiliation abstract keywords
"""
_ORDER = _NAMES.split()
_find_date = re.compile(r"(\d{4})(?:[-/](\d{1,2}))?(?:[-/](\d{1,2}))?[-/]*(.*)").fullmatch


class Gathered:
    """Fields so far."""

    def __init__(self, prefix: str) -> None:
        """prefix: of the names under which what has no field is kept: "ris" gives `ris-c1`."""
        self._prefix = prefix
        self._fields: dict[str, str] = {}

    def text(self, name: str, *values: str, between: str = "; ") -> None:
        """A field of words; several values one behind the other."""
        self._put(name, between.join(dict.fromkeys(filter(None, map(as_tex, values)))))

    def people(self, name: str, names: Sequence[str]) -> None:
        """A field of names."""
        self._put(name, as_people(names))

    def address(self, name: str, value: str) -> None:
        """A DOI, an address, a number in a register: signs that are no TeX."""
        self._put(name, as_address(value))

    def typed(self, name: str, value: str) -> None:
        """A field that is in TeX already."""
        self._put(name, value)

    def pages(self, first: str, last: str = "") -> None:
        """The pages of a paper, or its number where it has none: "e1234"."""
        self._put("pages", as_pages(first, last))

    def doi_and_address(self, doi: str, addresses: Iterable[str]) -> list[str]:
        """The DOI without its resolver, and the first address that is not that of the DOI; gives other addresses."""
        doi = as_address(doi)
        doi = doi_in(doi) or re.sub(r"(?i)^doi:", "", doi)
        left = []
        for address in dict.fromkeys(filter(None, map(as_address, addresses))):
            resolved = doi_in(address)
            doi = doi or resolved
            if not resolved or resolved.casefold() != doi.casefold():
                left.append(address)
        self._put("doi", doi)
        self._put("url", left[0] if left else "")
        return left[1:]

    def date(self, value: str) -> bool:
        """A year, or a date to the month or day; True where all of the value was one."""
        found = _find_date(value.strip())
        if found is None:
            return False
        year, month, day, rest = found.groups()
        if month and 1 <= int(month) <= 12:
            whole = f"{year}-{int(month):02}"
            self._put("date", f"{whole}-{int(day):02}" if day and 1 <= int(day) <= 31 else whole)
        else:
            self._put("year", year)
        return not rest and (not month or 1 <= int(month) <= 12)

    def kept(self, tag: str, *values: str) -> None:
        """What has no field: under the tag that it came with."""
        name = re.sub(r"[^a-z0-9]+", "-", tag.lower()).strip("-")
        if name:
            self.text(f"{self._prefix}-{name}", *values)

    def has(self, name: str) -> bool:
        """Whether there is such a field by now."""
        return name in self._fields

    def drop(self, name: str) -> None:
        """Takes out a field that another says more of."""
        self._fields.pop(name, None)

    def finished(self) -> dict[str, str]:
        """All fields in the order of an entry."""
        known = {name: self._fields[name] for name in _ORDER if name in self._fields}
        return known | self._fields

    def _put(self, name: str, value: str) -> None:
        if value and name not in self._fields:
            self._fields[name] = value
