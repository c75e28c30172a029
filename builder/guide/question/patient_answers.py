"""Beside a number of the sheet what is known of each answer, one at a time; it stands once that answer was given."""

from __future__ import annotations

from fractions import Fraction

from ...reading.folded import folded
from ...reading.model import Question
from ...reading.slugs import slug
from ...results.findings.comparable import count_patients_once, people_of
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.last_visits import last_visit, last_visits_of_many
from ...results.findings.treatment import treated
from ...results.findings.ways_counted import levels_treated
from ...results.numbers.shown_numbers import count
from ...results.saying.speech import when
from ...results.saying.titles import factor_title, levels_of
from ...results.saying.wording import cut
from ...results.values.document import Paragraph
from ...results.values.line import Line, Span, line, typed
from ..sections.level_rates import level_findings
from ..sections.one_study import answers_covered, level_wording
from ..sections.ranges import from_low
from ..sections.reference_rates import with_others
from ..sections.several_studies import opened_workings
from .patient_numbers import format_of, patient_numbers, refusal
from .patient_sentence import few, sentence
from .patient_sure import sure_of
from .situation import factors_asked

IF_ANSWERED = "if-answered"
"""The kind of a paragraph that stands only once its answer was given."""

# House rule: of one answer so many groups of studies, those of the sheet's own time first.
_GROUPS_TOLD = 4


def answers_beside(catalogue: Catalogue, question: Question, findings: list[Finding]) -> list[Paragraph]:
    """For each answer that the situation asks for, what is known of the same ending; nothing for what nobody counted.

    findings: those of one number of the sheet. What was counted after other treatments alone is not told beside it.
    """
    first = findings[0]
    return [
        Paragraph(said, IF_ANSWERED, f"{factor}={level}")
        for factor in factors_asked(catalogue, question)
        if factor != first.factor
        for level, title in levels_of(catalogue, factor)
        for group in _groups(catalogue, question, findings, factor, level)
        for said in (_told(catalogue, question, findings, factor, (level, title), group),)
    ]


def levels_meant(catalogue: Catalogue, finding: Finding) -> str:
    """The answers that a level of a number is, with blanks between: "size=small size=middle"; "" without a level."""
    if finding.level is None:
        return ""
    meant = answers_covered(catalogue, finding) or finding.level_ids
    return " ".join(f"{finding.factor}={level}" for level in meant)


def _groups(
    catalogue: Catalogue, question: Question, findings: list[Finding], factor: str, level: str
) -> list[list[Finding]]:
    """Rows of one wording and time, each patient once; those of the number's own time and of this level alone first."""
    first = findings[0]
    rows = [
        row
        for row in level_findings(catalogue, question.id, factor)
        if row.outcome.id == first.outcome.id and level in answers_covered(catalogue, row) and not refusal(row)
        and _is_treated_alike(catalogue, question, findings, row)
    ]  # fmt: skip
    counted, _ = count_patients_once(rows)
    worded = [((folded(level_wording(row)),), row) for row in counted]
    many = last_visits_of_many(worded)
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for wording, row in worded:
        alone = row.base if row.window is None or row.kind == "estimate" else ""
        together = (*wording, *last_visit(row))
        groups.setdefault(together if together in many else (*wording, row.window, row.unit, alone), []).append(row)

    def place(group: list[Finding]) -> tuple[object, ...]:
        is_over = len(answers_covered(catalogue, group[0])) > 1
        return group[0].window != first.window, is_over, -len(group), group[0].base

    return sorted(groups.values(), key=place)[:_GROUPS_TOLD]


def _is_treated_alike(catalogue: Catalogue, question: Question, findings: list[Finding], row: Finding) -> bool:
    """False where a study says that it treated its people, and by none of the ways that the number is of."""
    for factor in {option.is_factor.text for option in question.options if option.is_factor is not None}:
        own = frozenset().union(*(levels_treated(catalogue, factor, finding) for finding in findings))
        other = levels_treated(catalogue, factor, row)
        if own and other and own.isdisjoint(other):
            return False
    return True


def _told(
    catalogue: Catalogue,
    question: Question,
    findings: list[Finding],
    factor: str,
    answer: tuple[str, str],
    group: list[Finding],
) -> Line:
    level, title = answer
    first = group[0]
    wording = level_wording(first)
    head = line(
        "Your answer, ", typed(factor_title(catalogue, factor), "definition"), ": ", typed(title, "definition"), ".",
    )  # fmt: skip
    over = with_others(catalogue, level, first)
    as_worded = None
    if over or folded(wording) != folded(title):
        as_worded = line(" ", typed(wording, "definition"), over, ":")
    is_at_one = len(group) == 1 or first.window is not None
    cuts = dict.fromkeys(part for row in group for part in cut(row))
    end = line(
        " When: ", when(first) if is_at_one else "when last seen, each study at a time of its own", tuple(cuts), ". ",
        _whose(findings, group), ". How sure: ", sure_of(question, first), ".",
    )  # fmt: skip
    lead = line(Span("strong", head), as_worded)
    if len(group) == 1:
        item = patient_numbers(catalogue, question.id, first, format_of([first]))
        return line(lead, " ", sentence(item), few(item), end)
    ordered = sorted(group, key=lambda row: (Fraction(row.events or 0, row.total or 1), row.base))
    inputs = tuple(found for row in group for name in ("events", "total") if (found := row.figure(name)) is not None)
    studies = count(
        catalogue.book,
        f"{question.id}/{factor}/beside-{level}-{first.outcome.id}-{slug(wording)}-at-{slug(str(first.window))}",
        len(group), "study", opened_workings(catalogue, question, factor, inputs), inputs=inputs,
        says=f"{wording}, {first.outcome.title.text}: studies",
    )  # fmt: skip
    said = line(
        typed(first.outcome.title.text, "definition"), " in ", from_low(ordered[0], ordered[-1], len(ordered)),
        ", ", studies, " studies.",
    )  # fmt: skip
    return line(lead, " ", said, end)


def _whose(findings: list[Finding], group: list[Finding]) -> Line:
    """Whether these are the people of the number above, and how they were treated."""
    own = frozenset().union(*(people_of(finding) for finding in findings))
    is_same = [not own.isdisjoint(people_of(row)) for row in group]
    if len(group) == 1 and is_same[0]:
        return line("The same study, all who were in it")
    ways = dict.fromkeys(treated(row) for row in group)
    how = line(", treated by ", typed(next(iter(ways)))) if len(ways) == 1 and all(ways) else None
    return line("The study above is one of them" if any(is_same) else "Other patients", how)
