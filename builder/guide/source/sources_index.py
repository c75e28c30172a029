"""All publications of the guide on one page, by the question that uses them, and what is to be known of each."""

from __future__ import annotations

import unicodedata
from collections import Counter

from ...reading.model import Source
from ...results.findings.authors import first_author
from ...results.findings.findings import Catalogue
from ...results.findings.report_relations import relations
from ...results.saying.source_reference import standing_of, year_of
from ...results.saying.wording import depth_mark
from ...results.values.document import Block, Details, Filter, Items, Page, Paragraph, Section
from ...results.values.line import Line, Link, joined, line, plain_text, typed

_WORDS = (
    "corrected", "concern", "retracted", "not checked", "abstract only", "read in part", "read in another report",
    "not read yet",
)  # fmt: skip
"""What the list can be narrowed by: everything that is said of a report because it is not as most are."""
_READ_WHOLE = "full text"
UNUSED = "Used by no question yet"


def sources_page(catalogue: Catalogue) -> Page:
    """One closed list a question, each report a line of it by first author and year that leads to its page."""
    sources = sorted(catalogue.evidence.sources.values(), key=lambda source: _order(catalogue, source))
    blocks: list[Block] = []
    if not sources:
        blocks.append(Paragraph(line("No report has been entered yet."), "quiet"))
    else:
        clean = _commonly_clean(catalogue, sources)
        rows = {source.key: _row(catalogue, source, clean) for source in sources}
        # Behind its name and title: a title may hold any of the words.
        said = [plain_text(row[1:]) for row in rows.values()]
        usual = joined([*([clean] if clean else []), line(f"read in {_READ_WHOLE}")])
        blocks.append(Paragraph(line("Unless said otherwise: ", usual, "."), "answer"))
        blocks.append(Filter("Narrow the lists", tuple(word for word in _WORDS if any(word in row for row in said))))
        blocks.extend(_groups(catalogue, rows))
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


def _groups(catalogue: Catalogue, rows: dict[str, Line]) -> list[Block]:
    """A report stands under every question that uses it; those that none uses stand last."""
    used = _used_by(catalogue)
    groups: list[tuple[str, str, list[Line]]] = []
    for question in catalogue.evidence.questions.values():
        mine = [row for key, row in rows.items() if question.id in used.get(key, ())]
        groups.append((question.title.text, f"of-{question.id}", mine))
    groups.append((UNUSED, "of-none", [row for key, row in rows.items() if key not in used]))
    shown = [group for group in groups if group[2]]
    return [
        Details(title, (Items(tuple(mine), kind="reports"),), "part", is_open=len(shown) == 1, anchor=anchor)
        for title, anchor, mine in shown
    ]


def _used_by(catalogue: Catalogue) -> dict[str, set[str]]:
    """Questions that a report has claims for, or that name it in their advice; by the report's key."""
    out: dict[str, set[str]] = {}
    for key, report in catalogue.evidence.reports.items():
        for claim in report.claims:
            out.setdefault(key, set()).update(word.text for word in claim.question)
    for key, mentions in relations(catalogue).mentions.items():
        out.setdefault(key, set()).update(place.address.partition("/")[0] for place in mentions)
    known = set(catalogue.evidence.questions)
    return {key: names & known for key, names in out.items() if names & known}


def _row(catalogue: Catalogue, source: Source, clean: Line) -> Line:
    """A name with its title, and what is to be known of it: how it stands, and how far it was read.

    clean: how those stand of which nothing is said.
    """
    name = f"{first_author(source)} {year_of(catalogue, source) or 'year not reported'}"
    report = catalogue.evidence.reports.get(source.key)
    title = catalogue.readable(source, "title") or "title not reported"
    stands = _stands(catalogue, source)
    depth = report.read.depth.text if report is not None else ""
    marks = [stands] if stands != clean else []
    if depth != _READ_WHOLE:
        marks.append(line(depth_mark(depth).removeprefix(", ") if depth else "not read yet"))
    way = Link(f"sources/{source.key}/", (typed(f"{name}: {title}", "reference"),))
    return line(way, " ", joined(marks, "; ")) if marks else line(way)


def _stands(catalogue: Catalogue, source: Source) -> Line:
    if catalogue.standing(source.key) == "unknown":
        return line("not checked: looked for and not found out")
    return standing_of(catalogue, source.key).line


def _commonly_clean(catalogue: Catalogue, sources: list[Source]) -> Line:
    """How most stand of which nothing was found: by the same hand on the same day. What nobody checked never counts."""
    clean = Counter(
        standing.line for source in sources if (standing := standing_of(catalogue, source.key)).kind == "clean"
    )
    return clean.most_common(1)[0][0] if clean else ()
