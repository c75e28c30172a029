"""A publication as its entry has it, and what is known of its standing; nothing is filled in that the entry lacks."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...reading.exported import doi_in
from ...reading.model import Source, Status
from ...records import NamedTuple
from ..findings.authors import authors_of, first_author
from ..findings.findings import Catalogue
from ..values.document import Paragraph
from ..values.line import Line, Link, Marked, date, joined, line, typed
from .people import person_name
from .wording import depth_mark

NOT_REPORTED = "not reported"

# biblatex manual, field `pubstate` (from memory): the words its standard styles print.
_STATES = {
    "inpreparation": "in preparation",
    "submitted": "submitted",
    "forthcoming": "forthcoming",
    "inpress": "in press, online first",
    "prepublished": "online first",
}


class Standing(NamedTuple):
    """How a report stands, in words and as a class for the stylesheet."""

    line: Line
    kind: str
    """ "clean", "flagged" or "unchecked"."""


def year_of(catalogue: Catalogue, source: Source) -> str:
    """The year as the entry has it, or ""."""
    return catalogue.readable(source, "year") or catalogue.readable(source, "date")[:4]


def _first(catalogue: Catalogue, source: Source, *names: str) -> str:
    for name in names:
        found = catalogue.readable(source, name).strip()
        if found:
            return found
    return ""


_CONTAINERS = (
    ("Journal", ("journal", "journaltitle")),
    ("Book", ("booktitle", "series")),
    ("Publisher", ("publisher", "school", "institution", "organization", "howpublished")),
)


def container_of(catalogue: Catalogue, source: Source) -> tuple[str, str]:
    """What it appeared in, by name and as typed: the journal, else the book, else the publisher; "" where none is."""
    for name, fields in _CONTAINERS:
        found = _first(catalogue, source, *fields)
        if found:
            return name, found
    return "Journal", ""


def publication_state(catalogue: Catalogue, source: Source) -> str:
    """ "online first" and the like, where the entry says so; "" for what stands in a volume."""
    state = catalogue.readable(source, "pubstate").strip()
    if state:
        return _STATES.get(state.casefold(), state)
    note = catalogue.readable(source, "note")
    return "online first" if re.search(r"online first|ahead of print|epub", note, re.IGNORECASE) else ""


def reference_text(catalogue: Catalogue, source: Source) -> str:
    """The reference in one line, "not reported" in the place of what is missing."""
    authors = "; ".join(authors_of(source)) or "author not reported"
    title = catalogue.readable(source, "title") or "title not reported"
    container = container_of(catalogue, source)[1] or "journal not reported"
    year = year_of(catalogue, source) or "year not reported"
    volume, number = catalogue.readable(source, "volume"), catalogue.readable(source, "number")
    pages = printed_pages(catalogue, source)
    place = f";{volume}" + (f"({number})" if number else "") if volume else ""
    if pages:
        place += f":{pages}"
    state = publication_state(catalogue, source)
    closing = f" ({state})" if state and not place else ""
    end = "" if title.endswith((".", "?", "!")) else "."
    # A body that publishes its own text is named once.
    within = "" if container == authors else f" {container}"
    stop = "" if authors.endswith(".") else "."
    return f"{authors}{stop} {title}{end}{within} {year}{place}{closing}."


def printed_pages(catalogue: Catalogue, source: Source) -> str:
    """Pages with the dash that people print, or the article's number."""
    pages = _first(catalogue, source, "pages", "eid", "articleno")
    return re.sub(r"\s*-{1,3}\s*", "–", pages)


def doi_of(catalogue: Catalogue, source: Source) -> str:
    """The DOI alone, without the address of a resolver; where the entry has none, that of its address."""
    found = bare_doi(catalogue.readable(source, "doi"))
    return found or doi_in(catalogue.readable(source, "url")) or doi_in(catalogue.readable(source, "howpublished"))


def bare_doi(text: str) -> str:
    """A DOI without "doi:" or the address of a resolver before it."""
    return re.sub(r"^(?:https?://(?:dx\.)?doi\.org/|doi:\s*)", "", text.strip(), flags=re.IGNORECASE)


