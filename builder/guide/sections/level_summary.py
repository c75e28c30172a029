"""What is known of one factor level beside its reference: one line an outcome, never joined over factors."""

from __future__ import annotations

from ...reading.model import Question
from ..findings.direction import Compared, compared, sides_of
from ..findings.findings import Catalogue
from ..saying.certainty import how_sure, ledger
from ..values.document import Block, Blocks, Items, Line, Link, Paragraph, Span, date, line, typed
from .compared_levels import reference_words
from .one_study import level_wording, which_way
from .ranges import numbers_of, told_alone
from .reference_rates import reference_rates
from .several_studies import one_or_several

IN_PART = "part of this answer and of another"
"""What is said of a paper's level that lies in two bands of the guide."""

_COMPARED = "The other answers are compared with this one."
_COMPARED_IN_PART = "In part it is what other answers are compared with"
_COMPARED_WAY = "What it is compared with stands beside it."
_COMPARED_WAYS = "The other ways are compared with this one; the rates of each stand side by side."
_COMPARED_WAYS_IN_PART = "Some of the other ways are compared with this one; the rates of each stand side by side."


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
        outcomes = [item.outcome.id for item in results]
        told = tuple(
            comparison_summary(catalogue, question, item, has_other_beside=outcomes.count(item.outcome.id) > 1)
            for item in results
        )
        blocks.append(Items(told, kind="known-lines"))
    if is_beside:
        said = _COMPARED_WAY if is_alone else _COMPARED
        if is_beside_others:
            said = _COMPARED_WAYS_IN_PART if results else _COMPARED_WAYS
        elif results:
            said = f"{_COMPARED_IN_PART}{':' if rows else '.'}"
        blocks.append(Paragraph(line(said), "quiet"))
    if rows:
        blocks.append(Items(rows, kind="known-lines"))
    if not results and not is_beside:
        blocks.append(Paragraph(not_known(question), "not-known"))
    blocks.append(Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"))
    return tuple(blocks)


def comparison_summary(
    catalogue: Catalogue, question: Question, item: Compared, *, has_other_beside: bool = False
) -> Blocks:
    """One outcome of one level: which side and how clear, in how many studies, the rates of both, when, how sure.

    has_other_beside: the same outcome is told against another reference too, so that each says which it is.
    """
    against = line(" against ", reference_words(item)) if has_other_beside else None
    title = Span("strong", line(typed(item.outcome.title.text, "definition"), against))
    sure = how_sure(ledger(question, item.outcome.id, item.factor, item.level))
    alone = item._replace(reaching=())
    found = one_or_several(catalogue, question, alone) if item.sides else line("of this answer alone nothing")
    blocks: list[Block] = [Paragraph(line(title, ": ", found, "."))]
    blocks.extend(Paragraph(line(numbers, "."), "quiet") for numbers in numbers_of(catalogue, question, alone))
    for side in item.reaching:
        # As large as what counts here: the case in hand may lie on the far side of that cut.
        way = which_way(side, f"{question.id}/{item.factor}")
        words = Span("strong", line(typed(level_wording(side.finding), "definition")))
        blocks.append(Paragraph(line(words, ", ", IN_PART, ", in one study: ", way, ".")))
        blocks.append(Paragraph(line(told_alone(catalogue, item, side), "."), "quiet"))
    return (*blocks, Paragraph(line(sure), "quiet"))


def is_reference(catalogue: Catalogue, question: Question, factor: str, level: str) -> bool:
    """True where other levels were compared with this one."""
    return any(level in side.reference_ids for side in sides_of(catalogue, question.id, factor))
