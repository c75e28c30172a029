"""The passages of a source as typed, with every proved number marked in its place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from ...proof.proof import Proof
from ...reading.latex import readable_text
from ...reading.model import Passage, Report, Source
from ...reading.values import Words
from ..findings.findings import Catalogue
from ..values.document import Marks, PassageText
from ..values.line import Line, Link, Marked, date, joined, line, typed
from .people import person_name


@lru_cache(maxsize=2)  # one guide is composed at a time; the index is asked for once a source
def _proofs_by_source(catalogue: Catalogue) -> dict[str, dict[str, list[Proof]]]:
    """Proofs by key and bracket of the passage they stand in."""
    found: dict[str, dict[str, list[Proof]]] = {}
    for proof in catalogue.audit.proofs.values():
        found.setdefault(proof.passage.key, {}).setdefault(proof.passage.bracket, []).append(proof)
    return found


def passage_blocks(catalogue: Catalogue, source: Source) -> tuple[PassageText, ...]:
    """Every passage of a source in the order typed; unmarked where no claim quotes it."""
    proofs = _proofs_by_source(catalogue).get(source.key, {})
    return tuple(
        PassageText(
            passage.slug, passage.bracket, passage.text, passage_marks(proofs.get(passage.bracket, ()), catalogue)
        )
        for passage in source.passages
    )


def unused_passages(catalogue: Catalogue, source: Source) -> tuple[Passage, ...]:
    """Passages that were typed and that no figure was drawn from."""
    proofs = _proofs_by_source(catalogue).get(source.key, {})
    return tuple(passage for passage in source.passages if passage.bracket not in proofs)


def passage_marks(proofs: Iterable[Proof], catalogue: Catalogue) -> tuple[Marks, ...]:
    """One mark for each printed number, in order of place; figures that quote the same number share it.

    Where two slices overlap the longer one is kept and holds the figures of both: a mark cannot begin inside another.
    """
    slices: dict[tuple[int, int], list[Proof]] = {}
    for proof in proofs:
        slices.setdefault((proof.outer_start, proof.outer_end), []).append(proof)
    kept: list[tuple[int, int, list[Proof]]] = []
    for (start, end), held in sorted(slices.items(), key=lambda item: (item[0][0], -item[0][1])):
        if kept and start < kept[-1][1]:
            kept[-1][2].extend(held)
        else:
            kept.append((start, end, list(held)))
    marks = []
    for start, end, held in kept:
        figures = tuple(figure for proof in held if (figure := catalogue.book.quoted(proof.id)) is not None)
        if figures:
            marks.append(Marks(start, end, figures))
    return tuple(marks)


def locator_link(source: Source, bracket: str) -> Line:
    """The locator of a passage, leading to it on the same page."""
    passage = source.passage(bracket)
    marked = Marked("locator", bracket)
    return line(Link(f"#{passage.slug}", (marked,)) if passage is not None else marked)


def words_read(catalogue: Catalogue, report: Report, blocks: Iterable[Sequence[Words]]) -> Iterator[tuple[Line, Line]]:
    """A fact of a source page: in which words of the passage numbers were read, and by whom; nothing without any."""
    quoted = [pieces for pieces in blocks if pieces]
    if quoted:
        yield line("Read in these words"), line(quoted_words(quoted), ", so read by ", by_whom(catalogue, report))


def quoted_words(blocks: Iterable[Sequence[Words]]) -> Line:
    """Words that a contributor quoted from a passage, as its page shows them; pieces of one block with dots between."""
    shown = [" ... ".join(readable_text(" ".join(piece.text.split())) for piece in pieces) for pieces in blocks]
    return joined([line("“", typed(text), "”") for text in dict.fromkeys(shown)])


def readers_line(catalogue: Catalogue, report: Report) -> Line:
    """ "read by Ines Marlow on 2026-02-03, re-read by nobody yet"."""
    read = report.read
    again = line("re-read by nobody yet")
    if report.checked is not None:
        by = typed(person_name(report.checked.by.text, catalogue))
        again = line("re-read by ", by, " on ", date(report.checked.on.value))
    return line("read by ", typed(person_name(read.by.text, catalogue)), " on ", date(read.on.value), ", ", again)


def by_whom(catalogue: Catalogue, report: Report) -> Line:
    """ "Ines Marlow, re-read by nobody yet"."""
    again = line(", re-read by nobody yet")
    if report.checked is not None:
        again = line(", re-read by ", typed(person_name(report.checked.by.text, catalogue)))
    return line(typed(person_name(report.read.by.text, catalogue)), again)
