"""All publications of the guide on one page, with their standing and how far they were read."""

from __future__ import annotations

import unicodedata

from ...reading.model import Source
from ..findings.authors import first_author
from ..findings.findings import Catalogue
from ..saying.source_reference import standing_of, year_of
from ..values.document import Block, Filter, Line, Link, Page, Paragraph, Section, Table, line, typed

_STATES = ("none found", "corrected", "concern", "retracted", "not checked")
_DEPTHS = ("full text", "abstract", "part", "secondary", "not read yet")


def sources_page(catalogue: Catalogue) -> Page:
    """Every entry of the evidence by first author and year; a row leads to its page."""
    sources = sorted(catalogue.evidence.sources.values(), key=lambda source: _order(catalogue, source))
    blocks: list[Block] = []
    if not sources:
        blocks.append(Paragraph(line("No report has been entered yet."), "quiet"))
    else:
        rows = tuple(_row(catalogue, source) for source in sources)
        header = (line("Report"), line("Title"), line("Standing"), line("Read"))
        words = tuple(word for word in (*_STATES, *_DEPTHS) if any(word in _plain(row) for row in rows))
        blocks.append(Filter("Narrow the list", words))
        blocks.append(Table(line("All reports of this guide"), header, rows, "All reports of this guide", "sources"))
    blocks.append(
        Section(
            "Take them along",
            "take-along",
            (Paragraph(line("All entries as BibTeX: ", Link("data/sources.bib", ("sources.bib",)), ".")),),
        )
    )
    return Page(
        address="sources/",
        kind="source",
        title="All reports",
        blocks=tuple(blocks),
        description="Every publication of this guide, its standing, and how far it was read.",
    )


def _order(catalogue: Catalogue, source: Source) -> tuple[str, str, str]:
    return _unaccented(first_author(source)), year_of(catalogue, source), source.key


_LETTERS = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "ð": "d", "æ": "ae", "œ": "oe", "þ": "th", "ı": "i"})


def _unaccented(name: str) -> str:
    """A name as a reader looks it up who does not type its accents."""
    spread = unicodedata.normalize("NFKD", name.casefold().translate(_LETTERS))
    return "".join(letter for letter in spread if not unicodedata.combining(letter))


def _row(catalogue: Catalogue, source: Source) -> tuple[Line, ...]:
    name = f"{first_author(source)} {year_of(catalogue, source) or 'year not reported'}"
    report = catalogue.evidence.reports.get(source.key)
    title = catalogue.readable(source, "title") or "not reported"
    return (
        line(Link(f"sources/{source.key}/", (typed(name, "reference"),))),
        line(typed(title, "reference")),
        standing_of(catalogue, source.key).line if catalogue.standing(source.key) != "unknown" else _unknown(),
        line(report.read.depth.text if report is not None else "not read yet"),
    )


def _unknown() -> Line:
    return line("not checked: looked for and not found out")


def _plain(row: tuple[Line, ...]) -> str:
    return " ".join(part for cell in row for part in cell if isinstance(part, str))
