"""The situation: the question's own fields, each answer with what is known for it; "can't tell" is always an answer."""

from __future__ import annotations

from ...reading.fdi_chart import (
    CHANGES,
    CHART_FACTORS,
    FIELD,
    NUMBERS,
    QUARTERS,
    chart_factor_levels,
    chart_levels,
    consecutive_number,
)
from ...reading.model import Question
from ...reading.values import Words
from ...results.findings.direction import Compared, compared
from ...results.findings.findings import Catalogue
from ...results.findings.outcomes import is_occurrence
from ...results.findings.side import Side
from ...results.saying.titles import levels_of
from ...results.values.document import Blocks, Choice, ChoiceField, Items, Paragraph, Situation
from ...results.values.line import Line, Link, joined, line, typed
from ..sections.contact import call_for_answer
from ..sections.level_summary import IN_PART, level_summary, not_known
from ..sections.one_study import level_wording, which_way
from ..sections.several_studies import direction_counts
from ..sentences.prose import NamedResult
from .limits_drawn import limits_of_one_study

CANT_TELL = "can't tell"


def situation(catalogue: Catalogue, question: Question, named: NamedResult) -> Situation:
    """Every field of the question file in its order. Factors known only afterwards never stand among them."""
    fields: list[ChoiceField] = []
    for field in question.situation:
        if field.charted is not None:
            fields.append(_chart_field(catalogue, question, named, field.ask.text))
        elif field.factor is not None and not _only_afterwards(catalogue, question.id, field.factor.text):
            asked = _factor_field(catalogue, question, named, field.factor.text, field.ask.text, field.picture)
            fields.append(asked)
    return Situation(tuple(fields))


def factors_asked(catalogue: Catalogue, question: Question) -> tuple[str, ...]:
    """Every factor of which the situation takes an answer, in its order; those of a chart follow from its number."""
    factors: list[str] = []
    for field in question.situation:
        if field.charted is not None:
            factors.extend(factor.id for factor in CHART_FACTORS.values())
        elif field.factor is not None and not _only_afterwards(catalogue, question.id, field.factor.text):
            factors.append(field.factor.text)
    return tuple(dict.fromkeys(factors))


def sides_shown(catalogue: Catalogue, question: Question) -> list[Side]:
    """Every comparison that the page of a question tells: of its situation and of its ways."""
    factors = factors_asked(catalogue, question)
    of_ways = {
        (option.is_factor.text, option.is_level.text)
        for option in question.options
        if option.is_factor is not None and option.is_level is not None
    }
    pairs = of_ways | {(factor, level) for factor in factors for level, _ in levels_of(catalogue, factor)}
    return [
        side
        for factor, level in sorted(pairs)
        for item in _told(catalogue, question.id, factor, level)
        for side in (*item.sides, *item.reaching)
    ]


def _told(catalogue: Catalogue, question: str, factor: str, level: str) -> list[Compared]:
    """What an answer is told by: what becomes of them, and not how often it happens."""
    found = compared(catalogue, question, factor, level)
    return [item for item in found if (item.sides or item.reaching) and not is_occurrence(item.outcome)]


def _only_afterwards(catalogue: Catalogue, question: str, factor: str) -> bool:
    times = {
        finding.claim.known_at.text
        for finding in catalogue.of_question(question)
        if finding.factor == factor and finding.claim.known_at is not None
    }
    return times == {"after"}


def _factor_field(
    catalogue: Catalogue,
    question: Question,
    named: NamedResult,
    factor: str,
    ask: str,
    picture: Words | None = None,
) -> ChoiceField:
    known = catalogue.evidence.vocabulary.factors.get(factor)
    levels = [(level.id.text, level.title.text) for level in known.levels] if known else []
    if not levels:
        levels = [(name, name) for name in chart_factor_levels(factor)]
    choices = [
        Choice(
            name,
            title,
            # What cannot wait for reading stands above what is known.
            (
                *call_for_answer(catalogue, question, named, factor, name),
                *level_summary(catalogue, question, factor, name),
            ),
        )
        for name, title in levels
    ]
    choices.append(Choice("", CANT_TELL, _would_change(catalogue, question, factor, levels)))
    drawn = catalogue.evidence.pictures.get(picture.text) if picture is not None else None
    notes = limits_of_one_study(catalogue, question.id, factor)
    unit = known.unit.text if known is not None and known.unit is not None else ""
    return ChoiceField(factor, ask, tuple(choices), drawn, notes=notes, unit=unit)


def _would_change(catalogue: Catalogue, question: Question, factor: str, levels: list[tuple[str, str]]) -> Blocks:
    """For "can't tell": what each answer would change, one line an answer."""
    rows: list[Line] = []
    for name, title in levels:
        found = _told(catalogue, question.id, factor, name)
        sides = [
            line(typed(item.outcome.title.text, "definition"), _beside(item), ": ", counts)
            for item in found
            if (counts := _sides_of_answer(catalogue, question, item))
        ]
        if sides:
            rows.append(line(typed(title, "definition"), ": ", joined(sides)))
    if not any(finding.factor == factor for finding in catalogue.of_question(question.id)):
        return (Paragraph(line("Treat it as not known. Nothing is known of any answer."), "quiet"),)
    if not rows:
        rows.append(line("nothing to compare with"))
    return (
        Paragraph(line("Treat it as not known. What each answer would change, beside its reference:"), "quiet"),
        Items(tuple(rows), kind="known-lines"),
        Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"),
    )


def _sides_of_answer(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """Which way the studies lie that count for it, then each that lies in part in another answer."""
    place = f"{question.id}/{item.factor}"
    counted = direction_counts(catalogue, question, item._replace(reaching=()), is_brief=True)
    over = [
        line(typed(level_wording(side.finding), "definition"), f", {IN_PART}: ", which_way(side, place, is_brief=True))
        for side in item.reaching
    ]
    return joined([counted, *over] if counted else over)


def _beside(item: Compared) -> Line:
    """What it was compared with, as the papers word it."""
    rows = (side.reference for side in (*item.sides, *item.reaching))
    wordings = sorted({row.level.level.text for row in rows if row is not None and row.level is not None})
    return line(" beside ", typed(" or ".join(wordings), "definition")) if wordings else ()


def _chart_field(catalogue: Catalogue, question: Question, named: NamedResult, ask: str) -> ChoiceField:
    """The numbers of the chart, and the factors that follow from each: those are what studies report."""
    numbers = [
        Choice(number, f"{number} ({consecutive_number(number)})", (), tuple(chart_levels(number).items()))
        for number in NUMBERS
    ]
    told = [
        level
        for factor in CHART_FACTORS.values()
        for level in factor.levels
        if _told(catalogue, question.id, factor.id, level)
    ]
    says = line(CHANGES, ", ".join(told)) if told else not_known(question)
    numbers.append(Choice("", CANT_TELL, (Paragraph(says, "quiet"),)))
    asked = {field.factor.text for field in question.situation if field.factor is not None}
    follows = tuple(
        _factor_field(catalogue, question, named, factor.id, factor.asked)
        for factor in CHART_FACTORS.values()
        if factor.id not in asked
    )
    return ChoiceField(FIELD, ask, tuple(numbers), follows=follows, quarters=QUARTERS)