def doi_link(doi: str) -> Link:
    """A DOI that leads to its resolver (ISO 26324; the DOI Handbook's https form)."""
    return Link(f"https://doi.org/{doi}", (Marked("identifier", doi),))


def reference_line(catalogue: Catalogue, source: Source) -> Line:
    """ "DOI 10.5555/a.1; Pages not reported": what leads to the report, and what its reference does not say."""
    doi = doi_of(catalogue, source)
    url = catalogue.readable(source, "url").strip()
    rows = [line("DOI ", doi_link(doi) if doi else NOT_REPORTED)]
    places = (("Volume", catalogue.readable(source, "volume")), ("Pages", printed_pages(catalogue, source)))
    rows.extend(line(f"{name} {NOT_REPORTED}") for name, said in places if not said)
    state = publication_state(catalogue, source)
    if state:
        rows.append(line("published ", typed(state, "reference")))
    if not doi and url.startswith(("https://", "http://")):
        rows.append(line("address ", Link(url, (Marked("identifier", url),))))
    return joined(rows)


def standing_of(catalogue: Catalogue, key: str) -> Standing:
    """The standing of a report in one of three states; what nobody checked never looks clean."""
    status = catalogue.evidence.statuses.get(key)
    if status is None:
        return Standing(line("not checked: nobody has looked for a correction or retraction"), "unchecked")
    checked = line("; status checked on ", date(status.on.value), ", by ", typed(_checker(status, catalogue)))
    state = status.state.text
    if state == "none found":
        by = line(", by ", typed(_checker(status, catalogue)))
        return Standing(
            line("correction or retraction: none found on ", date(status.on.value), by), "clean"
        )  # fmt: skip
    if state in ("corrected", "concern", "retracted"):
        said = {
            "corrected": "corrected by its journal",
            "concern": "under an expression of concern of its journal",
            "retracted": "withdrawn: this report was retracted",
        }[state]
        return Standing(line(said, _notice(status), checked), "flagged")
    return Standing(line("not checked: looked for on ", date(status.on.value), " and not found out"), "unchecked")


def _checker(status: Status, catalogue: Catalogue) -> str:
    return person_name(status.by.text, catalogue)


def _notice(status: Status) -> Line:
    notice = status.notice
    if notice is None:
        return line(", notice not recorded")
    day = line(" on ", date(notice.on.value)) if notice.on is not None else line()
    words = line(": ", typed(notice.words.text)) if notice.words is not None else line()
    doi = line(" (notice: ", doi_link(bare_doi(notice.doi.text)), ")") if notice.doi is not None else line()
    return line(day, words, doi)


def standing_paragraph(catalogue: Catalogue, key: str) -> Paragraph:
    """The standing as a page of the report says it first."""
    standing = standing_of(catalogue, key)
    return Paragraph(line("Standing: ", standing.line, "."), f"standing {standing.kind}")


def source_link(key: str, catalogue: Catalogue) -> Link:
    """A report by first author and year, leading to its page."""
    return catalogue.once(("link", key), lambda: _source_link(key, catalogue))


def source_links(catalogue: Catalogue, keys: Iterable[str], between: str = ", ") -> Line:
    """Several reports one behind the other, each by first author and year and leading to its page."""
    return joined([line(source_link(key, catalogue)) for key in keys], between)


def _source_link(key: str, catalogue: Catalogue) -> Link:
    source = catalogue.evidence.sources.get(key)
    if source is None:
        return Link(f"sources/{key}/", (typed(key, "identifier"),))
    name = first_author(source)
    year = catalogue.readable(source, "year") or catalogue.readable(source, "date")[:4]
    said = f"{name} {year or 'year not reported'}"
    report = catalogue.evidence.reports.get(key)
    depth = depth_mark(report.read.depth.text) if report is not None else ""
    return Link(f"sources/{key}/", line(typed(said, "reference"), depth, unchecked(catalogue, key)))


def unchecked(catalogue: Catalogue, key: str) -> str:
    """Said with the name of a report that nobody has checked among others that were; "" where nobody checks at all.

    There the foot of every page says so.
    """
    is_open = catalogue.standing(key) in ("not checked", "unknown") and bool(catalogue.evidence.statuses)
    return ", not checked for retraction" if is_open else ""
