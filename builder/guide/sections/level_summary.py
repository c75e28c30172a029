"""What is known of one factor level beside its reference: one line an outcome, never joined over factors."""

from __future__ import annotations

from ...reading.model import Question
from ..findings.direction import Compared, compared, sides_of
from ..findings.findings import Catalogue
from ..saying.certainty import how_sure, ledger
from ..values.document import Block, Blocks, Items, Line, Link, Paragraph, Span, date, line, typed
from .ranges import numbers_of
from .reference_rates import reference_rates
from .several_studies import one_or_several

_COMPARED = "The other answers are compared with this one."
_COMPARED_WAYS = "The other ways are compared with this one; the rates of each stand side by side."


def not_known(question: Question) -> Line:
    """The answer where nothing is known: never "no study exists"."""
    if question.searched is None:
        return line("none in people in this guide, search not recorded")
    return line("none in people in this guide, searched ", date(question.searched.on.value))


def level_summary(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    level: str,
    *,
    is_alone: bool = False,
    is_beside_others: bool = False,
) -> Blocks:
    """What a reader is told for one answer of the situation, or, is_alone, for one way to go on.

    is_beside_others: each level is a way to go on, and a table has the rates of all.
    """
    results = [item for item in compared(catalogue, question.id, factor, level) if item.sides or item.reaching]
    blocks: list[Block] = []
    is_beside = is_reference(catalogue, question, factor, level)
    has_rates = is_beside and not is_beside_others
    rows = reference_rates(catalogue, question, factor, level, is_alone=is_alone) if has_rates else ()
    if results:
        told = tuple(comparison_summary(catalogue, question, item) for item in results)
        blocks.append(Items(told, kind="known-lines"))
    if is_beside:
        said = "In part it is what other answers are compared with:" if results else _COMPARED
        said = _COMPARED_WAYS if is_beside_others else said
        blocks.append(Paragraph(line(said), "quiet"))
    if rows:
        blocks.append(Items(rows, kind="known-lines"))
    if not results and not is_beside:
        blocks.append(Paragraph(not_known(question), "not-known"))
    blocks.append(Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"))
    return tuple(blocks)


def comparison_summary(catalogue: Catalogue, question: Question, item: Compared) -> Blocks:
    """One outcome of one level: which side and how clear, in how many studies, the rates of both, when, how sure."""
    title = Span("strong", line(typed(item.outcome.title.text, "definition")))
    sure = how_sure(ledger(question, item.outcome.id, item.factor, item.level))
    return (
        Paragraph(line(title, ": ", one_or_several(catalogue, question, item), ".")),
        *(Paragraph(line(numbers, "."), "quiet") for numbers in numbers_of(catalogue, question, item)),
        Paragraph(line(Span("sure", sure)), "quiet"),
    )


def is_reference(catalogue: Catalogue, question: Question, factor: str, level: str) -> bool:
    """True where other levels were compared with this one."""
    return any(level in side.reference_ids for side in sides_of(catalogue, question.id, factor))
