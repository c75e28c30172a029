"""RIS as managers and publishers write it: which tag says what of a paper.

Tags as in "RIS Format Specifications" of Research Information Systems (2004, referencemanager.com/support/
risformat_tags_01 to _03), and as rispy names them where managers go beyond it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from .gathering import Gathered
from .reference import CannotRead, Reference
from .tagged import Tagged, read_ris

_ARTICLES = dict.fromkeys(("JOUR", "EJOUR", "ABST", "INPR", "JFULL", "MGZN", "NEWS"), "article")
_TYPES = _ARTICLES | {
    "BOOK": "book", "EBOOK": "book", "EDBOOK": "collection", "SER": "book", "CHAP": "incollection",
    "ECHAP": "incollection", "CONF": "inproceedings", "CPAPER": "inproceedings", "THES": "thesis", "RPRT": "report",
    "GOVDOC": "report", "ELEC": "online", "BLOG": "online", "ICOMM": "online", "DATA": "dataset", "COMP": "software",
    "PAT": "patent", "UNPB": "unpublished", "MANSCPT": "unpublished", "STAND": "standard", "PAMP": "booklet",
}  # fmt: skip
_PARTS = frozenset(("incollection", "inproceedings"))
_WHOLES = frozenset(("book", "collection"))
_JOURNAL_TAGS = ("T2", "JF", "JO", "J2", "JA")
_is_isbn = re.compile(r"(?:97[89])?\d{9}[\dXx]").fullmatch
_PRIVATE = ("N1", "RN")


def read_references(text: str) -> Iterator[Reference | CannotRead]:
    """Every reference in order."""
    for record in read_ris(text):
        yield record if isinstance(record, CannotRead) else _reference(record)


def _reference(record: Tagged) -> Reference:
    kind = _TYPES.get(record.first("TY").upper(), "misc")
    entry = Gathered("ris")
    used = {"TY"}

    def first(*tags: str) -> str:
        """The value that is taken; others of the same tags stay under their own."""
        for tag in tags:
            if tag in record.values and tag not in used:
                used.add(tag)
                value, *others = record.values[tag]
                entry.kept(tag, *others)
                return value
        return ""

    def every(*tags: str) -> list[str]:
        used.update(tags)
        return record.all(*tags)

    if kind == "misc":
        entry.text("type", record.first("TY"))
    entry.people("author", list(dict.fromkeys(every("AU", "A1"))))
    entry.people("editor", every("ED", "A2"))
    entry.text("title", first("TI", "T1", "CT"))
    if kind in _PARTS:
        entry.text("booktitle", first("T2", "BT", "C3", "JF", "JO"))
    elif kind in _WHOLES:
        if not entry.has("title"):
            entry.text("title", first("BT"))
        entry.text("series", first("T2", "T3"))
    else:
        _take_journal(entry, record, used)
    _take_date(entry, record, used)
    entry.text("volume", first("VL"))
    entry.text("number", first("IS"))
    entry.pages(first("SP"), first("EP"))
    if kind == "article" and not entry.has("pages"):
        entry.text("eid", first("C7"))
    entry.text("edition", first("ET"))
    entry.text("institution" if kind in ("thesis", "report") else "publisher", first("PB"))
    entry.text("address", first("CY", "PP"))
    entry.kept("ur", *entry.doi_and_address(first("DO"), every("UR", "LK")))
    numbers = every("SN")
    is_isbn = [_is_isbn(re.sub(r"[\s-]", "", number)) is not None for number in numbers]
    entry.text("isbn", *(number for number, is_book in zip(numbers, is_isbn, strict=True) if is_book))
    entry.text("issn", *(number for number, is_book in zip(numbers, is_isbn, strict=True) if not is_book))
    entry.text("language", first("LA"))
    entry.text("shorttitle", first("ST"))
    entry.text("affiliation", *every("AD"))
    entry.text("abstract", first("AB", "N2"))
    entry.text("keywords", *every("KW"))
    entry.text("file", *every("L1", "L2", "L4"))
    for tag, values in record.values.items():
        if tag not in used:
            entry.kept(tag or "rest", *values)
    notices = tuple(
        f"a note of {tag} came along as `ris-{tag.lower()}`, and is published with the entry: delete what is private"
        for tag in _PRIVATE
        if tag in record.values
    )
    return Reference(record.line, kind, entry.finished(), notices=notices)


def _take_journal(entry: Gathered, record: Tagged, used: set[str]) -> None:
    """The longest name is the journal's, the shortest its short one; managers differ in which tag has which."""
    names = {tag: record.values[tag][0] for tag in _JOURNAL_TAGS if tag in record.values}
    used.update(names)
    ordered = sorted(dict.fromkeys(names.values()), key=len, reverse=True)
    entry.text("journal", *ordered[:1])
    entry.text("shortjournal", *ordered[1:][-1:])
    for tag, values in record.values.items():
        if tag in names:
            entry.kept(tag, *(value for value in values if value not in (*ordered[:1], *ordered[1:][-1:])))


def _take_date(entry: Gathered, record: Tagged, used: set[str]) -> None:
    """The year of PY; DA where it says more of the same year."""
    typed = [(tag, value) for tag in ("DA", "PY", "Y1") for value in record.values.get(tag, ())]
    used.update(tag for tag, _ in typed)
    year = record.first("PY", "Y1", "DA")[:4]
    for tag, value in typed:
        if value[:4] != year or not entry.date(value):
            entry.kept(tag, value)
    if entry.has("date"):
        entry.drop("year")
