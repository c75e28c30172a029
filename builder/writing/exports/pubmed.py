"""The export of PubMed (.nbib): which tag says what of a paper.

Tags as in "MEDLINE/PubMed Data Element (Field) Descriptions" of the United States National Library of Medicine
(nlm.nih.gov/bsd/mms/medlineelements.html); those for updates and republications from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.abbreviations import MONTHS
from .gathering import Gathered
from .reference import CannotRead, Reference, as_body, as_people
from .tagged import Tagged, read_pubmed

# What the database keeps for itself: dates of its work on a record, owner, state, number of the journal, and SO, in
# which it prints other fields once more.
_DATABASE_TAGS = "OWN STAT DCOM LR CRDT MHDA EDAT PHST PMCR SB JID SO PST DRDT"
_OF_THE_DATABASE = frozenset(_DATABASE_TAGS.split())
_MONTHS = [name[:3] for name in MONTHS]
_find_date = re.compile(r"(\d{4})(?: ([A-Z][a-z]{2})(?: (\d{1,2}))?)?$").match
_find_suffix = re.compile(r"([^,]+), ([^,]+) (Jr|Sr|[2-9](?:nd|rd|th)|I{2,3}|IV)\.?$").match
_find_identifier = re.compile(r"(\S+) \[(doi|pii)\]$").match
# What was said of a paper after it came out, by the tags of the notice in the record of the paper.
_NOTICES = {
    "RIN": "PubMed names a retraction of it",
    "ECI": "PubMed names an expression of concern about it",
    "EIN": "PubMed names a correction of it",
    "RPI": "PubMed names a corrected and republished form of it",
    "UIN": "PubMed names an update of it",
}
_MEND = ": enter that in evidence/status.yaml"


def read_references(text: str) -> Iterator[Reference | CannotRead]:
    """Every reference in order."""
    for record in read_pubmed(text):
        yield record if isinstance(record, CannotRead) else _reference(record)


class _Left:
    """What of a record is not taken yet."""

    def __init__(self, record: Tagged) -> None:
        self._record = record
        self._used = {"PMID", *_OF_THE_DATABASE}

    def take(self, *tags: str) -> list[str]:
        """All values of these tags."""
        self._used.update(tags)
        return self._record.all(*tags)

    def people(self, full: str, short: str) -> list[str]:
        """Names in full. The same people with initials are taken too, where there are as many."""
        found = [_with_suffix(name) for name in self.take(full)]
        if not found or len(found) == len(self._record.all(short)):
            short_names = self.take(short)
            return found or short_names
        return found

    def rest(self) -> list[tuple[str, list[str]]]:
        """By tag."""
        return [(tag, values) for tag, values in self._record.values.items() if tag not in self._used]


def _reference(record: Tagged) -> Reference:
    entry, left = Gathered("nbib"), _Left(record)
    bodies = [as_body(name) for name in left.take("CN")]
    entry.typed("author", " and ".join(filter(None, (as_people(left.people("FAU", "AU")), *bodies))))
    entry.people("editor", left.people("FED", "ED"))
    titles = [_without_stop(title) for title in left.take("TI")]
    books = [_without_stop(title) for title in left.take("BTI")]
    entry.text("title", *(titles or books))
    entry.text("booktitle", *(books if titles else ()))
    entry.text("journal", *(left.take("JT") or left.take("TA")))
    entry.text("shortjournal", *left.take("TA"))
    _take_date(entry, left.take("DP"))
    for name, tags in _WORDS.items():
        entry.text(name, *left.take(*tags))
    entry.pages("".join(left.take("PG")[:1]))
    entry.address("pmid", record.first("PMID"))
    entry.address("pmcid", "".join(left.take("PMC")[:1]))
    _take_identifiers(entry, left.take("AID", "LID"))
    for tag, values in left.rest():
        entry.kept(tag or "rest", *values)
    kind = "article" if not books else "incollection" if titles else "book"
    left_out = tuple(tag for tag in record.values if tag in _OF_THE_DATABASE)
    return Reference(record.line, kind, entry.finished(), left_out, _notices(record))


_WORDS = {
    "volume": ("VI",), "number": ("IP",), "edition": ("EN",), "publisher": ("PB",), "issn": ("IS",), "isbn": ("ISBN",),
    "language": ("LA",), "affiliation": ("AD",), "abstract": ("AB",), "keywords": ("OT", "MH"),
}  # fmt: skip


def _with_suffix(name: str) -> str:
    """ "Okoro, Tam Jr" is "Okoro, Jr, Tam": a suffix stands behind the given names there."""
    found = _find_suffix(name)
    return f"{found[1]}, {found[3]}, {found[2]}" if found else name


def _without_stop(title: str) -> str:
    """Titles end in a full stop there that the paper has not; one in brackets is the database's own translation."""
    return title[:-1] if title.endswith(".") and not title.endswith("..") else title


def _take_date(entry: Gathered, values: list[str]) -> None:
    for value in values:
        found = _find_date(value)
        if found and found[2] in _MONTHS:
            month = str(_MONTHS.index(found[2]) + 1)
            entry.date("-".join(filter(None, (found[1], month, found[3]))))
        elif not (found and not found[2] and entry.date(found[1])):
            entry.date(value[:4])
            entry.kept("dp", value)


def _take_identifiers(entry: Gathered, values: list[str]) -> None:
    dois: list[str] = []
    for value in dict.fromkeys(values):
        found = _find_identifier(value)
        if found and found[2] == "doi":
            dois.append(found[1])
        elif found:
            entry.text("pii", found[1])
        else:
            entry.kept("aid", value)
    entry.doi_and_address(dois[0] if dois else "", ())
    entry.kept("doi", *(doi for doi in dict.fromkeys(dois) if doi != dois[0]))


def _notices(record: Tagged) -> tuple[str, ...]:
    said = [words for tag, words in _NOTICES.items() if tag in record.values]
    kinds = {kind.casefold() for kind in record.all("PT")}
    if "retracted publication" in kinds and _NOTICES["RIN"] not in said:
        said.insert(0, _NOTICES["RIN"])
    return tuple(words + _MEND for words in said)
