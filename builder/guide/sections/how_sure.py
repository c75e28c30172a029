"""How sure: the ledger of people's judgements as they wrote it, with what can be counted beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...reading.model import Certainty, CertaintyStep, Question
from ...results.findings.findings import Catalogue
from ...results.findings.own_authors import own_reports
from ...results.saying.labels import without_digits
from ...results.saying.people import person_name
from ...results.saying.source_reference import source_links
from ...results.values.document import Block, Paragraph, Section, Table
from ...results.values.line import Line, Marked, line, typed

NOT_JUDGED = "not judged yet"


Hints = Mapping[tuple[str, str], Line]
"""What was counted and computed beside a judgement, by ids of outcome and level ("" for a rate)."""


def ledgers_section(
    catalogue: Catalogue, question: Question, factor: str, hints: Hints, beside: Sequence[Block] = ()
) -> Section:
    """Every ledger of a factor ("" for the question as a whole), or that nobody judged it yet.

    beside: further hints, of all of them.
    """
    mine = [item for item in question.certainty if (item.factor.text if item.factor else "") == factor]
    if not mine:
        said = Paragraph(line(f"certainty: {NOT_JUDGED}"), "sure")
        return Section("How sure", "how-sure", (said, *beside), "how-sure")
    blocks: list[Block] = []
    for item in mine:
        blocks.append(_ledger(catalogue, question, item, factor))
        hint = hints.get((item.outcome.text, item.level.text if item.level is not None else ""))
        if hint:
            blocks.append(Paragraph(line("Counted beside it, and deciding nothing: ", hint, "."), "quiet"))
    blocks.extend(beside)
    return Section("How sure", "how-sure", tuple(blocks), "how-sure")


def _ledger(catalogue: Catalogue, question: Question, item: Certainty, factor: str) -> Table:
    outcome = catalogue.evidence.vocabulary.outcomes.get(item.outcome.text)
    title = outcome.title.text if outcome is not None else item.outcome.text
    known = catalogue.evidence.vocabulary.factors.get(factor)
    level = item.level.text if item.level is not None else ""
    titles = {entry.id.text: entry.title.text for entry in known.levels} if known is not None else {}
    name = ", ".join(part for part in (titles.get(level, level), title) if part)
    at = line(", at ", typed(item.at.text, "threshold")) if item.at is not None else None
    rows: list[tuple[Line, ...]] = [(line("start"), line(item.start.text), line("where it starts, as people decided"))]
    rows.extend(_step(catalogue, step, own_reports(catalogue, question, item, step.by.text)) for step in item.steps)
    rows.append((line("final"), line(item.final.text), line("what the wording of the sentence above follows")))
    header = tuple(line(cell) for cell in ("Step", "Down or up", "Reason, and by whom"))
    return Table(
        line(f"Ledger of {_what(catalogue, factor)}: ", typed(name, "definition"), at),
        header,
        tuple(rows),
        without_digits(f"Ledger: {name} {item.at.text if item.at else ''}"),
        "ledger",
    )


def _what(catalogue: Catalogue, factor: str) -> str:
    """Rates, factors and comparisons are judged apart, since they start and fall for different reasons."""
    if not factor:
        return "a rate"
    known = catalogue.evidence.vocabulary.factors.get(factor)
    is_treatment = known is not None and known.role is not None and known.role.text == "treatment"
    return "a comparison of treatments" if is_treatment else "a prognostic factor"


def _step(catalogue: Catalogue, step: CertaintyStep, own: Sequence[str]) -> tuple[Line, ...]:
    """own: reports judged here that whoever took the step wrote."""
    moves: Line = line("none")
    if step.down is not None and step.down.value:
        moves = line("down ", Marked("step", step.down.text))
    elif step.up is not None and step.up.value:
        moves = line("up ", Marked("step", step.up.text))
    elif step.down is not None:
        moves = line("considered, none taken")
    whose = person_name(step.by.text, catalogue)
    wrote = line(", author of ", source_links(catalogue, own, "; ")) if own else None
    return line(typed(step.for_.text)), moves, line(typed(step.reason.text), " (", typed(whose), wrote, ")")
