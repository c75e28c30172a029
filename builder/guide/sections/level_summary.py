"""What is known of one factor level beside its reference: one line an outcome, never joined over factors."""

from __future__ import annotations

from ...reading.model import Question
from ...results.findings.direction import Compared, compared, reason_not_counted, sides_of
from ...results.findings.findings import Catalogue
from ...results.findings.outcomes import is_occurrence
from ...results.numbers.clearness import clearness
from ...results.saying.certainty import how_sure, ledger
from ...results.values.document import Block, Blocks, Details, Items, Paragraph
from ...results.values.line import Line, Link, Span, date, joined, line, typed
from .compared_levels import reference_wording, reference_words
from .lines_inside import inside, lines_inside
from .of_ways import of_ways
from .one_study import level_wording, which_way
from .ranges import numbers_of, told_alone
from .reference_rates import counted_together, reference_rates
from .several_studies import one_or_several

IN_PART = "part of this answer and of another"
"""What is said of a paper's level that lies in two bands of the guide."""

_COMPARED = "The other answers are compared with this one."
_COMPARED_IN_PART = "A part of this answer is what others are compared with."
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
    every = [item for item in compared(catalogue, question.id, factor, level) if item.sides or item.reaching]
    # Whoever asks has it already: how often it happens is no answer to what becomes of it.
    results = [item for item in every if not is_occurrence(item.outcome)]
    blocks: list[Block] = [*lines_inside(catalogue, results)]
    is_beside = is_reference(catalogue, question, factor, level)
    has_rates = is_beside and not is_beside_others
    # Beside a comparison of its own a rate that looks better would be a third number, and the last one read.
    rows: tuple[Line, ...] = ()
    if has_rates and not results:
        rows = reference_rates(catalogue, question, factor, level, is_alone=is_alone)
    # What many studies counted of this answer and another stands before what one study found of a part of it.
    shared: tuple[Line, ...] = ()
    if results and has_rates and not is_alone:
        shared = reference_rates(catalogue, question, factor, level, is_shared=True)
    if shared:
        blocks.append(_counted_together(catalogue, question, factor, level))
        blocks.append(Items(shared, kind="known-lines"))
    if results:
        blocks.append(_told(catalogue, question, results, is_way=is_alone))
    elif not is_beside:
        blocks.append(Paragraph(_only_how_often(catalogue, question, factor, level), "not-known"))
    if is_beside:
        blocks.extend(_compared_with(bool(results), bool(shared), is_alone=is_alone, is_beside_others=is_beside_others))
    if rows:
        blocks.append(Items(rows, kind="known-lines"))
    # A page of a factor of which nothing is known says no more than this line.
    if any(finding.factor == factor for finding in catalogue.of_question(question.id)):
        blocks.append(Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"))
    return tuple(blocks)


def _told(catalogue: Catalogue, question: Question, results: list[Compared], *, is_way: bool) -> Items:
    outcomes = [item.outcome.id for item in results]
    told = tuple(
        comparison_summary(
            catalogue, question, item, has_other_beside=outcomes.count(item.outcome.id) > 1, is_way=is_way
        )
        for item in results
    )
    return Items(told, kind="known-lines")


def _counted_together(catalogue: Catalogue, question: Question, factor: str, level: str) -> Paragraph:
    names = counted_together(catalogue, question, factor, level)
    others = joined([line(typed(name, "definition")) for name in names])
    return Paragraph(line("Counted together with the answer", "s " if len(names) > 1 else " ", others, ":"), "quiet")


def _compared_with(has_results: bool, has_shared: bool, *, is_alone: bool, is_beside_others: bool) -> Blocks:
    """That others are compared with this level, as far as what stands above does not say so."""
    said = _COMPARED_WAY if is_alone else _COMPARED
    if is_beside_others:
        said = _COMPARED_WAYS_IN_PART if has_results else _COMPARED_WAYS
    elif has_results:
        said = "" if has_shared else _COMPARED_IN_PART
    return (Paragraph(line(said), "quiet"),) if said else ()


def _only_how_often(catalogue: Catalogue, question: Question, factor: str, level: str) -> Line:
    """Nothing of what becomes of them is known; that how often it happens was counted is said, where it was."""
    counted = any(
        level in (*side.covers, *side.reference_ids) and not reason_not_counted(side.finding)
        for side in sides_of(catalogue, question.id, factor)
    )
    often = ". Counted was only how often it happens, not what becomes of it" if counted else None
    return line("Nothing is counted here for this answer: ", not_known(question), often)


def comparison_summary(
    catalogue: Catalogue, question: Question, item: Compared, *, has_other_beside: bool = False, is_way: bool = False
) -> Blocks:
    """One outcome of one level: which side and how clear, in how many studies, the rates of both, when, how sure.

    has_other_beside: the same outcome is told against another reference too, so that each says which it is. is_way: it
    is told of a way to go on, and not of an answer whose numbers stand beside those of the ways too.
    """
    against = line(" against ", reference_words(item)) if has_other_beside else None
    title = Span("strong", line(typed(item.outcome.title.text, "definition"), against))
    judged = ledger(question, item.outcome.id, item.factor, item.level)
    alone = item._replace(reaching=())
    found = one_or_several(catalogue, question, alone) if item.sides else line("of this answer alone nothing")
    numbers = numbers_of(catalogue, question, alone)
    findings = [side.finding for side in item.sides]
    own = [(found, numbers if is_way else [of_ways(catalogue, question, findings, each) for each in numbers], False)]
    # What stands first in the answer has the counts of these: in full they are one tap away.
    again = {side.people for side in inside(item)}
    parts = [
        (*part, side.people in again)
        for part, side in zip(_in_part(catalogue, question, item), item.reaching, strict=True)
    ]
    if item.sides and judged is None and _is_clearer(question, item):
        # What looks better must not be what one reads first: the case in hand may lie on the far side of that cut.
        own = [(line("of this answer alone, ", found), *own[0][1:])]
        told = [*parts, *own]
    else:
        told = [*own, *parts]
    blocks: list[Block] = []
    for index, (said, numbers, is_told_above) in enumerate(told):
        blocks.append(Paragraph(line(line(title, ": ") if index == 0 else None, said, ".")))
        told_numbers = tuple(Paragraph(line(number, "."), "quiet") for number in numbers)
        if told_numbers and is_told_above:
            blocks.append(Details("This study in full", told_numbers))
        else:
            blocks.extend(told_numbers)
    blocks.extend(Paragraph(line(said, "."), "quiet") for said in _limits_elsewhere(question, item))
    return (*blocks, Paragraph(line(how_sure(judged)), "quiet"))


def _in_part(catalogue: Catalogue, question: Question, item: Compared) -> list[tuple[Line, list[Line]]]:
    """What lies in part in another answer, as large as what counts here; of several studies none is the example."""
    place = f"{question.id}/{item.factor}"
    are_several = len(item.reaching) > 1
    out: list[tuple[Line, list[Line]]] = []
    for side in item.reaching:
        words = Span("strong", line(typed(level_wording(side.finding), "definition")))
        told = told_alone(catalogue, item, side)
        numbers = [] if are_several else [of_ways(catalogue, question, [side.finding], told)]
        way = which_way(side, place, is_brief=are_several)
        out.append((line(words, ", ", IN_PART, ", in one study: ", way), numbers))
    return out


def _is_clearer(question: Question, item: Compared) -> bool:
    """True where what lies in part here is clear, and nothing of this answer alone is."""
    place = f"{question.id}/{item.factor}"
    over, own = ([clearness(side, place).is_clear for side in sides] for sides in (item.reaching, item.sides))
    return True in over and True not in own


def _limits_elsewhere(question: Question, item: Compared) -> list[Line]:
    """Studies whose line runs through this answer: which way, without the numbers that would make it a third."""
    place = f"{question.id}/{item.factor}"
    return [
        line(
            "A study that drew its line inside this answer, ", typed(level_wording(side.finding), "definition"),
            " against ", typed(reference_wording(side), "definition"), ": ", which_way(side, place, is_brief=True),
        )
        for side in item.elsewhere
    ]  # fmt: skip


def is_reference(catalogue: Catalogue, question: Question, factor: str, level: str) -> bool:
    """True where other levels were compared with this one."""
    sides = sides_of(catalogue, question.id, factor)
    return any(level in side.reference_ids and not is_occurrence(side.finding.outcome) for side in sides)
