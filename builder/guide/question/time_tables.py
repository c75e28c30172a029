"""Rates of one outcome on their times: the drawing, the table that says the same, and what stands below the line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ...reading.model import Candidates, Outcome
from ...reading.values import Missing, Words
from ..findings.comparable import Superseded
from ..findings.findings import Catalogue, Finding
from ..numbers.rate_intervals import bounds_line, shown_interval
from ..saying.labels import without_digits
from ..saying.reversals import overall_estimates, replaced_by_estimate
from ..saying.source_reference import source_link
from ..saying.wording import definition, estimate, interval, rate, timing
from ..sections.plots import has_time, time_plot, time_row
from ..values.document import Line, Plot, PlotRow, Table, joined, line, typed


def starts_of(findings: Sequence[Finding]) -> tuple[str, ...]:
    """What the times of these findings count from, each wording once, in order of place."""
    out: dict[str, None] = {}
    for finding in findings:
        found = finding.estimate.start if finding.kind == "estimate" and finding.estimate is not None else None
        if found is None and finding.follow_up is not None:
            found = finding.follow_up.start
        if isinstance(found, Words):
            out[found.text] = None
        elif isinstance(found, Missing) or found is None:
            out["a moment that is not reported"] = None
    return tuple(out)


def drawing(
    catalogue: Catalogue,
    outcome: Outcome,
    counted: Sequence[Finding],
    superseded: Sequence[Superseded],
    anchor: str,
    asked_to: float = 0.0,
) -> Plot | None:
    """Points, spans and survivals by time; None where nothing has a time.

    asked_to: months to which the recall plan goes on.
    """
    drawn: list[PlotRow] = []
    for finding, is_superseded in _ordered(counted, superseded):
        row = time_row(catalogue, finding, is_superseded=is_superseded)
        if row is not None:
            drawn.append(row)
    if not drawn:
        return None
    starts = ", ".join(starts_of([finding for finding in counted if has_time(finding)]))
    most = Counter(finding.counted for finding in counted).most_common(1)[0][0]
    says = line(
        "A notch marks a stated time; a band runs from the first to the last time when "
        f"{most.many} were seen, its tick is the middle one; filled: an estimate at a time. Faded: fewer "
        "than ten, or counted by another report of the same patients. Dotted: nothing is known there."
    )
    latest_stated = max((float(finding.window) for finding in counted if finding.window is not None), default=0.0)
    title = without_digits(f"Over time: {outcome.title.text}")
    axis = without_digits(f"months since {starts}" if starts else "months")
    return time_plot(drawn, anchor, title, says, axis, latest_stated, asked_to)


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


def rates_table(
    catalogue: Catalogue,
    question: str,
    outcome: Outcome,
    counted: Sequence[Finding],
    superseded: Sequence[Superseded],
    *,
    is_timed: bool,
) -> Table | None:
    """One row a rate, each superseded one with what superseded it.

    is_timed: those that stand on the line of time; else those below it, which have no time.
    """
    by = {(item.finding.base, item.finding.kind): item.by for item in superseded}
    estimates = overall_estimates(catalogue, question)
    rows = []
    for finding, is_superseded in _ordered(counted, superseded):
        if has_time(finding) is is_timed:
            other = by.get((finding.base, finding.kind)) if is_superseded else None
            rows.append(_cells(catalogue, question, finding, other, estimates))
    return _as_table(outcome, rows, *(("Over time", "timed") if is_timed else ("Without a time", "untimed")))


def _as_table(outcome: Outcome, rows: list[tuple[Line, ...]], name: str, kind: str) -> Table | None:
    if not rows:
        return None
    header = ("Report", "When", "How many", "Interval", "With those not seen", "Note")
    label = without_digits(f"{name}: {outcome.title.text}")
    return Table(line(f"{name}; ", definition(outcome)), tuple(line(cell) for cell in header), tuple(rows), label, kind)


def _cells(
    catalogue: Catalogue, question: str, finding: Finding, by: Finding | None, estimates: Sequence[Finding]
) -> tuple[Line, ...]:
    place = f"{question}/overall"
    is_estimate = finding.kind == "estimate"
    printed = interval(finding, "estimate/interval") if is_estimate else shown_interval(finding, place)
    return (
        line(source_link(finding.key, catalogue)),
        timing(finding),
        estimate(finding) if is_estimate else rate(finding),
        printed or line("not reported"),
        line("those not seen count until they were lost") if is_estimate else bounds_line(finding, place),
        joined(_notes(catalogue, question, finding, by, estimates)) or line("none"),
    )


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
        out.append(line(f"the report is under {finding.standing}" if finding.standing == "concern" else "corrected"))
    return out


def _competing(finding: Finding) -> list[Line]:
    item = finding.estimate
    if item is None or item.competing is None:
        return []
    if isinstance(item.competing, Missing):
        return [line("competing events not reported")]
    return [line("competing: ", typed(", ".join(word.text for word in item.competing)))] if item.competing else []
