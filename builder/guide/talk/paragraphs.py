"""Blocks of a page and lines with something below them, as paragraphs of a slide; and what goes into its notes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ...reading.latex import readable_text
from ...results.findings.findings import Catalogue
from ...results.saying.source_reference import source_link
from ...results.values.document import AdviceList, Blocks, Facts, Items, Paragraph, StudyRow, StudyRows, walk
from ...results.values.figures import Figure
from ...results.values.line import Line, Link, Marked, Part, Span, joined, line, plain_text, typed
from ...results.values.talk import Group, Said

# They lead on from a page, or stand for one way of reading it.
_OF_A_PAGE = frozenset({"more", "back", "screen", "paper", "if-answered"})
_QUIET = frozenset({"quiet", "basis", "caution"})


def said_of(blocks: Blocks) -> list[Said]:
    """What stands open of these blocks, in order; what is one tap away stays on its page."""
    return list(_said(blocks))


def _said(blocks: Blocks) -> Iterator[Said]:
    for block in blocks:
        if isinstance(block, Paragraph) and block.kind not in _OF_A_PAGE:
            if block.kind == "lead":
                yield Said(block.line, "lead")
            elif block.kind in _QUIET:
                yield Said(block.line, "quiet")
            else:
                yield from with_below(block.line)
        elif isinstance(block, Items):
            for item in block.items:
                if _is_line(item):
                    yield from with_below(item)  # type: ignore[arg-type]
                else:
                    yield from _said(item)  # type: ignore[arg-type]
        elif isinstance(block, AdviceList):
            for entry in block.entries:
                yield from with_below(entry.words)
                behind = (entry.caution, joined([part for part in (entry.basis, entry.ratified) if part]))
                yield from (Said(part, "quiet") for part in behind if part)
        elif isinstance(block, Facts):
            yield from (Said(line(term, ": ", said)) for term, said in block.rows)


def _is_line(item: Line | Blocks) -> bool:
    return all(isinstance(part, (str, Figure, Marked, Link, Span)) for part in item)


def with_below(words: Line) -> list[Said]:
    """A sentence, and in paragraphs of their own what stands below it."""
    above: list[Part] = []
    below: list[Said] = []
    for part in words:
        if isinstance(part, Span) and part.kind == "below":
            below.append(Said(part.line, "quiet"))
        else:
            above.append(part)
    return [Said(tuple(above)), *below]


def groups_of(said: Iterable[Said]) -> tuple[Group, ...]:
    """Each sentence with what one must know to read it; how sure stands behind its numbers, and a heading with what it
    heads."""
    out: list[list[Said]] = []
    for item in said:
        last = out[-1] if out else []
        is_sure = item.kind == "quiet" and plain_text(item.line).startswith("certainty: ")
        if is_sure and last and last[-1].kind == "quiet":
            last[-1] = Said(line(_without_stop(last[-1].line), "; ", item.line), "quiet")
        elif last and (item.kind == "quiet" or last[-1].kind == "lead"):
            last.append(item)
        else:
            out.append([item])
    return tuple(Group(tuple(group)) for group in out)


def _without_stop(words: Line) -> Line:
    last = words[-1] if words else ""
    return (*words[:-1], last[:-1]) if isinstance(last, str) and last.endswith(".") else words


def row_line(row: StudyRow) -> Line:
    """One study of a list in one line, as its picture cannot be read aloud."""
    return line(typed(row.name, "reference"), ": ", row.first, "; " if row.said else None, row.said)


def rows_said(rows: StudyRows) -> list[Said]:
    """Every study of a plot as text."""
    return [Said(row_line(row)) for row in rows.rows]


def passages_of(catalogue: Catalogue, shown: Sequence[object]) -> list[Said]:
    """The passages behind the quoted figures, each once, and how the computed ones came about."""
    figures = [item for item in walk(tuple(shown)) if isinstance(item, Figure)]
    passages = dict.fromkeys(figure.proof.passage for figure in figures if figure.proof is not None)
    out = [
        Said(
            line(
                source_link(passage.key, catalogue), ", ", Marked("locator", passage.bracket), ": ",
                typed(readable_text(" ".join(passage.text.split())), "passage"),
            )
        )
        for passage in passages
    ]  # fmt: skip
    names = dict.fromkeys(figure.workings for figure in figures if figure.proof is None)
    workings = [catalogue.book.working(name) for name in names]
    out.extend(
        Said(line("computed here: ", typed(working.title, "definition"), "; ", typed(working.formula, "convention")))
        for working in workings
    )
    return [Said(line("Where these numbers stand:"), "lead"), *out] if out else []


def keys_in(shown: Iterable[object]) -> list[str]:
    """Keys of the reports that lines lead to, in the order of reading."""
    found: dict[str, None] = {}
    for item in walk(tuple(shown)):
        if isinstance(item, Link) and item.target.startswith("sources/"):
            found.setdefault(item.target.split("/")[1])
    return list(found)
