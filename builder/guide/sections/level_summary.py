"""What is known of one factor level beside its reference: one line an outcome, never joined over factors."""

from __future__ import annotations

from ...reading.model import Question
from ..findings.direction import Compared, compared, sides_of
from ..findings.findings import Catalogue, Finding
from ..saying.certainty import how_sure, ledger
from ..saying.source_reference import source_link
from ..saying.wording import rate, timing
from ..values.document import Block, Blocks, Items, Line, Link, Paragraph, Span, date, line, typed
from .ranges import numbers_of
from .several_studies import one_or_several


def not_known(question: Question) -> Line:
    """The answer where nothing is known: never "no study exists"."""
    if question.searched is None:
        return line("none in people in this guide, search not recorded")
    return line("none in people in this guide, searched ", date(question.searched.on.value))


def level_summary(catalogue: Catalogue, question: Question, factor: str, level: str) -> Blocks:
    """What a reader is told for one answer of the situation."""
    results = [item for item in compared(catalogue, question.id, factor, level) if item.sides]
    blocks: list[Block] = []
    if results:
        blocks.append(
            Items(tuple(comparison_summary(catalogue, question, item) for item in results), kind="known-lines")
        )
    elif is_reference(catalogue, question, factor, level):
        blocks.append(Paragraph(line("The other answers are compared with this one."), "quiet"))
        rows = reference_rates(catalogue, question, factor, level)
        if rows:
            blocks.append(Items(rows, kind="known-lines"))
    else:
        blocks.append(Paragraph(not_known(question), "not-known"))
    blocks.append(Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"))
    return tuple(blocks)


def comparison_summary(catalogue: Catalogue, question: Question, item: Compared) -> Blocks:
    """One outcome of one level: which side and how clear, in how many studies, the rates of both, when, how sure."""
    title = Span("strong", line(typed(item.outcome.title.text, "definition")))
    sure = how_sure(ledger(question, item.outcome.id, item.factor, item.level))
    return (
        Paragraph(line(title, ": ", one_or_several(catalogue, question, item), ".")),
        Paragraph(line(numbers_of(catalogue, question, item), ". ", Span("sure", sure)), "quiet"),
    )


def is_reference(catalogue: Catalogue, question: Question, factor: str, level: str) -> bool:
    """True where other levels were compared with this one."""
    return any(level in side.reference_ids for side in sides_of(catalogue, question.id, factor))


def reference_rates(catalogue: Catalogue, question: Question, factor: str, level: str) -> tuple[Line, ...]:
    """Rates of a reference level, the largest study of each outcome."""
    best: dict[str, Finding] = {}
    for side in sides_of(catalogue, question.id, factor):
        row = side.reference
        if row is None or level not in row.level_ids or not row.is_human or row.is_withdrawn or row.events is None:
            continue
        held = best.get(row.outcome.id)
        if held is None or _fit(row) > _fit(held):
            best[row.outcome.id] = row
    return tuple(
        line(
            typed(row.outcome.title.text, "definition"), ": ",
            typed(row.level.level.text if row.level is not None else "", "definition"), ": ",
            rate(row), ", ", timing(row),
            " (", source_link(row.key, catalogue), ")",
        )
        for _, row in sorted(best.items())
    )  # fmt: skip


def _fit(row: Finding) -> tuple[int, int, str]:
    """Rows that speak of one level alone come first, then the larger; the paper's own wording always stands beside."""
    return -len(row.level_ids), row.total or 0, row.base
