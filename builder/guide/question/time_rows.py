"""Rates of one outcome, one row each: those with a time by time, those that belong to none, what superseded them."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Candidates, Outcome
from ...reading.values import Missing
from ...results.findings.comparable import Superseded
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.rate_intervals import bounds_line, shown_interval
from ...results.saying.labels import without_digits
from ...results.saying.reversals import overall_estimates, replaced_by_estimate
from ...results.saying.short_words import opened_timing, row_counts, row_timing
from ...results.saying.source_reference import source_link
from ...results.saying.wording import definition, interval, timing
from ...results.values.document import StudyRow, StudyRows
from ...results.values.line import Line, joined, line, typed
from ..sections.stated_times import has_time
from ..sections.study_rows import SHARES, drawn_rate, row_name, standing_marks, told


def _ordered(counted: Sequence[Finding], superseded: Sequence[Superseded]) -> list[tuple[Finding, bool]]:
    # Grades of the very rate that counts would only say it twice.
    others = [item for item in superseded if item.finding.kind != "grade" or item.by.key != item.finding.key]
    rows = [(finding, False) for finding in counted] + [(item.finding, True) for item in others]
    return sorted(rows, key=lambda row: (_time(row[0]), row[1], row[0].base))


def _time(finding: Finding) -> float:
    if finding.window is not None:
        return float(finding.window)
    follow_up = finding.follow_up
    if follow_up is not None:
        for value in (follow_up.median, follow_up.minimum, follow_up.maximum, follow_up.at):
            months = getattr(value, "months", None)
            if months is not None:
                return float(months)
    return float("inf")


def rates_rows(
    catalogue: Catalogue,
    question: str,
    outcome: Outcome,
    counted: Sequence[Finding],
    superseded: Sequence[Superseded],
    *,
    is_timed: bool,
) -> StudyRows | None:
    """One row a rate, by time, each superseded one with what superseded it; None where there is none.

    is_timed: those that have a time; else those that belong to none.
    """
    by = {(item.finding.base, item.finding.kind): item.by for item in superseded}
    estimates = overall_estimates(catalogue, question)
    rows = []
    has_estimate = False
    for finding, is_superseded in _ordered(counted, superseded):
        if has_time(finding) is is_timed:
            has_estimate = has_estimate or finding.kind == "estimate"
            other = by.get((finding.base, finding.kind)) if is_superseded else None
            rows.append(_row(catalogue, question, finding, other, estimates))
    if not rows:
        return None
    name = "Over time" if is_timed else "Without a time"
    caption = (
        line(f"{name}; ", definition(outcome)) if is_timed else line("No time is reported, so these belong to none")
    )
    if has_estimate:
        caption = line(caption, "; in an estimate at a time those not seen count until they were lost")
    return StudyRows(caption, without_digits(f"{name}: {outcome.title.text}"), tuple(rows), SHARES)


def _row(
    catalogue: Catalogue, question: str, finding: Finding, by: Finding | None, estimates: Sequence[Finding]
) -> StudyRow:
    place = f"{question}/overall"
    is_estimate = finding.kind == "estimate"
    notes = _notes(catalogue, question, finding, by, estimates)
    facts: list[tuple[str, Line]] = [
        ("Report", line(source_link(finding.key, catalogue))),
        ("When", opened_timing(finding)),
    ]
    ends = interval(finding, "estimate/interval") if is_estimate else shown_interval(finding, place)
    facts.append(("Interval", ends or line("not reported")))
    if not is_estimate:
        # Of an estimate the caption says what became of those not seen.
        facts.append(("With those not seen", bounds_line(finding, place)))
    if notes:
        facts.append(("Note", joined(notes)))
    marks = [line(word) for word in standing_marks(finding)]
    if by is not None:
        is_same = by.key == finding.key
        who = (
            line("superseded by another claim of it")
            if is_same
            else line("superseded by ", source_link(by.key, catalogue))
        )
        marks.append(who)
    counts, share = row_counts(finding)
    parts = [part for part in (row_timing(finding), counts) if part]
    return StudyRow(
        row_name(catalogue, finding.key), joined(parts, " · "), joined([share, *marks]),
        told(facts), *drawn_rate(finding), "dot",
    )  # fmt: skip


def _notes(
    catalogue: Catalogue, question: str, finding: Finding, by: Finding | None, estimates: Sequence[Finding]
) -> list[Line]:
    out: list[Line] = []
    if by is not None:
        if by.key == finding.key:
            out.append(line("the same patients are counted by another claim of this report"))
        else:
            out.append(line("superseded: the same patients are counted by ", source_link(by.key, catalogue)))
    total = finding.level.total if finding.level is not None else finding.claim.total
    if isinstance(total, Candidates):
        out.append(line("never pooled, since the report prints more than one total: ", typed(total.reason.text)))
    if finding.claim.given is not None:
        out.append(line("of ", typed(finding.claim.given.text)))
    item = finding.estimate
    if finding.kind == "estimate" and item is not None:
        out.extend(_competing(finding))
    replaced = replaced_by_estimate(catalogue, question, finding, estimates)
    if replaced is not None:
        out.append(line("crude share when last seen; the estimate at a time says more: ", timing(replaced)))
    if finding.standing in ("corrected", "concern"):
        out.append(
            line(f"the report is under {finding.standing}" if finding.standing == "concern" else "report corrected")
        )
    return out


def _competing(finding: Finding) -> list[Line]:
    item = finding.estimate
    if item is None or item.competing is None:
        return []
    if isinstance(item.competing, Missing):
        return [line("competing events not reported")]
    return [line("competing: ", typed(", ".join(word.text for word in item.competing)))] if item.competing else []
