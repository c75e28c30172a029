"""What was measured by level: means and medians side by side, each report's own difference, never pooled."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.values import Words
from ...results.findings.comparable import reason_not_compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.outcomes import in_order
from ...results.numbers.mean_differences import NOT_POOLED, difference_line
from ...results.numbers.pooling import not_pooled_line
from ...results.saying.labels import without_digits
from ...results.saying.source_reference import source_link
from ...results.saying.wording import cut, definition, rate, timing
from ...results.values.document import Block, Paragraph, Section, Table
from ...results.values.line import Line, line, typed
from ..sections.comparison import baseline_differences


def means_section(catalogue: Catalogue, question: Question, factor: str) -> list[Block]:
    """One table an outcome, of people and of reports that count; empty where nothing was measured by level."""
    rows = [
        finding
        for finding in catalogue.of_question(question.id)
        if finding.factor == factor and finding.kind == "measured" and not finding.claim.within
        and not _is_left_out(finding)
    ]  # fmt: skip
    by_outcome: dict[str, list[Finding]] = {}
    for finding in rows:
        by_outcome.setdefault(finding.outcome.id, []).append(finding)
    tables = [
        Section(outcome.title.text, f"means-{outcome.id}", (_table(catalogue, question, factor, found),))
        for outcome in in_order(catalogue, question, set(by_outcome))
        if (found := by_outcome[outcome.id])
    ]
    if not tables:
        return []
    lead = Paragraph(
        line("A difference is that of one report's own groups, crude; ", not_pooled_line((NOT_POOLED,)), ".")
    )
    return [Section("What was measured by level", "means", (lead, *tables), "levels")]


def _is_left_out(finding: Finding) -> bool:
    reason = reason_not_compared(finding)
    return bool(reason) and not reason.startswith("a selected")


def reference_row(finding: Finding, rows: list[Finding]) -> Finding | None:
    """The row of the same claim that the claim names as its reference."""
    reference = finding.claim.reference
    wording = reference.text if isinstance(reference, Words) else ""
    return next(
        (
            row for row in rows
            if (row.key, row.claim.id.text) == (finding.key, finding.claim.id.text)
            and row.level is not None and row.level.level.text == wording
        ),
        None,
    )  # fmt: skip


def _table(catalogue: Catalogue, question: Question, factor: str, rows: list[Finding]) -> Table:
    header = ("Level", "Found", "Beside its reference", "Groups differed in", "When", "Report")
    cells = tuple(
        (
            line(typed(row.level.level.text if row.level is not None else "", "definition")),
            line(rate(row), cut(row)),
            _beside(row, rows, f"{question.id}/{factor}"),
            baseline_differences(row),
            timing(row),
            line(source_link(row.key, catalogue)),
        )
        for row in rows
    )
    return Table(
        line("Measured: ", definition(rows[0].outcome)), tuple(line(cell) for cell in header), cells,
        without_digits(f"Measured by level: {rows[0].outcome.title.text}"), "levels",
    )  # fmt: skip


def _beside(row: Finding, rows: list[Finding], place: str) -> Line:
    reference = reference_row(row, rows)
    return line("reference") if row is reference else difference_line(row, reference, place)
